//! Opens, creates and upgrades the database of the book.

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, ErrorCode, OpenFlags, Transaction, TransactionBehavior};

use super::fault::{BookFault, Trouble};

/// Marks the file as a design book: `brbk`.
const APPLICATION: i64 = 0x6272_626b;

/// How long to wait for another writer: longer than any write takes, and short enough for a person at the prompt.
const PATIENCE: Duration = Duration::from_secs(5);

/// The scripts from each format to the next; the first creates the database.
const FORMATS: &[&str] = &[include_str!("schema.sql")];

/// A book in memory.
pub const IN_MEMORY: &str = ":memory:";

/// An open database.
pub struct Opened {
    /// The connection.
    pub connection: Connection,
    /// Whether the book was started in an empty file.
    pub was_empty: bool,
}

/// Opens the database at `file`, and creates or upgrades it if needed; a read-only file is opened for reading.
///
/// # Errors
/// The file cannot be opened or created, is not a design book, or was written by a newer program.
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

/// A book in a folder where the database cannot create its own files: read while others write to it, or, if nobody does and
/// all of it is in the one file, as it is.
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

/// The state of the file of a book.
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

/// Whether the book was started in an empty file.
fn prepare(connection: &mut Connection) -> Result<bool, Found> {
    connection.busy_timeout(PATIENCE)?;
    let mut begun = false;
    if format(connection)? < newest() {
        share(connection)?;
        begun = bring_up(connection)? == 0;
    }
    // Once `keep` answers, the revision is on disk, whatever happens to the machine.
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "cell_size_check", true)?;
    Ok(begun)
}

/// Lets readers and a writer work without waiting for each other. The database refuses this while others use the file, so a
/// step that waits for them comes first, and then another try.
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
    // The tables come first: another program that creates the book writes tables and numbers at once, so that the numbers
    // read after the tables belong to them.
    let tables: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    let (application, format) = (number("application_id")?, number("user_version")?);
    match application {
        APPLICATION if format > newest() => Err(Found::Newer(format)),
        APPLICATION => Ok(format),
        0 if tables == 0 => Ok(0),
        _ => Err(Found::Foreign),
    }
}

/// Upgrades the database to our format, completely or not at all, even if another program does the same. Gives the format
/// before.
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
