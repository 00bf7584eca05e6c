//! Where a run puts its works: a folder with a sheet and an object for each row, tables of the run and a journal to
//! resume it by; and the design book.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

use crate::batch::{Journal, Made};
use crate::book::Draft;
use crate::diag::{Diagnostic, Says, codes, says};
use crate::host::{Host, Trouble};
use crate::session::Framer;
use crate::shop::Settings;

/// The file of the journal.
const JOURNAL: &str = "run.jsonl";
/// The folder of the files of rows.
const WORKS: &str = "works";
/// The most letters of a name in the names of its files.
const LONGEST: usize = 40;

/// A folder that a run writes to.
pub(super) struct Folder<'a> {
    host: &'a dyn Host,
    path: PathBuf,
    journal: Box<dyn Write>,
    rows: BTreeSet<u64>,
    again: bool,
}

impl<'a> Folder<'a> {
    /// Begins a run in a new or empty folder, or continues the run in a folder with `resume`; with the rows that are done.
    ///
    /// # Errors
    /// The path is not a folder, or the folder is not empty or cannot be written to.
    pub(super) fn open(
        host: &'a dyn Host,
        path: &Path,
        resume: bool,
        settings: &Settings,
    ) -> Result<(Self, Journal), Diagnostic> {
        let shown = path.display();
        match host.reading(path).map_err(|fault| fault.trouble) {
            Ok(_) => {
                return Err(Diagnostic::of(&codes::batch::FOLDER, format!("{shown} is a file; a run needs a folder")));
            }
            Err(Trouble::Folder | Trouble::Missing) => {}
            Err(_) => return Err(Diagnostic::of(&codes::batch::FOLDER, format!("{shown} cannot be used as a folder"))),
        }
        let held = host.list(path);
        let file = path.join(JOURNAL);
        let again = held.iter().any(|name| name == JOURNAL);
        let done = match (again, resume) {
            (true, true) => {
                let works = path.join(WORKS);
                if host.leads_out(path, &works) {
                    let message =
                        format!("{} is a link that leads out of the folder; nothing was written", works.display());
                    return Err(Diagnostic::of(&codes::batch::FOLDER, message).hint(format!("--out {shown}-2")));
                }
                // Only rows with both files are done: a work whose sheet or object is gone is framed again.
                let lies = |file: &str| {
                    ["txt", "json"].iter().all(|ending| host.size(&works.join(format!("{file}.{ending}"))).is_some())
                };
                journal(host, path, settings)?.of_files(lies)
            }
            (true, false) => {
                let message = format!("the folder {shown} holds an earlier run; not overwritten");
                return Err(Diagnostic::of(&codes::batch::FOLDER, message).hint(format!("--out {shown} --resume")));
            }
            (false, _) if !held.is_empty() => {
                let message = format!("the folder {shown} is not empty; a run needs a new or an empty folder");
                return Err(Diagnostic::of(&codes::batch::FOLDER, message).hint(format!("--out {shown}/run")));
            }
            (false, _) => Journal::default(),
        };
        // This drops a last line that was cut off.
        host.write(&file, &done.text(settings))?;
        let journal = host.adding(&file)?;
        Ok((Self { host, path: path.into(), journal, rows: BTreeSet::new(), again }, done))
    }

    /// Writes the files of a row.
    ///
    /// # Errors
    /// A file cannot be written.
    pub(super) fn row(&mut self, made: &Made, kept: bool) -> Result<(), Diagnostic> {
        let file = stem(made.number, &made.name);
        let path = |ending: &str| self.path.join(WORKS).join(format!("{file}.{ending}"));
        self.host.write(&path("txt"), &made.sheet)?;
        self.host.write(&path("json"), &String::from_utf8_lossy(&made.json))?;
        let line = Journal::line(&made.done(&file, kept));
        let written = self.journal.write_all(line.as_bytes());
        written.map_err(|error| {
            let file = self.path.join(JOURNAL);
            Diagnostic::of(&codes::batch::FOLDER, format!("{} cannot be used: {error}", file.display()))
        })?;
        self.done(made);
        Ok(())
    }

    /// Counts a row that is done.
    pub(super) fn done(&mut self, made: &Made) {
        self.rows.insert(made.number);
    }

    /// Writes a table of the whole run.
    ///
    /// # Errors
    /// A file cannot be written.
    pub(super) fn table(&self, name: &str, text: &str) -> Result<(), Diagnostic> {
        Ok(self.host.write(&self.path.join(name), text)?)
    }

    /// Ends the run: the journal becomes that of a run without a break. Gives the files of earlier runs that belong to no row.
    ///
    /// # Errors
    /// The journal cannot be written.
    pub(super) fn end(self, settings: &Settings) -> Result<Vec<String>, Diagnostic> {
        if !self.again {
            return Ok(Vec::new());
        }
        let file = self.path.join(JOURNAL);
        let mut journal = journal(self.host, &self.path, settings)?;
        let left = journal.retain(&self.rows);
        self.host.write(&file, &journal.text(settings))?;
        Ok(left.into_iter().map(|file| format!("{WORKS}/{file}")).collect())
    }
}

/// Saves the works of a run in the design book.
pub(super) struct Keeper<'a> {
    framer: &'a Framer,
    names: BTreeSet<String>,
}

impl<'a> Keeper<'a> {
    /// Without any works yet.
    pub(super) fn new(framer: &'a Framer) -> Self {
        Self { framer, names: BTreeSet::new() }
    }

    /// Saves a design under its name, with `-` for spaces, which names in the book cannot have.
    ///
    /// # Errors
    /// The book does not take the name, or another row of this run has it.
    pub(super) fn keep(&mut self, draft: &Draft, called: &str) -> Result<(), Diagnostic> {
        let name = called.split_whitespace().collect::<Vec<_>>().join("-");
        let not =
            |why: Says| Diagnostic::of(&codes::batch::ROW, why.within(says!("{} is not saved in the book", called)));
        if !self.names.insert(name.clone()) {
            return Err(not(says!("another row of this run has the name {}", name)));
        }
        self.framer.keep(draft, &name).map_err(|found| not(found.says))
    }
}

/// The journal of the run in a folder.
fn journal(host: &dyn Host, path: &Path, settings: &Settings) -> Result<Journal, Diagnostic> {
    let anew = format!("--out {}-2", path.display());
    let file = path.join(JOURNAL);
    let read = Journal::read(host.reading(&file)?, settings).map_err(|error| {
        let message = format!("{} cannot be read: {error}", file.display());
        Diagnostic::of(&codes::batch::FOLDER, message).hint(&anew)
    })?;
    read.ok_or_else(|| {
        let message = format!("the run in {} was made with other settings or by another version", path.display());
        Diagnostic::of(&codes::batch::FOLDER, message).hint(&anew)
    })
}

/// The name of the files of a row: its number, which sorts them and keeps them apart on a disk that ignores case, and as
/// much of the row's name as any disk takes.
fn stem(number: u64, name: &str) -> String {
    let safe = |letter: char| if letter.is_alphanumeric() || letter == '_' { letter } else { '-' };
    let name: String = name.chars().map(safe).take(LONGEST).collect();
    format!("{number:04}-{}", name.trim_matches('-'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_files_are_safe() {
        assert_eq!(stem(7, "Grey heron"), "0007-Grey-heron");
        assert_eq!(stem(7, "../../etc/passwd"), "0007-etc-passwd");
        assert_eq!(stem(7, "con."), "0007-con");
        assert_eq!(stem(12_345, "a:b\\c*?\"<>|\n"), "12345-a-b-c");
        assert_eq!(stem(1, "ø".repeat(200).as_str()).chars().count(), 45);
    }
}
