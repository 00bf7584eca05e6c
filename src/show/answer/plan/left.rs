//! What is not planned, and what would do.

use crate::diag::{Diagnostic, codes};
use crate::measure::write::{Manner, exactly};
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Left, Rack, Whole, Why, because};

/// Where a plan was asked for, and so what would help there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// On the command line, by tables.
    Tables,
    /// At the bench.
    Bench,
}

/// A finding for each part that is not planned, with a row of stock that would do, or a line.
pub fn unplanned(whole: &Whole, asked: Asked, manner: &Manner) -> Vec<Diagnostic> {
    let cutting = &whole.sticks;
    let finding = |left: &Left| {
        let part = &cutting.order.parts[left.part];
        let found =
            Diagnostic::of(&codes::plan::LEFT_OUT, format!("{}: {}", part.name, because(cutting, left, manner)));
        match (&left.why, asked) {
            (Why::NoStock | Why::TooLong(_) | Why::UsedUp, Asked::Tables) => {
                found.hint(row(cutting, left, &whole.rack.columns))
            }
            (Why::NoStock | Why::TooLong(_) | Why::UsedUp, Asked::Bench) => {
                found.hint(format!("stock add {}", row(cutting, left, &[])))
            }
            (Why::UnderKerf, Asked::Tables) => found.hint("--kerf 1/8in"),
            (Why::UnderKerf, Asked::Bench) => found.hint("shop kerf 1/8in"),
            (Why::Unchecked, _) => found,
        }
    };
    cutting.left.iter().map(finding).collect()
}

/// A row for a table of stock with these columns that holds the part: its length and both trims.
fn row(cutting: &Cutting, left: &Left, columns: &[&str]) -> String {
    let part = &cutting.order.parts[left.part];
    let need = part.length.clone() + cutting.saw.trim.clone() * Real::whole(2);
    let enough = cutting.order.stock.iter().map(|held| &held.length).filter(|length| **length >= need);
    let shortest = enough.fold(None, |best: Option<&Real>, one| best.filter(|best| *best <= one).or(Some(one)));
    // A bare number is of the bench unit, and a quotation mark would have to be doubled.
    let bare = exactly(&Quantity::inches(shortest.unwrap_or(&need).clone()));
    let cell = |column: &&str| match *column {
        "what" => "stick".into(),
        "length" => quoted(bare.trim_end_matches('"')),
        "cost" if cutting.is_money() => "12.50".into(),
        "wood" => quoted(&part.material.wood),
        "section" => quoted(&part.material.section),
        _ => String::new(),
    };
    let all: Vec<&str> = Rack::HEAD.split(',').collect();
    let columns = if columns.is_empty() { &all } else { columns };
    columns.iter().map(cell).collect::<Vec<_>>().join(",")
}

/// A cell as comma-separated text takes it.
fn quoted(text: &str) -> String {
    if text.contains(['"', ',', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.to_string() }
}
