//! What is not planned, and what would do.

use super::section::count;
use crate::diag::{Diagnostic, codes, list};
use crate::measure::write::{Manner, exactly};
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Lacking, Rack, RowOf, Whole, Why};
use crate::table::field;

/// Where a plan was asked for, and so what would help there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// On the command line, by tables.
    Tables,
    /// At the bench.
    Bench,
}

/// What a plan leaves out, and what of the stock it was made without, as sentences.
pub(super) fn left_out(whole: &Whole) -> Vec<String> {
    let parts: u64 = whole.lacking().filter_map(Lacking::quantity).map(u64::from).sum();
    let rows = |of: RowOf| whole.left_rows.iter().filter(|row| row.of == of).fold(0, |sum, _| sum + 1);
    let unread = |number: u64| format!("{} that cannot be read", count(number, "row"));
    let all = [
        (parts, count(parts, "part")),
        (rows(RowOf::Parts), unread(rows(RowOf::Parts))),
        (rows(RowOf::Work), count(rows(RowOf::Work), "work")),
    ];
    let all: Vec<String> = all.into_iter().filter(|(number, _)| *number > 0).map(|(_, text)| text).collect();
    let stock = u64::try_from(whole.rack.unread).unwrap_or(u64::MAX);
    let wanted = (!all.is_empty()).then(|| format!("this plan leaves out {}", list(&all, "and")));
    let stock =
        (stock > 0).then(|| format!("this plan is made without {} of stock that cannot be read", count(stock, "row")));
    wanted.into_iter().chain(stock).collect()
}

/// A finding for each part that no stock gives, with a row of stock that would do, or a line.
pub fn unplanned(whole: &Whole, asked: Asked, manner: &Manner) -> Vec<Diagnostic> {
    let stocked = |length: &Real, one: Lacking| match asked {
        Asked::Tables => row(length, one, whole, &whole.rack.columns),
        Asked::Bench => format!("stock add {}", row(length, one, whole, &[])),
    };
    let finding = |one: Lacking| {
        // What is wrong with a row that is left out as a whole was reported with the row.
        let length = one.length()?;
        let found = Diagnostic::of(&codes::plan::LEFT_OUT, format!("{}: {}", one.name(), one.because(manner)));
        Some(match one {
            Lacking::Part(_, left) if left.why == Why::UnderKerf => found.hint(match asked {
                Asked::Tables => "--kerf 1/8in",
                Asked::Bench => "shop kerf 1/8in",
            }),
            Lacking::Part(_, left) if left.why == Why::Unchecked => found,
            Lacking::Part(..) | Lacking::Piece(..) | Lacking::Row(_) => found.hint(stocked(length, one)),
        })
    };
    whole.lacking().filter_map(finding).collect()
}

/// A row for a table of stock with these columns that holds the part of this length.
fn row(length: &Real, one: Lacking, whole: &Whole, columns: &[&str]) -> String {
    // A bare number is of the bench unit, and a quotation mark would have to be doubled.
    let bare = |inches: &Real| exactly(&Quantity::inches(inches.clone())).trim_end_matches('"').to_string();
    let (what, length, width) = match one {
        Lacking::Part(cutting, _) => ("stick", stick(length, cutting).clone(), None),
        Lacking::Piece(..) | Lacking::Row(_) => ("sheet", one.width().unwrap_or(length).clone(), Some(length)),
    };
    let material = one.material().cloned().unwrap_or_default();
    let cell = |column: &&str| match *column {
        "what" => what.into(),
        "length" => field(&bare(&length), ','),
        "width" => width.map_or_else(String::new, |width| field(&bare(width), ',')),
        "cost" if whole.rack.pricing().is_money() => "12.50".into(),
        "wood" => field(&material.wood, ','),
        "section" => field(&material.section, ','),
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
