//! Places along a side: the first at a distance from each corner, the others between with equal steps.

use super::args::{Args, amount};
use crate::measure::Real;
use crate::rules::datum::{Datum, Fault, Record};
use crate::rules::sentence::{inches, words};

/// So many places no side has.
const MOST: i64 = 100_000;

/// See `places` in [`super::super::native::NATIVES`]: a side that is short has one place, in its middle; any other has two
/// or more, no farther apart than the pitch. Exact.
///
/// # Errors
/// A pitch that gives no places, or more of them than any side has.
pub fn along(args: &Args) -> Result<Record, Fault> {
    let (side, first, pitch, short) = (args.amount(0), args.amount(1), args.amount(2), args.amount(3));
    let two = Real::whole(2);
    let between = side.clone() - two.clone() * first.clone();
    if side <= short || !between.is_positive() {
        let middle = side / two;
        return Ok(Record {
            parts: vec![amount(Real::ONE), None, Some(Datum::List([middle.clone()].into()))],
            reasons: vec![vec![words("one, in the middle at "), inches(middle)]],
        });
    }
    if !pitch.is_positive() {
        return Err(Fault(vec![words("places need some distance between them, but the pitch is "), inches(pitch)]));
    }
    let steps = (between.clone() / pitch.clone()).ceil();
    let steps = if steps < Real::ONE { Real::ONE } else { steps };
    let apart = between / steps.clone();
    let count = steps.clone() + Real::ONE;
    // A side of a mile has some thousands of them.
    let Some(last) = steps.to_whole().filter(|last| *last < MOST) else {
        return Err(Fault(vec![words("a pitch of "), inches(pitch), words(" gives more places than any side has")]));
    };
    let list: Vec<Real> = (0..=last).map(|step| first.clone() + Real::whole(step) * apart.clone()).collect();
    Ok(Record { parts: vec![amount(count), amount(apart), Some(Datum::List(list.into()))], reasons: Vec::new() })
}
