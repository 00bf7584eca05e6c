//! Places along a side: the first at a distance from each corner, the others between with equal steps.

use super::{Args, Record, amount, inches, words};
use crate::measure::Real;
use crate::rules::Datum;

/// See `places` in [`super::super::native::NATIVES`]: a side that is short has one place, in its middle; any other has two
/// or more, no farther apart than the pitch. Exact.
pub fn along(args: &Args) -> Record {
    let (side, first, pitch, short) = (args.amount(0), args.amount(1), args.amount(2), args.amount(3));
    let two = Real::whole(2);
    let between = side.clone() - two.clone() * first.clone();
    if side <= short || !between.is_positive() {
        let middle = side / two;
        return Record {
            parts: vec![amount(Real::ONE), None, Some(Datum::List([middle.clone()].into()))],
            reasons: vec![vec![words("one, in the middle at "), inches(middle)]],
        };
    }
    let steps = (between.clone() / pitch).ceil();
    let steps = if steps < Real::ONE { Real::ONE } else { steps };
    let apart = between / steps.clone();
    let count = steps.clone() + Real::ONE;
    // A side of a mile has some thousands of them; more would be a slip that the range of a length refuses.
    let list: Vec<Real> =
        (0..=steps.to_whole().unwrap_or(1)).map(|step| first.clone() + Real::whole(step) * apart.clone()).collect();
    Record { parts: vec![amount(count), amount(apart), Some(Datum::List(list.into()))], reasons: Vec::new() }
}
