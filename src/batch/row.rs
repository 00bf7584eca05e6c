//! One row of a table of works.

use std::sync::Arc;

use crate::diag::{Diagnostic, Span};
use crate::session::style::hash;

/// The column that names a design.
pub(super) const NAME: &str = "name";
/// The column that names a house style.
pub(super) const STYLE: &str = "style";

/// The text in one column; empty cells are left out.
#[derive(Clone, Debug)]
pub struct Cell {
    /// The column.
    pub key: Arc<str>,
    /// The value, as it would be typed at the bench.
    pub text: String,
    /// Its place in the row.
    pub span: Span,
    /// Whether places in `text` are places in the row.
    pub verbatim: bool,
}

/// A row as it was read.
#[derive(Clone, Debug)]
pub struct Row {
    /// Counted from 1, head and remarks left out, rows with faults counted.
    pub number: u64,
    /// The line of the table on which it begins.
    pub line: usize,
    /// As it is written in the table.
    pub text: String,
    /// Its cells, as far as they can be read.
    pub cells: Vec<Cell>,
    /// All that keeps it from being framed.
    pub faults: Vec<Diagnostic>,
}

impl Row {
    /// The cell of a column, if it says something.
    pub fn cell(&self, key: &str) -> Option<&Cell> {
        self.cells.iter().find(|cell| &*cell.key == key)
    }

    /// What the design is called: its name, or the number of its row.
    pub fn called(&self) -> String {
        self.cell(NAME).map_or_else(|| format!("row-{}", self.number), |cell| cell.text.clone())
    }

    /// A mark of all that the row says, by which it is known again.
    pub fn mark(&self) -> u64 {
        let cells = self.cells.iter();
        // A byte that no text has parts the texts, so that no two rows run together.
        hash(cells.flat_map(|cell| cell.key.bytes().chain([0xff]).chain(cell.text.bytes()).chain([0xff])))
    }
}

impl Cell {
    /// A finding about this cell, placed in its row.
    pub(super) fn placed(&self, found: Diagnostic) -> Diagnostic {
        match &found.span {
            Some(span) if self.verbatim && !span.is_empty() => found.shifted(self.span.start),
            _ => found.at(self.span.clone()),
        }
    }
}

/// How a row came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// It can be made.
    Made,
    /// A check says that it cannot be built as specified.
    Stopped,
    /// It has no design.
    Failed,
}

impl State {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Made => "made",
            Self::Stopped => "stop",
            Self::Failed => "failed",
        }
    }
}
