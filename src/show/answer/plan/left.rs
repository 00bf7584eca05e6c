//! What is not planned, and what would do.

use crate::diag::count;
use crate::diag::{Diagnostic, codes, list};
use crate::measure::write::Manner;
use crate::plan::{Item, Lacking, RowOf, Whole, Why};

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
    let stocked = |item: &Item| match asked {
        Asked::Tables => item.row(&whole.rack.columns),
        Asked::Bench => format!("stock add {}", item.row(&[])),
    };
    let finding = |one: Lacking| {
        // What is wrong with a row that is left out as a whole was reported with the row.
        let remedy = one.remedy(&whole.rack)?;
        let found = Diagnostic::of(&codes::plan::LEFT_OUT, format!("{}: {}", one.name(), one.because(manner)));
        Some(match one {
            // No stock mends these: such a part is shorter than the saw takes away.
            Lacking::Part(_, left) if matches!(left.why, Why::UnderKerf | Why::Unchecked) => found,
            Lacking::Part(..) | Lacking::Piece(..) | Lacking::Row(_) => found.hint(stocked(&remedy)),
        })
    };
    whole.lacking().filter_map(finding).collect()
}
