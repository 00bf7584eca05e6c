//! Brads driven through one rail into the next, and keys let into the corner.

use std::f64::consts::{FRAC_PI_2, PI};
use std::fmt;

use super::fault::{OutOfRange, above_zero, not_below_zero, shown, within};
use super::point::Point;
use super::wedge::cut_length;
use crate::diag::Fault;

/// A brad in a miter. Lengths in inches, angles in radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brad {
    /// Length of the brad, from under the head to the point.
    pub length: f64,
    /// Distance of the brad from the long point, driven square to the outer edge.
    pub at: f64,
    /// Distance of the brad from the nearer of front and back.
    pub cover: f64,
    /// The largest angle at which it may be driven askew toward front or back.
    pub skew: f64,
}

/// The wood around a brad. Lengths in inches; below zero, the brad comes out by as much. The two edges count only if
/// the brad bites.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driven {
    /// Length of the brad in the next rail; below zero, the distance by which it misses the joint.
    pub bite: f64,
    /// Between its point and the inner edge of the next rail.
    pub to_inner: f64,
    /// Between its point and the outer edge of the next rail.
    pub to_outer: f64,
    /// Between its point and the front or back of the frame, at the skew's worst.
    pub to_face: f64,
}

/// Why a brad or a key cannot be placed.
#[derive(Clone, Debug, PartialEq)]
pub enum MitreFault {
    /// A number outside its range.
    Range(OutOfRange),
    /// A brad that leaves its rail without meeting the joint. Lengths in inches.
    MissesJoint {
        /// The distance of the brad from the long point.
        at: f64,
        /// The limit of that distance.
        below: f64,
    },
    /// A slot as deep as the miter is long, or deeper. Lengths in inches.
    SlotTooDeep {
        /// The depth.
        depth: f64,
        /// The length of the miter.
        mitre: f64,
    },
}

impl fmt::Display for MitreFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(fault) => fault.fmt(f),
            Self::MissesJoint { at, below } => write!(
                f,
                "a brad {} in from the long point misses the joint; it must be less than {} in from it",
                shown(*at),
                shown(*below)
            ),
            Self::SlotTooDeep { depth, mitre } => {
                write!(f, "a slot {} in deep cuts through the miter, which is {} in long", shown(*depth), shown(*mitre))
            }
        }
    }
}

impl Fault for MitreFault {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::figure::BROKEN
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl From<OutOfRange> for MitreFault {
    fn from(fault: OutOfRange) -> Self {
        Self::Range(fault)
    }
}

/// The wood around a brad that is driven through the outer edge of one rail into the next.
///
/// Not askew, `bite = length − at / tan m`. The point lies `at` along the first rail's outer edge and its reach square
/// to it; the next rail's outer edge leaves the long point at `π − 2 m` from the first's, which for four sides runs
/// alongside the brad, for more sides away from it, for three across it. Askew by φ, it reaches `length · cos φ` and
/// comes `length · sin φ` nearer to a face.
///
/// Takes the face (in) and the miter m from square. Errors: lengths that are not above zero, a miter outside 15° to
/// 60°, a skew outside 0° to 45°, a brad too far from the corner to meet the joint. Source: frame maths §6.
pub fn brad(face: f64, mitre: f64, brad: Brad) -> Result<Driven, MitreFault> {
    above_zero("the face", face)?;
    corner(mitre)?;
    above_zero("the length of the brad", brad.length)?;
    above_zero("its distance from the long point", brad.at)?;
    not_below_zero("the cover of the brad", brad.cover)?;
    within("the skew of the brad", brad.skew.to_degrees(), "°", [0.0, 45.0])?;
    let below = face * mitre.tan();
    if brad.at >= below {
        return Err(MitreFault::MissesJoint { at: brad.at, below });
    }
    let joint = brad.at / mitre.tan();
    let point = Point::new(brad.at, brad.length * brad.skew.cos());
    // Along the next rail's outer edge, from the corner out.
    let edge = Point::direction(PI - 2.0 * mitre);
    let to_outer = point.cross(edge);
    Ok(Driven {
        bite: brad.length - joint / brad.skew.cos(),
        to_inner: face - to_outer,
        to_outer,
        to_face: brad.cover - brad.length * brad.skew.sin(),
    })
}

/// A slot sawn across a corner, for a key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slot {
    /// Length of the miter, from long point to short point, in inches.
    pub mitre: f64,
    /// The rest of the miter at the inner edge, in inches.
    pub left: f64,
    /// Length of the key at the bottom of the slot, in inches.
    pub key: f64,
    /// The area of glue on the key's two sides within one rail, in square inches.
    pub glue: f64,
}

/// The slot sawn across a corner from the outside, its bottom square to the miter.
///
/// The miter is `face / cos m` long; the key's bottom `2 s / tan m`, as far as the outer edges lie apart at the depth
/// s; its two triangles in each rail have the area `s² / tan m`.
///
/// Takes the face and the depth along the miter (in), and the miter m from square. Errors: lengths that are not above
/// zero, a miter outside 15° to 60°, a slot deeper than the miter is long. Source: geometry.
pub fn slot(face: f64, mitre: f64, depth: f64) -> Result<Slot, MitreFault> {
    above_zero("the face", face)?;
    corner(mitre)?;
    above_zero("the depth of the slot", depth)?;
    let length = cut_length(face, mitre);
    if depth >= length {
        return Err(MitreFault::SlotTooDeep { depth, mitre: length });
    }
    // Half of the corner, between the miter and an outer edge.
    let half = depth * (FRAC_PI_2 - mitre).tan();
    Ok(Slot { mitre: length, left: length - depth, key: 2.0 * half, glue: depth * half })
}

/// Miters of 12 to 3 sides, with room for rounding.
fn corner(mitre: f64) -> Result<(), OutOfRange> {
    within("the miter", mitre.to_degrees(), "°", [15.0 - 1e-9, 60.0 + 1e-9])
}
