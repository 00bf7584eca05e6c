//! Facts on a page: a table with a column for each field that any of them has, or one fact in a line. Fields that matter
//! less give way first where there is no room.

#![expect(clippy::wildcard_enum_match_arm, reason = "most kinds of value look alike on a page")]

use super::super::Page;
use super::super::columns::NO_BREAK;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use crate::fact::rows::cell;
use crate::fact::{Datum, Head, Instance, Kind, Level};
use crate::measure::Quantity;
use crate::measure::write::Manner;

/// Facts of one shape, each a row on a page.
pub type Facts<'f, 'a> = &'f [Box<dyn Instance<'a> + 'a>];

/// How a table of facts is laid out.
#[derive(Clone, Copy, Debug, Default)]
pub struct Layout {
    /// How far the table is set in.
    pub indent: usize,
    /// Whether each length is given in the other unit too.
    pub both_units: bool,
}

/// A table of facts: a row of headings, then a row for each.
pub fn table<'a>(page: Page, facts: Facts<'_, 'a>, manner: &'a Manner) -> Page {
    table_as(page, facts, manner, Layout::default())
}

/// A fact in a line: the name and the value of each field that has one.
pub fn line<'a>(fact: &dyn Instance<'a>, manner: &'a Manner) -> Text {
    let fields = heads(fact).filter_map(|(at, head)| {
        let value = shown(head, fact.get(at, manner), manner);
        (!value.is_empty()).then_some((head, value))
    });
    fields.enumerate().fold(Text::new(), |line, (at, (head, value))| {
        let gap = if at == 0 { "" } else { "  " };
        let line = line.and(Label::Plain, gap).and(Label::Dim, format!("{}{NO_BREAK}", heading(head)));
        let whole = if matches!(head.kind, Kind::Text) { value } else { value.replace(' ', &NO_BREAK.to_string()) };
        line.and(label(at, head, &whole), whole)
    })
}

/// The fields of a fact that a page has room for, with their places.
fn heads<'a>(fact: &dyn Instance<'a>) -> impl Iterator<Item = (usize, &'static Head)> + use<'a> {
    let shape = fact.shape();
    shape.heads().enumerate().filter(|(_, head)| head.level < Level::Detail && head.kind.shape().is_none())
}

fn heading(head: &Head) -> String {
    head.name.replace('_', " ")
}

/// A column of a table.
struct Column {
    head: &'static Head,
    heading: String,
    cells: Vec<String>,
    /// Whether it repeats the column before it in the other unit.
    is_other: bool,
}

impl Column {
    /// A cell of the column, set in where the column is the first.
    fn cell(&self, at: usize, indent: usize, label: Label, text: &str) -> Cell {
        let text = Text::of(label, format!("{}{text}", " ".repeat(if at == 0 { indent } else { 0 })));
        let cell = match self.head.kind {
            // Words may go over several lines; numbers end in one line.
            Kind::Text => Cell::flowing(text),
            Kind::Word(_) | Kind::Size => Cell::left(text),
            _ => Cell::right(text),
        };
        if self.head.level == Level::Key { cell } else { cell.yielding(1) }
    }

    fn label(&self, at: usize, text: &str) -> Label {
        if self.is_other { Label::Other } else { label(at, self.head, text) }
    }
}

/// The same, laid out in another way.
pub fn table_as<'a>(page: Page, facts: Facts<'_, 'a>, manner: &'a Manner, layout: Layout) -> Page {
    let Some(first) = facts.first() else { return page };
    let mut columns: Vec<Column> = Vec::new();
    for (at, head) in heads(&**first) {
        let column = |heading: String, write: &dyn Fn(Datum<'a>) -> String, is_other| {
            let cells = facts.iter().map(|fact| write(fact.get(at, manner))).collect();
            Column { head, heading, cells, is_other }
        };
        columns.push(column(heading(head), &|datum| shown(head, datum, manner), false));
        if layout.both_units && matches!(head.kind, Kind::Of(_)) {
            columns.push(column(String::new(), &|datum| in_other_unit(datum, manner), true));
        }
    }
    columns.retain(|column| column.cells.iter().any(|cell| !cell.is_empty()));
    let columns: Vec<(usize, Column)> = columns.into_iter().enumerate().collect();
    let page =
        page.row(columns.iter().map(|(at, column)| column.cell(*at, layout.indent, Label::Dim, &column.heading)));
    (0..facts.len()).fold(page, |page, row| {
        page.row(columns.iter().map(|(at, column)| {
            let text = &column.cells[row];
            column.cell(*at, layout.indent, column.label(*at, text), text)
        }))
    })
}

/// How a value is painted.
fn label(at: usize, head: &Head, text: &str) -> Label {
    match (head.kind, text) {
        (Kind::Word(_), "stop") => Label::Stop,
        (Kind::Word(_), "warn") => Label::Warn,
        (Kind::Word(_), "note") => Label::Note,
        (Kind::Word(_), "failed") => Label::Error,
        (Kind::Word(_), "made") => Label::Good,
        _ if at == 0 || head.name == "name" => Label::Name,
        (Kind::Text | Kind::Word(_), _) => Label::Plain,
        _ => Label::Value,
    }
}

/// The value of a field as a page shows it.
fn shown(head: &Head, datum: Datum<'_>, manner: &Manner) -> String {
    match datum {
        Datum::Nothing => head.blank.into(),
        Datum::Quantity(drawn, made) => {
            let quantity = made.map_or(drawn.clone(), |amount| Quantity::new(amount, drawn.kind));
            let is_left_out = head.level == Level::Extra && quantity.amount.is_exact_zero();
            if is_left_out { String::new() } else { manner.short(&quantity) }
        }
        Datum::Size(size) => size.extents().map(|side| manner.short(side)).collect::<Vec<_>>().join(" x "),
        Datum::Cost { amount: 0, .. } if head.level == Level::Extra => String::new(),
        Datum::Cost { amount, money: true } => format!("${}", cell(Datum::Cost { amount, money: true })),
        // Pieces that are counted cost one each, which says nothing.
        Datum::Cost { money: false, .. } => String::new(),
        Datum::Truth(truth) => if truth { "yes" } else { "" }.into(),
        other => cell(other),
    }
}

/// A length in the unit that the bench does not use.
fn in_other_unit(datum: Datum<'_>, manner: &Manner) -> String {
    if let Datum::Quantity(length, _) = datum { manner.other(&length) } else { String::new() }
}
