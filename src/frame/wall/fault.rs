//! Faults of pieces on a wall.

use std::fmt;

use super::super::fault::{OutOfRange, shown};
use crate::diag::Fault;

/// Why pieces do not hang. Pieces and rows are counted from 0; lengths in inches.
#[derive(Clone, Debug, PartialEq)]
pub enum WallFault {
    /// A number outside its range.
    Range(OutOfRange),
    /// A number of a piece outside its range.
    Piece {
        /// The piece.
        piece: usize,
        /// The number.
        fault: OutOfRange,
    },
    /// Nothing to hang.
    NoPieces,
    /// No rows, or more rows than pieces.
    Rows {
        /// The rows wanted.
        rows: usize,
        /// The number of pieces.
        pieces: usize,
    },
    /// A hook beside or below its piece.
    HookOff {
        /// The piece.
        piece: usize,
        /// The distance.
        by: f64,
    },
    /// Wider than the wall.
    TooWide {
        /// The width of the pieces and their gaps.
        takes: f64,
        /// The width of the wall.
        wall: f64,
    },
    /// Below the floor.
    BelowFloor {
        /// The distance.
        by: f64,
    },
    /// Above the ceiling.
    AboveCeiling {
        /// The distance.
        by: f64,
    },
}

impl fmt::Display for WallFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(fault) => fault.fmt(f),
            Self::Piece { piece, fault } => write!(f, "piece {}: {fault}", piece + 1),
            Self::NoPieces => f.write_str("there is nothing to hang"),
            Self::Rows { rows, pieces } => write!(f, "{rows} rows for {pieces} pieces; from 1 to {pieces} would do"),
            Self::HookOff { piece, by } => {
                write!(f, "piece {}: a hook lies {} in outside of it", piece + 1, shown(*by))
            }
            Self::TooWide { takes, wall } => write!(
                f,
                "the pieces and their gaps take {} in, {} in more than the wall's {} in",
                shown(*takes),
                shown(takes - wall),
                shown(*wall)
            ),
            Self::BelowFloor { by } => write!(f, "the lowest edge comes {} in below the floor", shown(*by)),
            Self::AboveCeiling { by } => write!(f, "the highest edge comes {} in above the ceiling", shown(*by)),
        }
    }
}

impl Fault for WallFault {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::wall::HANGING
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl From<OutOfRange> for WallFault {
    fn from(fault: OutOfRange) -> Self {
        Self::Range(fault)
    }
}
