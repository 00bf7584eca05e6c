//! Export and import of the book: a file with one JSON object on each line.
//!
//! The first line names the format; then comes a line for each revision, by name and number, and after the revisions of a
//! retired design a line that retires it. The same book always gives the same file.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, BufRead, Read};
use std::path::Path;

use rusqlite::params;
use serde_json::{Map, Value as Json, json};

use super::fault::{BookFault, Stop};
use super::incoming::{Incoming, Line};
use super::revision::Revision;
use super::rows::{New, REVISION, append, head, make_design, revision};
use super::store::DesignBook;
use super::text;
use crate::diag::{Says, count, list, says};
use crate::host::{Host, Trouble as FileTrouble};
use crate::rules::Rules;

/// Name and version of the format in the first line of an export.
pub const FORMAT: (&str, i64) = ("benchrule design book", 1);

/// The byte-order mark that some editors put before the first line.
const BYTE_ORDER_MARK: &str = "\u{feff}";

/// The first line of a file without a byte-order mark.
fn unmarked(line: &str) -> &str {
    line.strip_prefix(BYTE_ORDER_MARK).unwrap_or(line)
}

/// The first line of an export.
pub fn head_line() -> String {
    json!({ "file": FORMAT.0, "format": FORMAT.1 }).to_string()
}

/// The result of an import.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Imported {
    /// The number of new designs.
    pub designs: usize,
    /// The number of revisions added.
    pub revisions: usize,
    /// What was left out or renumbered, and why, by design.
    pub remarks: Vec<String>,
}

impl DesignBook {
    /// Writes the whole book to `file`, which may replace an older export and no other file. Gives the number of designs and
    /// revisions.
    ///
    /// # Errors
    /// The file exists and is not an export, or cannot be written, or the database fails.
    pub fn export(&self, host: &dyn Host, file: &Path) -> Result<(usize, usize), BookFault> {
        only_over_an_export(host, file)?;
        let mut counts = (0, 0);
        let mut failed = None;
        // One reading of the book, while others may write to it.
        let still = self.connection.unchecked_transaction().map_err(|error| Stop::from(error).at(&self.file))?;
        let written = host.writing(file, &mut |out| {
            counts = (0, 0);
            writeln!(out, "{}", head_line())?;
            let all = each_revision(&still, self.zone, &mut |one, last| {
                counts.1 += 1;
                writeln!(out, "{}", of_revision(one))?;
                if last {
                    counts.0 += 1;
                    if one.retired {
                        writeln!(out, "{}", json!({ "retired": one.name }))?;
                    }
                }
                Ok(())
            });
            match all {
                Ok(written) => written,
                Err(error) => {
                    failed = Some(error);
                    Err(io::Error::other("the book cannot be read"))
                }
            }
        });
        match failed {
            Some(error) => Err(Stop::from(error).at(&self.file)),
            None => Ok(written.map(|()| counts)?),
        }
    }

    /// Imports an export: revisions that the book does not have, after those that it has. Nothing is replaced, and a
    /// damaged file changes nothing.
    ///
    /// # Errors
    /// The file cannot be read or is damaged, with the line, or the database fails.
    pub fn import(&mut self, host: &dyn Host, file: &Path, rules: &Rules) -> Result<Imported, BookFault> {
        let reader = host.reading(file)?;
        self.change(|change| {
            let mut taking = Taking { change, done: Imported::default(), seen: BTreeMap::new() };
            let mut lines = 0;
            for (at, line) in (1..).zip(reader.lines()) {
                let damaged = |why: Says| Stop::Fault(BookFault::Import { file: file.into(), line: at, why });
                let line = line.map_err(|error| damaged(Says::quoted(error.to_string())))?;
                let line = if at == 1 { unmarked(&line) } else { &line };
                match Line::read(line, at == 1, rules).map_err(damaged)? {
                    Line::Head => {}
                    Line::Revision(one) => taking.revision(&one)?,
                    Line::Retired(name) => taking.retired(&name)?.map_err(damaged)?,
                }
                lines = at;
            }
            if lines == 0 {
                let why = "the file is empty; an export has at least one line".into();
                return Err(BookFault::Import { file: file.into(), line: 1, why }.into());
            }
            Ok(taking.finish())
        })
    }
}

/// Whether a file may be written: it does not exist, or is an export.
fn only_over_an_export(host: &dyn Host, file: &Path) -> Result<(), BookFault> {
    match host.reading(file) {
        Ok(reader) => {
            let mut first = Vec::new();
            let read = reader.take(256).read_until(b'\n', &mut first);
            let first = first.strip_prefix(BYTE_ORDER_MARK.as_bytes()).unwrap_or(&first);
            if read.is_ok() && first.strip_suffix(b"\n") == Some(head_line().as_bytes()) {
                return Ok(());
            }
            Err(BookFault::There { file: file.into(), what: "exists and is not an export" })
        }
        Err(fault) if fault.trouble == FileTrouble::Missing => Ok(()),
        Err(fault) => Err(fault.into()),
    }
}

/// Calls `show` with every revision, and whether it is the last of its design, until a call fails.
fn each_revision(
    connection: &rusqlite::Connection,
    zone: &str,
    see: &mut dyn FnMut(&Revision, bool) -> io::Result<()>,
) -> rusqlite::Result<io::Result<()>> {
    let sql = format!("SELECT {REVISION} FROM design JOIN revision ON design = design.id ORDER BY design.name, number");
    let mut statement = connection.prepare(&sql)?;
    let mut rows = statement.query([zone])?;
    let mut held: Option<Revision> = None;
    while let Some(row) = rows.next()? {
        let next = revision(row)?;
        if let Some(one) = held.take() {
            let seen = see(&one, one.name != next.name);
            if seen.is_err() {
                return Ok(seen);
            }
        }
        held = Some(next);
    }
    Ok(held.map_or(Ok(()), |one| see(&one, true)))
}

/// A revision as a line of the file.
fn of_revision(revision: &Revision) -> Json {
    let values = |text: &str| -> Json {
        text::lines(text).map(|(name, value)| (name.to_string(), value.into())).collect::<Map<_, _>>().into()
    };
    let mut object = json!({ "design": revision.name, "revision": revision.number, "time": revision.time });
    if !revision.note.is_empty() {
        object["note"] = revision.note.as_str().into();
    }
    if let Some(style) = &revision.draft.style {
        object["style"] = style.name.as_str().into();
        object["style_version"] = style.version.as_str().into();
    }
    object["program"] = revision.program.as_str().into();
    object["tape"] = revision.draft.tape.as_str().into();
    object["fields"] = values(&revision.draft.fields);
    object["figures"] = values(&revision.draft.figures);
    object
}

/// A running import.
struct Taking<'a> {
    change: &'a rusqlite::Connection,
    done: Imported,
    /// Designs of the file: which are new, which revisions the book has already, and which got another number.
    seen: BTreeMap<String, Seen>,
}

#[derive(Default)]
struct Seen {
    new: bool,
    there: Vec<u32>,
    moved: Vec<(u32, u32)>,
    /// Fields that the rules do not know.
    unknown: BTreeSet<String>,
    /// A remark if the design stays as it is.
    kept: Option<&'static str>,
}

impl Taking<'_> {
    fn revision(&mut self, one: &Incoming) -> rusqlite::Result<()> {
        let found = head(self.change, &one.name)?;
        let seen = self.seen.entry(one.name.clone()).or_default();
        let (id, number) = match found {
            Some(head) => {
                if is_there(self.change, head.id, one)? {
                    seen.there.push(one.number);
                    return Ok(());
                }
                (head.id, head.number + 1)
            }
            None => {
                seen.new = true;
                self.done.designs += 1;
                (make_design(self.change, &one.name, false)?, 1)
            }
        };
        if number != one.number {
            seen.moved.push((one.number, number));
        }
        seen.unknown.extend(one.unknown.iter().cloned());
        let new = New { number, time: &one.time, note: &one.note, program: &one.program, draft: &one.draft };
        append(self.change, id, &one.name, &new)?;
        self.done.revisions += 1;
        Ok(())
    }

    /// Retires a design of the file; a design that the book had before stays as it is.
    fn retired(&mut self, name: &str) -> rusqlite::Result<Result<(), Says>> {
        let Some(seen) = self.seen.get_mut(name) else {
            return Ok(Err(says!("{} is retired before its first revision", name)));
        };
        if seen.new {
            self.change.execute("UPDATE design SET retired = 1 WHERE name = ?1", [name])?;
        } else if head(self.change, name)?.is_some_and(|head| !head.retired) {
            seen.kept = Some("is retired in the file and stays in use here");
        }
        Ok(Ok(()))
    }

    fn finish(mut self) -> Imported {
        for (name, seen) in &self.seen {
            if !seen.there.is_empty() {
                let (left, them) = (seen.there.len(), if seen.there.len() == 1 { "it" } else { "them" });
                let left = count(left, "revision");
                self.done.remarks.push(format!("{name}: {left} left out; the book has {them} already"));
            }
            for (from, to) in &seen.moved {
                self.done.remarks.push(format!("{name}@{from} was imported as {name}@{to}"));
            }
            let unknown: Vec<&String> = seen.unknown.iter().collect();
            match unknown.as_slice() {
                [] => {}
                [one] => self
                    .done
                    .remarks
                    .push(format!("{name}: there is no field called {one}; its value is saved as it is")),
                several => {
                    let fields = list(several, "and");
                    self.done.remarks.push(format!(
                        "{name}: there are no fields called {fields}; their values are saved as they are"
                    ));
                }
            }
            if let Some(kept) = seen.kept {
                self.done.remarks.push(format!("{name} {kept}"));
            }
        }
        self.done
    }
}

/// Whether a design has this revision, under any number.
fn is_there(change: &rusqlite::Connection, design: i64, one: &Incoming) -> rusqlite::Result<bool> {
    let draft = &one.draft;
    let (style, version) = draft.style.as_ref().map(|mark| (&mark.name, &mark.version)).unzip();
    change.query_row(
        "SELECT EXISTS (SELECT 1 FROM revision WHERE design = ?1 AND time = ?2 AND note = ?3 AND style IS ?4 \
         AND style_version IS ?5 AND program = ?6 AND tape = ?7 AND fields = ?8 AND figures = ?9)",
        params![design, one.time, one.note, style, version, one.program, draft.tape, draft.fields, draft.figures],
        |row| row.get(0),
    )
}
