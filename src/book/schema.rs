//! The database of the book: how it is opened, made and brought up to date.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, ErrorCode, OpenFlags, Transaction, TransactionBehavior};

use super::fault::{BookFault, Trouble};

/// Says in the file itself whose it is: `brbk`.
const APPLICATION: i64 = 0x6272_626b;

/// How long to wait for others who write: longer than any of them takes, and not so long that nobody waits for the answer.
const PATIENCE: Duration = Duration::from_secs(5);

/// What brings a database from each format to the next; the first makes it.
const FORMATS: &[&str] = &[include_str!("schema.sql")];

/// A place for a book that nobody keeps.
pub const IN_MEMORY: &str = ":memory:";

/// A database that is open.
pub struct Opened {
    /// The way to it.
    pub connection: Connection,
    /// Whether there was an empty file in its place, in which a book was begun.
    pub was_empty: bool,
}

/// Opens the database at `file`, made and brought up to date if need be; what may only be read is opened for that.
///
/// # Errors
/// It cannot be opened or made; it is something else; a newer program wrote it.
pub fn open(file: &Path) -> Result<Opened, BookFault> {
    let fault = |trouble: Trouble| BookFault::Database { file: file.into(), trouble };
    if file != Path::new(IN_MEMORY) {
        make_folder(file).map_err(|error| fault(Trouble::Closed(error.to_string())))?;
    }
    let empty = file.metadata().is_ok_and(|file| file.len() == 0);
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    match opened(file, flags) {
        Ok((connection, begun)) => Ok(Opened { connection, was_empty: empty && begun }),
        Err(trouble) => {
            let still = matches!(trouble, Trouble::ReadOnly | Trouble::Closed(_)).then(|| to_read(file)).flatten();
            let connection = still.ok_or_else(|| fault(trouble))?;
            Ok(Opened { connection, was_empty: false })
        }
    }
}

fn opened(file: &Path, flags: OpenFlags) -> Result<(Connection, bool), Trouble> {
    let mut connection = Connection::open_with_flags(file, flags).map_err(|error| Trouble::of(&error))?;
    let begun = prepare(&mut connection).map_err(|found| match found {
        Found::Error(error) => Trouble::of(&error),
        Found::Foreign => Trouble::Foreign,
        Found::Newer(format) => Trouble::Newer(format, newest()),
    })?;
    Ok((connection, begun))
}

/// A book in a folder that takes no files of the database's own: read beside whoever writes to it, or, where nobody does and
/// all of it is in its one file, as that stands.
fn to_read(file: &Path) -> Option<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    if let Ok((connection, _)) = opened(file, flags) {
        return Some(connection);
    }
    let mut log = file.as_os_str().to_owned();
    log.push("-wal");
    let whole = Path::new(&log).metadata().map_or(true, |log| log.len() == 0);
    let still = PathBuf::from(format!("file:{}?immutable=1", escaped(file.to_str()?)));
    let connection = whole.then(|| opened(&still, flags | OpenFlags::SQLITE_OPEN_URI).ok()).flatten();
    connection.map(|(connection, _)| connection)
}

/// A path as part of an address.
fn escaped(path: &str) -> String {
    path.replace('%', "%25").replace('?', "%3f").replace('#', "%23")
}

fn make_folder(file: &Path) -> std::io::Result<()> {
    if file.is_dir() {
        return Err(std::io::Error::from(std::io::ErrorKind::IsADirectory));
    }
    file.parent().map_or(Ok(()), std::fs::create_dir_all)
}

/// What was found where a book should be.
enum Found {
    Error(rusqlite::Error),
    Foreign,
    Newer(i64),
}

impl From<rusqlite::Error> for Found {
    fn from(error: rusqlite::Error) -> Self {
        Self::Error(error)
    }
}

fn newest() -> i64 {
    i64::try_from(FORMATS.len()).unwrap_or(i64::MAX)
}

/// Whether a book was begun, where none was.
fn prepare(connection: &mut Connection) -> Result<bool, Found> {
    connection.busy_timeout(PATIENCE)?;
    let mut begun = false;
    if format(connection)? < newest() {
        share(connection)?;
        begun = bring_up(connection)? == 0;
    }
    // What is answered as kept is on disk, whatever happens to the machine.
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "cell_size_check", true)?;
    Ok(begun)
}

/// Lets readers and a writer not wait for one another. The database refuses this at once while others are at the file, so they
/// are waited for in a step that does wait, and it is tried again.
fn share(connection: &Connection) -> rusqlite::Result<()> {
    const TRIES: usize = 100;
    let set = || connection.pragma_update(None, "journal_mode", "wal");
    for _ in 1..TRIES {
        match set() {
            Err(error) if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy) => {
                connection.execute_batch("BEGIN EXCLUSIVE; COMMIT")?;
            }
            done => return done,
        }
    }
    set()
}

/// The format of the database, 0 for an empty one.
fn format(connection: &Connection) -> Result<i64, Found> {
    let number = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get::<_, i64>(0));
    // The tables first: whoever makes a book meanwhile makes them and its numbers at once, so that numbers read behind them
    // are theirs.
    let tables: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    let (application, format) = (number("application_id")?, number("user_version")?);
    match application {
        APPLICATION if format > newest() => Err(Found::Newer(format)),
        APPLICATION => Ok(format),
        0 if tables == 0 => Ok(0),
        _ => Err(Found::Foreign),
    }
}

/// Takes the steps from the format of the database to ours, all or none; another program may be at it at the same time.
/// The format that it was of.
fn bring_up(connection: &mut Connection) -> Result<usize, Found> {
    let change = Transaction::new(connection, TransactionBehavior::Immediate)?;
    let from = usize::try_from(format(&change)?).unwrap_or(usize::MAX);
    for step in FORMATS.iter().skip(from) {
        change.execute_batch(step)?;
    }
    change.pragma_update(None, "application_id", APPLICATION)?;
    change.pragma_update(None, "user_version", newest())?;
    change.commit()?;
    Ok(from)
}
