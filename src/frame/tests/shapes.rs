//! Works made up by their corners, so that every length of them is known.

use proptest::prelude::*;

use crate::frame::{Measured, Point};

/// Four corners, clockwise from the top left.
pub type Corners = [Point; 4];

/// A rectangle of 3 to 60 in whose corners are off by up to a twentieth of its lesser side.
pub fn corners() -> impl Strategy<Value = Corners> {
    (3.0..60.0, 3.0..60.0, prop::array::uniform8(-1.0..1.0)).prop_map(|(width, height, off): (f64, f64, [f64; 8])| {
        let far = width.min(height) / 20.0;
        let square = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        std::array::from_fn(|at| {
            let (x, y) = square[at];
            Point::new(x + off[2 * at] * far, y + off[2 * at + 1] * far)
        })
    })
}

pub fn edges(corners: &Corners) -> [f64; 4] {
    [0, 1, 2, 3].map(|at| corners[at].distance(corners[(at + 1) % 4]))
}

pub fn diagonals(corners: &Corners) -> [f64; 2] {
    [corners[0].distance(corners[2]), corners[1].distance(corners[3])]
}

/// What a faultless tape finds: the edges and the first diagonal.
pub fn measured(corners: &Corners) -> Measured {
    Measured { edges: edges(corners), diagonals: [Some(diagonals(corners)[0]), None], middles: [None, None] }
}

/// Edges alone.
pub fn only(edges: [f64; 4]) -> Measured {
    Measured { edges, diagonals: [None, None], middles: [None, None] }
}
