//! The database of the book: how it is opened, made and brought up to date.

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use super::fault::{BookFault, Trouble};

/// Says in the file itself whose it is: `brbk`.
const APPLICATION: i64 = 0x6272_626b;

/// How long to wait for others who write.
const PATIENCE: Duration = Duration::from_secs(30);

/// What brings a database from each format to the next; the first makes it.
const FORMATS: &[&str] = &[include_str!("schema.sql")];

/// A place for a book that nobody keeps.
pub const IN_MEMORY: &str = ":memory:";

/// Opens the database at `file`, made and brought up to date if need be.
///
/// # Errors
/// It cannot be opened or made; it is something else; a newer program wrote it.
pub fn open(file: &Path) -> Result<Connection, BookFault> {
    let fault = |trouble: Trouble| BookFault::Database { file: file.into(), trouble };
    if file != Path::new(IN_MEMORY) {
        make_folder(file).map_err(|error| fault(Trouble::Closed(error.to_string())))?;
    }
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let mut connection = Connection::open_with_flags(file, flags).map_err(|error| fault(Trouble::of(&error)))?;
    prepare(&mut connection).map_err(|found| {
        fault(match found {
            Found::Error(error) => Trouble::of(&error),
            Found::Foreign => Trouble::Foreign,
            Found::Newer(format) => Trouble::Newer(format, newest()),
        })
    })?;
    Ok(connection)
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

fn prepare(connection: &mut Connection) -> Result<(), Found> {
    connection.busy_timeout(PATIENCE)?;
    let format = format(connection)?;
    if format < newest() {
        // Readers and a writer do not wait for one another.
        connection.pragma_update(None, "journal_mode", "wal")?;
        bring_up(connection)?;
    }
    // What is answered as kept is on disk, whatever happens to the machine.
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "cell_size_check", true)?;
    Ok(())
}

/// The format of the database, 0 for an empty one.
fn format(connection: &Connection) -> Result<i64, Found> {
    let number = |pragma: &str| connection.pragma_query_value(None, pragma, |row| row.get::<_, i64>(0));
    let (application, format) = (number("application_id")?, number("user_version")?);
    let tables: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    match application {
        APPLICATION if format > newest() => Err(Found::Newer(format)),
        APPLICATION => Ok(format),
        0 if tables == 0 => Ok(0),
        _ => Err(Found::Foreign),
    }
}

/// Takes the steps from the format of the database to ours, all or none; another program may be at it at the same time.
fn bring_up(connection: &mut Connection) -> Result<(), Found> {
    let change = Transaction::new(connection, TransactionBehavior::Immediate)?;
    let from = usize::try_from(format(&change)?).unwrap_or(usize::MAX);
    for step in FORMATS.iter().skip(from) {
        change.execute_batch(step)?;
    }
    change.pragma_update(None, "application_id", APPLICATION)?;
    change.pragma_update(None, "user_version", newest())?;
    Ok(change.commit()?)
}
