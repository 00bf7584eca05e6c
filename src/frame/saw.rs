//! The effect of small saw errors on a frame.

use std::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_4};

use super::fault::{OutOfRange, above_zero, not_below_zero, within};
use super::wedge::{Wedge, cut_length, mitre};

/// The largest saw error that counts as small, in degrees.
const MOST_ERROR: f64 = 5.0;

/// Four rails whose miters are all off by the same angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MitresOff {
    /// Three corners pulled tight: how far the long points of the last lie apart, in inches.
    pub long_points_apart: f64,
    /// Three corners pulled tight: the angle between the faces of the last, in radians.
    pub last_angle: f64,
    /// The whole frame pulled square: the wedge in every corner.
    pub corner: Wedge,
}

/// The effect on a frame of four rails if every miter is off by `error` (radians, above zero if the saw was set
/// to more than 45° from square, so that the ends are too sharp).
///
/// Three corners pulled tight: each turns by `2 ε`, and the long points of the last are `4 ε √(W² + H²)` apart, its
/// faces `8 ε`. Pulled square: every corner opens `2 ε · face · √2`, too sharp on the inside, too blunt on the outside.
/// True to the first order of ε.
///
/// Takes the outside width and height and the face (in). Errors: lengths that are not above zero, an error of more than
/// 5°. Source: frame maths §9.
pub fn mitres_off(width: f64, height: f64, face: f64, error: f64) -> Result<MitresOff, OutOfRange> {
    sizes(width, height)?;
    above_zero("the face", face)?;
    small(error)?;
    Ok(MitresOff {
        long_points_apart: 4.0 * error.abs() * width.hypot(height),
        last_angle: total_error(4, error)?.abs(),
        corner: Wedge::of(-2.0 * error, cut_length(face, FRAC_PI_4)),
    })
}

/// How far the corners of a frame of `sides` rails, each cut off by `error`, are from closing, in radians: two ends to
/// a corner, `2 n ε`. Errors: sides outside 3 to 12, an error of more than 5°.
pub fn total_error(sides: u32, error: f64) -> Result<f64, OutOfRange> {
    mitre(sides)?;
    small(error)?;
    Ok(2.0 * f64::from(sides) * error)
}

/// A frame out of square, by its diagonals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Racked {
    /// How far the corners are from square, in radians: above zero where the first diagonal is the longer one.
    pub angle: f64,
    /// How far the top lies to one side of the bottom, in inches, with the sign of the angle.
    pub lean: f64,
    /// Both diagonals once it is pulled square, in inches.
    pub square: f64,
    /// How far the measured diagonals are, on the whole, from those of any frame of this size, in inches: above zero
    /// where they are too long. A slip of the tape, or rails of unequal length.
    pub misfit: f64,
}

/// How far a frame of equal opposite rails is racked, by its two diagonals.
///
/// With sides W and H and corners γ off square, `d² = W² + H² ± 2 W H sin γ`, so that
/// `sin γ = (d₁² − d₂²) / (4 W H)` exactly.
///
/// Takes the outside width and height and both diagonals, between the same corners (in). Errors: lengths that are not
/// above zero, diagonals that differ by more than any frame's of this size. Source: law of cosines; frame maths §9 has
/// its first order.
pub fn racked(width: f64, height: f64, [first, second]: [f64; 2]) -> Result<Racked, OutOfRange> {
    sizes(width, height)?;
    above_zero("the first diagonal", first)?;
    above_zero("the second diagonal", second)?;
    // The product of sum and difference keeps the digits that a difference of squares loses.
    let sine = (first - second) * (first + second) / (4.0 * width * height);
    let most = 4.0 * width * height / (first + second);
    within("the difference of the diagonals", (first - second).abs(), " in", [0.0, most])?;
    let square = width.hypot(height);
    Ok(Racked {
        angle: sine.clamp(-1.0, 1.0).asin(),
        lean: height * sine,
        square,
        misfit: first.hypot(second) * FRAC_1_SQRT_2 - square,
    })
}

/// The two diagonals of a frame whose corners are `angle` (radians) off square, in inches, the longer first where the
/// angle is above zero. Errors: lengths that are not above zero, an angle beyond a right one.
pub fn diagonals(width: f64, height: f64, angle: f64) -> Result<[f64; 2], OutOfRange> {
    sizes(width, height)?;
    within("the angle", angle.to_degrees(), "°", [-90.0, 90.0])?;
    let squares = width * width + height * height;
    Ok([1.0, -1.0].map(|sign| (squares + sign * 2.0 * width * height * angle.sin()).max(0.0).sqrt()))
}

/// A frame with two opposite rails of unequal length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnequalRails {
    /// The difference of each corner from square, in radians: sharper at the longer rail, blunter at the shorter.
    pub corner: f64,
    /// The wedge at both ends of the longer rail.
    pub at_longer: Wedge,
    /// The wedge at both ends of the shorter rail.
    pub at_shorter: Wedge,
    /// Clamped square instead: the step at one corner, in inches.
    pub step: f64,
}

/// The effect on a frame if two opposite rails differ by `difference`, by the length of the rails between them.
///
/// Corners stand `δ / (2 (S − face))` off square, miters open by that times `face · √2`, outside at the longer rail and
/// inside at the shorter; clamped square it leaves a step of δ. True to the first order of δ. The face comes off the
/// side since the joints of the longer rail touch at their short points, those of the shorter at their long points.
///
/// Takes the length of the other two rails, the face and the difference (in). Errors: a length that is not above zero,
/// a face of half the side or more, a difference below zero or of more than a tenth of the side. Source: frame maths
/// §9.
pub fn unequal_rails(side: f64, face: f64, difference: f64) -> Result<UnequalRails, OutOfRange> {
    above_zero("the length of the other rails", side)?;
    above_zero("the face", face)?;
    not_below_zero("the difference of the rails", difference)?;
    within("the difference of the rails", difference, " in", [0.0, side / 10.0])?;
    within("the face", face, " in", [0.0, side / 2.0])?;
    let corner = difference / (2.0 * (side - face));
    let cut = cut_length(face, FRAC_PI_4);
    Ok(UnequalRails {
        corner,
        at_longer: Wedge::of(corner, cut),
        at_shorter: Wedge::of(-corner, cut),
        step: difference,
    })
}

fn sizes(width: f64, height: f64) -> Result<(), OutOfRange> {
    above_zero("the outside width", width)?;
    above_zero("the outside height", height)
}

fn small(error: f64) -> Result<(), OutOfRange> {
    within("the error of the saw", error.to_degrees(), "°", [-MOST_ERROR, MOST_ERROR])
}
