//! A table of works, row by row, however long it is.

use std::io::{self, BufRead};
use std::sync::Arc;

use super::json::entries;
use super::keys::{ALIASES, Keys};
use super::row::{Cell, Row};
use crate::diag::{Diagnostic, codes};
use crate::table::{Column, Head, Headings, Lines, Reader};

/// How the rows of a table are written.
enum Shape {
    /// Cells under headings.
    Table(Box<Reader>),
    /// A JSON object a line.
    Objects(Lines),
}

/// The rows of a table.
pub struct Rows<'a> {
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
        let Some(first) = lines.next_row()? else {
            return Ok(Err(vec![Diagnostic::of(&codes::table::SHAPE, "the table is empty").hint("name,art,style")]));
        };
        if let Some(fault) = first.fault {
            return Ok(Err(vec![fault.inside_from(name, first.text, first.number)]));
        }
        if first.text.trim_start().starts_with('{') {
            lines.put_back(vec![first]);
            return Ok(Ok(Self { shape: Shape::Objects(lines), keys, count: 0 }));
        }
        let (known, unknown) = (|name: &str| keys.holds(name), |name: &str| keys.unknown(name));
        let head = Head::read(&first.text, &Headings { known: &known, aliases: ALIASES, own: &[], unknown: &unknown });
        let wrong: Vec<_> = head.faults.iter().chain(&head.unknown).cloned().collect();
        if !wrong.is_empty() {
            let inside = |one: Diagnostic| one.inside_from(name, first.text.clone(), first.number);
            return Ok(Err(wrong.into_iter().map(inside).collect()));
        }
        Ok(Ok(Self { shape: Shape::Table(Box::new(Reader::new(lines, head))), keys, count: 0 }))
    }

    /// Bytes read so far.
    pub fn bytes(&self) -> u64 {
        match &self.shape {
            Shape::Table(reader) => reader.bytes(),
            Shape::Objects(lines) => lines.bytes(),
        }
    }

    /// What was not read as it is written in the table, each once.
    pub fn notes(&self) -> Vec<String> {
        match &self.shape {
            Shape::Table(reader) => reader.notes(),
            Shape::Objects(_) => self.keys.notes(),
        }
    }

    /// The next row that is not empty; none at the end.
    ///
    /// # Errors
    /// The input cannot be read.
    pub fn next_row(&mut self) -> io::Result<Option<Row>> {
        let row = match &mut self.shape {
            Shape::Table(reader) => {
                let Some(row) = reader.next_row()? else { return Ok(None) };
                let cells = sound(named(reader.columns(), row.cells), &row.faults);
                Row { number: 0, line: row.line, text: row.text, cells, faults: row.faults }
            }
            Shape::Objects(lines) => {
                let Some(line) = lines.next_row()? else { return Ok(None) };
                let read = line.fault.map_or_else(|| object(&line.text, self.keys), Err);
                let (cells, faults) = read.unwrap_or_else(|fault| (Vec::new(), vec![fault]));
                Row { number: 0, line: line.number, text: line.text, cells, faults }
            }
        };
        self.count += 1;
        Ok(Some(Row { number: self.count, ..row }))
    }
}

/// The cells that are not empty, each under its column.
fn named(columns: &[Column], cells: Vec<crate::table::Cell>) -> Vec<Cell> {
    let own = |(column, cell): (&Column, crate::table::Cell)| match column {
        Column::Named(key, _) if !cell.is_empty() => {
            Some(Cell { key: Arc::clone(key), text: cell.text, span: cell.span, verbatim: cell.verbatim })
        }
        Column::Named(..) | Column::Unnamed | Column::Ignored => None,
    };
    columns.iter().zip(cells).filter_map(own).collect()
}

/// The cells that have no fault; none where a fault is of the row as a whole, and nobody knows where its cells begin.
fn sound(mut cells: Vec<Cell>, faults: &[Diagnostic]) -> Vec<Cell> {
    let is_at = |fault: &Diagnostic, cell: &Cell| fault.span.as_ref() == Some(&cell.span);
    if !faults.iter().all(|fault| cells.iter().any(|cell| is_at(fault, cell))) {
        return Vec::new();
    }
    cells.retain(|cell| !faults.iter().any(|fault| is_at(fault, cell)));
    cells
}

/// The cells of a JSON object, and what is wrong with its keys.
fn object(text: &str, keys: &Keys) -> Result<(Vec<Cell>, Vec<Diagnostic>), Diagnostic> {
    let (mut cells, mut faults) = (Vec::new(), Vec::new());
    for entry in entries(text)?.into_iter().filter(|entry| !entry.text.is_empty()) {
        let key = match keys.key(&entry.key) {
            Ok(key) => key,
            Err(one) => {
                faults.push(one.at(entry.span));
                continue;
            }
        };
        if cells.iter().any(|cell: &Cell| cell.key == key) {
            let message = format!("{} is {key}, which this row has already", entry.key);
            faults.push(Diagnostic::of(&codes::table::JSON, message).at(entry.span));
            continue;
        }
        cells.push(Cell { key, text: entry.text, span: entry.span, verbatim: false });
    }
    Ok((cells, faults))
}
