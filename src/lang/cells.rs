//! Tables of separated values: rows read as cells with their places, and written so that no cell runs in a spreadsheet.
//!
//! Readers of such tables are lenient: a quote that never closes swallows the rest of the table, and `"16" x 20"` loses
//! its inch marks. A size that is misread is cut wrong, so both are told here.

use csv::WriterBuilder;

use crate::diag::{Diagnostic, Span};
use crate::measure::read::read;

/// So many lines a cell in quotes may go on for.
pub const MOST_LINES: usize = 64;

/// What stands in a cell, blanks around it left out, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Without the quotes around it, inch marks once.
    pub text: String,
    /// Its place in the row.
    pub span: Span,
    /// Whether each letter stands in the row as it does here, so that places within the cell can be told.
    pub verbatim: bool,
}

/// Why a row is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A quote that opens here is not closed.
    Open(usize),
    /// A quote closes and more than the end of the cell follows.
    Behind(Span),
}

impl Fault {
    /// What is to be said, with its place in the row.
    pub fn told(&self, text: &str) -> Diagnostic {
        match self {
            Self::Open(at) => {
                Diagnostic::new("a quote opens here and never closes").at(*at..*at + 1).hint(r#""16"" x 20""""#)
            }
            Self::Behind(span) => {
                let rest = text.get(span.clone()).unwrap_or_default();
                let message = format!("the quotes close before {rest}; inside quotes an inch mark is written twice");
                Diagnostic::new(message).at(span.clone()).hint(r#""16"" x 20""""#)
            }
        }
    }
}

/// The mark that parts the cells of a table: the likeliest by its first row.
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

/// The cells of a row.
///
/// # Errors
/// A quote that never closes in it, or closes before the end of its cell.
pub fn pieces(text: &str, delimiter: char) -> Result<Vec<Piece>, Fault> {
    let mut pieces = Vec::new();
    let mut from = 0;
    loop {
        let (piece, end) = piece(text, from, delimiter)?;
        pieces.push(piece);
        match text.get(end..).and_then(|rest| rest.chars().next()) {
            Some(mark) => from = end + mark.len_utf8(),
            None => return Ok(pieces),
        }
    }
}

/// The cell that begins at `from`, and where the mark behind it stands.
fn piece(text: &str, from: usize, delimiter: char) -> Result<(Piece, usize), Fault> {
    let is_blank = |letter: char| letter.is_whitespace() && letter != delimiter;
    let rest = text.get(from..).unwrap_or_default();
    let start = from + rest.len() - rest.trim_start_matches(is_blank).len();
    let cell = text.get(start..).unwrap_or_default();
    let Some(inner) = cell.strip_prefix('"') else {
        let end = cell.find(delimiter).map_or(text.len(), |at| start + at);
        let text = text.get(start..end).unwrap_or_default().trim_end();
        let span = start..start + text.len();
        return Ok((Piece { text: text.into(), span, verbatim: true }, end));
    };
    let close = closing(inner).ok_or(Fault::Open(start))?;
    let behind = start + 1 + close + 1;
    let rest = text.get(behind..).unwrap_or_default();
    let end = rest.find(delimiter).map_or(text.len(), |at| behind + at);
    let more = text.get(behind..end).unwrap_or_default();
    if !more.trim().is_empty() {
        let lead = more.len() - more.trim_start().len();
        return Err(Fault::Behind(behind + lead..behind + more.trim_end().len()));
    }
    let quoted = inner.get(..close).unwrap_or_default();
    let piece = Piece { text: quoted.replace("\"\"", "\"").trim().into(), span: start..behind, verbatim: false };
    Ok((piece, end))
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

/// Rows of a table with commas, in which no cell runs.
pub fn table(rows: impl IntoIterator<Item = Vec<String>>) -> String {
    let mut writer = WriterBuilder::new().flexible(true).from_writer(Vec::new());
    // Writing to memory does not fail, and all of it is text.
    for row in rows {
        let _ = writer.write_record(row.iter().map(|cell| spoken(cell)));
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// Text as a spreadsheet shows it and does not run it: what begins like a formula gets an apostrophe before it, which marks
/// text there and which [`unspoken`] takes off again.
///
/// A number or a quantity, `-1/4` or `-3/8"`, stays what it is, whether it was one or text: it has digits, a unit and
/// marks alone, and no call, no name of a cell and no command. The most a spreadsheet makes of it is the same number.
pub fn spoken(text: &str) -> String {
    if runs(text) && read(text, None).is_err() { format!("'{text}") } else { text.into() }
}

/// The text of a cell that was marked as text by [`spoken`].
pub fn unspoken(cell: &str) -> Option<&str> {
    cell.strip_prefix('\'').filter(|marked| runs(marked))
}

/// Whether a spreadsheet may take text for a formula: by its first letter, the wide forms of some scripts too.
fn runs(text: &str) -> bool {
    let first = text.trim_start_matches(' ');
    let marks = ['=', '+', '-', '−', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];
    first.starts_with(marks) || first.starts_with('\'') && runs(&first[1..])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beginnings that spreadsheets take for formulas: those that OWASP's page on CSV injection lists (memory).
    #[test]
    fn no_cell_runs() {
        for text in ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", " =1", "＝1+1", "-A1"] {
            assert_eq!(spoken(text), format!("'{text}"), "{text}");
            assert_eq!(unspoken(&spoken(text)), Some(text));
        }
        for text in ["-1/4", "-3/8\"", "+", "1/4", "moth", "a=b", "-1/4in", ""] {
            let marked = text == "+";
            assert_eq!(spoken(text), if marked { "'+".into() } else { text.to_string() }, "{text}");
        }
    }
}
