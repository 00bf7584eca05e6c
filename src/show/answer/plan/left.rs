//! What is not planned, and what would do.

use crate::diag::Diagnostic;
use crate::measure::write::{Manner, exactly};
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Left, Why, because};

/// Where a plan was asked for, and so what would help there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// On the command line, by tables.
    Tables,
    /// At the bench.
    Bench,
}

/// A finding for each part that is not planned, with a row of stock that would do, or a line.
pub fn unplanned(cutting: &Cutting, asked: Asked, manner: &Manner) -> Vec<Diagnostic> {
    let finding = |left: &Left| {
        let part = &cutting.order.parts[left.part];
        let found = Diagnostic::new(format!("{}: {}", part.name, because(cutting, left, manner)));
        match (&left.why, asked) {
            (Why::NoStock | Why::TooLong(_) | Why::UsedUp, Asked::Tables) => found.hint(row(cutting, left)),
            (Why::NoStock | Why::TooLong(_) | Why::UsedUp, Asked::Bench) => found.hint(line(&row(cutting, left))),
            (Why::UnderKerf, Asked::Tables) => found.hint("--kerf 1/8in"),
            (Why::UnderKerf, Asked::Bench) => found.hint("shop kerf 1/8in"),
            (Why::Unchecked, _) => found,
        }
    };
    cutting.left.iter().map(finding).collect()
}

/// A row of the table of sticks as a line that adds it to the rack: `96,,12.50,cherry,…`.
fn line(row: &str) -> String {
    let (length, rest) = row.split_once(',').unwrap_or((row, ""));
    format!("stock add stick,{length},,{rest}")
}

/// A row for the table of stock that holds the part: its length and both trims.
fn row(cutting: &Cutting, left: &Left) -> String {
    let part = &cutting.order.parts[left.part];
    let need = part.length.clone() + cutting.saw.trim.clone() * Real::whole(2);
    let enough = cutting.order.stock.iter().map(|held| &held.length).filter(|length| **length >= need);
    let shortest = enough.fold(None, |best: Option<&Real>, one| best.filter(|best| *best <= one).or(Some(one)));
    // A bare number is of the bench unit, and a quotation mark would have to be doubled.
    let bare = exactly(&Quantity::inches(shortest.unwrap_or(&need).clone()));
    let mut row = vec![quoted(bare.trim_end_matches('"')), String::new()];
    row.push(if cutting.is_money() { "12.50".into() } else { String::new() });
    let material = &part.material;
    if cutting.order.by_wood {
        row.push(quoted(&material.wood));
    }
    if cutting.order.by_section {
        row.push(quoted(&material.section));
    }
    row.join(",")
}

/// A cell as comma-separated text takes it.
fn quoted(text: &str) -> String {
    if text.contains(['"', ',', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.to_string() }
}
