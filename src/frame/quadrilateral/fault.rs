//! Faults of measured lengths.

use std::f64::consts::FRAC_PI_4;
use std::fmt;

use super::super::fault::{OutOfRange, shown};
use crate::diag::Fault;

/// Names of the edges, clockwise from the top.
pub const EDGES: [&str; 4] = ["top", "right", "bottom", "left"];
/// Names of the corners, clockwise.
pub const CORNERS: [&str; 4] = ["top left", "top right", "bottom right", "bottom left"];

/// Names of the diagonals, by the corner where they begin.
pub(super) const DIAGONALS: [&str; 2] = ["the diagonal from the top left", "the diagonal from the top right"];

/// A frame of four right angles does not fit a work with a corner farther from square than this.
pub(super) const OUT_OF_SQUARE: f64 = FRAC_PI_4;

/// Why lengths make no work that can be framed. Lengths in inches; edges and corners by their number, clockwise from
/// the top and from the top left.
#[derive(Clone, Debug, PartialEq)]
pub enum QuadrilateralFault {
    /// A length out of range.
    NoLength(OutOfRange),
    /// An edge that is longer than the other three together.
    EdgeTooLong {
        /// The edge.
        edge: usize,
        /// The length.
        length: f64,
        /// The distance.
        by: f64,
    },
    /// A diagonal that is longer than two edges together.
    DiagonalTooLong {
        /// 0 from the top left, 1 from the top right.
        diagonal: usize,
        /// The length.
        length: f64,
        /// The edges that end where it ends.
        edges: [usize; 2],
        /// The limit, which it must stay below.
        below: f64,
    },
    /// A diagonal so short that a corner would point inwards.
    DiagonalTooShort {
        /// 0 from the top left, 1 from the top right.
        diagonal: usize,
        /// The length.
        length: f64,
        /// The corner.
        corner: usize,
        /// The limit, which it must exceed.
        above: f64,
    },
    /// Edges that no shape with equal diagonals has.
    NoEqualDiagonals,
    /// Diagonals that cannot be brought together.
    DiagonalsApart {
        /// The second diagonal as measured.
        second: f64,
        /// Its length by the edges and the first diagonal.
        by_first: f64,
    },
    /// A corner too far from a right angle.
    OutOfSquare {
        /// The corner.
        corner: usize,
        /// The difference from square, in degrees.
        degrees: f64,
    },
    /// An edge that bows more than any work does.
    BowsTooMuch {
        /// The measured length, with its article.
        what: &'static str,
        /// The length at mid-span.
        length: f64,
        /// The length between straight edges.
        straight: f64,
    },
}

impl fmt::Display for QuadrilateralFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoLength(fault) => fault.fmt(f),
            Self::EdgeTooLong { edge, length, by } => write!(
                f,
                "the {} edge is {} in, {} in longer than the other three together",
                EDGES[*edge],
                shown(*length),
                shown(*by)
            ),
            Self::DiagonalTooLong { diagonal, length, edges: [one, other], below } => write!(
                f,
                "{} is {} in, {} in longer than {} and {} together",
                DIAGONALS[*diagonal],
                shown(*length),
                shown(length - below),
                EDGES[*one],
                EDGES[*other]
            ),
            Self::DiagonalTooShort { diagonal, length, corner, above } => write!(
                f,
                "{} is {} in, {} in too short for these edges: the {} corner would point inwards",
                DIAGONALS[*diagonal],
                shown(*length),
                shown(above - length),
                CORNERS[*corner]
            ),
            Self::NoEqualDiagonals => f.write_str("no shape with these edges has equal diagonals; measure one"),
            Self::DiagonalsApart { second, by_first } => write!(
                f,
                "{} is {} in, and by the edges and the other diagonal it is {} in",
                DIAGONALS[1],
                shown(*second),
                shown(*by_first)
            ),
            Self::OutOfSquare { corner, degrees } => write!(
                f,
                "the {} corner is {}° from square; a frame with four right angles takes at most {}°",
                CORNERS[*corner],
                shown(*degrees),
                shown(OUT_OF_SQUARE.to_degrees())
            ),
            Self::BowsTooMuch { what, length, straight } => write!(
                f,
                "{what} is {} in, and {} in between straight edges; edges bow less than that",
                shown(*length),
                shown(*straight)
            ),
        }
    }
}

impl Fault for QuadrilateralFault {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::figure::BROKEN
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl From<OutOfRange> for QuadrilateralFault {
    fn from(fault: OutOfRange) -> Self {
        Self::NoLength(fault)
    }
}
