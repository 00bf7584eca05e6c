//! The most that the pieces of one sheet are worth, each cut any number of times.
//!
//! A cut is only worth making where a row of pieces ends: with `P` the sums of widths and `Q` those of heights, the worth of
//! a rectangle is the best of a piece alone, `F(p, q) = F(p′, q) + F(p − p′, q)` and the same across, rests taken down to
//! the next sum. Sources: Gilmore and Gomory, The theory and computation of knapsack functions, Operations Research 14
//! (1966); Beasley, Algorithms for unconstrained two-dimensional guillotine cutting, Journal of the Operational Research
//! Society 36 (1985), for the sums.

use super::instance::{Instance, Sheet};
use super::layout::layout;
use super::plan::Layout;
use super::problem::{Problem, Size};
use super::tree::{Node, Tree, Way};
use crate::cut::limits::{Limits, Meter};

/// The sheet with the most worth.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fullest {
    /// The worth of all pieces.
    pub worth: u64,
    /// The sheet with its cuts.
    pub layout: Layout,
}

/// The most that comes out of one sheet, where a piece of each row is worth so much and may be cut any number of times, and
/// how; exact, or none where `limits` end it or the sheet has too many places to cut.
///
/// Of the instance kerf, trim and pieces count, not the sheets nor how many pieces are wanted.
pub fn fullest(instance: &Instance, sheet: &Sheet, worth: &[u64], limits: &Limits) -> Option<Fullest> {
    let sheet = Sheet { count: None, ..sheet.clone() };
    let mut pieces = instance.pieces.clone();
    pieces.iter_mut().for_each(|piece| piece.quantity = 1);
    let instance = Instance { pieces, sheets: vec![sheet], ..instance.clone() };
    let problem = Problem::new(&instance);
    // Of rows of one size the one with the most worth is cut.
    let best = |rows: &[(usize, u32)]| rows.iter().map(|(row, _)| *row).max_by_key(|row| worth.get(*row).copied());
    let rows: Vec<usize> = problem.items.iter().filter_map(|item| best(&item.rows)).collect();
    let own: Vec<u64> = rows.iter().map(|row| worth.get(*row).copied().unwrap_or(0)).collect();
    let size = problem.blanks.first().map(|blank| blank.size)?;
    let table = Table::new(&problem, size, &own, &Meter::new(limits))?;
    let piece = |item: usize, size: Size| {
        let row = rows[item];
        (row, u64::from(instance.pieces[row].width) + problem.kerf != size.width)
    };
    Some(Fullest { worth: table.worth(), layout: layout(&table.tree(size), 0, &instance, piece) })
}

/// The worth of every rectangle whose sides are sums of pieces' sides.
pub(super) struct Table {
    across: Vec<u64>,
    up: Vec<u64>,
    /// By position across, then up.
    worth: Vec<u64>,
    /// The pieces as they may lie: item, size, worth.
    pieces: Vec<(usize, Size, u64)>,
}

/// The most rectangles to try.
const MOST_CELLS: usize = 4_000_000;
/// The most positions on a side.
const MOST_SUMS: usize = 4_000;

impl Table {
    /// For a sheet and the worth of a piece of each item; none if time or memory runs out.
    pub(super) fn new(problem: &Problem, sheet: Size, worth: &[u64], meter: &Meter) -> Option<Self> {
        let ways = |(item, own): (usize, &super::problem::Item)| {
            let each = own.ways().filter(|way| way.is_in(sheet));
            each.map(|way| (item, way, worth[item])).collect::<Vec<_>>()
        };
        let pieces: Vec<(usize, Size, u64)> = problem.items.iter().enumerate().flat_map(ways).collect();
        let across = sums(sheet.width, pieces.iter().map(|piece| piece.1.width))?;
        let up = sums(sheet.height, pieces.iter().map(|piece| piece.1.height))?;
        let cells = across.len().checked_mul(up.len()).filter(|cells| *cells <= MOST_CELLS)?;
        let mut table = Self { across, up, worth: vec![0; cells], pieces };
        // The position of the rest beside a cut at each position of a side.
        let each = |sums: &[u64]| (0..sums.len()).map(|place| rests(&sums[..=place])).collect::<Vec<_>>();
        let (beside, above) = (each(&table.across), each(&table.up));
        for (column, beside) in beside.iter().enumerate() {
            for (row, above) in above.iter().enumerate() {
                let best = table.best(column, row, beside, above);
                let at = table.at(column, row);
                table.worth[at] = best;
                meter.count(table.pieces.len() + beside.len() + above.len());
            }
            if meter.is_over() {
                return None;
            }
        }
        Some(table)
    }

    fn at(&self, column: usize, row: usize) -> usize {
        column * self.up.len() + row
    }

    fn best(&self, column: usize, row: usize, beside: &[usize], above: &[usize]) -> u64 {
        let size = Size { width: self.across[column], height: self.up[row] };
        let alone = self.pieces.iter().filter(|piece| piece.1.is_in(size)).map(|piece| piece.2);
        let sum = |one: usize, other: usize| self.worth[one] + self.worth[other];
        let upright = beside.iter().enumerate().map(|(cut, rest)| sum(self.at(cut + 1, row), self.at(*rest, row)));
        let level = above.iter().enumerate().map(|(cut, rest)| sum(self.at(column, cut + 1), self.at(column, *rest)));
        alone.chain(upright).chain(level).max().unwrap_or(0)
    }

    /// The worth of the whole sheet.
    pub(super) fn worth(&self) -> u64 {
        self.worth.last().copied().unwrap_or(0)
    }

    /// A sheet of that worth.
    fn tree(&self, sheet: Size) -> Tree {
        let mut nodes = Vec::new();
        self.lay(self.across.len() - 1, self.up.len() - 1, None, &mut nodes);
        Tree::of(sheet, nodes)
    }

    /// The nodes of a rectangle within a row: finds again the choice that its worth came from.
    fn lay(&self, column: usize, row: usize, within: Option<Way>, nodes: &mut Vec<Node>) {
        let worth = self.worth[self.at(column, row)];
        let size = Size { width: self.across[column], height: self.up[row] };
        if worth == 0 {
            return;
        }
        if let Some(&(item, size, _)) = self.pieces.iter().find(|piece| piece.1.is_in(size) && piece.2 == worth) {
            let way = within.map_or(Way::Across, Way::other);
            nodes.push(Node { size, room: size, item: Some(item), span: 1, way });
            return;
        }
        let (beside, above) = (rests(&self.across[..=column]), rests(&self.up[..=row]));
        let upright = beside.iter().enumerate().map(|(cut, rest)| (Way::Across, (cut + 1, row), (*rest, row)));
        let level = above.iter().enumerate().map(|(cut, rest)| (Way::Up, (column, cut + 1), (column, *rest)));
        let value = |(column, row): (usize, usize)| self.worth[self.at(column, row)];
        let mut cuts = upright.chain(level);
        let Some((way, first, second)) = cuts.find(|(_, one, other)| value(*one) + value(*other) == worth) else {
            return;
        };
        if value(first) == 0 || value(second) == 0 {
            // Only a trim: the row would have one part.
            let (column, row) = if value(first) == 0 { second } else { first };
            self.lay(column, row, within, nodes);
            return;
        }
        let place = nodes.len();
        let is_own = within != Some(way);
        if is_own {
            nodes.push(Node { size, room: size, item: None, span: 1, way });
        }
        self.lay(first.0, first.1, Some(way), nodes);
        self.lay(second.0, second.1, Some(way), nodes);
        if is_own {
            nodes[place].span = nodes.len() - place;
        }
    }
}

/// All sums of sides up to a whole, from 0; none if there are too many.
fn sums(whole: u64, sides: impl Iterator<Item = u64>) -> Option<Vec<u64>> {
    let mut sides: Vec<u64> = sides.collect();
    sides.sort_unstable();
    sides.dedup();
    let mut sums = vec![0];
    let mut at = 0;
    // The sums are in rising order, each made from earlier ones.
    let mut waiting = std::collections::BTreeSet::new();
    loop {
        let sum = sums[at];
        waiting.extend(sides.iter().map(|side| sum + side).take_while(|sum| *sum <= whole));
        let Some(next) = waiting.pop_first() else { return Some(sums) };
        if sums.len() > MOST_SUMS {
            return None;
        }
        sums.push(next);
        at += 1;
    }
}

/// For every cut at a position from the first to half of the last: the position of the rest.
fn rests(sums: &[u64]) -> Vec<usize> {
    let whole = sums.last().copied().unwrap_or(0);
    let cuts = sums.iter().skip(1).take_while(|cut| 2 * **cut <= whole);
    cuts.map(|cut| sums.partition_point(|sum| sum + cut <= whole) - 1).collect()
}
