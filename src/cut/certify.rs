//! From what a search found to a certificate in rows of the instance, with only what its claim needs.

use std::collections::{BTreeMap, HashSet};

use super::bound::Cut;
use super::certificate::{Certificate, ClosedMix, Tree};
use super::instance::Instance;
use super::limits::{Limits, Meter};
use super::mix::{Mixed, Wanted, cheapest};
use super::problem::Problem;

/// Why no plan has a mix.
#[derive(Debug)]
pub(super) struct Impossible {
    /// The worth of a part of each item, which limits the patterns.
    pub(super) worth: Vec<i64>,
    pub(super) tree: Tree,
}

/// The most steps to find out which cuts are needed. Too many cuts do no harm.
const MOST_STEPS: u64 = 10_000_000;

/// The certificate that no plan costs less than `bound`.
pub(super) fn certificate(
    instance: &Instance,
    problem: &Problem,
    cuts: Vec<Cut>,
    impossible: BTreeMap<Vec<u32>, Impossible>,
    bound: u64,
) -> Certificate {
    let cuts = needed(problem, cuts, impossible.keys().cloned().collect(), bound);
    let is_needed = |mix: &[u32]| problem.cost(mix) < bound && cuts.iter().all(|cut| cut.is_met(mix));
    let closed = impossible.into_iter().filter(|(mix, _)| is_needed(mix)).filter_map(|(mix, why)| {
        let mut rows = vec![0; instance.stock.len()];
        problem.bars.iter().zip(&mix).for_each(|(bar, count)| rows[bar.rows[0]] = *count);
        Some(ClosedMix { mix: rows, worth: worth(instance, problem, &why.worth)?, tree: why.tree })
    });
    let closed = closed.collect();
    Certificate { cuts: cuts.iter().filter_map(|cut| worth(instance, problem, &cut.worth)).collect(), closed }
}

/// The cuts without those that the others make up for, the oldest first.
fn needed(problem: &Problem, mut cuts: Vec<Cut>, closed: HashSet<Vec<u32>>, bound: u64) -> Vec<Cut> {
    let limits = Limits::steps(MOST_STEPS);
    let meter = Meter::new(&limits);
    let near = vec![0; problem.bars.len()];
    let mut at = 0;
    while at < cuts.len() {
        let cut = cuts.remove(at);
        let wanted = Wanted { cuts: &cuts, tried: &closed, below: bound, near: &near };
        if meter.is_over() || cheapest(problem, wanted, &meter) != Mixed::None {
            cuts.insert(at, cut);
            at += 1;
        }
    }
    cuts
}

/// The worth of a part of each row.
fn worth(instance: &Instance, problem: &Problem, items: &[i64]) -> Option<Vec<u32>> {
    let mut rows = vec![0; instance.parts.len()];
    for (item, worth) in problem.items.iter().zip(items) {
        let worth = u32::try_from(*worth).ok()?;
        item.parts.iter().for_each(|row| rows[*row] = worth);
    }
    Some(rows)
}
