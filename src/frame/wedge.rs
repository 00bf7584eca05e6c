//! A miter whose faces do not meet: the width of the gap, and where it opens.

use std::f64::consts::PI;

use super::fault::{OutOfRange, within};

/// Where a miter opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opens {
    /// Nowhere: its faces meet.
    Nowhere,
    /// At the outer edge of the frame, touching at the inner.
    Outside,
    /// At the inner edge, touching at the outer.
    Inside,
}

/// The wedge between the faces of a miter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wedge {
    /// Between the faces, in radians, zero or more.
    pub angle: f64,
    /// The width at the open end, in inches.
    pub gap: f64,
    /// The open end.
    pub opens: Opens,
}

impl Wedge {
    /// The wedge of two ends that together are `blunt` more than the corner they are to fill (radians; below zero where
    /// they are less), on faces as long as `cut` (in).
    ///
    /// `gap = cut · angle`. Ends too blunt touch at the inner edge and open at the outer. Source: frame maths §8.
    pub fn of(blunt: f64, cut: f64) -> Self {
        let opens = if blunt > 0.0 {
            Opens::Outside
        } else if blunt < 0.0 {
            Opens::Inside
        } else {
            Opens::Nowhere
        };
        Self { angle: blunt.abs(), gap: cut * blunt.abs(), opens }
    }
}

/// The fewest sides of a frame.
pub const FEWEST_SIDES: u32 = 3;
/// The most.
pub const MOST_SIDES: u32 = 12;

/// The miter of a flat regular frame, from square, in radians: `π / n`. Errors: sides outside 3 to 12.
pub fn mitre(sides: u32) -> Result<f64, OutOfRange> {
    within("the number of sides", f64::from(sides), "", [FEWEST_SIDES, MOST_SIDES].map(f64::from))?;
    Ok(PI / f64::from(sides))
}

/// The length of a miter's face from long point to short point (in): `face / cos(miter)`.
pub fn cut_length(face: f64, mitre: f64) -> f64 {
    face / mitre.cos()
}
