//! Measured art: four edges, one or two diagonals, and where its corners lie.

use std::f64::consts::FRAC_PI_2;

mod corners;
mod fault;

use super::fault::above_zero;
use super::point::Point;
use corners::{adjusted, diagonals, edges, on_first, on_second, with_equal_diagonals};
pub use fault::{CORNERS, EDGES, QuadrilateralFault};
use fault::{DIAGONALS, OUT_OF_SQUARE};

/// The measured lengths of a work, in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Top, right, bottom, left.
    pub edges: [f64; 4],
    /// From the top left corner, from the top right corner.
    pub diagonals: [Option<f64>; 2],
    /// Across at half the height and down at half the width, where edges bow.
    pub middles: [Option<f64>; 2],
}

/// The diagonals that place a quadrilateral.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// No diagonal was measured: both count as equal.
    EqualDiagonals,
    /// One diagonal settles it.
    OneDiagonal,
    /// Both were measured, one more than needed: the shape that disagrees least with all six lengths.
    BothDiagonals,
}

/// The shape of a work, turned so that the mean direction of its edges is level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quadrilateral {
    /// Clockwise from the top left, which is the origin.
    pub corners: [Point; 4],
    /// The middle of each edge, bow included: top, right, bottom, left.
    pub middles: [Point; 4],
    /// How far each edge bows out at its middle (in, where below zero): top, right, bottom, left.
    pub bows: [f64; 4],
    /// The diagonals that place it.
    pub basis: Basis,
    /// The most by which a measured length differs from the shape's; zero unless both diagonals were measured.
    pub misfit: f64,
}

/// A bow beyond this part of the measured length is a slip of the tape.
const MOST_BOW: f64 = 0.1;

impl Quadrilateral {
    /// The shape of the measured lengths.
    ///
    /// One diagonal: the shape that has the five lengths. Both: the least sum of squared disagreements over all six
    /// lengths, with the largest of them as `misfit`. None: the shape with equal diagonals. A length at mid-span is
    /// shared: both edges bow by half of what it differs from the same length between straight edges.
    ///
    /// Errors: lengths that make no convex shape, corners more than 45° from square, bows of more than a tenth of the
    /// length they are measured on. Source: frame maths §5; the last two limits are common practice, no source.
    pub fn place(measured: &Measured) -> Result<Self, QuadrilateralFault> {
        check_lengths(measured)?;
        let edges = measured.edges;
        let (corners, basis) = match measured.diagonals {
            [None, None] => (with_equal_diagonals(edges)?, Basis::EqualDiagonals),
            [Some(first), None] => (on_first(edges, first, 0)?, Basis::OneDiagonal),
            [None, Some(second)] => (on_second(edges, second)?, Basis::OneDiagonal),
            [Some(first), Some(second)] => (adjusted(edges, [first, second])?, Basis::BothDiagonals),
        };
        check_square(&corners)?;
        let corners = level(corners);
        let (middles, bows) = middles(&corners, measured.middles)?;
        let misfit = if basis == Basis::BothDiagonals { misfit(&corners, measured) } else { 0.0 };
        Ok(Self { corners, middles, bows, basis, misfit })
    }

    /// The lengths of its edges between the corners: top, right, bottom, left.
    pub fn edges(&self) -> [f64; 4] {
        edges(&self.corners)
    }

    /// Its diagonals, the one from the top left first.
    pub fn diagonals(&self) -> [f64; 2] {
        diagonals(&self.corners)
    }

    /// The difference of each corner from a right angle, in radians, above zero if blunt: clockwise, top left first.
    pub fn out_of_square(&self) -> [f64; 4] {
        out_of_square(&self.corners)
    }
}

fn out_of_square(corners: &[Point; 4]) -> [f64; 4] {
    std::array::from_fn(|at| {
        let next = corners[(at + 1) % 4] - corners[at];
        let last = corners[(at + 3) % 4] - corners[at];
        next.cross(last).atan2(next.along(last)) - FRAC_PI_2
    })
}

fn check_lengths(measured: &Measured) -> Result<(), QuadrilateralFault> {
    const NAMES: [&str; 4] = ["the top edge", "the right edge", "the bottom edge", "the left edge"];
    for (what, length) in NAMES.into_iter().zip(measured.edges) {
        above_zero(what, length)?;
    }
    for (what, length) in DIAGONALS.into_iter().zip(measured.diagonals) {
        length.map_or(Ok(()), |length| above_zero(what, length))?;
    }
    for (what, length) in ACROSS_AND_DOWN.into_iter().zip(measured.middles) {
        length.map_or(Ok(()), |length| above_zero(what, length))?;
    }
    let around: f64 = measured.edges.iter().sum();
    for (edge, &length) in measured.edges.iter().enumerate() {
        let by = 2.0 * length - around;
        if by >= 0.0 {
            return Err(QuadrilateralFault::EdgeTooLong { edge, length, by });
        }
    }
    Ok(())
}

/// The most that an edge or a diagonal of the shape differs from what was measured.
fn misfit(corners: &[Point; 4], measured: &Measured) -> f64 {
    let off = |is: f64, measured: Option<f64>| measured.map_or(0.0, |measured| (is - measured).abs());
    let edges = edges(corners).into_iter().zip(measured.edges.map(Some));
    let diagonals = diagonals(corners).into_iter().zip(measured.diagonals);
    edges.chain(diagonals).map(|(is, measured)| off(is, measured)).fold(0.0, f64::max)
}

fn check_square(corners: &[Point; 4]) -> Result<(), QuadrilateralFault> {
    for (corner, angle) in out_of_square(corners).into_iter().enumerate() {
        if angle.abs() > OUT_OF_SQUARE {
            return Err(QuadrilateralFault::OutOfSquare { corner, degrees: angle.abs().to_degrees() });
        }
    }
    Ok(())
}

/// Turned so that the mean direction of the edges, each counted by its length and turned back by its quarter turns, is
/// level; the top left corner at the origin.
fn level(corners: [Point; 4]) -> [Point; 4] {
    let [a, b, c, d] = corners;
    let quarter = |way: Point| Point::new(way.y, -way.x);
    let mean = (b - a) + quarter(c - b) + (c - d) + quarter(d - a);
    let heading = mean.heading();
    corners.map(|corner| (corner - a).turned_back(heading))
}

const ACROSS_AND_DOWN: [&str; 2] = ["the width at half the height", "the height at half the width"];

/// The middles of the edges and how far they bow, by what was measured at mid-span.
fn middles(corners: &[Point; 4], measured: [Option<f64>; 2]) -> Result<([Point; 4], [f64; 4]), QuadrilateralFault> {
    let mut middles: [Point; 4] = std::array::from_fn(|at| corners[at].middle(corners[(at + 1) % 4]));
    let mut bows = [0.0; 4];
    // From the left to the right, from the top to the bottom.
    for (way, [from, to]) in [[3, 1], [0, 2]].into_iter().enumerate() {
        let Some(length) = measured[way] else { continue };
        let straight = middles[from].distance(middles[to]);
        let bow = (length - straight) / 2.0;
        if bow.abs() > MOST_BOW * straight {
            return Err(QuadrilateralFault::BowsTooMuch { what: ACROSS_AND_DOWN[way], length, straight });
        }
        let outward = (middles[to] - middles[from]).heading() * bow;
        middles[to] = middles[to] + outward;
        middles[from] = middles[from] - outward;
        bows[to] = bow;
        bows[from] = bow;
    }
    Ok((middles, bows))
}
