//! From fractions of sticks to whole ones: the fullest amounts are taken as they are, and what is left is relaxed
//! again.
//!
//! Where that ends without a plan, it is gone back, at most so many times on a way, to take the second best instead.
//! Source: Sadykov, Vanderbeck, Pessoa, Tahiri and Uchoa, Primal heuristics for branch and price, INFORMS Journal on
//! Computing 31 (2019): diving with limited discrepancy.

use super::greedy::{Filling, fill};
use super::limits::Meter;
use super::number::{real, whole};
use super::problem::{Pattern, Problem};
use super::relax::{Ask, HARDLY, Pool};

/// What is still to be done on a way down.
#[derive(Clone, Debug)]
struct Rest {
    demand: Vec<u32>,
    counts: Vec<u32>,
    /// What may still be spent.
    budget: u64,
}

/// How a dive is made.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    /// How often a way may leave the fullest amount aside.
    pub(super) turns: usize,
    /// How many second choices there are at one place.
    pub(super) choices: usize,
    /// For the relaxations on the way.
    pub(super) seed: usize,
}

impl Manner {
    /// For the search after so many others: the more there were, the wider.
    pub(super) fn nth(round: usize) -> Self {
        Self { turns: round.min(WIDEST), choices: round.min(WIDEST) + 1, seed: round }
    }

    /// How many more certain sticks are taken at once after `taken`.
    fn most(self, taken: usize) -> u32 {
        u32::from(taken < 2)
    }
}

/// The most turns of a way.
const WIDEST: usize = 4;

pub(super) struct Diver<'a> {
    pub(super) problem: &'a Problem,
    pub(super) pool: &'a mut Pool,
    pub(super) meter: &'a Meter<'a>,
}

/// Patterns and how often each is cut.
pub(super) type Found = Vec<(Pattern, u32)>;

impl Diver<'_> {
    /// Looks for a plan for all parts with no more than `counts` sticks of each length and no greater cost than
    /// `budget`.
    pub(super) fn dive(&mut self, counts: &[u32], budget: u64, manner: Manner) -> Option<Found> {
        let mut rest = Rest { demand: self.problem.demand(), counts: counts.to_vec(), budget };
        let mut taken = Vec::new();
        self.descend(&mut rest, &mut taken, manner, manner.turns).then_some(taken)
    }

    fn descend(&mut self, rest: &mut Rest, taken: &mut Found, manner: Manner, turns: usize) -> bool {
        if rest.demand.iter().all(|demand| *demand == 0) {
            return true;
        }
        if self.finish(rest, taken) {
            return true;
        }
        let ask = Ask { demand: &rest.demand, counts: &rest.counts, cover: false, seed: manner.seed };
        let relaxed = self.pool.relax(self.problem, ask, self.meter);
        let unit = real(self.problem.bars.iter().map(|bar| bar.cost).max().unwrap_or(1).max(1));
        if self.meter.is_over() || relaxed.short > HARDLY || relaxed.cost * unit > real(rest.budget) + 1e-4 * unit {
            return false;
        }
        let before = rest.clone();
        let mark = taken.len();
        let mut amounts = relaxed.amounts;
        for (pattern, amount) in &mut amounts {
            // In later searches not all that seems certain is taken at once: some of it leads nowhere.
            let certain = whole(*amount + 1e-3);
            let certain = if manner.seed % 2 == 1 { certain.min(manner.most(taken.len() - mark)) } else { certain };
            if certain > 0 && take(self.problem, rest, taken, pattern, certain) {
                *amount -= real(certain);
            }
        }
        let mut open: Vec<(Pattern, f64)> = amounts.into_iter().filter(|(_, amount)| *amount > 1e-3).collect();
        open.sort_by(|left, right| right.1.total_cmp(&left.1).then(left.0.cmp(&right.0)));
        if open.is_empty() && self.descend(rest, taken, manner, turns) {
            return true;
        }
        let middle = rest.clone();
        let inner = taken.len();
        for (nth, (pattern, _)) in open.iter().take(manner.choices.min(turns + 1)).enumerate() {
            if take(self.problem, rest, taken, pattern, 1) {
                if self.descend(rest, taken, manner, turns - nth) {
                    return true;
                }
                rest.clone_from(&middle);
                taken.truncate(inner);
            }
            if self.meter.is_over() {
                break;
            }
        }
        *rest = before;
        taken.truncate(mark);
        false
    }

    /// Whether what is left can be filled in at once.
    fn finish(&mut self, rest: &mut Rest, taken: &mut Found) -> bool {
        let draft = fill(self.problem, &rest.demand, &rest.counts, Filling::Longest, rest.budget, self.meter);
        if draft.is_whole() && draft.cost <= rest.budget {
            taken.extend(draft.patterns);
            return true;
        }
        false
    }
}

/// Takes `count` sticks of a pattern if there are that many and nothing is cut beyond need.
fn take(problem: &Problem, rest: &mut Rest, taken: &mut Found, pattern: &Pattern, count: u32) -> bool {
    let fits = pattern.pieces.iter().all(|(item, pieces)| pieces * count <= rest.demand[*item]);
    let cost = problem.bars[pattern.bar].cost * u64::from(count);
    if !fits || rest.counts[pattern.bar] < count || cost > rest.budget {
        return false;
    }
    pattern.pieces.iter().for_each(|(item, pieces)| rest.demand[*item] -= pieces * count);
    rest.counts[pattern.bar] -= count;
    rest.budget -= cost;
    taken.push((pattern.clone(), count));
    true
}
