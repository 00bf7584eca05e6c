//! A stick drawn to scale in one line.

use super::super::super::columns;
use super::super::super::text::{Label, Text};
use crate::measure::Real;
use crate::plan::{Cutting, Stick};

/// What a kept rest is filled with, and what waste is.
const KEPT: &str = ".";
const WASTE: &str = "/";
/// A cut, or an end.
const CUT: &str = "|";

/// The stick in a line of at most `width` columns, where the `longest` stick of the plan, in inches, fills the line.
///
/// Cut marks stand where the cuts are, names between them as far as they fit; a name that does not fit ends in `…`.
pub(super) fn bar(cutting: &Cutting, stick: &Stick, longest: f64, width: usize) -> Text {
    let room = f64::from(u32::try_from(width.saturating_sub(1).max(8)).unwrap_or(u32::MAX));
    let column = |inches: &Real| nearest(inches.to_f64() * room / longest);
    let held = &cutting.order.stock[stick.stock];
    let end = column(&held.length).max(2);
    let mut line = Text::new();
    let trim = column(&cutting.saw.trim);
    fill(&mut line, trim, WASTE);
    for piece in &stick.pieces {
        let part = &cutting.order.parts[piece.part];
        let from = column(&(cutting.saw.trim.clone() + piece.from.clone()));
        // A kerf is hardly ever a column wide, and a column lost in rounding does not count.
        if from > line.width() + 1 {
            fill(&mut line, from, WASTE);
        }
        line.push(Label::Mark, CUT);
        let to = column(&(cutting.saw.trim.clone() + piece.to.clone())).min(end);
        let room = to.saturating_sub(line.width());
        let name = shortened(&part.name, room);
        line.push(Label::Name, &name);
        line.pad(to.saturating_sub(line.width()));
    }
    if line.width() < end {
        line.push(Label::Mark, CUT);
    }
    if stick.offcut.is_positive() {
        let to = line.width() + column(&stick.offcut);
        fill(&mut line, to.min(end), KEPT);
    }
    fill(&mut line, end, WASTE);
    line.push(Label::Mark, CUT);
    line
}

/// The nearest whole column: a drawing, no length.
fn nearest(columns: f64) -> usize {
    num_traits::ToPrimitive::to_usize(&columns.round()).unwrap_or(0)
}

/// Fills the line up to a column.
fn fill(line: &mut Text, to: usize, with: &str) {
    let count = to.saturating_sub(line.width());
    line.push(Label::Dim, &with.repeat(count));
}

/// A name in at most so many columns, with a mark where it is cut off.
fn shortened(name: &str, room: usize) -> String {
    if columns::width(name) <= room {
        return name.to_string();
    }
    if room == 0 {
        return String::new();
    }
    let mut kept = String::new();
    let mut used = 0;
    for (cluster, width) in columns::clusters(name) {
        if used + width + 1 > room {
            break;
        }
        used += width;
        kept.push_str(cluster);
    }
    kept + "…"
}
