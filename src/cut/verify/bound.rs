//! What a certificate shows.

use super::cuts::Cut;
use super::kinds::Kinds;
use super::mixes::Mixes;
use super::steps::Steps;
use super::tree::closes;
use crate::cut::{Instance, Plan};

/// The greatest bound, up to the plan's own, that its certificate shows in so many steps.
///
/// The plan must have passed [`super::verify`]: the bound is for the parts that it cuts.
pub fn certified(instance: &Instance, plan: &Plan, steps: u64) -> u64 {
    let Some(kinds) = Kinds::new(instance, plan) else { return 0 };
    let steps = Steps::new(steps);
    let worths: Vec<Vec<i64>> = plan.certificate.cuts.iter().filter_map(|rows| kinds.worth(rows)).collect();
    let claimed = plan.bound.div_ceil(kinds.unit);
    let rough: Vec<Cut> = worths.iter().filter_map(|worth| kinds.rough(worth)).collect();
    // A plan cuts these parts, so that a cut which all the stock does not meet is a flaw of the check: it shows nothing.
    let mut shown = Mixes::new(&kinds, &rough, &steps, |_| Some(false)).by_one_cut().unwrap_or(0);
    if shown < claimed {
        let exact = worths.iter().map(|worth| kinds.exact(worth, &steps)).collect::<Option<Vec<Cut>>>();
        if let Some(cuts) = exact {
            let mixes = || Mixes::new(&kinds, &cuts, &steps, |mix| is_closed(&kinds, plan, mix, &steps));
            shown = mixes().by_one_cut().unwrap_or(0);
            shown = mixes().cheapest(claimed).unwrap_or(shown);
        }
    }
    shown.saturating_mul(kinds.unit).min(plan.bound)
}

/// Whether a tree of the certificate closes a mix.
fn is_closed(kinds: &Kinds, plan: &Plan, mix: &[u32], steps: &Steps) -> Option<bool> {
    for closed in plan.certificate.closed.iter().filter(|closed| kinds.mix(&closed.mix).as_deref() == Some(mix)) {
        if closes(kinds, closed, mix, steps)? {
            return Some(true);
        }
    }
    Some(false)
}
