//! How many sticks of each length: the cheapest mix that meets every cut found.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashSet};

use super::limits::Meter;
use super::problem::Problem;

/// What any plan must meet: the parts are worth `need`, and no stick of length `b` holds more than `gives[b]` of it.
///
/// `Σ gives[b] · sticks[b] ≥ need`, in whole numbers: it holds whatever the prices were that it came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cut {
    /// What a part of each item is worth.
    pub(super) worth: Vec<i64>,
    pub(super) need: i64,
    pub(super) gives: Vec<i64>,
}

impl Cut {
    /// Of items worth so much, when no stick of each length holds more than it gives.
    pub(super) fn new(problem: &Problem, worth: Vec<i64>, gives: Vec<i64>) -> Self {
        let each = problem.items.iter().zip(&worth);
        let need = each.map(|(item, worth)| worth.saturating_mul(i64::from(item.demand))).fold(0, i64::saturating_add);
        Self { worth, need, gives }
    }

    /// What so many sticks of each length may hold.
    pub(super) fn given(&self, mix: &[u32]) -> i64 {
        self.gives.iter().zip(mix).map(|(gives, count)| gives * i64::from(*count)).sum()
    }

    /// Whether it leaves so many sticks of each length less room than another does.
    pub(super) fn is_tighter(&self, other: &Self, mix: &[u32]) -> bool {
        let product = |need: i64, given: i64| i128::from(need) * i128::from(given);
        product(self.need, other.given(mix)) > product(other.need, self.given(mix))
    }

    /// Whether so many sticks of each length may be enough.
    pub(super) fn is_met(&self, mix: &[u32]) -> bool {
        self.given(mix) >= self.need
    }

    /// The least cost that it alone allows.
    pub(super) fn strength(&self, problem: &Problem) -> u64 {
        self.least(problem, &self.order(problem), self.need, &problem.counts()).unwrap_or(u64::MAX)
    }

    /// The lengths, those that give most for their cost first.
    fn order(&self, problem: &Problem) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.gives.len()).filter(|bar| self.gives[*bar] > 0).collect();
        let dear = |bar: usize, other: usize| i128::from(problem.bars[bar].cost) * i128::from(self.gives[other]);
        order.sort_by(|left, right| dear(*left, *right).cmp(&dear(*right, *left)).then(left.cmp(right)));
        order
    }

    /// What it costs at the least to give `need`, the last stick in part; none if that cannot be given at all.
    fn least(&self, problem: &Problem, order: &[usize], need: i64, counts: &[u32]) -> Option<u64> {
        let mut need = need;
        let mut cost = 0;
        for &bar in order {
            if need <= 0 {
                break;
            }
            let (price, gives) = (problem.bars[bar].cost, self.gives[bar]);
            let whole = i64::from(counts[bar]).min(need / gives);
            cost += price * u64::try_from(whole).unwrap_or(0);
            need -= whole * gives;
            if need > 0 && whole < i64::from(counts[bar]) {
                let part = (i128::from(price) * i128::from(need) + i128::from(gives) - 1) / i128::from(gives);
                return Some(cost + u64::try_from(part).unwrap_or(0));
            }
        }
        (need <= 0).then_some(cost)
    }
}

/// What the search for a mix gave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Mixed {
    /// The cheapest mix.
    Mix(Vec<u32>),
    /// There is none that costs less than asked.
    None,
    /// There was no time to know; no mix costs less than this.
    Unknown(u64),
}

/// The most half-decided mixes that wait.
const MOST_WAITING: usize = 300_000;

/// A mix of which the first lengths are decided. The greatest is looked at first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    /// What it costs at the least.
    least: Reverse<u64>,
    depth: usize,
    offcuts: u32,
    /// How far it is from the relaxation's mix, in thousandths of sticks.
    away: Reverse<u64>,
    cost: u64,
    mix: Vec<u32>,
}

/// What mixes are looked for.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'a> {
    /// What they must meet.
    pub(super) cuts: &'a [Cut],
    /// What they must not be.
    pub(super) tried: &'a HashSet<Vec<u32>>,
    /// What they must cost less than.
    pub(super) below: u64,
    /// The relaxation's mix, in thousandths of sticks: of equals the nearest is taken.
    pub(super) near: &'a [u64],
}

/// The cheapest mix wanted; of equals rather one with more offcuts.
///
/// Best first by what each half-decided mix costs at the least.
pub(super) fn cheapest(problem: &Problem, wanted: Wanted, meter: &Meter) -> Mixed {
    let search = Search::new(problem, wanted);
    let mut waiting = BinaryHeap::from([search.root()]);
    while let Some(node) = waiting.pop() {
        meter.count(16 * wanted.cuts.len() + 64);
        if node.least.0 >= wanted.below {
            break;
        }
        if meter.is_over() || waiting.len() > MOST_WAITING {
            return Mixed::Unknown(node.least.0);
        }
        if node.depth == search.order.len() {
            return Mixed::Mix(node.mix);
        }
        search.decide(&node, &mut waiting);
    }
    Mixed::None
}

struct Search<'a> {
    problem: &'a Problem,
    wanted: Wanted<'a>,
    /// For each cut the lengths, those that give most for their cost first.
    thrifty: Vec<Vec<usize>>,
    /// The lengths in the order in which they are decided.
    order: Vec<usize>,
    /// `free[depth]`: how many there are of each length that is not decided at that depth.
    free: Vec<Vec<u32>>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, wanted: Wanted<'a>) -> Self {
        let mut order: Vec<usize> = (0..problem.bars.len()).collect();
        // Offcuts first, and last one of which there are many: it makes up for what is missing.
        order.sort_by_key(|bar| (!problem.bars[*bar].offcut, problem.bars[*bar].count, *bar));
        let mut free = vec![problem.counts()];
        for bar in &order {
            let mut next = free.last().cloned().unwrap_or_default();
            next[*bar] = 0;
            free.push(next);
        }
        let thrifty = wanted.cuts.iter().map(|cut| cut.order(problem)).collect();
        Self { problem, wanted, thrifty, order, free }
    }

    fn root(&self) -> Node {
        let mix = vec![0; self.problem.bars.len()];
        let least = Reverse(self.least(0, &mix).unwrap_or(u64::MAX));
        Node { least, depth: 0, offcuts: 0, away: Reverse(0), cost: 0, mix }
    }

    /// Every count of the next length.
    fn decide(&self, node: &Node, waiting: &mut BinaryHeap<Node>) {
        let Some(&bar) = self.order.get(node.depth) else { return };
        let own = &self.problem.bars[bar];
        let mut mix = node.mix.clone();
        for count in 0..=own.count {
            let cost = node.cost + own.cost * u64::from(count);
            mix[bar] = count;
            let Some(least) = self.least(node.depth + 1, &mix) else { continue };
            if cost + least >= self.wanted.below {
                if cost >= self.wanted.below || least == 0 {
                    break;
                }
                continue;
            }
            let last = node.depth + 1 == self.order.len();
            if last && self.wanted.tried.contains(&mix) {
                continue;
            }
            waiting.push(Node {
                least: Reverse(cost + least),
                depth: node.depth + 1,
                offcuts: node.offcuts + if own.offcut { count } else { 0 },
                away: Reverse(node.away.0 + self.wanted.near[bar].abs_diff(1000 * u64::from(count))),
                cost,
                mix: mix.clone(),
            });
            // More of the last length is only dearer.
            if last {
                break;
            }
        }
    }

    /// What the lengths from `depth` on cost at the least beside those decided, by the dearest cut.
    fn least(&self, depth: usize, mix: &[u32]) -> Option<u64> {
        let mut dearest = 0;
        for (cut, thrifty) in self.wanted.cuts.iter().zip(&self.thrifty) {
            let need = cut.need - cut.given(mix);
            dearest = dearest.max(cut.least(self.problem, thrifty, need, &self.free[depth])?);
        }
        Some(dearest)
    }
}
