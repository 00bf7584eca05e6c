//! Facts as rows of a table: a row of names, then a row for each fact. Each entry of a list inside a fact has a row of its
//! own, behind the fields of the fact itself. A single fact inside a fact fits in no cell and is left out.

use std::iter::Peekable;

use super::datum::{Datum, Items};
use super::kind::Kind;
use super::shape::{Head, Shape};
use super::table::{Fact, Instance, fact};
use crate::diag::Says;
use crate::measure::write::{Manner, exactly};
use crate::measure::{Kind as Measure, Real};

/// The names of the columns. A field of a listed fact takes the name of its shape before its own where the outer fact has
/// a field of that name too.
pub fn names(shape: &dyn Shape) -> Vec<String> {
    let own: Vec<&str> = shape.heads().filter(|head| !is_table(&head.kind)).map(|head| head.name).collect();
    let each = |head: &'static Head| match head.kind.shape() {
        Some(inner) if head.is_spread() => names(inner),
        _ if is_single(&head.kind) => Vec::new(),
        Some(inner) if is_table(&head.kind) => names(inner)
            .into_iter()
            .map(|name| if own.contains(&name.as_str()) { format!("{}.{name}", inner.name()) } else { name })
            .collect(),
        _ => vec![head.name.to_string()],
    };
    shape.heads().flat_map(each).collect()
}

/// Whether it is a list of facts, each of which has a row.
fn is_table(kind: &Kind) -> bool {
    matches!(kind, Kind::Each(Kind::One(_)))
}

/// Whether it is one fact, which no cell holds.
fn is_single(kind: &Kind) -> bool {
    matches!(kind, Kind::One(_))
}

/// The whole table of some facts.
pub fn table<'a, F: Fact>(
    facts: impl Iterator<Item = F::Of<'a>>,
    manner: &'a Manner,
) -> impl Iterator<Item = Vec<String>> {
    std::iter::once(names(F::SHAPE)).chain(facts.flat_map(move |of| rows(&*fact::<F>(of), manner)))
}

/// The whole table of some facts as text.
pub fn csv<'a, F: Fact>(facts: impl Iterator<Item = F::Of<'a>>, manner: &'a Manner) -> String {
    crate::table::table(self::table::<F>(facts, manner))
}

/// One table of facts of several shapes: the columns of all shapes that have a fact, each name once, then their rows.
pub fn union<'a>(
    lists: Vec<(&'static dyn Shape, Items<'a, Datum<'a>>)>,
    manner: &'a Manner,
) -> impl Iterator<Item = Vec<String>> {
    let mut columns: Vec<String> = Vec::new();
    let mut all: Vec<(Vec<String>, Peekable<Items<'a, Datum<'a>>>)> = Vec::new();
    for (shape, facts) in lists {
        let mut facts = facts.peekable();
        if facts.peek().is_some() {
            let own = names(shape);
            columns.extend(own.iter().filter(|name| !columns.contains(name)).cloned().collect::<Vec<_>>());
            all.push((own, facts));
        }
    }
    let head = columns.clone();
    let rows = all.into_iter().flat_map(move |(own, facts)| {
        let place = |name: &String| own.iter().position(|other| other == name);
        let places: Vec<Option<usize>> = columns.iter().map(place).collect();
        let wide = move |row: Vec<String>| {
            places.iter().map(|at| at.map_or_else(String::new, |at| row[at].clone())).collect::<Vec<String>>()
        };
        facts
            .flat_map(move |datum| if let Datum::Fact(fact) = datum { self::rows(&*fact, manner) } else { Vec::new() })
            .map(wide)
    });
    std::iter::once(head).chain(rows)
}

/// The rows of a fact.
pub fn rows<'a>(fact: &dyn Instance<'a>, manner: &'a Manner) -> Vec<Vec<String>> {
    let shape = fact.shape();
    let mut rows: Vec<Vec<String>> = vec![Vec::new()];
    let joined = |rows: &[Vec<String>], inner: &[Vec<String>]| -> Vec<Vec<String>> {
        rows.iter().flat_map(|row| inner.iter().map(|more| row.iter().chain(more).cloned().collect())).collect()
    };
    for (at, head) in shape.heads().enumerate() {
        match (fact.get(at, manner), head.kind) {
            (Datum::Fact(fact), _) if head.is_spread() => rows = joined(&rows, &self::rows(&*fact, manner)),
            (Datum::Each(each), kind) if is_table(&kind) => {
                let inner: Vec<Vec<String>> = each
                    .filter_map(|one| if let Datum::Fact(fact) = one { Some(self::rows(&*fact, manner)) } else { None })
                    .flatten()
                    .collect();
                rows = joined(&rows, &inner);
            }
            (_, kind) if is_single(&kind) => {}
            (datum, _) => {
                let cell = cell(datum);
                rows.iter_mut().for_each(|row| row.push(cell.clone()));
            }
        }
    }
    rows
}

/// A value as the text of a cell, exact, so that it reads back as the same.
pub fn cell(datum: Datum<'_>) -> String {
    match datum {
        Datum::Nothing | Datum::Missing { .. } | Datum::Design | Datum::Fact(_) => String::new(),
        Datum::Truth(truth) => truth.to_string(),
        Datum::Count(count) => count.to_string(),
        Datum::Seconds(seconds) => seconds.to_string(),
        Datum::Text(text) => text.into_owned(),
        Datum::Message(says) => spoken(&says),
        // A spreadsheet adds up plain numbers.
        Datum::Quantity(quantity, _) if quantity.kind == Measure::MONEY => quantity.amount.to_fixed(2),
        Datum::Quantity(quantity, _) => exactly(&quantity),
        Datum::Share(share) => format!("{}%", (share.amount * Real::whole(100)).to_text()),
        Datum::Size(size) => {
            let extents = [Some(&size.width), Some(&size.height), size.depth.as_ref()];
            extents.into_iter().flatten().map(exactly).collect::<Vec<_>>().join(" x ")
        }
        Datum::Cost { amount, money: true } => format!("{}.{:02}", amount / 100, amount % 100),
        Datum::Cost { amount, money: false } => amount.to_string(),
        Datum::Each(each) => each.map(cell).collect::<Vec<_>>().join(", "),
        Datum::Named(each) => {
            each.map(|(name, value)| format!("{name} {}", cell(value))).collect::<Vec<_>>().join(", ")
        }
    }
}

/// The text of a message.
#[expect(clippy::disallowed_methods, reason = "a cell, an object and a map show it")]
pub fn spoken(says: &Says) -> String {
    says.text()
}
