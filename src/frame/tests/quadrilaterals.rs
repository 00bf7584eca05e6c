//! Placing of measured works. No source is published; it is checked by shapes whose corners are known, by figures
//! worked by hand, and by moving the corners of a least-squares shape about.

use proptest::prelude::*;

use super::shapes::{Corners, corners, diagonals, edges, measured, only};
use super::{cases, near};
use crate::frame::{Basis, Measured, Point, Quadrilateral, QuadrilateralFault};

fn place(measured: Measured) -> Quadrilateral {
    Quadrilateral::place(&measured).unwrap_or_else(|fault| panic!("{fault}"))
}

/// Alike in all six lengths.
#[track_caller]
fn same_shape(found: &Quadrilateral, corners: &Corners, tolerance: f64) {
    for (found, expected) in found.edges().into_iter().zip(edges(corners)) {
        near(found, expected, tolerance);
    }
    for (found, expected) in found.diagonals().into_iter().zip(diagonals(corners)) {
        near(found, expected, tolerance);
    }
}

#[test]
fn a_rectangle_is_where_it_is() {
    // 18 × 24 with its diagonal 30: three, four, five.
    let shape = place(Measured { diagonals: [Some(30.0), Some(30.0)], ..only([18.0, 24.0, 18.0, 24.0]) });
    let corners = [(0.0, 0.0), (18.0, 0.0), (18.0, 24.0), (0.0, 24.0)].map(|(x, y)| Point::new(x, y));
    for (found, expected) in shape.corners.into_iter().zip(corners) {
        near(found.x, expected.x, 1e-12);
        near(found.y, expected.y, 1e-12);
    }
    near(shape.misfit, 0.0, 1e-12);
    // By its edges alone it is the same, to the last digit.
    let shape = place(only([18.0, 24.0, 18.0, 24.0]));
    assert_eq!(shape.corners, corners);
    assert_eq!(shape.basis, Basis::EqualDiagonals);
}

#[test]
fn edges_alone_take_equal_diagonals() {
    // By hand: legs of 5 with an overhang of 3 stand 4 high, both diagonals are √(11² + 4²).
    let shape = place(only([8.0, 5.0, 14.0, 5.0]));
    let corners = [(0.0, 0.0), (8.0, 0.0), (11.0, 4.0), (-3.0, 4.0)].map(|(x, y)| Point::new(x, y));
    same_shape(&shape, &corners, 1e-12);
    near(shape.diagonals()[0], 137.0_f64.sqrt(), 1e-12);
}

#[test]
fn a_square_with_long_diagonals() {
    // By hand: side l, both diagonals d too long; 4 x² + 2 (√2 x − d)² is least at x = d √2 / 4. The edges give that,
    // the diagonals half of d.
    let (side, off) = (20.0, 0.25);
    let long = side * 2.0_f64.sqrt() + off;
    let shape = place(Measured { diagonals: [Some(long), Some(long)], ..only([side; 4]) });
    for edge in shape.edges() {
        near(edge, side + off * 2.0_f64.sqrt() / 4.0, 1e-12);
    }
    near(shape.misfit, off / 2.0, 1e-12);
    assert_eq!(shape.basis, Basis::BothDiagonals);
}

#[test]
fn edges_bow_by_half_of_what_is_found_at_mid_span() {
    let shape = place(Measured { middles: [Some(20.25), Some(15.875)], ..only([20.0, 16.0, 20.0, 16.0]) });
    assert_eq!(shape.bows, [-0.0625, 0.125, -0.0625, 0.125]);
    assert_eq!(shape.middles[1], Point::new(20.125, 8.0));
    assert_eq!(shape.middles[0], Point::new(10.0, 0.0625));
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn either_diagonal_settles_the_shape(corners in corners()) {
        let [first, second] = diagonals(&corners);
        for diagonals in [[Some(first), None], [None, Some(second)], [Some(first), Some(second)]] {
            let shape = place(Measured { diagonals, ..measured(&corners) });
            same_shape(&shape, &corners, 1e-9);
            prop_assert!(shape.misfit < 1e-9);
        }
    }

    #[test]
    fn equal_diagonals_are_equal(corners in corners()) {
        let shape = place(only(edges(&corners)));
        let [first, second] = shape.diagonals();
        near(first, second, 1e-9);
        for (found, expected) in shape.edges().into_iter().zip(edges(&corners)) {
            near(found, expected, 1e-9);
        }
    }

    /// The sum of squared disagreements, written out from the corners, grows whichever way the corners are moved.
    #[test]
    fn both_diagonals_disagree_least(
        corners in corners(),
        off in prop::array::uniform6(-1.0..1.0),
        moves in prop::collection::vec(prop::array::uniform8(-1.0..1.0), 20),
        far in 1e-5..1e-2,
    ) {
        let grain = diagonals(&corners)[0] / 100.0;
        let (edges_found, [first, second]) = (edges(&corners), diagonals(&corners));
        let measured = Measured {
            edges: [0, 1, 2, 3].map(|at| edges_found[at] + grain * off[at]),
            diagonals: [Some(first + grain * off[4]), Some(second + grain * off[5])],
            middles: [None, None],
        };
        let squares = |corners: &Corners| {
            let diagonals = diagonals(corners).into_iter().zip(measured.diagonals.map(Option::unwrap));
            let all = edges(corners).into_iter().zip(measured.edges).chain(diagonals);
            all.map(|(is, was)| (is - was).powi(2)).sum::<f64>()
        };
        let shape = place(measured);
        let least = squares(&shape.corners);
        for one in moves {
            let moved: Corners = std::array::from_fn(|at| {
                shape.corners[at] + Point::new(one[2 * at], one[2 * at + 1]) * far
            });
            prop_assert!(squares(&moved) >= least - 1e-12, "{} below {least}", squares(&moved));
        }
        prop_assert!(shape.misfit.powi(2) <= least + 1e-12 && least <= 6.0 * shape.misfit.powi(2) + 1e-12);
    }

    #[test]
    fn it_lies_level(corners in corners()) {
        // The slopes of top and bottom, and of left and right from upright, weighed by their lengths, cancel out.
        let [a, b, c, d] = place(measured(&corners)).corners;
        near((b - a).y + (c - d).y + (b - c).x + (a - d).x, 0.0, 1e-9);
    }

    #[test]
    fn wild_lengths_are_placed_or_refused(
        edges in prop::array::uniform4(0.1..100.0),
        diagonals in prop::array::uniform2(prop::option::of(0.1..150.0)),
    ) {
        if let Ok(shape) = Quadrilateral::place(&Measured { edges, diagonals, middles: [None, None] }) {
            prop_assert!(shape.corners.iter().all(|corner| corner.x.is_finite() && corner.y.is_finite()));
            for at in 0..4 {
                let (here, next, over) = (shape.corners[at], shape.corners[(at + 1) % 4], shape.corners[(at + 2) % 4]);
                prop_assert!((next - here).cross(over - next) > 0.0, "{shape:?}");
            }
            if diagonals.iter().flatten().count() < 2 {
                for (found, expected) in shape.edges().into_iter().zip(edges) {
                    near(found, expected, 1e-6);
                }
            }
        }
    }
}

#[track_caller]
fn refused(measured: Measured, says: &str) -> QuadrilateralFault {
    let fault = Quadrilateral::place(&measured).expect_err("a shape");
    assert_eq!(fault.to_string(), says);
    fault
}

#[test]
fn what_makes_no_shape_is_refused() {
    let square = only([16.0, 20.0, 16.0, 20.0]);
    let by = |first| Measured { diagonals: [Some(first), None], ..square };
    refused(only([0.0, 20.0, 16.0, 20.0]), "the top edge is 0 in, and must be above 0 in");
    refused(only([16.0, 20.0, f64::NAN, 20.0]), "the bottom edge is NaN in, and must be above 0 in");
    refused(only([16.0, 60.0, 16.0, 20.0]), "the right edge is 60 in, 8 in longer than the other three together");
    refused(by(37.5), "the diagonal from the top left is 37.5 in, 1.5 in longer than top and right together");
    refused(by(-3.0), "the diagonal from the top left is -3 in, and must be above 0 in");
    let fault = refused(
        Measured { diagonals: [None, Some(3.5)], ..square },
        "the diagonal from the top right is 3.5 in, 0.5 in too short for these edges: \
         the top right corner would point inwards",
    );
    // By hand: with opposite edges alike the shortest is their difference, where all four edges lie on a line.
    assert!(
        matches!(fault, QuadrilateralFault::DiagonalTooShort { diagonal: 1, above, .. } if (above - 4.0).abs() < 1e-9)
    );
    refused(by(14.0), "the top left corner is 45.951° from square; a frame with four right angles takes at most 45°");
    refused(
        Measured { middles: [Some(20.0), None], ..square },
        "the width at half the height is 20 in, and 16 in between straight edges; edges bow less than that",
    );
    assert_eq!(Quadrilateral::place(&only([1.0, 10.0, 10.0, 1.0])), Err(QuadrilateralFault::NoEqualDiagonals));
}

#[test]
fn a_corner_that_points_inwards_is_named() {
    // By hand: a kite with edges 5, 12, 12, 5; its short corner is flat where it is 2 · 5 across and √(12² − 5²) high.
    let flat = (144.0_f64 - 25.0).sqrt();
    let kite = Measured { diagonals: [Some(flat - 0.5), None], ..only([5.0, 12.0, 12.0, 5.0]) };
    let fault = Quadrilateral::place(&kite).expect_err("a shape");
    let QuadrilateralFault::DiagonalTooShort { diagonal: 0, corner: 0, above, .. } = fault else { panic!("{fault}") };
    near(above, flat, 1e-12);
}
