//! Blanks that come from the same boards.

use crate::measure::Real;

/// A blank that is wanted, in ticks.
#[derive(Clone, Copy)]
pub(super) struct Blank {
    pub(super) part: usize,
    pub(super) length: u32,
    pub(super) width: u32,
    pub(super) quantity: u32,
}

/// Boards of one row between trims and edges, in ticks.
pub(super) struct Kind<'a> {
    /// The row of the rack.
    pub(super) item: usize,
    pub(super) length: u32,
    pub(super) width: u32,
    pub(super) count: Option<u32>,
    pub(super) cost: u32,
    pub(super) yields: &'a Real,
}

/// Blanks that the same boards are thick enough for, and these boards by their places.
pub(super) struct Class {
    pub(super) blanks: Vec<Blank>,
    pub(super) kinds: Vec<usize>,
}
