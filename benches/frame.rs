//! How long the geometry of a frame takes: measured art placed and fitted, boards of an oval, pieces on a wall.

#![allow(missing_docs, clippy::unwrap_used)]

use benchrule::frame::oval::boards;
use benchrule::frame::wall::{Gaps, Piece, Wall, grid};
use benchrule::frame::{Measured, Quadrilateral, fit};
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

/// What is measured on a work: straight edges with one diagonal, with none, with both and bows.
const MEASURED: &[(&str, Measured)] = &[
    ("straight", measured([Some(25.75), None], [None, None])),
    ("edges", measured([None, None], [None, None])),
    ("bowed", measured([Some(25.75), Some(25.5)], [Some(16.125), Some(20.125)])),
];

const fn measured(diagonals: [Option<f64>; 2], middles: [Option<f64>; 2]) -> Measured {
    Measured { edges: [16.0, 20.0, 16.0625, 19.9375], diagonals, middles }
}

fn work(name: &str) -> Measured {
    MEASURED.iter().find(|(one, _)| *one == name).unwrap().1
}

#[divan::bench(args = ["straight", "edges", "bowed"])]
fn place(bencher: Bencher, name: &str) {
    let work = work(name);
    bencher.bench(|| Quadrilateral::place(black_box(&work)).unwrap());
}

#[divan::bench(args = ["straight", "edges", "bowed"])]
fn fitted(bencher: Bencher, name: &str) {
    let shape = Quadrilateral::place(&work(name)).unwrap();
    bencher.bench(|| fit(black_box(&shape), [0.375; 4], 0.0625));
}

#[divan::bench(args = [4, 12, 64])]
fn oval(count: u32) -> usize {
    boards(black_box(16.0), 20.0, 2.0, count).unwrap().len()
}

#[divan::bench]
fn wall_of_twelve(bencher: Bencher) {
    let wall = Wall { width: 144.0, height: 108.0, centre: 57.0 };
    let pieces = vec![Piece { width: 20.0, height: 16.0, hooks: vec![5.0, 15.0], drop: 2.0 }; 12];
    bencher.bench(|| grid(black_box(&wall), &pieces, Gaps::Given(3.0), None).unwrap());
}
