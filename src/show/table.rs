//! Rows with common columns, folded if the terminal is too narrow for all columns.

use std::borrow::Cow;
use std::slice;

use super::text::{Label, Text};
use super::wrap::wrap;

/// Blanks between two columns.
const GAP: usize = 2;
/// How far a row's continuation is set in.
const INDENT: usize = 4;
/// The least room for running text beside other columns.
const LEAST_FLOW: usize = 20;

/// Which edge of its column a cell is aligned to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// One cell of a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    text: Text,
    align: Align,
    yields: u8,
    flows: bool,
}

impl Cell {
    /// Words, at the left edge of the column.
    pub fn left(text: impl Into<Text>) -> Self {
        Self { text: text.into(), align: Align::Left, yields: 0, flows: false }
    }

    /// Figures, at the right edge of the column.
    pub fn right(text: impl Into<Text>) -> Self {
        Self { align: Align::Right, ..Self::left(text) }
    }

    /// Words of one label, at the left edge of the column.
    pub fn of(label: Label, text: impl AsRef<str>) -> Self {
        Self::left(Text::of(label, text))
    }

    /// Running text: it is broken into lines where the other columns leave it too little room for one.
    pub fn flowing(text: impl Into<Text>) -> Self {
        Self { flows: true, ..Self::left(text) }
    }

    /// How soon the column gives up its place in a narrow terminal: the greater, the sooner. Of equals the rightmost
    /// goes first; the first column never goes.
    #[must_use]
    pub fn yielding(mut self, rank: u8) -> Self {
        self.yields = rank;
        self
    }
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Row {
    Cells(Vec<Cell>),
    Line(Text),
}

/// Rows under one another. A column that does not fit goes, in every row alike, onto an indented line below.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    rows: Vec<Row>,
}

/// The columns of one line of each row, and how far that line is set in.
struct Level {
    indent: usize,
    columns: Vec<Column>,
}

struct Column {
    index: usize,
    width: usize,
}

impl Table {
    /// No rows yet.
    pub const fn new() -> Self {
        Self { rows: Vec::new() }
    }

    /// The same with one more row.
    #[must_use]
    pub fn row(mut self, cells: impl IntoIterator<Item = Cell>) -> Self {
        self.push(cells);
        self
    }

    /// Puts a row below the others.
    pub fn push(&mut self, cells: impl IntoIterator<Item = Cell>) {
        self.rows.push(Row::Cells(cells.into_iter().collect()));
    }

    /// The same with a line across all columns, such as a part's heading.
    #[must_use]
    pub fn line(mut self, text: impl Into<Text>) -> Self {
        self.rows.push(Row::Line(text.into()));
        self
    }

    /// The lines of the table in a terminal of `width` columns.
    pub fn lines(&self, width: usize) -> Vec<Text> {
        let levels = self.measured().levels(width);
        let mut lines = Vec::new();
        for row in &self.rows {
            match row {
                Row::Line(text) => lines.extend(wrap(text, width, INDENT)),
                Row::Cells(cells) => levels.iter().for_each(|level| lines.extend(level.lines(cells))),
            }
        }
        lines
    }

    fn cells(&self) -> impl Iterator<Item = &[Cell]> {
        self.rows.iter().filter_map(|row| match row {
            Row::Cells(cells) => Some(cells.as_slice()),
            Row::Line(_) => None,
        })
    }

    /// What each column takes, looked up once for all its rows.
    fn measured(&self) -> Measured {
        let count = self.cells().map(<[Cell]>::len).max().unwrap_or(0);
        let mut columns = vec![Width::default(); count];
        for row in self.cells() {
            for (column, cell) in columns.iter_mut().zip(row) {
                column.natural = column.natural.max(cell.text.width());
                column.yields = column.yields.max(cell.yields);
                column.flows |= cell.flows;
            }
        }
        Measured(columns)
    }
}

/// How wide a column is by itself, how soon it goes, and whether it is running text.
#[derive(Clone, Copy, Default)]
struct Width {
    natural: usize,
    yields: u8,
    flows: bool,
}

/// The columns of a table, measured.
struct Measured(Vec<Width>);

impl Measured {
    fn of(&self, index: usize) -> Width {
        self.0.get(index).copied().unwrap_or_default()
    }

    /// Every column that has anything in it, on the line of the row where it fits.
    fn levels(&self, width: usize) -> Vec<Level> {
        let mut left: Vec<usize> = (0..self.0.len()).filter(|&index| self.of(index).natural > 0).collect();
        let mut levels = Vec::new();
        while !left.is_empty() {
            let indent = if levels.is_empty() { 0 } else { INDENT };
            let room = width.saturating_sub(indent).max(1);
            let moved = self.give_way(&mut left, room);
            levels.push(Level { indent, columns: self.columns(&left, room) });
            left = moved;
        }
        levels
    }

    /// Takes columns off a line until the rest fit, and gives those taken, in their order.
    fn give_way(&self, columns: &mut Vec<usize>, room: usize) -> Vec<usize> {
        let mut moved = Vec::new();
        while columns.len() > 1 && self.need(columns) > room {
            let last = columns.iter().enumerate().skip(1).max_by_key(|&(at, &index)| (self.of(index).yields, at));
            let Some((at, _)) = last else { break };
            moved.push(columns.remove(at));
        }
        moved.sort_unstable();
        moved
    }

    /// The columns that the line takes at the least.
    fn need(&self, columns: &[usize]) -> usize {
        let gaps = GAP * columns.len().saturating_sub(1);
        gaps + columns.iter().map(|&index| self.least(index)).sum::<usize>()
    }

    /// The columns that one column takes at the least.
    fn least(&self, index: usize) -> usize {
        let Width { natural, flows, .. } = self.of(index);
        if flows { natural.min(LEAST_FLOW) } else { natural }
    }

    /// The widths on a line: as wide as the widest cell; running text gives way to the columns behind it.
    fn columns(&self, columns: &[usize], room: usize) -> Vec<Column> {
        let mut used = 0;
        let column = |(at, &index): (usize, &usize)| {
            let behind = columns[at + 1..].iter().map(|&index| self.least(index) + GAP).sum::<usize>();
            let kept = if self.of(index).flows { behind } else { 0 };
            let width = self.of(index).natural.min(room.saturating_sub(used + kept).max(1));
            used += width + GAP;
            Column { index, width }
        };
        columns.iter().enumerate().map(column).collect()
    }
}

/// A cell in its column, broken into lines.
type Broken<'a> = (&'a Column, Option<&'a Cell>, Cow<'a, [Text]>);

impl Level {
    /// The lines that the row's cells of this level take: one, more where a cell is broken, none where all are empty.
    fn lines(&self, cells: &[Cell]) -> Vec<Text> {
        let cells: Vec<Broken<'_>> = self
            .columns
            .iter()
            .map(|column| {
                let cell = cells.get(column.index).filter(|cell| !cell.text.is_empty());
                let lines = match cell {
                    None => Cow::Owned(Vec::new()),
                    Some(cell) if cell.text.width() <= column.width => Cow::Borrowed(slice::from_ref(&cell.text)),
                    Some(cell) => Cow::Owned(wrap(&cell.text, column.width, 0)),
                };
                (column, cell, lines)
            })
            .collect();
        let height = cells.iter().map(|(_, _, lines)| lines.len()).max().unwrap_or(0);
        (0..height)
            .map(|at| {
                let mut line = Text::new();
                let mut edge = self.indent;
                for (column, cell, lines) in &cells {
                    if let (Some(cell), Some(text)) = (cell, lines.get(at)) {
                        let free = column.width.saturating_sub(text.width());
                        let before = edge + if cell.align == Align::Right { free } else { 0 };
                        line.pad(before.saturating_sub(line.width()));
                        line.append(text);
                    }
                    edge += column.width + GAP;
                }
                line
            })
            .collect()
    }
}

#[cfg(test)]
mod tests;
