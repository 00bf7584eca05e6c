//! What is not planned, and what would do.

use super::section::count;
use crate::diag::{Diagnostic, codes};
use crate::measure::write::Manner;
use crate::plan::{Item, Lacking, Whole, Why};

/// Where a plan was asked for, and so what would help there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// On the command line, by tables.
    Tables,
    /// At the bench.
    Bench,
}

/// How many parts a plan leaves out, as a sentence; none where it leaves out none.
pub(super) fn left_out(whole: &Whole) -> Option<String> {
    let parts: u64 = whole.lacking().filter_map(Lacking::quantity).map(u64::from).sum();
    let rows = u64::try_from(whole.unread.len()).unwrap_or(u64::MAX);
    let all = [(parts, "part"), (rows, "row")].into_iter().filter(|(number, _)| *number > 0);
    let all: Vec<String> = all.map(|(number, word)| count(number, word)).collect();
    let unread = if rows > 0 { " that cannot be read" } else { "" };
    (!all.is_empty()).then(|| format!("this plan leaves out {}{unread}", all.join(" and ")))
}

/// A finding for each part that no stock gives, with a row of stock that would do, or a line.
pub fn unplanned(whole: &Whole, asked: Asked, manner: &Manner) -> Vec<Diagnostic> {
    let stocked = |item: &Item| match asked {
        Asked::Tables => item.row(&whole.rack.columns),
        Asked::Bench => format!("stock add {}", item.row(&[])),
    };
    let finding = |one: Lacking| {
        // What is wrong with a row that cannot be read was found where it was read.
        let remedy = one.remedy(&whole.rack)?;
        let found = Diagnostic::of(&codes::plan::LEFT_OUT, format!("{}: {}", one.name(), one.because(manner)));
        Some(match one {
            Lacking::Part(_, left) if left.why == Why::UnderKerf => found.hint(match asked {
                Asked::Tables => "--kerf 1/8in",
                Asked::Bench => "shop kerf 1/8in",
            }),
            Lacking::Part(_, left) if left.why == Why::Unchecked => found,
            Lacking::Part(..) | Lacking::Piece(..) | Lacking::Row(_) => found.hint(stocked(&remedy)),
        })
    };
    whole.lacking().filter_map(finding).collect()
}
