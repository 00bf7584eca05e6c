//! An oval rail: its edges, its face, and the boards that it is glued up from.

use std::f64::consts::PI;

use super::args::{Args, about};
use crate::frame::oval::{boards, outer_edge, perimeter};
use crate::rules::datum::{Fault, Record};

/// See `oval` in [`super::super::native::NATIVES`].
///
/// # Errors
/// An oval without width or height; a number of boards out of range.
pub fn rail(args: &Args) -> Result<Record, Fault> {
    let (Some(width), Some(height), Some(face)) = (args.float(0), args.float(1), args.float(2)) else {
        return Ok(Record::default());
    };
    let inner = perimeter(width, height).map_err(Fault::of)?;
    let outer = outer_edge(width, height, face).map_err(Fault::of)?;
    let boards = boards(width, height, face, args.count(3)).map_err(Fault::of)?;
    let most = |of: fn(&crate::frame::oval::Board) -> f64| boards.iter().map(of).fold(0.0, f64::max);
    // The face of a rail of constant width along a closed convex curve: Steiner's formula.
    let area = face * (inner + PI * face);
    let steepest = most(|board| board.mitres[0].max(board.mitres[1]));
    Ok(Record {
        parts: vec![
            about(inner),
            about(outer),
            about(area),
            about(most(|board| board.width)),
            about(most(|board| board.long)),
            about(most(|board| board.short)),
            about(steepest.to_degrees()),
            // An oval is a circle drawn out.
            about(PI / 4.0),
        ],
        reasons: Vec::new(),
    })
}
