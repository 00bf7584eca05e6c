//! Every mix of sticks that is cheaper than a bound and meets all cuts.

use std::cmp::Ordering;

use super::cuts::Cut;
use super::kinds::Kinds;
use super::steps::Steps;

/// A cost with a fraction of a stick: `over / under`, `under` above 0.
#[derive(Clone, Copy)]
struct Cost {
    over: i128,
    under: i128,
}

impl Cost {
    fn compare(self, other: Self) -> Ordering {
        (self.over * other.under).cmp(&(other.over * self.under))
    }

    /// Whether a whole cost below `limit` reaches it.
    fn is_below(self, limit: u64) -> bool {
        self.over <= (i128::from(limit) - 1) * self.under
    }

    fn up(self) -> u64 {
        u64::try_from((self.over + self.under - 1) / self.under).unwrap_or(0)
    }
}

/// The search for a mix that nothing rules out.
pub(super) struct Mixes<'a, F> {
    kinds: &'a Kinds,
    cuts: &'a [Cut],
    steps: &'a Steps,
    /// The kinds of stick in the order of deciding.
    order: Vec<usize>,
    /// For each cut, the places in `order` of the kinds that give anything, those with the most for their cost first.
    thrifty: Vec<Vec<usize>>,
    /// Whether a mix that meets all cuts is closed all the same.
    is_closed: F,
    /// The cost of the cheapest mix that nothing rules out, so far.
    open: u64,
}

impl<'a, F: FnMut(&[u32]) -> Option<bool>> Mixes<'a, F> {
    pub(super) fn new(kinds: &'a Kinds, cuts: &'a [Cut], steps: &'a Steps, is_closed: F) -> Self {
        let mut order: Vec<usize> = (0..kinds.sticks.len()).collect();
        // Last what there is most of: its count follows from the others.
        order.sort_by_key(|stick| (kinds.sticks[*stick].cost > 0, kinds.sticks[*stick].count));
        let thrifty = |cut: &Cut| {
            let mut own: Vec<usize> = (0..order.len()).filter(|place| cut.gives[order[*place]] > 0).collect();
            let dear = |one: usize, other: usize| {
                i128::from(kinds.sticks[order[one]].cost) * i128::from(cut.gives[order[other]])
            };
            own.sort_by(|one, other| dear(*one, *other).cmp(&dear(*other, *one)));
            own
        };
        let thrifty = cuts.iter().map(thrifty).collect();
        Self { kinds, cuts, steps, order, thrifty, is_closed, open: 0 }
    }

    /// The least cost that one cut alone allows.
    pub(super) fn by_one_cut(&self) -> Option<u64> {
        let none = vec![0; self.kinds.sticks.len()];
        self.least(0, &none).map(Cost::up)
    }

    /// The least cost up to `most` of a mix that nothing rules out, or `most`; none if the steps run out.
    pub(super) fn cheapest(mut self, most: u64) -> Option<u64> {
        self.open = most;
        let mut mix = vec![0; self.kinds.sticks.len()];
        self.decide(0, &mut mix)?;
        Some(self.open)
    }

    /// Decides the counts of the kinds from `depth` on. Only mixes cheaper than the cheapest open one are of interest.
    fn decide(&mut self, depth: usize, mix: &mut Vec<u32>) -> Option<()> {
        let Some(&stick) = self.order.get(depth) else {
            let cost = self.spent(mix);
            if cost < self.open && !(self.is_closed)(mix)? {
                self.open = cost;
            }
            return Some(());
        };
        let count = self.kinds.sticks[stick].count;
        if self.kinds.sticks[stick].cost == 0 {
            // More sticks hold no less: if all of those that cost nothing do not help, fewer do not.
            self.at(depth, mix, count)?;
            mix[stick] = 0;
            return Some(());
        }
        // The least cost by the count of one kind has one valley, as that of any linear program.
        let (mut low, mut high) = (0, count);
        while low < high {
            let middle = low + (high - low) / 2;
            let here = self.with(depth, mix, middle)?;
            let next = self.with(depth, mix, middle + 1)?;
            let rises = match (here, next) {
                (Some(here), Some(next)) => next.compare(here) != Ordering::Less,
                (here, _) => here.is_some(),
            };
            if rises { high = middle } else { low = middle + 1 }
        }
        for more in low..=count {
            if !self.at(depth, mix, more)? {
                break;
            }
        }
        for fewer in (0..low).rev() {
            if !self.at(depth, mix, fewer)? {
                break;
            }
        }
        mix[stick] = 0;
        Some(())
    }

    /// Decides the rest with `count` of the kind at `depth` if any such mix can be cheap enough; whether it can.
    fn at(&mut self, depth: usize, mix: &mut Vec<u32>, count: u32) -> Option<bool> {
        let cheap = self.with(depth, mix, count)?.is_some_and(|least| least.is_below(self.open));
        if cheap {
            mix[self.order[depth]] = count;
            self.decide(depth + 1, mix)?;
        }
        Some(cheap)
    }

    /// The least cost with `count` of the kind at `depth`: none inside if no cost is enough, none if the steps run out.
    fn with(&self, depth: usize, mix: &mut [u32], count: u32) -> Option<Option<Cost>> {
        self.steps.take(16 * self.cuts.len() * self.order.len() + 16)?;
        mix[self.order[depth]] = count;
        Some(self.least(depth + 1, mix))
    }

    fn spent(&self, mix: &[u32]) -> u64 {
        self.kinds.sticks.iter().zip(mix).map(|(stick, count)| stick.cost * u64::from(*count)).sum()
    }

    /// The least cost of a mix whose counts before `depth` are decided and whose others are 0, by the strongest cut;
    /// none if all the stock does not meet a cut.
    fn least(&self, depth: usize, mix: &[u32]) -> Option<Cost> {
        let spent = Cost { over: i128::from(self.spent_before(depth, mix)), under: 1 };
        let mut dearest = spent;
        for (cut, thrifty) in self.cuts.iter().zip(&self.thrifty) {
            let given: i64 = self.order[..depth].iter().map(|stick| cut.gives[*stick] * i64::from(mix[*stick])).sum();
            let mut need = cut.need - given;
            let mut cost = spent;
            for stick in thrifty.iter().filter(|place| **place >= depth).map(|place| self.order[*place]) {
                if need <= 0 {
                    break;
                }
                let (own, gives) = (&self.kinds.sticks[stick], cut.gives[stick]);
                let whole = i64::from(own.count).min(need / gives);
                cost.over += i128::from(own.cost) * i128::from(whole);
                need -= whole * gives;
                if need > 0 && whole < i64::from(own.count) {
                    let under = i128::from(gives);
                    cost = Cost { over: cost.over * under + i128::from(own.cost) * i128::from(need), under };
                    need = 0;
                }
            }
            if need > 0 {
                return None;
            }
            if dearest.compare(cost) == Ordering::Less {
                dearest = cost;
            }
        }
        Some(dearest)
    }

    fn spent_before(&self, depth: usize, mix: &[u32]) -> u64 {
        self.order[..depth].iter().map(|stick| self.kinds.sticks[*stick].cost * u64::from(mix[*stick])).sum()
    }
}
