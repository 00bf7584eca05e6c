//! A table of one known format, whole: its rows as entries with a cell for each column that the format has.

use super::cells::Cell;
use super::column::{Column, Holds};
use super::faults::capped;
use super::head::{Head, Headings};
use super::lines::Lines;
use super::reader::{Reader, Row};
use super::write::unspoken;
use crate::diag::{Diagnostic, codes, list, near};

/// A column that a format has.
#[derive(Clone, Copy, Debug)]
pub struct Spec {
    /// Its heading.
    pub name: &'static str,
    /// Whether a table must have it.
    pub needed: bool,
    /// What its cells hold.
    pub holds: Holds,
}

/// A format of tables: what it is of, its version where the program writes it, its columns, other words for them.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    /// What the table is of, for messages: `parts`.
    pub of: &'static str,
    /// The version that is written and read.
    pub version: u32,
    /// The columns, in the order in which entries have their cells.
    pub columns: &'static [Spec],
    /// Other words for headings, in small letters without blanks.
    pub aliases: &'static [(&'static str, &'static str)],
    /// Those of them that the program writes itself.
    pub own: &'static [&'static str],
}

/// One row: its cells in the order of the format, empty where the table lacks the column.
#[derive(Clone, Debug)]
pub struct Entry {
    /// The row as it is written in the table.
    pub row: Row,
    /// A cell for each column of the format.
    pub cells: Vec<Cell>,
}

/// A table that was read.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The columns of the format that are there, in the order of the table.
    pub columns: Vec<&'static str>,
    /// Its sound rows.
    pub entries: Vec<Entry>,
    /// The lines of the rows with faults.
    pub unsound: Vec<usize>,
    /// What was not read as it is written there.
    pub notes: Vec<String>,
}

/// What the first line of a file of ours begins with, behind the mark of a remark.
const PROGRAM: &str = "benchrule";

impl Kind {
    /// The line that a file of this kind begins with: `# benchrule stock 1`.
    pub fn first_line(&self) -> String {
        format!("# {PROGRAM} {} {}", self.of, self.version)
    }

    /// Reads a table of this kind, a text or the bytes of one; `name` is what the table is called. Rows with faults are left out, and `found` gets them
    /// all with their places.
    ///
    /// # Errors
    /// No row of the table can be read: it is empty, of another kind or version, lacks a column or has one twice. What else
    /// is wrong with its head goes to `found`.
    pub fn read(&self, name: &str, text: impl AsRef<[u8]>, found: &mut Vec<Diagnostic>) -> Result<Sheet, Diagnostic> {
        let text = text.as_ref();
        let first = String::from_utf8_lossy(text.split(|byte| *byte == b'\n').next().unwrap_or_default());
        self.check_first_line(first.trim_end()).map_err(|one| one.inside(name, first.trim_end()))?;
        let mut lines = Lines::of_text(text);
        // A text in memory is read without fail.
        let Some(first) = lines.next_row().ok().flatten() else {
            return Err(
                Diagnostic::of(&codes::table::SHAPE, format!("the table of {} is empty", self.of)).inside(name, first)
            );
        };
        let place = |one: Diagnostic| one.inside_from(name, first.text.clone(), first.number);
        if let Some(fault) = first.fault.clone() {
            return Err(place(fault));
        }
        let known = |name: &str| self.columns.iter().find(|column| column.name == name).map(|column| column.holds);
        let unknown = |heading: &str| self.unknown(heading);
        let head = Head::read(
            &first.text,
            &Headings { known: &known, aliases: self.aliases, own: self.own, unknown: &unknown },
        );
        let mut faults = head.faults.clone();
        faults.extend(self.lacking(&head, first.text.len()));
        let mut faults = faults.into_iter();
        let first = faults.next();
        found.extend(faults.chain(head.unknown.iter().cloned()).map(place));
        if let Some(first) = first {
            return Err(place(first));
        }
        let places: Vec<Option<usize>> = self.columns.iter().map(|column| position(&head, column.name)).collect();
        let mut there: Vec<(usize, &'static str)> =
            self.columns.iter().zip(&places).filter_map(|(column, at)| Some(((*at)?, column.name))).collect();
        there.sort_unstable();
        let mut reader = Reader::new(lines, head);
        let (mut entries, mut unsound) = (Vec::new(), Vec::new());
        while let Some(mut row) = reader.next_row().ok().flatten() {
            if !row.faults.is_empty() {
                unsound.push(row.line);
                found.extend(row.placed(name, row.faults.clone()));
                continue;
            }
            // Text that was marked so that no spreadsheet runs it.
            for (at, column) in places.iter().zip(self.columns) {
                if let Some(cell) = at.and_then(|at| row.cells.get_mut(at)).filter(|_| column.holds == Holds::Text)
                    && let Some(text) = unspoken(&cell.text)
                {
                    cell.text = text.to_string();
                }
            }
            let end = row.text.len();
            let empty = || Cell { text: String::new(), span: end..end, verbatim: false };
            let cell = |at: &Option<usize>| at.and_then(|at| row.cells.get(at).cloned()).unwrap_or_else(empty);
            entries.push(Entry { cells: places.iter().map(cell).collect(), row });
        }
        let columns = there.into_iter().map(|(_, name)| name).collect();
        Ok(Sheet { columns, entries, unsound, notes: reader.notes() })
    }

    /// What a column is called that no such table has.
    fn unknown(&self, heading: &str) -> Diagnostic {
        let names: Vec<&str> = self.columns.iter().map(|column| column.name).collect();
        let message = match near(heading, names.iter().copied()).first() {
            Some(name) => format!("the column {heading} is not read; is it {name}?"),
            None => format!("the column {heading} is not read: a table of {} has {}", self.of, list(&names, "and")),
        };
        Diagnostic::of(&codes::table::HEADING, message)
    }

    /// The columns that are needed and not there.
    fn lacking(&self, head: &Head, end: usize) -> Option<Diagnostic> {
        let needed = || self.columns.iter().filter(|column| column.needed).map(|column| column.name);
        let lacking: Vec<&str> = needed().filter(|name| position(head, name).is_none()).collect();
        if lacking.is_empty() {
            return None;
        }
        let columns = if lacking.len() == 1 { "column" } else { "columns" };
        let message = format!("the table of {} has no {columns} {}", self.of, list(&lacking, "and"));
        Some(Diagnostic::of(&codes::table::SHAPE, message).at(0..end).hint(needed().collect::<Vec<_>>().join(",")))
    }

    /// A file of ours says what it is. A spreadsheet that saved it may have put quotes around that, and marks behind.
    fn check_first_line(&self, first: &str) -> Result<(), Diagnostic> {
        let first = first.trim_start_matches('\u{feff}');
        let said = first.trim_matches(|letter: char| "\",;".contains(letter) || letter.is_whitespace());
        let Some(rest) = said.strip_prefix("# ").and_then(|said| said.strip_prefix(PROGRAM)) else { return Ok(()) };
        // To relabel a file does not make it readable, so nothing is offered.
        let wrong = |message: String| Err(Diagnostic::of(&codes::table::SHAPE, message).at(0..first.len()));
        match rest.trim().rsplit_once(' ') {
            Some((of, version)) if of == self.of => match version.parse::<u32>() {
                Ok(version) if version == self.version => Ok(()),
                _ => wrong(format!(
                    "this is {of} of version {version}, and this program reads version {}; use the newer program that wrote it",
                    self.version
                )),
            },
            _ => wrong(format!("this file is not a table of {}", self.of)),
        }
    }
}

/// The place of a column in the table.
fn position(head: &Head, name: &str) -> Option<usize> {
    head.columns.iter().position(|column| matches!(column, Column::Named(own, _) if **own == *name))
}

impl Entry {
    /// Findings about the row in the order of its cells, with their places in the table called `name`.
    pub fn placed(&self, name: &str, mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
        found.sort_by_key(|one| one.span.as_ref().map(|span| span.start));
        self.row.placed(name, capped(found, "this row"))
    }
}
