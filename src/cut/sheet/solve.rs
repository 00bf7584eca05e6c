//! The search: a first plan, bounds, and what makes the plan better.

use num_integer::Integer;

use super::bound::by_size;
use super::draft::Draft;
use super::fill::{Fit, Manner, Next, fill};
use super::improve::{Goal, improve};
use super::instance::Instance;
use super::layout::layout;
use super::need::cheapest;
use super::order::Order;
use super::plan::Plan;
use super::problem::{Problem, Size};
use super::random::Random;
use crate::cut::limits::{Limits, Meter};

/// The cheapest plan that is found within `limits`, and a bound for what any plan costs.
///
/// Pieces that no sheet is great enough for, and those that the sheets do not reach for, are left; the plan and its
/// bound are of the rest. With `limits` of steps alone the same instance always gives the same plan.
pub fn solve(instance: &Instance, limits: &Limits) -> Plan {
    let meter = Meter::new(limits);
    let problem = Problem::new(instance);
    let mut random = Random::new(1);
    let best = first(&problem, &mut random, &meter);
    let wanted = cut_of(&problem, &best);
    let bound = least(&problem, &wanted, best.cost(&problem), &meter);
    let unit = problem.blanks.iter().fold(0, |unit, blank| unit.gcd(&blank.cost)).max(1);
    let goal = Goal { bound, unit };
    let best = improve(&problem, best, &goal, &mut random, &meter);
    let now = cut_of(&problem, &best);
    // A bound is of what is cut: where more is cut than at first it is another.
    let bound = if now == wanted { bound } else { least(&problem, &now, best.cost(&problem), &meter) };
    plan(instance, &problem, &best, bound.min(best.cost(&problem)))
}

/// How many of each item a plan cuts.
fn cut_of(problem: &Problem, draft: &Draft) -> Vec<u32> {
    let mut counts: Vec<u32> = problem.items.iter().map(|item| item.demand).collect();
    draft.left.iter().for_each(|item| counts[*item] -= 1);
    counts
}

/// What any plan for so many of each item costs at the least.
fn least(problem: &Problem, wanted: &[u32], most: u64, meter: &Meter) -> u64 {
    let needs = by_size(problem, wanted, meter);
    cheapest(problem, &needs, wanted, most, meter)
}

/// How good a plan is: first that little is left, then that it is cheap.
fn rank(problem: &Problem, draft: &Draft) -> (u64, u64) {
    (draft.left_area(problem), draft.cost(problem))
}

/// The best of the plans that every order, fit and choice of sheets gives.
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

/// What the search found, in the rows of the instance.
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
