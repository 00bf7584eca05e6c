//! A row of separated values as cells with their places.
//!
//! Readers of such tables are lenient: a quote that never closes swallows the rest of the table, and `"16" x 20"` loses
//! its inch marks. A size that is misread is cut wrong, so both are told here.

use crate::diag::{Diagnostic, Span};

/// What stands in a cell, blanks around it left out, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) text: String,
    pub(super) span: Span,
    /// Whether each letter stands in the row as it does here, so that places within the cell can be told.
    pub(super) verbatim: bool,
}

/// Why a row is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// A quote that opens here is not closed.
    Open(usize),
    /// A quote closes and more than the end of the cell follows.
    Behind(Span),
}

impl Fault {
    pub(super) fn told(&self, text: &str) -> Diagnostic {
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
pub(super) fn delimiter(head: &str) -> char {
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
pub(super) fn pieces(text: &str, delimiter: char) -> Result<Vec<Piece>, Fault> {
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
