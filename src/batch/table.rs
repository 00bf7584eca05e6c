//! A table of works, row by row, however long it is.

use std::collections::BTreeSet;
use std::io::{self, BufRead};
use std::sync::Arc;

use super::json::entries;
use super::keys::Keys;
use super::lines::{Line, Lines};
use super::row::{Cell, Row};
use crate::diag::Diagnostic;
use crate::lang::cells::{Fault, MOST_LINES, Piece, delimiter, pieces};

/// What a remark begins with.
const REMARK: char = '#';
/// So many bytes a cell in quotes may go on for.
const MOST_BYTES: usize = 1 << 20;

/// How the rows of a table are written.
enum Shape {
    /// The columns, none for one without a name, and what stands between two cells.
    Cells(Vec<Option<Arc<str>>>, char),
    /// A JSON object a line.
    Objects,
}

/// The rows of a table.
pub struct Rows<'a> {
    lines: Lines,
    shape: Shape,
    keys: &'a Keys<'a>,
    count: u64,
}

impl<'a> Rows<'a> {
    /// Reads the head of a table: values with commas, semicolons or tabs between them, or JSON objects line by line.
    ///
    /// # Errors
    /// The input cannot be read.
    ///
    /// In the inner result, with the line that they are about: a table without a head, a column that is unknown or there
    /// twice.
    pub fn open(name: &str, input: Box<dyn BufRead>, keys: &'a Keys<'a>) -> io::Result<Result<Self, Vec<Diagnostic>>> {
        let mut lines = Lines::new(input);
        let Some(head) = said(&mut lines)? else {
            return Ok(Err(vec![Diagnostic::new("the table is empty").hint("name,art,style")]));
        };
        if let Some(fault) = head.fault {
            return Ok(Err(vec![fault.inside_from(name, head.text, head.number)]));
        }
        if head.text.trim_start().starts_with('{') {
            lines.put_back(vec![head]);
            return Ok(Ok(Self { lines, shape: Shape::Objects, keys, count: 0 }));
        }
        let shape = match columns(&head.text, keys) {
            Ok(shape) => shape,
            Err(found) => {
                let inside = |one: Diagnostic| one.inside_from(name, head.text.clone(), head.number);
                return Ok(Err(found.into_iter().map(inside).collect()));
            }
        };
        Ok(Ok(Self { lines, shape, keys, count: 0 }))
    }

    /// Bytes read so far.
    pub fn bytes(&self) -> u64 {
        self.lines.bytes()
    }

    /// The next row; none at the end.
    ///
    /// # Errors
    /// The input cannot be read.
    pub fn next_row(&mut self) -> io::Result<Option<Row>> {
        let Some(line) = said(&mut self.lines)? else { return Ok(None) };
        self.count += 1;
        let (number, at) = (self.count, line.number);
        if let Some(fault) = line.fault {
            return Ok(Some(Row { number, line: at, text: line.text, cells: Vec::new(), fault: Some(fault) }));
        }
        let (text, cells) = match &self.shape {
            Shape::Objects => {
                let cells = object(&line.text, self.keys);
                (line.text, cells)
            }
            Shape::Cells(columns, mark) => {
                let (text, read) = record(&mut self.lines, line, *mark, columns.len())?;
                let cells = read.map_err(|fault| fault.told(&text)).and_then(|read| under(columns, read, &text, *mark));
                (text, cells)
            }
        };
        Ok(Some(match cells {
            Ok(cells) => Row { number, line: at, text, cells, fault: None },
            Err(fault) => Row { number, line: at, text, cells: Vec::new(), fault: Some(fault) },
        }))
    }
}

/// The next line that is no remark and not empty.
fn said(lines: &mut Lines) -> io::Result<Option<Line>> {
    while let Some(line) = lines.next()? {
        let text = line.text.trim_start();
        if line.fault.is_some() || !(text.is_empty() || is_remark(text)) {
            return Ok(Some(line));
        }
    }
    Ok(None)
}

/// Whether a line is a remark: its mark has a blank behind it, another mark, or nothing. `#12` is the number of a work.
fn is_remark(text: &str) -> bool {
    let behind = |rest: &str| rest.is_empty() || rest.starts_with(|next: char| next.is_whitespace() || next == REMARK);
    text.strip_prefix(REMARK).is_some_and(behind)
}

/// The columns that a head names.
fn columns(head: &str, keys: &Keys) -> Result<Shape, Vec<Diagnostic>> {
    let mark = delimiter(head);
    let named = pieces(head, mark).map_err(|fault| vec![fault.told(head)])?;
    let all: Vec<String> = named.iter().map(|piece| piece.text.clone()).collect();
    let mut found = Vec::new();
    let mut seen = BTreeSet::new();
    let mut columns = Vec::new();
    for piece in named {
        if piece.text.is_empty() {
            columns.push(None);
        } else if !seen.insert(piece.text.clone()) {
            let found_twice = Diagnostic::new(format!("the column {} is there twice", piece.text)).at(piece.span);
            found.push(found_twice.hint(once(&all, mark)));
        } else {
            match keys.key(&piece.text) {
                Ok(key) => columns.push(Some(key)),
                Err(one) => found.push(one.at(piece.span)),
            }
        }
    }
    if found.is_empty() { Ok(Shape::Cells(columns, mark)) } else { Err(found) }
}

/// A head with each column once.
fn once(names: &[String], mark: char) -> String {
    let mut seen = BTreeSet::new();
    let names: Vec<&str> = names.iter().map(String::as_str).filter(|name| seen.insert(*name)).collect();
    names.join(&mark.to_string())
}

/// The row of so many columns that begins with a line: a cell in quotes may go on over several.
fn record(
    lines: &mut Lines,
    first: Line,
    mark: char,
    columns: usize,
) -> io::Result<(String, Result<Vec<Piece>, Fault>)> {
    let alone = pieces(&first.text, mark);
    if !matches!(alone, Err(Fault::Open(_))) {
        return Ok((first.text, alone));
    }
    let mut text = first.text.clone();
    let mut more: Vec<Line> = Vec::new();
    while more.len() < MOST_LINES
        && text.len() < MOST_BYTES
        && let Some(line) = lines.next()?
    {
        text.push('\n');
        text.push_str(&line.text);
        let is_text = line.fault.is_none();
        more.push(line);
        match pieces(&text, mark) {
            _ if !is_text => break,
            Err(Fault::Open(_)) => {}
            Ok(read) if read.len() == columns => return Ok((text, Ok(read))),
            // It closes where the next row opens one of its own.
            Ok(_) | Err(Fault::Behind(_)) => break,
        }
    }
    // The quote is a slip: only its own line is lost by it.
    lines.put_back(more);
    Ok((first.text, alone))
}

/// The cells that say something, each under its column.
fn under(columns: &[Option<Arc<str>>], read: Vec<Piece>, text: &str, mark: char) -> Result<Vec<Cell>, Diagnostic> {
    if let Some(lacking) = columns.len().checked_sub(read.len()).filter(|lacking| *lacking > 0) {
        let message = format!("this row has {} cells, and there are {} columns", read.len(), columns.len());
        // What a cell that stays empty says is left to the house.
        let filled = format!("{text}{}", mark.to_string().repeat(lacking));
        return Err(Diagnostic::new(message).at(text.len()..text.len()).hint(filled));
    }
    // The row as far as there are columns.
    let last = columns.len().checked_sub(1).and_then(|last| read.get(last));
    let fitting = last.and_then(|last| text.get(..last.span.end)).unwrap_or_default().to_string();
    let mut cells = Vec::new();
    for (place, piece) in read.into_iter().enumerate().filter(|(_, piece)| !piece.text.is_empty()) {
        let Some(Some(key)) = columns.get(place) else {
            return Err(match columns.get(place) {
                Some(_) => Diagnostic::new("this cell stands under no name").at(piece.span),
                None => {
                    let message = format!("this row has more cells than the {} columns", columns.len());
                    Diagnostic::new(message).at(piece.span).hint(fitting)
                }
            });
        };
        cells.push(Cell { key: Arc::clone(key), text: piece.text, span: piece.span, verbatim: piece.verbatim });
    }
    Ok(cells)
}

/// The cells of a JSON object.
fn object(text: &str, keys: &Keys) -> Result<Vec<Cell>, Diagnostic> {
    let mut cells = Vec::new();
    for entry in entries(text)?.into_iter().filter(|entry| !entry.text.is_empty()) {
        let key = keys.key(&entry.key).map_err(|one| one.at(entry.span.clone()))?;
        cells.push(Cell { key, text: entry.text, span: entry.span, verbatim: false });
    }
    Ok(cells)
}
