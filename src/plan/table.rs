//! A table as text, its cells with their places.

use csv::{ReaderBuilder, Trim};

use crate::diag::{Diagnostic, Span, list, near};

/// A cell: what stands in it, and where.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Cell {
    pub(super) text: String,
    pub(super) span: Span,
}

/// A column that a table may have.
pub(super) struct Column {
    pub(super) name: &'static str,
    pub(super) needed: bool,
}

/// The rows of a table, each with one cell for each column that was asked for; a column that is not there gives none.
#[derive(Debug)]
pub(super) struct Table {
    /// Where each of the columns asked for is.
    pub(super) places: Vec<Option<usize>>,
    pub(super) rows: Vec<Vec<Cell>>,
}

/// What stands between two cells: the likeliest by the first line.
fn delimiter(text: &str) -> u8 {
    let head = text.lines().next().unwrap_or_default();
    let count = |mark: u8| head.bytes().filter(|byte| *byte == mark).count();
    b",;\t".iter().copied().max_by_key(|mark| (count(*mark), *mark == b',')).unwrap_or(b',')
}

impl Table {
    /// The names of the columns that are there, in the order of the table.
    pub(super) fn columns(&self, asked: &[Column]) -> Vec<&'static str> {
        let mut there: Vec<_> =
            self.places.iter().zip(asked).filter_map(|(at, one)| Some((*at.as_ref()?, one.name))).collect();
        there.sort_unstable();
        there.into_iter().map(|(_, name)| name).collect()
    }

    /// Reads a table whose first row names its columns; `what` is what the table is of, for messages.
    ///
    /// # Errors
    /// A needed column that is missing: nothing can be read then. What is wrong with other columns goes to `found`.
    pub(super) fn read(
        text: &str,
        what: &str,
        columns: &[Column],
        found: &mut Vec<Diagnostic>,
    ) -> Result<Self, Diagnostic> {
        let delimiter = delimiter(text);
        let mut reader = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .delimiter(delimiter)
            .trim(Trim::All)
            .from_reader(text.as_bytes());
        let mut records = reader.records().map_while(Result::ok).map(|record| cells(text, delimiter, &record));
        let Some(head) = records.next() else { return Err(Diagnostic::new(format!("the table of {what} is empty"))) };
        let place = |column: &Column| head.iter().position(|cell| cell.text.eq_ignore_ascii_case(column.name));
        let places: Vec<Option<usize>> = columns.iter().map(place).collect();
        let names = || columns.iter().map(|column| column.name);
        if let Some((column, _)) = columns.iter().zip(&places).find(|(column, place)| column.needed && place.is_none())
        {
            let span = head.first().map_or(0..0, |first| first.span.start..head.last().map_or(0, |last| last.span.end));
            let needed: Vec<&str> = columns.iter().filter(|column| column.needed).map(|column| column.name).collect();
            let message = format!("the table of {what} has no column {}", column.name);
            return Err(Diagnostic::new(message).at(span).hint(needed.join(",")));
        }
        for (at, cell) in head.iter().enumerate().filter(|(at, _)| !places.contains(&Some(*at))) {
            let twice = names().any(|name| cell.text.eq_ignore_ascii_case(name));
            let message = match (twice, near(&cell.text, names()).first()) {
                _ if cell.text.is_empty() => continue,
                (true, _) => format!("the column {} is there twice, and the first is read", cell.text),
                (false, Some(name)) => format!("column {}, {}, is not read; is it {name}?", at + 1, cell.text),
                (false, None) => {
                    let known: Vec<&str> = names().collect();
                    format!(
                        "column {}, {}, is not read: a table of {what} has {}",
                        at + 1,
                        cell.text,
                        list(&known, "and")
                    )
                }
            };
            found.push(Diagnostic::new(message).at(cell.span.clone()));
        }
        let row = |cells: Vec<Cell>| {
            let end = cells.last().map_or(0, |last| last.span.end);
            let missing = || Cell { text: String::new(), span: end..end };
            places.iter().map(|place| place.and_then(|at| cells.get(at).cloned()).unwrap_or_else(missing)).collect()
        };
        let filled = |cells: &Vec<Cell>| cells.iter().any(|cell| !cell.text.is_empty());
        let rows = records.filter(filled).map(row).collect();
        Ok(Self { places, rows })
    }
}

/// The cells of a record with their places in the text.
fn cells(text: &str, delimiter: u8, record: &csv::StringRecord) -> Vec<Cell> {
    let start = record.position().map_or(0, csv::Position::byte);
    let mut at = usize::try_from(start).unwrap_or(0).min(text.len());
    // Blank lines before a record belong to none.
    at += text.as_bytes()[at..].iter().take_while(|byte| matches!(byte, b'\n' | b'\r')).count();
    let mut cells = Vec::new();
    for field in record {
        let end = at + field_end(&text.as_bytes()[at..], delimiter);
        let raw = text.get(at..end).unwrap_or_default();
        let lead = raw.len() - raw.trim_start().len();
        cells.push(Cell { text: field.to_string(), span: at + lead..at + raw.trim_end().len().max(lead) });
        at = (end + 1).min(text.len());
    }
    cells
}

/// Where a field ends: at the next delimiter or line end that is in no quotes. Quotes open a field or nothing.
fn field_end(bytes: &[u8], delimiter: u8) -> usize {
    let mut quoted = bytes.first() == Some(&b'"');
    for (at, byte) in bytes.iter().enumerate().skip(usize::from(quoted)) {
        match byte {
            b'"' if bytes.first() == Some(&b'"') => quoted = !quoted,
            b'\n' | b'\r' if !quoted => return at,
            other if *other == delimiter && !quoted => return at,
            _ => {}
        }
    }
    bytes.len()
}
