//! Makes a plan cheaper: takes pieces off some sheets and puts them back in another order.
//!
//! Source: Gardeyn and Wauters, A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem
//! with guillotine constraints, European Journal of Operational Research 301 (2022). As there, the goal is a cost below
//! that of the best plan, pieces may lie on no sheet meanwhile, and a change is kept if what lies on none is less than
//! some changes ago.

use super::draft::Draft;
use super::fill::{Fit, Manner, Next, fill};
use super::order::{Order, Random};
use super::problem::Problem;
use crate::cut::limits::Meter;

/// The goal of a search.
pub(super) struct Goal {
    /// The bound: a plan at this cost ends the search.
    pub(super) bound: u64,
    /// The common divisor of all costs.
    pub(super) unit: u64,
}

/// A plan that is cheaper than `best` or leaves less out, or else `best`.
pub(super) fn improve(problem: &Problem, best: Draft, goal: &Goal, random: &mut Random, meter: &Meter) -> Draft {
    let mut search = Search { problem, meter, random };
    let mut best = best;
    while !search.meter.is_over() {
        let cost = best.cost(problem);
        if !best.left.is_empty() {
            // The sheets have run out, so cut as much as possible at any cost.
            let Some(found) = search.reach(best.clone(), u64::MAX, best.left_area(problem)) else { break };
            best = found;
        } else if cost > goal.bound {
            let budget = cost.saturating_sub(goal.unit);
            let Some(found) = search.reach(best.clone(), budget, 1) else { break };
            best = found;
        } else {
            break;
        }
        best.cheapen(problem);
    }
    best
}

struct Search<'a> {
    problem: &'a Problem,
    meter: &'a Meter<'a>,
    random: &'a mut Random,
}

/// A plan is compared with the plan so many changes ago.
const HISTORY: usize = 200;

impl Search<'_> {
    /// A plan within the budget that leaves out less area than `below`.
    fn reach(&mut self, from: Draft, budget: u64, below: u64) -> Option<Draft> {
        let mut now = from;
        while now.cost(self.problem) > budget {
            let sheet = self.dearest(&now);
            self.close(&mut now, sheet);
        }
        let mut area = now.left_area(self.problem);
        let mut history = vec![area; HISTORY];
        let mut round = 0;
        while !self.meter.is_over() {
            self.meter.count(100);
            let mut next = now.clone();
            self.ruin(&mut next);
            self.recreate(&mut next, budget);
            let reached = next.left_area(self.problem);
            if reached < below {
                return Some(next);
            }
            if reached <= area || reached <= history[round % HISTORY] {
                now = next;
                area = reached;
            }
            history[round % HISTORY] = area;
            round += 1;
        }
        None
    }

    /// The sheet with the least area used for its cost.
    fn dearest(&self, draft: &Draft) -> usize {
        let key = |at: &usize| {
            let open = &draft.sheets[*at];
            u128::from(open.tree.used()) * 1000 / u128::from(self.problem.blanks[open.blank].cost.max(1))
        };
        (0..draft.sheets.len()).min_by_key(key).unwrap_or(0)
    }

    /// Takes everything off a sheet, and removes the sheet.
    fn close(&self, draft: &mut Draft, sheet: usize) {
        let gone = draft.sheets.swap_remove(sheet);
        draft.left.extend(gone.tree.items());
    }

    fn ruin(&mut self, draft: &mut Draft) {
        if draft.sheets.is_empty() {
            return;
        }
        let sheets = 1 + self.random.below(3.min(draft.sheets.len()));
        for _ in 0..sheets {
            if draft.sheets.is_empty() {
                return;
            }
            let sheet = self.random.below(draft.sheets.len());
            if self.random.once_in(8) {
                self.close(draft, sheet);
                continue;
            }
            let many = 1 + self.random.below(4);
            for _ in 0..many {
                self.take(draft, sheet);
                if draft.sheets[sheet].tree.is_empty() {
                    draft.sheets.swap_remove(sheet);
                    break;
                }
            }
        }
    }

    /// Takes a piece, or a row with all that is in it, off a sheet.
    fn take(&mut self, draft: &mut Draft, sheet: usize) {
        let tree = &mut draft.sheets[sheet].tree;
        let node = self.random.below(tree.nodes().len());
        self.meter.count(4 * tree.nodes().len());
        if tree.nodes()[node].item.is_some() || self.random.once_in(3) {
            draft.left.extend(tree.take(node));
        }
    }

    fn recreate(&mut self, draft: &mut Draft, budget: u64) {
        let mut order = std::mem::take(&mut draft.left);
        let by = Order::ALL[self.random.below(Order::ALL.len())];
        let loose = [0, 20, 60][self.random.below(3)];
        by.sort(self.problem, &mut order, loose, self.random);
        let next = [Next::Cheap, Next::Small, Next::Great, Next::Any][self.random.below(4)];
        let fit = Fit::ALL[self.random.below(Fit::ALL.len())];
        let manner = Manner { fit, next, blink: 20 };
        fill(self.problem, draft, &order, manner, budget, self.random, self.meter);
    }
}
