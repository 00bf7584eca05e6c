//! What is not planned, and what would do.

use crate::diag::{Diagnostic, codes};
use crate::measure::write::{Manner, exactly};
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Lacking, Rack, Whole, Why};
use crate::table::field;

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
    let stocked = |one: Lacking| match asked {
        Asked::Tables => row(one, whole, &whole.rack.columns),
        Asked::Bench => format!("stock add {}", row(one, whole, &[])),
    };
    let finding = |one: Lacking| {
        let found = Diagnostic::of(&codes::plan::LEFT_OUT, format!("{}: {}", one.name(), one.because(manner)));
        match one {
            Lacking::Part(_, left) if left.why == Why::UnderKerf => found.hint(match asked {
                Asked::Tables => "--kerf 1/8in",
                Asked::Bench => "shop kerf 1/8in",
            }),
            Lacking::Part(_, left) if left.why == Why::Unchecked => found,
            Lacking::Part(..) | Lacking::Piece(..) => found.hint(stocked(one)),
        }
    };
    whole.lacking().map(finding).collect()
}

/// A row for a table of stock with these columns that holds the part.
fn row(one: Lacking, whole: &Whole, columns: &[&str]) -> String {
    // A bare number is of the bench unit, and a quotation mark would have to be doubled.
    let bare = |inches: &Real| exactly(&Quantity::inches(inches.clone())).trim_end_matches('"').to_string();
    let (what, length, width) = match one {
        Lacking::Part(cutting, _) => ("stick", stick(one.length(), cutting).clone(), None),
        Lacking::Piece(..) => ("sheet", one.width().unwrap_or(one.length()).clone(), Some(one.length())),
    };
    let cell = |column: &&str| match *column {
        "what" => what.into(),
        "length" => field(&bare(&length), ','),
        "width" => width.map_or_else(String::new, |width| field(&bare(width), ',')),
        "cost" if whole.rack.pricing().is_money() => "12.50".into(),
        "wood" => field(&one.material().wood, ','),
        "section" => field(&one.material().section, ','),
        _ => String::new(),
    };
    let all: Vec<&str> = Rack::HEAD.split(',').collect();
    let columns = if columns.is_empty() { &all } else { columns };
    columns.iter().map(cell).collect::<Vec<_>>().join(",")
}

/// The shortest stick in stock that holds the part, or else one of its length with both trims.
fn stick(length: &Real, cutting: &Cutting) -> Real {
    let need = length.clone() + cutting.saw.trim.clone() * Real::whole(2);
    let enough = cutting.order.stock.iter().map(|held| &held.length).filter(|length| **length >= need);
    let shortest = enough.fold(None, |best: Option<&Real>, one| best.filter(|best| *best <= one).or(Some(one)));
    shortest.cloned().unwrap_or(need)
}
