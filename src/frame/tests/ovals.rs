//! Ovals against published perimeters, and their boards against the curves walked in small steps.

use std::f64::consts::{FRAC_PI_8, PI, TAU};

use proptest::prelude::*;

use super::{cases, near};
use crate::frame::Point;
use crate::frame::oval::{Board, boards, outer_edge, perimeter};

/// Half axes and perimeter: 4 a E(e²), computed apart from this program to sixteen digits; the circle is 2π.
const PERIMETERS: &[(f64, f64, f64)] = &[
    (2.0, 1.0, 9.688448220547675),
    (10.0, 5.0, 48.44224110273837),
    (12.0, 9.0, 66.31047648212852),
    (20.0, 16.0, 113.44667155589796),
    (10.0, 1.0, 40.63974180100895),
    (1.0, 1.0, TAU),
];

/// π (a + b) Σ binom(1/2, k)² hᵏ, h = ((a − b) / (a + b))²: the series read in an encyclopedia's page on the perimeter
/// of an ellipse.
fn series(a: f64, b: f64) -> f64 {
    let ratio = ((a - b) / (a + b)).powi(2);
    let mut binomial = 1.0_f64;
    let mut power = 1.0;
    let mut sum = 0.0;
    for at in 0..4000 {
        let at = f64::from(at);
        sum += binomial * binomial * power;
        binomial *= (0.5 - at) / (at + 1.0);
        power *= ratio;
    }
    PI * (a + b) * sum
}

#[test]
fn perimeters_are_those_of_the_table() {
    for (a, b, expected) in PERIMETERS {
        for (width, height) in [(2.0 * a, 2.0 * b), (2.0 * b, 2.0 * a)] {
            let found = perimeter(width, height).unwrap();
            near(found / expected, 1.0, 1e-14);
            near(series(*a, *b) / expected, 1.0, 1e-13);
        }
    }
}

#[test]
fn what_is_no_oval_is_refused() {
    let said = perimeter(0.0, 1.0).unwrap_err().to_string();
    assert_eq!(said, "the width of the oval is 0 in, and must be above 0 in");
    let said = boards(16.0, 20.0, 2.0, 3).unwrap_err().to_string();
    assert_eq!(said, "the number of boards is 3, and must be from 4 to 64");
    assert!(outer_edge(16.0, 20.0, -1.0).is_err() && boards(16.0, f64::NAN, 2.0, 8).is_err());
}

#[test]
fn a_round_rail_of_eight() {
    // By hand: radius r and face f in n parts: chord 2 r sin(π/n), board r + f − r cos(π/n) wide, cuts of 180°/n.
    let (radius, face) = (10.0, 2.0);
    let all = boards(2.0 * radius, 2.0 * radius, face, 8).unwrap();
    assert_eq!(all.len(), 8);
    for board in all {
        let width = radius + face - radius * FRAC_PI_8.cos();
        near(board.width, width, 1e-12);
        near(board.short, 2.0 * radius * FRAC_PI_8.sin(), 1e-12);
        near(board.long, 2.0 * (radius + face) * FRAC_PI_8.tan(), 1e-12);
        near(board.mitres[0], FRAC_PI_8, 1e-12);
        near(board.mitres[1], FRAC_PI_8, 1e-12);
    }
}

/// So many points of each curve, by equal steps of the angle in the ellipse's equation.
const STEPS: i32 = 20_000;

/// Every point of both curves, with its outward normal: the opening's, and that at the face's distance.
fn walk(width: f64, height: f64, face: f64) -> Vec<(Point, Point)> {
    let (a, b) = (width / 2.0, height / 2.0);
    (0..STEPS)
        .map(|at| {
            let angle = TAU * f64::from(at) / f64::from(STEPS);
            let inner = Point::new(a * angle.cos(), b * angle.sin());
            let normal = Point::new(b * angle.cos(), a * angle.sin()).heading();
            (inner, inner + normal * face)
        })
        .collect()
}

fn length(points: impl Iterator<Item = Point> + Clone) -> f64 {
    points.clone().zip(points.cycle().skip(1)).map(|(one, next)| one.distance(next)).sum()
}

/// Whether a point of the opening's curve lies between the short points of a board, as seen from the oval's middle.
fn is_between(board: &Board, point: Point) -> bool {
    let [from, to] = board.ends;
    from.cross(point) >= -1e-9 && point.cross(to) >= -1e-9
}

/// A board by its own measure: x along the inner edge from its first short point, y outwards.
fn in_board(board: &Board, point: Point) -> (f64, f64) {
    let way = (board.ends[1] - board.ends[0]).heading();
    let off = point - board.ends[0];
    (off.along(way), -way.cross(off))
}

proptest! {
    #![proptest_config(cases(30))]

    #[test]
    fn both_curves_are_inside_the_boards(
        width in 6.0..40.0, height in 6.0..40.0, face in 0.5..3.0, count in 4_u32..24,
    ) {
        let all = boards(width, height, face, count).unwrap();
        let points = walk(width, height, face);
        let mut held = vec![false; points.len()];
        for board in &all {
            let tops = board.mitres.map(f64::tan);
            let mut highest: f64 = 0.0;
            for (held, (inner, outer)) in held.iter_mut().zip(&points) {
                if !is_between(board, *inner) {
                    continue;
                }
                for point in [inner, outer] {
                    let (x, y) = in_board(board, *point);
                    prop_assert!(y >= -1e-9 && y <= board.width + 1e-9, "{y} in {board:?}");
                    prop_assert!(x >= -y * tops[0] - 1e-9 && x <= board.short + y * tops[1] + 1e-9, "{x} in {board:?}");
                    highest = highest.max(y);
                }
                *held = true;
            }
            // No wider than it must be: a step past the top of the curve loses as good as nothing.
            near(highest, board.width, 1e-4);
            near(board.long, board.short + board.width * (tops[0] + tops[1]), 1e-9);
        }
        // Every point lies in a board, and the boards close.
        prop_assert!(held.iter().all(|held| *held));
        for (one, next) in all.iter().zip(all.iter().cycle().skip(1)) {
            near(one.ends[1].distance(next.ends[0]), 0.0, 1e-9);
        }
        near(all.iter().flat_map(|board| board.mitres).sum(), TAU, 1e-9);
    }

    #[test]
    fn walked_around_it_is_as_long(width in 6.0..40.0, height in 6.0..40.0, face in 0.5..3.0) {
        let points = walk(width, height, face);
        let inner = length(points.iter().map(|point| point.0));
        let outer = length(points.iter().map(|point| point.1));
        near(inner, perimeter(width, height).unwrap(), 1e-5);
        near(outer, outer_edge(width, height, face).unwrap(), 1e-5);
    }

    #[test]
    fn boards_are_symmetric(width in 6.0..40.0, height in 6.0..40.0, half in 2_u32..12) {
        // With an even number, each board has one of its like across the oval.
        let all = boards(width, height, 1.5, 2 * half).unwrap();
        let (first, second) = all.split_at(all.len() / 2);
        for (one, other) in first.iter().zip(second) {
            near(one.width, other.width, 1e-9);
            near(one.long, other.long, 1e-9);
        }
    }
}
