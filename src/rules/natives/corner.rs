//! What holds a corner together, and what errors at the saw do to it.

use super::args::{Args, about};
use crate::frame::mitre::{Brad, brad, slot};
use crate::frame::saw::{mitres_off, racked, unequal_rails};
use crate::measure::Real;
use crate::rules::datum::{Fault, Record};
use crate::rules::sentence::{inches, words};

/// See `brad` in [`super::super::native::NATIVES`].
///
/// # Errors
/// A brad that leaves its rail without meeting the joint.
pub fn driven(args: &Args) -> Result<Record, Fault> {
    let at = |place| args.float(place).unwrap_or_default();
    let one = Brad { length: at(2), at: at(3), cover: at(4), skew: at(5).to_radians() };
    let driven = brad(at(0), at(1).to_radians(), one).map_err(Fault::of)?;
    Ok(Record {
        parts: [driven.bite, driven.to_inner, driven.to_outer, driven.to_face].map(about).to_vec(),
        reasons: Vec::new(),
    })
}

/// See `key` in [`super::super::native::NATIVES`].
///
/// # Errors
/// A slot that cuts through the miter.
pub fn key(args: &Args) -> Result<Record, Fault> {
    let at = |place| args.float(place).unwrap_or_default();
    let slot = slot(at(0), at(1).to_radians(), at(2)).map_err(Fault::of)?;
    Ok(Record { parts: [slot.mitre, slot.left, slot.key, slot.glue].map(about).to_vec(), reasons: Vec::new() })
}

/// See `mitres` in [`super::super::native::NATIVES`].
///
/// # Errors
/// An error that is not small.
pub fn mitres(args: &Args) -> Result<Record, Fault> {
    let at = |place| args.float(place).unwrap_or_default();
    let off = mitres_off(at(0), at(1), at(2), at(3).to_radians()).map_err(Fault::of)?;
    Ok(Record {
        parts: vec![about(off.long_points_apart), about(off.last_angle.to_degrees()), about(off.corner.gap)],
        reasons: vec![vec![
            words(
                "if every miter is off by the same amount: with three corners pulled tight, the long points of the last are ",
            ),
            inches(Real::approximate(off.long_points_apart)),
            words(" apart; clamped square, every corner opens "),
            inches(Real::approximate(off.corner.gap)),
        ]],
    })
}

/// See `racked` in [`super::super::native::NATIVES`].
///
/// # Errors
/// Diagonals that no frame of this size has.
pub fn leaning(args: &Args) -> Result<Record, Fault> {
    let (Some(first), Some(second)) = (args.float(2), args.float(3)) else {
        return Ok(Record::default());
    };
    let at = |place| args.float(place).unwrap_or_default();
    let racked = racked(at(0), at(1), [first, second]).map_err(Fault::of)?;
    Ok(Record {
        parts: vec![about(racked.angle.to_degrees()), about(racked.lean), about(racked.square), about(racked.misfit)],
        reasons: vec![vec![words("pulled square, both diagonals are "), inches(Real::approximate(racked.square))]],
    })
}

/// See `unlike` in [`super::super::native::NATIVES`].
///
/// # Errors
/// A difference that no rails have.
pub fn unlike(args: &Args) -> Result<Record, Fault> {
    let at = |place| args.float(place).unwrap_or_default();
    let rails = unequal_rails(at(0), at(1), at(2)).map_err(Fault::of)?;
    Ok(Record {
        parts: vec![about(rails.corner.to_degrees()), about(rails.at_longer.gap), about(rails.step)],
        reasons: vec![vec![words(
            "if opposite rails differ in length: corners open outside at the longer rail and inside at the shorter",
        )]],
    })
}
