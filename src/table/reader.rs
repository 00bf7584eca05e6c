//! A table row by row, however long it is.

use std::io;

use super::cells::{Cell, Fault, report, split};
use super::column::{Column, Holds};
use super::date::serial;
use super::faults::{brief, capped};
use super::head::Head;
use super::lines::{Line, Lines};
use super::number::settle;
use crate::diag::{Diagnostic, codes, count, list};

/// So many lines a cell in quotes may go on for.
const MOST_LINES: usize = 64;
/// So many bytes a cell in quotes may go on for.
const MOST_BYTES: usize = 1 << 20;

/// A row as it was read.
#[derive(Clone, Debug)]
pub struct Row {
    /// The line of the table on which it begins.
    pub line: usize,
    /// As it is written in the table.
    pub text: String,
    /// A cell for each column; fewer or none where the row has faults.
    pub cells: Vec<Cell>,
    /// All that is wrong with it, placed in its text.
    pub faults: Vec<Diagnostic>,
}

/// Reads the rows of a table behind its head.
pub struct Reader {
    lines: Lines,
    head: Head,
    commas: Option<Commas>,
    dates: Option<String>,
}

/// Cells in which a comma is read as a decimal point: what the first is read as, and how many there are.
struct Commas {
    first: String,
    cells: u64,
}

impl Reader {
    /// Rows of lines behind a head.
    pub fn new(lines: Lines, head: Head) -> Self {
        Self { lines, head, commas: None, dates: None }
    }

    /// The columns.
    pub fn columns(&self) -> &[Column] {
        &self.head.columns
    }

    /// Bytes read so far.
    pub fn bytes(&self) -> u64 {
        self.lines.bytes()
    }

    /// What was not read as it is written, each once: headings, decimal commas, numbers that may have been fractions.
    pub fn notes(&self) -> Vec<String> {
        let commas = self.commas.as_ref().map(|Commas { first, cells }| match cells - 1 {
            0 => first.clone(),
            1 => format!("{first}; so is the comma in 1 more cell"),
            more => format!("{first}; so are the commas in {more} more cells"),
        });
        self.head.notes.iter().cloned().chain(commas).chain(self.dates.clone()).collect()
    }

    /// The next row that is not empty; none at the end.
    ///
    /// # Errors
    /// The input cannot be read.
    pub fn next_row(&mut self) -> io::Result<Option<Row>> {
        loop {
            let Some(line) = self.lines.next_row()? else { return Ok(None) };
            let at = line.number;
            if let Some(fault) = line.fault {
                return Ok(Some(Row { line: at, text: line.text, cells: Vec::new(), faults: vec![fault] }));
            }
            let (text, cells, broken) = self.record(line)?;
            if broken.is_empty() && cells.iter().all(|cell| cell.text.is_empty()) {
                continue;
            }
            let mut row = Row { line: at, text, cells, faults: Vec::new() };
            self.check(&mut row, &broken);
            return Ok(Some(row));
        }
    }

    /// The row that begins with a line: a cell in quotes may go on over several.
    fn record(&mut self, first: Line) -> io::Result<(String, Vec<Cell>, Vec<Fault>)> {
        let (mark, columns) = (self.head.mark, self.head.columns.len());
        let is_open = |faults: &[Fault]| faults.iter().any(|fault| matches!(fault, Fault::Open(_)));
        let (cells, faults) = split(&first.text, mark);
        if !is_open(&faults) {
            return Ok((first.text, cells, faults));
        }
        let mut text = first.text.clone();
        let mut more: Vec<Line> = Vec::new();
        while more.len() < MOST_LINES
            && text.len() < MOST_BYTES
            && let Some(line) = self.lines.next_line()?
        {
            text.push('\n');
            text.push_str(&line.text);
            let is_text = line.fault.is_none();
            more.push(line);
            let (cells, faults) = split(&text, mark);
            match faults.as_slice() {
                _ if !is_text => break,
                [] if cells.len() == columns => return Ok((text, cells, faults)),
                faults if is_open(faults) => {}
                // It closes where the next row opens one of its own.
                _ => break,
            }
        }
        // The quote is a slip: only its own line is lost by it.
        self.lines.put_back(more);
        Ok((first.text, cells, faults))
    }

    /// Reports all that is wrong with a row, and reads its numbers as its table writes them.
    fn check(&mut self, row: &mut Row, broken: &[Fault]) {
        let (mark, columns, line) = (self.head.mark, &self.head.columns, row.line);
        row.faults.extend(report(&row.text, mark, broken));
        // Behind an open quote nobody knows where cells begin.
        let is_open = broken.iter().any(|fault| matches!(fault, Fault::Open(_)));
        if !is_open && let Some(fault) = uneven(row, columns.len(), mark) {
            row.faults.push(fault);
        }
        if row.faults.is_empty() {
            row.cells.truncate(columns.len());
            for (cell, column) in row.cells.iter_mut().zip(columns) {
                match column {
                    Column::Named(_, holds) => {
                        match settle(cell, *holds, mark) {
                            Ok(None) => {}
                            Ok(Some(written)) => {
                                let first =
                                    || format!("line {line}: {} is read as {}", brief(&written), brief(&cell.text));
                                self.commas.get_or_insert_with(|| Commas { first: first(), cells: 0 }).cells += 1;
                            }
                            Err(fault) => row.faults.push(fault),
                        }
                        if self.dates.is_none()
                            && let Some(fractions) = serial(&cell.text).filter(|_| *holds == Holds::Amount)
                        {
                            let was = list(&fractions, "or");
                            self.dates = Some(format!(
                                "line {line}: {} may be a date that a spreadsheet made of {was}",
                                cell.text
                            ));
                        }
                    }
                    Column::Unnamed if !cell.text.is_empty() => {
                        row.faults.push(
                            Diagnostic::of(&codes::table::SHAPE, "this cell has no heading above it")
                                .at(cell.span.clone()),
                        );
                    }
                    Column::Unnamed | Column::Ignored => {}
                }
            }
        }
        row.faults = capped(std::mem::take(&mut row.faults), "this row");
    }
}

/// What is wrong with a row of more or fewer cells than there are columns. A mark too many with nothing behind it is
/// nothing.
fn uneven(row: &Row, columns: usize, mark: char) -> Option<Diagnostic> {
    let (text, cells) = (&row.text, &row.cells);
    if let Some(lacking) = columns.checked_sub(cells.len()).filter(|lacking| *lacking > 0) {
        let message =
            format!("this row has {}, and there are {}", count(cells.len(), "cell"), count(columns, "column"));
        let filled = format!("{text}{}", mark.to_string().repeat(lacking));
        return Some(Diagnostic::of(&codes::table::SHAPE, message).at(text.len()..text.len()).hint(filled));
    }
    let extra = cells.iter().skip(columns).find(|cell| !cell.text.is_empty())?;
    let last = columns.checked_sub(1).and_then(|last| cells.get(last));
    let (fitting, rest) = last.map_or(("", text.as_str()), |last| text.split_at(last.span.end));
    let message = format!("this row has more cells than the {}", count(columns, "column"));
    let found = Diagnostic::of(&codes::table::SHAPE, message).at(extra.span.clone());
    // A number that was typed is not dropped.
    Some(if rest.contains(|letter: char| letter.is_ascii_digit()) { found } else { found.hint(fitting) })
}

impl Row {
    /// Findings about the row with their places in the table called `name`.
    pub fn placed(&self, name: &str, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
        let place = |found: Diagnostic| {
            let span = found.span.clone().unwrap_or(0..self.text.len());
            found.at(span).inside_from(name, self.text.clone(), self.line)
        };
        found.into_iter().map(place).collect()
    }
}
