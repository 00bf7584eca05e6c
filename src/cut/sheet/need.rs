//! Conditions on every plan, and the least cost of sheets that meet them.

use super::problem::Problem;
use crate::cut::limits::Meter;

/// Pieces are worth `need` together, and no sheet of size `b` holds more than `gives[b]` of it:
/// `Σ gives[b] · sheets[b] ≥ need`, in whole numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Need {
    /// The worth of a piece of each item.
    pub(super) worth: Vec<u128>,
    pub(super) gives: Vec<u128>,
}

impl Need {
    /// The worth of some of each item.
    pub(super) fn total(&self, wanted: &[u32]) -> u128 {
        self.worth.iter().zip(wanted).map(|(worth, count)| worth * u128::from(*count)).sum()
    }

    /// The lower bound of the cost of sheets for a need, with a fraction of the last, rounded up; none if there are too
    /// few.
    pub(super) fn least(&self, problem: &Problem, order: &[usize], need: u128, counts: &[u32]) -> Option<u64> {
        let mut need = need;
        let mut cost = 0;
        for &blank in order {
            if need == 0 {
                break;
            }
            let (price, gives) = (problem.blanks[blank].cost, self.gives[blank]);
            let whole = u64::try_from((need / gives).min(u128::from(counts[blank]))).unwrap_or(u64::MAX);
            cost += price * whole;
            need -= u128::from(whole) * gives;
            if need > 0 && whole < u64::from(counts[blank]) {
                let part = (u128::from(price) * need).div_ceil(gives);
                return Some(cost + u64::try_from(part).unwrap_or(u64::MAX));
            }
        }
        (need == 0).then_some(cost)
    }

    /// The sheets that give anything, those with the most worth for their cost first.
    pub(super) fn order(&self, problem: &Problem) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.gives.len()).filter(|blank| self.gives[*blank] > 0).collect();
        let dear = |blank: usize, other: usize| u128::from(problem.blanks[blank].cost) * self.gives[other];
        order.sort_by(|left, right| dear(*left, *right).cmp(&dear(*right, *left)).then(left.cmp(right)));
        order
    }

    /// The lower bound by this need alone.
    pub(super) fn strength(&self, problem: &Problem, wanted: &[u32]) -> u64 {
        let counts: Vec<u32> = problem.blanks.iter().map(|blank| blank.count).collect();
        self.least(problem, &self.order(problem), self.total(wanted), &counts).unwrap_or(u64::MAX)
    }
}

/// The most half-decided mixes to try.
const MOST_MIXES: usize = 20_000;

/// The cost of the cheapest whole sheets that meet all needs, or a lower bound if there are too many mixes; at most
/// `most`.
pub(super) fn cheapest(problem: &Problem, needs: &[Need], wanted: &[u32], most: u64, meter: &Meter) -> u64 {
    let parts = needs.iter().map(|need| need.strength(problem, wanted)).max().unwrap_or(0).min(most);
    let mut order: Vec<usize> = (0..problem.blanks.len()).collect();
    order.sort_by_key(|blank| (problem.blanks[*blank].count, *blank));
    let thrifty: Vec<Vec<usize>> = needs.iter().map(|need| need.order(problem)).collect();
    let totals: Vec<u128> = needs.iter().map(|need| need.total(wanted)).collect();
    let mut search = Mixes { problem, needs, thrifty, order, best: most, looked: 0, meter };
    let free: Vec<u32> = problem.blanks.iter().map(|blank| blank.count).collect();
    search.decide(0, 0, &totals, free);
    if search.looked < MOST_MIXES { search.best } else { parts }
}

struct Mixes<'a, 'm> {
    problem: &'a Problem,
    needs: &'a [Need],
    thrifty: Vec<Vec<usize>>,
    /// The sheets, in the order of deciding.
    order: Vec<usize>,
    best: u64,
    looked: usize,
    meter: &'a Meter<'m>,
}

impl Mixes<'_, '_> {
    /// Tries every count of the next sheet; `totals` are still needed, and `free` sheets are not decided.
    fn decide(&mut self, depth: usize, cost: u64, totals: &[u128], free: Vec<u32>) {
        self.looked += 1;
        self.meter.count(8 * self.needs.len());
        if self.looked >= MOST_MIXES {
            return;
        }
        let mut least = 0;
        for ((need, thrifty), total) in self.needs.iter().zip(&self.thrifty).zip(totals) {
            let Some(cost) = need.least(self.problem, thrifty, *total, &free) else { return };
            least = least.max(cost);
        }
        if cost + least >= self.best {
            return;
        }
        let Some(&blank) = self.order.get(depth).filter(|_| least > 0 || totals.iter().any(|total| *total > 0)) else {
            self.best = cost;
            return;
        };
        let mut rest = free;
        let count = std::mem::take(&mut rest[blank]);
        let price = self.problem.blanks[blank].cost;
        for used in (0..=count).rev() {
            let more = price * u64::from(used);
            if cost + more >= self.best {
                continue;
            }
            let left = self.needs.iter().zip(totals);
            let left: Vec<u128> =
                left.map(|(need, total)| total.saturating_sub(need.gives[blank] * u128::from(used))).collect();
            self.decide(depth + 1, cost + more, &left, rest.clone());
        }
    }
}
