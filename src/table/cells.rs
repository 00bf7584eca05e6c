//! A row taken apart into cells.

use crate::diag::{Diagnostic, Span, codes};
use crate::measure::read::read;

/// The text of a cell without the blanks around it, and its place.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cell {
    /// Without the quotes around it, inch marks once.
    pub text: String,
    /// Its place in the row.
    pub span: Span,
    /// Whether each letter is in the row as it is here, so that places within the cell can be shown.
    pub verbatim: bool,
}

/// Why a row cannot be taken apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// A quote that opens here is not closed.
    Open(usize),
    /// Text follows the quote that closes a cell: its place, and that of the whole cell.
    Behind(Span, Span),
}

impl Fault {
    /// What is wrong, with its place in the row.
    fn report(&self, text: &str) -> Diagnostic {
        match self {
            Self::Open(at) => {
                Diagnostic::of(&codes::table::SHAPE, "a quote opens here and never closes").at(*at..*at + 1)
            }
            Self::Behind(span, _) => {
                let rest = super::brief(text.get(span.clone()).unwrap_or_default());
                let message = format!("the quotes close before {rest}; inside quotes an inch mark is written twice");
                Diagnostic::of(&codes::table::SHAPE, message).at(span.clone())
            }
        }
    }

    /// The place of the cell that is at fault; one that never closes goes on to the next mark.
    fn cell(&self, text: &str, mark: char) -> Span {
        match self {
            Self::Open(at) => *at..text[*at..].find(mark).map_or(text.len(), |end| at + end),
            Self::Behind(_, cell) => cell.clone(),
        }
    }
}

/// Reports all that is wrong with the quotes of a row; each finding offers the row as it is likely meant.
pub(super) fn report(text: &str, mark: char, faults: &[Fault]) -> Vec<Diagnostic> {
    let mut row = text.to_string();
    for fault in faults.iter().rev() {
        let cell = fault.cell(text, mark);
        let meant = super::field(&meant(text[cell.clone()].trim()), mark);
        row.replace_range(cell, &meant);
    }
    let is_sound = split(&row, mark).1.is_empty();
    faults.iter().map(|fault| fault.report(text).only(is_sound.then(|| row.clone()))).collect()
}

/// The text that a cell with faulty quotes was likely meant to hold: the first reading of it that is a dimension, with its
/// last quote as an inch mark, without it, or with all its quotes left out.
fn meant(cell: &str) -> String {
    let inner = cell.strip_prefix('"').unwrap_or(cell);
    let plain = inner.strip_suffix('"').unwrap_or(inner);
    let bare = plain.replace('"', " ").split_whitespace().collect::<Vec<_>>().join(" ");
    let readings = [inner, plain, &bare];
    let measured = readings.iter().find(|text| read(text, None).is_ok());
    (*measured.unwrap_or(&plain)).to_string()
}

/// The mark between the cells of a table: the likeliest by its first row.
pub fn delimiter(head: &str) -> char {
    let mut quoted = false;
    let outside: Vec<char> = head
        .chars()
        .filter(|letter| {
            quoted ^= *letter == '"';
            !quoted
        })
        .collect();
    let count = |mark: char| outside.iter().filter(|letter| **letter == mark).count();
    [',', ';', '\t'].into_iter().max_by_key(|mark| (count(*mark), *mark == ',')).unwrap_or(',')
}

/// The cells of a row with commas between them, whatever is wrong with their quotes.
pub fn cells(row: &str) -> Vec<Cell> {
    split(row, ',').0
}

/// The cells of a row, and all that is wrong with their quotes.
pub(super) fn split(text: &str, mark: char) -> (Vec<Cell>, Vec<Fault>) {
    let (mut cells, mut faults) = (Vec::new(), Vec::new());
    let mut from = 0;
    loop {
        let (cell, end, fault) = cell(text, from, mark);
        cells.push(cell);
        faults.extend(fault);
        match text.get(end..).and_then(|rest| rest.chars().next()) {
            Some(mark) => from = end + mark.len_utf8(),
            None => return (cells, faults),
        }
    }
}

/// The cell that begins at `from`, the place of the mark behind it, and what is wrong with its quotes.
fn cell(text: &str, from: usize, mark: char) -> (Cell, usize, Option<Fault>) {
    let is_blank = |letter: char| letter.is_whitespace() && letter != mark;
    let rest = text.get(from..).unwrap_or_default();
    let start = from + rest.len() - rest.trim_start_matches(is_blank).len();
    let cell = text.get(start..).unwrap_or_default();
    let Some(inner) = cell.strip_prefix('"') else {
        let end = cell.find(mark).map_or(text.len(), |at| start + at);
        let text = text.get(start..end).unwrap_or_default().trim_end();
        let span = start..start + text.len();
        return (Cell { text: text.into(), span, verbatim: true }, end, None);
    };
    let Some(close) = closing(inner) else {
        return (Cell { span: start..text.len(), ..Cell::default() }, text.len(), Some(Fault::Open(start)));
    };
    let behind = start + 1 + close + 1;
    let rest = text.get(behind..).unwrap_or_default();
    let end = rest.find(mark).map_or(text.len(), |at| behind + at);
    let more = text.get(behind..end).unwrap_or_default();
    let lead = more.len() - more.trim_start().len();
    let fault =
        (!more.trim().is_empty()).then(|| Fault::Behind(behind + lead..behind + more.trim_end().len(), start..end));
    let quoted = inner.get(..close).unwrap_or_default();
    (Cell { text: quoted.replace("\"\"", "\"").trim().into(), span: start..behind, verbatim: false }, end, fault)
}

/// Where the quote stands that closes a cell; two together are one of its letters.
fn closing(inner: &str) -> Option<usize> {
    let mut from = 0;
    loop {
        let at = from + inner.get(from..)?.find('"')?;
        if inner.as_bytes().get(at + 1) != Some(&b'"') {
            return Some(at);
        }
        from = at + 2;
    }
}
