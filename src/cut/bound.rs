//! Cuts, which bound the cost of every plan, and those that follow from the lengths alone.

use super::problem::Problem;

/// A condition on every plan: the parts are worth `need`, and no stick of length `b` holds more than `gives[b]`.
///
/// `Σ gives[b] · sticks[b] ≥ need`, in whole numbers: it holds for any prices.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cut {
    /// The worth of a part of each item.
    pub(super) worth: Vec<i64>,
    pub(super) need: i64,
    pub(super) gives: Vec<i64>,
}

impl Cut {
    /// The cut for items of this worth, if no stick of each length holds more than `gives`.
    pub(super) fn new(problem: &Problem, worth: Vec<i64>, gives: Vec<i64>) -> Self {
        let each = problem.items.iter().zip(&worth);
        let need = each.map(|(item, worth)| worth.saturating_mul(i64::from(item.demand))).fold(0, i64::saturating_add);
        Self { worth, need, gives }
    }

    /// The most worth that a mix of sticks holds.
    pub(super) fn given(&self, mix: &[u32]) -> i64 {
        self.gives.iter().zip(mix).map(|(gives, count)| gives * i64::from(*count)).sum()
    }

    /// Whether it leaves a mix less room than another cut does.
    pub(super) fn is_tighter(&self, other: &Self, mix: &[u32]) -> bool {
        let product = |need: i64, given: i64| i128::from(need) * i128::from(given);
        product(self.need, other.given(mix)) > product(other.need, self.given(mix))
    }

    /// Whether a mix may be enough.
    pub(super) fn is_met(&self, mix: &[u32]) -> bool {
        self.given(mix) >= self.need
    }

    /// The least cost that this cut alone allows.
    pub(super) fn strength(&self, problem: &Problem) -> u64 {
        self.least(problem, &self.order(problem), self.need, &problem.counts()).map_or(u64::MAX, Fraction::up)
    }

    /// The lengths, those with the most worth for their cost first.
    pub(super) fn order(&self, problem: &Problem) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.gives.len()).filter(|bar| self.gives[*bar] > 0).collect();
        let dear = |bar: usize, other: usize| i128::from(problem.bars[bar].cost) * i128::from(self.gives[other]);
        order.sort_by(|left, right| dear(*left, *right).cmp(&dear(*right, *left)).then(left.cmp(right)));
        order
    }

    /// The least cost to give `need`, with a fraction of the last stick; none if it cannot be given.
    pub(super) fn least(&self, problem: &Problem, order: &[usize], need: i64, counts: &[u32]) -> Option<Fraction> {
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
                let over = i128::from(price) * i128::from(need);
                return Some(Fraction { over, under: i128::from(gives) }.more(cost));
            }
        }
        (need <= 0).then_some(Fraction { over: i128::from(cost), under: 1 })
    }
}

/// A cost with a fraction of a stick, exact: `over / under`, `under` above 0.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fraction {
    over: i128,
    under: i128,
}

impl Fraction {
    pub(super) const NOTHING: Self = Self { over: 0, under: 1 };

    pub(super) fn more(self, cost: u64) -> Self {
        Self { over: self.over + i128::from(cost) * self.under, ..self }
    }

    /// Rounded up to whole units of cost.
    pub(super) fn up(self) -> u64 {
        u64::try_from((self.over + self.under - 1) / self.under).unwrap_or(u64::MAX)
    }

    pub(super) fn is_below(self, other: Self) -> bool {
        self.over * other.under < other.over * self.under
    }
}

/// The cut whose worth is size: no stick holds more than its room.
pub(super) fn by_size(problem: &Problem) -> Cut {
    let number = |size: usize| i64::try_from(size).unwrap_or(i64::MAX);
    let widest = |bar: usize| problem.room.iter().map(|rooms| rooms[bar]).max().unwrap_or(0);
    let worth = problem.items.iter().map(|item| number(item.size)).collect();
    Cut::new(problem, worth, (0..problem.bars.len()).map(|bar| number(widest(bar))).collect())
}

/// For one length of stock: a part that leaves less than `least` of a stick counts as the whole stick, a part under
/// `least` not at all, any other by its size. Returns the strongest cut over all `least`.
///
/// The bound L2 of Martello and Toth, Knapsack Problems, 1990, section 8.3.2, written as a cut.
pub(super) fn by_halves(problem: &Problem) -> Option<Cut> {
    let [room] = problem.room.as_slice() else { return None };
    let [room] = room.as_slice() else { return None };
    let room = *room;
    let number = |size: usize| i64::try_from(size).unwrap_or(i64::MAX);
    let mut best: Option<Cut> = None;
    let least = problem.items.iter().map(|item| item.size).filter(|size| 2 * size <= room);
    for least in least {
        let worth = |size: usize| match size {
            size if size + least > room => number(room),
            size if size >= least => number(size),
            _ => 0,
        };
        let cut = Cut::new(problem, problem.items.iter().map(|item| worth(item.size)).collect(), vec![number(room)]);
        if best.as_ref().is_none_or(|best| cut.need > best.need) {
            best = Some(cut);
        }
    }
    best
}
