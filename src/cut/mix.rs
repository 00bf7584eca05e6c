//! The number of sticks of each length: the cheapest mix that meets all cuts so far.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashSet};

use super::bound::{Cut, Fraction};
use super::limits::Meter;
use super::problem::Problem;

/// The result of a search for a mix.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Mixed {
    /// The cheapest mix.
    Mix(Vec<u32>),
    /// No mix costs less than asked.
    None,
    /// The steps ran out; no mix costs less than this.
    Unknown(u64),
}

/// The most half-decided mixes in the queue.
const MOST_WAITING: usize = 300_000;

/// A mix with the counts of the first lengths decided. The queue takes the greatest first.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    /// A lower bound of the cost.
    least: Reverse<u64>,
    depth: usize,
    offcuts: u32,
    /// The distance from the mix of the relaxation, in thousandths of sticks.
    away: Reverse<u64>,
    cost: u64,
    mix: Vec<u32>,
    /// The mixes to try after it, which differ in the count of the last decided length.
    beside: Beside,
}

/// Mixes that differ in one length are tried from the cheapest outward, each after its neighbor.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Beside {
    None,
    Fewer,
    More,
    Both,
}

/// The mixes to look for.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// The cuts that they must meet.
    pub(super) cuts: &'a [Cut],
    /// The mixes to leave out.
    pub(super) tried: &'a HashSet<Vec<u32>>,
    /// They must cost less than this.
    pub(super) below: u64,
    /// The mix of the relaxation, in thousandths of sticks; of equal mixes the nearest wins.
    pub(super) near: &'a [u64],
}

/// The cheapest of the wanted mixes; of equals the one with more offcuts.
///
/// Best first, by the lower bound of each half-decided mix.
pub(super) fn cheapest(problem: &Problem, wanted: Wanted, meter: &Meter) -> Mixed {
    let search = Search::new(problem, wanted, meter);
    let mut waiting = BinaryHeap::from([search.root()]);
    while let Some(node) = waiting.pop() {
        meter.count(64);
        if node.least.0 >= wanted.below {
            break;
        }
        if meter.is_over() || waiting.len() > MOST_WAITING {
            return Mixed::Unknown(node.least.0);
        }
        waiting.extend(search.beside(&node));
        if node.depth == search.order.len() {
            return Mixed::Mix(node.mix);
        }
        waiting.extend(search.decided(&node));
    }
    Mixed::None
}

struct Search<'a> {
    problem: &'a Problem,
    wanted: Wanted<'a>,
    meter: &'a Meter<'a>,
    /// For each cut, the lengths with the most worth for their cost first.
    thrifty: Vec<Vec<usize>>,
    /// The lengths, in the order of deciding.
    order: Vec<usize>,
    /// `free[depth]`: the stock of each length that is not decided at that depth.
    free: Vec<Vec<u32>>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, wanted: Wanted<'a>, meter: &'a Meter<'a>) -> Self {
        let mut order: Vec<usize> = (0..problem.bars.len()).collect();
        // Offcuts first; last a length in plenty, which makes up what is missing.
        order.sort_by_key(|bar| (!problem.bars[*bar].offcut, problem.bars[*bar].count, *bar));
        let mut free = vec![problem.counts()];
        for bar in &order {
            let mut next = free.last().cloned().unwrap_or_default();
            next[*bar] = 0;
            free.push(next);
        }
        let thrifty = wanted.cuts.iter().map(|cut| cut.order(problem)).collect();
        Self { problem, wanted, meter, thrifty, order, free }
    }

    fn root(&self) -> Node {
        let mix = vec![0; self.problem.bars.len()];
        let least = Reverse(self.least(0, &mix).map_or(u64::MAX, Fraction::up));
        Node { least, depth: 0, offcuts: 0, away: Reverse(0), cost: 0, mix, beside: Beside::None }
    }

    /// The cheapest mix that decides the next length too.
    fn decided(&self, node: &Node) -> Option<Node> {
        let bar = *self.order.get(node.depth)?;
        let most = self.problem.bars[bar].count;
        if node.depth + 1 == self.order.len() {
            // More of the last length only costs more.
            let first = first(0, most, |count| self.at_least(node, count).is_some());
            let mut enough = (first..=most).map_while(|count| self.with(node, count, Beside::None));
            return enough.find(|node| !self.wanted.tried.contains(&node.mix));
        }
        // As the count grows, the lower bound has a single dip: each cut gives the cost of a linear program, and the
        // same goes for the greatest of several.
        let cost = |count: u32| self.at_least(node, count);
        let rises = |count: u32| match (cost(count), cost(count + 1)) {
            (Some(here), Some(next)) => !next.is_below(here),
            (None, _) => false,
            (Some(_), None) => true,
        };
        let least = first(0, most, rises);
        let value = cost(least)?.up();
        let same = |count: u32| cost(count).is_some_and(|cost| cost.up() == value);
        // Of equals the one with the most offcuts, or the nearest to the relaxation.
        let near = u32::try_from((self.wanted.near[bar] + 500) / 1000).unwrap_or(u32::MAX).min(most);
        let near = if self.problem.bars[bar].offcut { most } else { near };
        let start = if same(near) {
            near
        } else if near > least {
            first(least, near, |count| !same(count)).saturating_sub(1)
        } else {
            first(near, least, same)
        };
        self.with(node, start, Beside::Both)
    }

    /// The mixes to try after this one, with one more or one fewer of the last decided length.
    fn beside(&self, node: &Node) -> Vec<Node> {
        let Some(&bar) = node.depth.checked_sub(1).and_then(|last| self.order.get(last)) else { return Vec::new() };
        let own = &self.problem.bars[bar];
        let count = node.mix[bar];
        let mut before = node.clone();
        before.depth -= 1;
        before.mix[bar] = 0;
        before.cost -= own.cost * u64::from(count);
        before.offcuts -= if own.offcut { count } else { 0 };
        before.away.0 -= self.away(bar, count);
        let more = || (count < own.count).then(|| self.with(&before, count + 1, Beside::More)).flatten();
        let fewer = || count.checked_sub(1).and_then(|count| self.with(&before, count, Beside::Fewer));
        match node.beside {
            Beside::None => Vec::new(),
            Beside::More => more().into_iter().collect(),
            Beside::Fewer => fewer().into_iter().collect(),
            Beside::Both => more().into_iter().chain(fewer()).collect(),
        }
    }

    fn away(&self, bar: usize, count: u32) -> u64 {
        self.wanted.near[bar].abs_diff(1000 * u64::from(count))
    }

    /// The lower bound of a mix with `count` of the next length; none if that cannot be enough.
    fn at_least(&self, node: &Node, count: u32) -> Option<Fraction> {
        let bar = *self.order.get(node.depth)?;
        let mut mix = node.mix.clone();
        mix[bar] = count;
        let least = self.least(node.depth + 1, &mix)?;
        Some(least.more(node.cost + self.problem.bars[bar].cost * u64::from(count)))
    }

    /// The mix with `count` of the next length, if it could be cheap enough.
    fn with(&self, node: &Node, count: u32, beside: Beside) -> Option<Node> {
        let bar = *self.order.get(node.depth)?;
        let own = &self.problem.bars[bar];
        let least = self.at_least(node, count)?.up();
        let mut mix = node.mix.clone();
        mix[bar] = count;
        (least < self.wanted.below).then(|| Node {
            least: Reverse(least),
            depth: node.depth + 1,
            offcuts: node.offcuts + if own.offcut { count } else { 0 },
            away: Reverse(node.away.0 + self.away(bar, count)),
            cost: node.cost + own.cost * u64::from(count),
            mix,
            beside,
        })
    }

    /// The lower bound of the cost of the lengths from `depth` on, by the strongest cut.
    fn least(&self, depth: usize, mix: &[u32]) -> Option<Fraction> {
        self.meter.count(16 * self.wanted.cuts.len());
        let mut dearest = Fraction::NOTHING;
        for (cut, thrifty) in self.wanted.cuts.iter().zip(&self.thrifty) {
            let need = cut.need - cut.given(mix);
            let least = cut.least(self.problem, thrifty, need, &self.free[depth])?;
            if dearest.is_below(least) {
                dearest = least;
            }
        }
        Some(dearest)
    }
}

/// The first number from `from` on for which `holds` is true, or else `to`; it stays true after that.
fn first(from: u32, to: u32, holds: impl Fn(u32) -> bool) -> u32 {
    let (mut from, mut to) = (from, to);
    while from < to {
        let middle = from + (to - from) / 2;
        if holds(middle) {
            to = middle;
        } else {
            from = middle + 1;
        }
    }
    from
}
