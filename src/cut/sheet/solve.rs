//! The search: a first plan, bounds, and improvements by turns.

use num_integer::Integer;

use super::bound::{by_size, of_fullest};
use super::draft::Draft;
use super::exact::{Ask, Exact};
use super::fill::{Fit, Manner, Next, fill};
use super::improve::{Goal, improve};
use super::instance::Instance;
use super::layout::layout;
use super::need::{Need, cheapest};
use super::order::{Order, Random};
use super::plan::Plan;
use super::problem::{Problem, Size};
use crate::cut::limits::{Limits, Meter};

/// The cheapest plan found within `limits`, and a bound for the cost of any plan.
///
/// Pieces that are too large for every sheet, or for which the sheets run out, are left; the plan and its
/// bound cover the rest. With `limits` of steps alone the same instance always gives the same plan.
pub fn solve(instance: &Instance, limits: &Limits) -> Plan {
    let meter = Meter::new(limits);
    let problem = Problem::new(instance);
    let mut random = Random::new(1);
    let best = first(&problem, &mut random, &meter);
    let mut search = Search::new(&problem, best, random, &meter);
    search.run();
    plan(instance, &problem, &search.best, search.bound)
}

struct Search<'a, 'm> {
    problem: &'a Problem,
    meter: &'a Meter<'m>,
    random: Random,
    exact: Exact,
    best: Draft,
    /// The count of each item that the bound covers.
    wanted: Vec<u32>,
    needs: Vec<Need>,
    /// The need of the fullest sheets, once it is known.
    fullest: Option<Need>,
    bound: u64,
}

/// The steps of improvement and of the exact search in the first round; each later round doubles them.
const FIRST_STEPS: u64 = 1_000_000;
/// The round after which to look for the fullest sheets.
const SHARP_STEPS: u64 = FIRST_STEPS << 3;
/// The steps for that.
const FULLEST_STEPS: u64 = 30_000_000;

impl<'a, 'm> Search<'a, 'm> {
    fn new(problem: &'a Problem, best: Draft, random: Random, meter: &'a Meter<'m>) -> Self {
        let exact = Exact::new(problem);
        let mut search = Self {
            problem,
            meter,
            random,
            exact,
            best,
            wanted: Vec::new(),
            needs: Vec::new(),
            fullest: None,
            bound: 0,
        };
        search.rate();
        search
    }

    /// Updates the bound if the best plan cuts other pieces.
    fn rate(&mut self) {
        let wanted = cut_of(self.problem, &self.best);
        if self.wanted != wanted {
            self.needs = by_size(self.problem, &wanted, self.meter);
            self.needs.extend(self.fullest.clone());
            self.wanted = wanted;
            self.bound = 0;
            self.exact.forget();
            self.meet();
        }
        self.bound = self.bound.min(self.best.cost(self.problem));
    }

    /// The bound by all needs.
    fn meet(&mut self) {
        let most = self.best.cost(self.problem);
        self.bound = self.bound.max(cheapest(self.problem, &self.needs, &self.wanted, most, self.meter));
    }

    /// Finds one more need, which takes too long for plans that are soon proven.
    fn sharpen(&mut self) {
        let (problem, meter) = (self.problem, self.meter);
        (self.fullest, _) = meter.part(FULLEST_STEPS, || of_fullest(problem, meter));
        self.needs.extend(self.fullest.clone());
        self.meet();
    }

    fn is_done(&self) -> bool {
        self.best.left.is_empty() && self.bound >= self.best.cost(self.problem)
    }

    /// Improvement and the exact search by turns, until nothing is left to find.
    fn run(&mut self) {
        let unit = self.problem.blanks.iter().fold(0, |unit, blank| unit.gcd(&blank.cost)).max(1);
        let mut steps = FIRST_STEPS;
        if !self.exact.is_able() && !self.is_done() {
            self.sharpen();
        }
        while !self.is_done() && !self.meter.is_over() {
            let goal = Goal { bound: self.bound, unit };
            let before = std::mem::take(&mut self.best);
            let steps_here = if self.exact.is_able() { steps } else { u64::MAX };
            let (problem, random, meter) = (self.problem, &mut self.random, self.meter);
            (self.best, _) = meter.part(steps_here, || improve(problem, before, &goal, random, meter));
            self.rate();
            if !self.exact.is_able() {
                return;
            }
            self.prove(steps);
            if steps == SHARP_STEPS && !self.is_done() {
                self.sharpen();
            }
            steps = steps.saturating_mul(2);
        }
    }

    /// Runs the exact search for `steps`.
    fn prove(&mut self, steps: u64) {
        let (problem, meter) = (self.problem, self.meter);
        if !self.best.left.is_empty() {
            let wanted: Vec<u32> = problem.items.iter().map(|item| item.demand).collect();
            let ask = Ask { wanted: &wanted, needs: &[], bound: 0, below: u64::MAX };
            if let Some(found) = self.exact.all(problem, &ask, steps, meter) {
                self.best = found;
                self.best.cheapen(problem);
                self.rate();
            }
        }
        let below = self.best.cost(problem);
        if self.bound < below {
            let ask = Ask { wanted: &self.wanted, needs: &self.needs, bound: self.bound, below };
            let known = self.exact.cheapest(problem, &ask, steps, meter);
            self.bound = self.bound.max(known.bound);
            if let Some(found) = known.found {
                self.best = Draft { left: std::mem::take(&mut self.best.left), ..found };
            }
            self.bound = self.bound.min(self.best.cost(problem));
        }
    }
}

/// The count of each item that a plan cuts.
fn cut_of(problem: &Problem, draft: &Draft) -> Vec<u32> {
    let mut counts: Vec<u32> = problem.items.iter().map(|item| item.demand).collect();
    draft.left.iter().for_each(|item| counts[*item] -= 1);
    counts
}

/// The rank of a plan: first the area left out, then the cost.
fn rank(problem: &Problem, draft: &Draft) -> (u64, u64) {
    (draft.left_area(problem), draft.cost(problem))
}

/// The best plan over all orders, fits and choices of sheets.
fn first(problem: &Problem, random: &mut Random, meter: &Meter) -> Draft {
    let mut best: Option<Draft> = None;
    let mut order = problem.pieces();
    for next in [Next::Cheap, Next::Small, Next::Great] {
        for by in Order::ALL {
            by.sort(problem, &mut order, 0, random);
            for fit in Fit::ALL {
                if best.is_some() && meter.is_over() {
                    return best.unwrap_or_default();
                }
                let mut draft = Draft::default();
                fill(problem, &mut draft, &order, Manner { fit, next, blink: 0 }, u64::MAX, random, meter);
                draft.cheapen(problem);
                if best.as_ref().is_none_or(|best| rank(problem, &draft) < rank(problem, best)) {
                    best = Some(draft);
                }
            }
        }
    }
    best.unwrap_or_default()
}

/// The plan in the rows of the instance.
fn plan(instance: &Instance, problem: &Problem, draft: &Draft, bound: u64) -> Plan {
    let mut rows: Vec<Vec<(usize, u32)>> = problem.items.iter().map(|item| item.rows.clone()).collect();
    let mut left: Vec<u32> = instance.pieces.iter().map(|piece| piece.quantity).collect();
    let mut piece = |item: usize, size: Size| {
        let own = &mut rows[item];
        let row = own.last_mut().map_or(0, |(row, count)| {
            *count -= 1;
            *row
        });
        if own.last().is_some_and(|(_, count)| *count == 0) {
            own.pop();
        }
        left[row] -= 1;
        (row, u64::from(instance.pieces[row].width) + problem.kerf != size.width)
    };
    let mut layouts = Vec::new();
    for open in &draft.sheets {
        layouts.push(layout(&open.tree, problem.blanks[open.blank].row, instance, &mut piece));
    }
    Plan { layouts, cost: draft.cost(problem), bound, left }
}
