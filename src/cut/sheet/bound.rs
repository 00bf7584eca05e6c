//! Needs that follow from the pieces' sizes.

use super::fullest::Table;
use super::measure::Measure;
use super::need::Need;
use super::problem::{Problem, Size};
use crate::cut::limits::Meter;

/// The strongest needs to keep.
const KEPT: usize = 12;
/// Steps to spend on finding needs, roughly.
const STEPS: usize = 30_000_000;

/// The strongest needs: by area, by other measures of it, and by pieces of which no two go on one sheet.
pub(super) fn by_size(problem: &Problem, wanted: &[u32], meter: &Meter) -> Vec<Need> {
    let widest = problem.blanks.iter().map(|blank| blank.size.width).max().unwrap_or(1);
    let highest = problem.blanks.iter().map(|blank| blank.size.height).max().unwrap_or(1);
    let ways: Vec<Vec<Size>> = problem
        .items
        .iter()
        .map(|item| {
            let fits = |way: &Size| problem.blanks.iter().any(|blank| way.is_in(blank.size));
            item.ways().filter(fits).collect()
        })
        .collect();
    let sides = |side: fn(Size) -> u64| ways.iter().flatten().map(|way| side(*way)).collect::<Vec<_>>();
    let most = (STEPS / ways.len().max(1)).isqrt();
    let across = Measure::all(&sides(|size| size.width), widest, most);
    let up = Measure::all(&sides(|size| size.height), highest, most);
    let mut strongest = Strongest { problem, wanted, kept: Vec::new() };
    for own in &across {
        let widths: Vec<Vec<u64>> =
            ways.iter().map(|ways| ways.iter().map(|way| own.of(way.width, widest)).collect()).collect();
        for other in &up {
            meter.count(ways.len());
            let each = widths.iter().zip(&ways);
            let worth = each.map(|(widths, ways)| {
                let each = widths.iter().zip(ways);
                let areas = each.map(|(width, way)| u128::from(*width) * u128::from(other.of(way.height, highest)));
                areas.min().unwrap_or(0)
            });
            let give = |size: Size| u128::from(own.of(size.width, widest)) * u128::from(other.of(size.height, highest));
            let gives = problem.blanks.iter().map(|blank| give(blank.size)).collect();
            strongest.offer(Need { worth: worth.collect(), gives });
        }
        if meter.is_over() {
            break;
        }
    }
    strongest.offer(alone(problem, wanted));
    strongest.kept.into_iter().map(|(_, need)| need).collect()
}

/// Keeps the strongest needs.
struct Strongest<'a> {
    problem: &'a Problem,
    wanted: &'a [u32],
    /// Needs with their lower bounds, in millionths of the cost.
    kept: Vec<(u128, Need)>,
}

impl Strongest<'_> {
    fn offer(&mut self, need: Need) {
        let strength = self.strength(&need);
        if self.kept.len() == KEPT && self.kept.last().is_some_and(|last| last.0 >= strength) {
            return;
        }
        if self.kept.iter().any(|kept| kept.0 == strength && kept.1.worth == need.worth) {
            return;
        }
        let at = self.kept.partition_point(|kept| kept.0 >= strength);
        self.kept.insert(at, (strength, need));
        self.kept.truncate(KEPT);
    }

    /// The lower bound of the cost, in millionths, with unlimited sheets.
    fn strength(&self, need: &Need) -> u128 {
        let total = need.total(self.wanted);
        let sheets = self.problem.blanks.iter().zip(&need.gives).filter(|(_, gives)| **gives > 0);
        let cost = |(blank, gives): (&super::problem::Blank, &u128)| {
            // Totals stay far from overflow; a millionth is fine enough to rank needs.
            (total * 1000 / gives).saturating_mul(1000 * u128::from(blank.cost))
        };
        sheets.map(cost).min().unwrap_or(0)
    }
}

/// The need by area, given the fullest sheet of these pieces; none if that takes too long.
pub(super) fn of_fullest(problem: &Problem, meter: &Meter) -> Option<Need> {
    let worth: Vec<u64> = problem.items.iter().map(|item| item.size.area()).collect();
    let fullest = |size: Size| Table::new(problem, size, &worth, meter).map(|table| u128::from(table.worth()));
    let gives: Option<Vec<u128>> = problem.blanks.iter().map(|blank| fullest(blank.size)).collect();
    Some(Need { worth: worth.iter().map(|worth| u128::from(*worth)).collect(), gives: gives? })
}

/// The need of pieces of which no two share a sheet, the greatest first.
fn alone(problem: &Problem, wanted: &[u32]) -> Need {
    let together = |one: usize, other: usize| {
        let (one, other) = (&problem.items[one], &problem.items[other]);
        let row = |left: Size, right: Size| {
            let beside = Size { width: left.width + right.width, height: left.height.max(right.height) };
            let above = Size { width: left.width.max(right.width), height: left.height + right.height };
            problem.blanks.iter().any(|blank| beside.is_in(blank.size) || above.is_in(blank.size))
        };
        one.ways().any(|left| other.ways().any(|right| row(left, right)))
    };
    let mut order: Vec<usize> = (0..problem.items.len()).filter(|item| wanted[*item] > 0).collect();
    order.sort_by_key(|item| std::cmp::Reverse((problem.items[*item].size.area(), *item)));
    let mut chosen: Vec<usize> = Vec::new();
    for item in order {
        if !together(item, item) && chosen.iter().all(|other| !together(item, *other)) {
            chosen.push(item);
        }
    }
    let worth = (0..problem.items.len()).map(|item| u128::from(chosen.contains(&item))).collect();
    Need { worth, gives: vec![1; problem.blanks.len()] }
}
