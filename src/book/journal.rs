//! The bench of one shell, saved step by step, so that the next shell can continue.
//!
//! Each shell holds a file of its own while it runs; a file that nobody holds is the bench of a shell that quit or was cut
//! off. Every step is on disk before the next line is read.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OptionalExtension, params};

use super::revision::Mark;

/// The folder of benches, in the data folder.
const FOLDER: &str = "benches";
/// The most open shells whose benches are saved.
const MOST: usize = 64;

/// A step at a bench: a line, and the design after it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The number of the step, higher than that of every step before.
    pub number: u64,
    /// The line of the step; empty for the design at the start.
    pub line: String,
    /// The fields that were set, as [`super::text::fields`] writes them.
    pub fields: String,
    /// The style that framed the design, if one did.
    pub style: Option<Mark>,
}

/// The bench of an earlier shell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Left {
    /// Every step, oldest first.
    pub steps: Vec<Step>,
    /// The place of the current step; the steps after it were undone.
    pub at: usize,
    /// When the bench was last saved, in local time: `2026-03-02 12:01`.
    pub when: String,
}

/// The saved bench of a shell.
#[derive(Debug)]
pub struct Journal {
    connection: Connection,
    file: PathBuf,
    /// The numbers of the saved steps, in order.
    written: Vec<u64>,
    /// The number of the current step, as written.
    at: Option<u64>,
}

impl Journal {
    /// Takes the first bench in `folder` that no other shell holds, with its steps.
    ///
    /// # Errors
    /// No bench can be opened; the reason.
    pub fn take(folder: &Path) -> Result<(Self, Left), String> {
        let folder = folder.join(FOLDER);
        std::fs::create_dir_all(&folder).map_err(|error| format!("{}: {error}", folder.display()))?;
        for number in 1..=MOST {
            let file = folder.join(format!("{number}.db"));
            match open(&file).and_then(|connection| Ok((left(&connection)?, connection))) {
                Ok((left, connection)) => {
                    let written: Vec<u64> = left.steps.iter().map(|step| step.number).collect();
                    let at = written.get(left.at).copied();
                    return Ok((Self { connection, file, written, at }, left));
                }
                // Another shell holds it.
                Err(error) if is_held(&error) => {}
                Err(error) => return Err(format!("{}: {error}", file.display())),
            }
        }
        Err(format!("{MOST} other shells are open, and {} holds no more benches", folder.display()))
    }

    /// Writes what is new: all steps by number, `step` for those not written yet, the current step, and the seconds
    /// since 1970. On disk when this returns.
    ///
    /// # Errors
    /// The step cannot be written; the reason. What was saved before stays.
    pub fn follow(
        &mut self,
        numbers: &[u64],
        at: u64,
        step: &dyn Fn(u64) -> Option<Step>,
        now: i64,
    ) -> Result<(), String> {
        if self.written == numbers && self.at == Some(at) {
            return Ok(());
        }
        let (gone, new): (Vec<u64>, Vec<u64>) = (missing(&self.written, numbers), missing(numbers, &self.written));
        let written = self.connection.transaction().and_then(|change| {
            for number in gone {
                change.execute("DELETE FROM step WHERE number = ?1", [kept(number)])?;
            }
            for step in new.into_iter().filter_map(step) {
                let (style, version) = step.style.map(|mark| (mark.name, mark.version)).unzip();
                change.execute(
                    "INSERT INTO step (number, line, fields, style, style_version) VALUES (?1, ?2, ?3, ?4, ?5)",
                    params![kept(step.number), step.line, step.fields, style, version],
                )?;
            }
            change.execute("INSERT OR REPLACE INTO stand (one, at, time) VALUES (1, ?1, ?2)", [kept(at), now])?;
            change.commit()
        });
        written.map_err(|error| format!("{}: {error}", self.file.display()))?;
        self.written = numbers.to_vec();
        self.at = Some(at);
        Ok(())
    }
}

/// The numbers of one list that the other does not have, both in order.
fn missing(of: &[u64], from: &[u64]) -> Vec<u64> {
    of.iter().copied().filter(|number| from.binary_search(number).is_err()).collect()
}

/// A number as the database holds it.
fn kept(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

fn open(file: &Path) -> rusqlite::Result<Connection> {
    let connection = Connection::open(file)?;
    // A shell that holds the file holds it until it ends.
    connection.busy_timeout(std::time::Duration::ZERO)?;
    connection.pragma_update(None, "locking_mode", "exclusive")?;
    connection.pragma_update(None, "journal_mode", "wal")?;
    connection.pragma_update(None, "synchronous", "full")?;
    connection.execute_batch(
        "BEGIN EXCLUSIVE;
         CREATE TABLE IF NOT EXISTS step (
           number INTEGER PRIMARY KEY, line TEXT NOT NULL, fields TEXT NOT NULL, style TEXT, style_version TEXT
         ) STRICT;
         CREATE TABLE IF NOT EXISTS stand (
           one INTEGER PRIMARY KEY CHECK (one = 1), at INTEGER NOT NULL, time INTEGER NOT NULL
         ) STRICT;
         COMMIT;",
    )?;
    Ok(connection)
}

fn is_held(error: &rusqlite::Error) -> bool {
    use rusqlite::ErrorCode;
    matches!(error.sqlite_error_code(), Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked))
}

fn left(connection: &Connection) -> rusqlite::Result<Left> {
    let mut statement =
        connection.prepare("SELECT number, line, fields, style, style_version FROM step ORDER BY number")?;
    let steps = statement.query_map([], |row| {
        let style: Option<String> = row.get(3)?;
        let version: Option<String> = row.get(4)?;
        Ok(Step {
            number: row.get::<_, i64>(0)?.unsigned_abs(),
            line: row.get(1)?,
            fields: row.get(2)?,
            style: style.map(|name| Mark { name, version: version.unwrap_or_default() }),
        })
    })?;
    let steps = steps.collect::<rusqlite::Result<Vec<Step>>>()?;
    let stand = "SELECT at, strftime('%Y-%m-%d %H:%M', time, 'unixepoch', 'localtime') FROM stand";
    let stand = connection.query_row(stand, [], |row| Ok((row.get::<_, i64>(0)?, row.get(1)?))).optional()?;
    let (at, when) = stand.unwrap_or_default();
    let at = steps.iter().position(|step| step.number == at.unsigned_abs()).unwrap_or(steps.len().saturating_sub(1));
    Ok(Left { steps, at, when })
}
