//! Facts as rows of a page: a column for each field that any of them has, the least important giving way first.

#![expect(clippy::wildcard_enum_match_arm, reason = "most kinds of value look alike on a page")]

use super::super::Page;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use crate::fact::rows::cell;
use crate::fact::{Datum, Head, Instance, Kind, Level};
use crate::measure::write::Manner;

/// A table of facts of one shape: a row of headings, then a row for each.
pub fn table<'a>(page: Page, facts: &[Box<dyn Instance<'a> + 'a>], manner: &'a Manner) -> Page {
    let Some(shape) = facts.first().map(|fact| fact.shape()) else { return page };
    let columns: Vec<(&'static Head, Vec<String>)> = shape
        .heads()
        .enumerate()
        .filter(|(_, head)| head.level < Level::Detail && head.kind.shape().is_none())
        .map(|(at, head)| (head, facts.iter().map(|fact| shown(fact.get(at, manner), manner)).collect()))
        .filter(|(_, cells): &(_, Vec<String>)| cells.iter().any(|cell| !cell.is_empty()))
        .collect();
    let head = columns.iter().enumerate().map(|(at, (head, _))| {
        let word = format!("{}{}", if at == 0 { "  " } else { "" }, head.name.replace('_', " "));
        placed(head, Text::of(Label::Dim, word))
    });
    let page = page.row(head);
    (0..facts.len()).fold(page, |page, row| {
        page.row(columns.iter().enumerate().map(|(at, (head, cells))| {
            placed(
                head,
                Text::of(label(at, head, &cells[row]), format!("{}{}", if at == 0 { "  " } else { "" }, cells[row])),
            )
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

/// Numbers end in one line, and what is not a key gives way where there is no room.
fn placed(head: &Head, text: Text) -> Cell {
    let cell = match head.kind {
        Kind::Text | Kind::Word(_) => Cell::left(text),
        _ => Cell::right(text),
    };
    if head.level == Level::Key { cell } else { cell.yielding(1) }
}

/// A value as a page shows it.
pub fn shown(datum: Datum<'_>, manner: &Manner) -> String {
    match datum {
        Datum::Quantity(drawn, made) => {
            let made = made.map(|amount| crate::measure::Quantity::new(amount, drawn.kind));
            manner.short(made.as_ref().unwrap_or(&drawn))
        }
        Datum::Cost { amount, money: true } => format!("${}", cell(Datum::Cost { amount, money: true })),
        Datum::Truth(truth) => if truth { "yes" } else { "" }.into(),
        other => cell(other),
    }
}
