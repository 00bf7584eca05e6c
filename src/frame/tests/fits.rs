//! The fit of a work in its opening. No source is published; it is checked by trying all turns, and by figures
//! worked by hand.

use proptest::prelude::*;

use super::shapes::{Corners, corners, measured, only};
use super::{cases, near};
use crate::frame::fit::MOST_TURN;
use crate::frame::{Fit, Measured, Point, Quadrilateral, fit};

fn placed(measured: &Measured) -> Quadrilateral {
    Quadrilateral::place(measured).unwrap_or_else(|fault| panic!("{fault}"))
}

#[test]
fn a_rectangle_takes_its_size_and_the_reveals_exactly() {
    for (width, height) in [(16.015625, 20.0), (24.0, 8.5), (3.0, 3.0), (60.0, 4.25)] {
        let shape = placed(&only([width, height, width, height]));
        let found = fit(&shape, [0.375; 4], 0.0);
        assert_eq!((found.width, found.height), (width + 0.75, height + 0.75));
        assert_eq!((found.turn, found.unevenness), (0.0, 0.0));
        assert!(found.turn.is_sign_positive());
        assert_eq!(found.corner_gaps, [[0.375; 2]; 4]);
        assert_eq!(found.middle_gaps, [0.375; 4]);
        assert_eq!(found.corners[2], Point::new(width + 0.375, height + 0.375));
    }
}

#[test]
fn reveals_differ_and_folds_take_room() {
    let shape = placed(&only([16.0, 20.0, 16.0, 20.0]));
    let found = fit(&shape, [0.5, 0.25, 1.0, 0.125], 0.0625);
    // By hand: 16 + 1/4 + 1/8 + 2/16, 20 + 1/2 + 1 + 2/16.
    assert_eq!((found.width, found.height), (16.5, 21.625));
    assert_eq!(found.corner_gaps, [[0.5, 0.125], [0.5, 0.25], [1.0, 0.25], [1.0, 0.125]]);
    assert_eq!(found.corners[0], Point::new(0.1875, 0.5625));
}

#[test]
fn a_racked_work_is_turned_so_that_both_ways_are_off_alike() {
    // By hand: edges W and H with a corner γ off square: W sin x = H sin (γ − x), so tan x = H sin γ / (W + H cos γ).
    let (width, height, racked) = (16.0, 20.0, 0.5_f64.to_radians());
    let diagonal = (width * width + height * height + 2.0 * width * height * racked.sin()).sqrt();
    let shape = placed(&Measured { diagonals: [Some(diagonal), None], ..only([width, height, width, height]) });
    let found = fit(&shape, [0.25; 4], 0.0);
    let lean = (height * racked.sin()).atan2(width + height * racked.cos());
    near(found.unevenness, width * lean.sin(), 1e-9);
    near(found.width, width * lean.cos() + height * (racked - lean).sin() + 0.5, 1e-9);
    near(found.height, height * (racked - lean).cos() + width * lean.sin() + 0.5, 1e-9);
}

#[test]
fn a_wedge_stands_upright() {
    // By hand: equal legs, the bottom 1/4 longer than the top, so that each top corner is 1/8 farther from its wall.
    let shape = placed(&only([16.0, 20.0, 16.25, 20.0]));
    let found = fit(&shape, [0.25; 4], 0.0);
    near(found.turn, 0.0, 1e-12);
    near(found.width, 16.75, 1e-12);
    near(found.height, (400.0_f64 - 1.0 / 64.0).sqrt() + 0.5, 1e-12);
    near(found.corner_gaps[0][1], 0.375, 1e-12);
    near(found.corner_gaps[3][1], 0.25, 1e-12);
    near(found.unevenness, 0.125, 1e-12);
}

#[test]
fn a_bulge_takes_the_reveal_at_mid_span() {
    let bulging = Measured { middles: [Some(20.25), None], ..only([20.0, 16.0, 20.0, 16.0]) };
    let found = fit(&placed(&bulging), [0.25; 4], 0.0);
    assert_eq!((found.width, found.height, found.unevenness), (20.75, 16.5, 0.125));
    assert_eq!(found.middle_gaps, [0.25; 4]);
    assert_eq!(found.corner_gaps, [[0.25, 0.375]; 4]);
}

/// The largest excess over the wanted gaps at a turn, where the nearest point of each side has just the wanted one: by
/// turning each point on its own.
fn by_hand(shape: &Quadrilateral, turn: f64) -> f64 {
    let turned =
        |point: Point| (point.x * turn.cos() - point.y * turn.sin(), point.x * turn.sin() + point.y * turn.cos());
    let all: Vec<(f64, f64)> = shape.corners.iter().chain(&shape.middles).map(|point| turned(*point)).collect();
    let top = all.iter().map(|point| point.1).fold(f64::INFINITY, f64::min);
    let bottom = all.iter().map(|point| point.1).fold(f64::NEG_INFINITY, f64::max);
    let left = all.iter().map(|point| point.0).fold(f64::INFINITY, f64::min);
    let right = all.iter().map(|point| point.0).fold(f64::NEG_INFINITY, f64::max);
    let far = [
        [0, 4, 1].map(|at| all[at].1 - top),
        [1, 5, 2].map(|at| right - all[at].0),
        [2, 6, 3].map(|at| bottom - all[at].1),
        [3, 7, 0].map(|at| all[at].0 - left),
    ];
    far.into_iter().flatten().fold(0.0, f64::max)
}

fn bowed() -> impl Strategy<Value = (Corners, Quadrilateral)> {
    (corners(), prop::array::uniform2(-0.015..0.015_f64)).prop_map(|(corners, bows)| {
        let mut measured = measured(&corners);
        let straight = placed(&measured).middles;
        measured.middles = [
            Some(straight[3].distance(straight[1]) * (1.0 + bows[0])),
            Some(straight[0].distance(straight[2]) * (1.0 + bows[1])),
        ];
        (corners, placed(&measured))
    })
}

/// The gaps of a fit, taken off the places it reports.
#[track_caller]
fn gaps_hold(found: &Fit, wanted: [f64; 4], bulk: f64) {
    let [top, right, bottom, left] = [[0, 1], [1, 2], [3, 2], [0, 3]].map(|ends| ends.map(|at| found.corners[at]));
    near(found.corner_gaps[0][0], top[0].y - bulk, 1e-12);
    near(found.corner_gaps[1][1], found.width - right[0].x - bulk, 1e-12);
    near(found.corner_gaps[3][0], found.height - bottom[0].y - bulk, 1e-12);
    near(found.corner_gaps[3][1], left[1].x - bulk, 1e-12);
    let sides = [
        [found.corner_gaps[0][0], found.corner_gaps[1][0], found.middle_gaps[0]],
        [found.corner_gaps[1][1], found.corner_gaps[2][1], found.middle_gaps[1]],
        [found.corner_gaps[2][0], found.corner_gaps[3][0], found.middle_gaps[2]],
        [found.corner_gaps[3][1], found.corner_gaps[0][1], found.middle_gaps[3]],
    ];
    let mut excess: f64 = 0.0;
    for (gaps, wanted) in sides.into_iter().zip(wanted) {
        near(gaps.into_iter().fold(f64::INFINITY, f64::min), wanted, 1e-9);
        excess = excess.max(gaps.into_iter().fold(0.0, f64::max) - wanted);
    }
    near(found.unevenness, excess, 1e-9);
}

/// How many turns are tried on each side of level.
const TRIES: i32 = 150;

proptest! {
    #![proptest_config(cases(3000))]

    #[test]
    fn no_turn_is_more_even((_, shape) in bowed(), wanted in prop::array::uniform4(0.0..1.0), bulk in 0.0..0.2) {
        let found = fit(&shape, wanted, bulk);
        gaps_hold(&found, wanted, bulk);
        near(by_hand(&shape, found.turn), found.unevenness, 1e-9);
        let step = MOST_TURN.to_radians() / f64::from(TRIES);
        let mut least = f64::INFINITY;
        for at in -TRIES..=TRIES {
            let tried = by_hand(&shape, f64::from(at) * step);
            prop_assert!(found.unevenness <= tried + 1e-8, "{} at {}, {tried} at {}", found.unevenness, found.turn, at);
            least = least.min(tried);
        }
        // Nor is it better than can be: no point moves faster than the longest edge is long.
        let longest = shape.edges().into_iter().fold(0.0, f64::max);
        prop_assert!(found.unevenness >= least - longest * step);
    }

    #[test]
    fn left_and_right_may_be_exchanged((_, shape) in bowed()) {
        let found = fit(&shape, [0.25; 4], 0.0);
        let [a, b, c, d] = shape.corners.map(|corner| Point::new(-corner.x, corner.y));
        let [top, right, bottom, left] = shape.middles.map(|middle| Point::new(-middle.x, middle.y));
        let mirrored = Quadrilateral { corners: [b, a, d, c], middles: [top, left, bottom, right], ..shape };
        let mirrored = fit(&mirrored, [0.25; 4], 0.0);
        near(mirrored.width, found.width, 1e-7);
        near(mirrored.height, found.height, 1e-7);
        near(mirrored.unevenness, found.unevenness, 1e-8);
    }

    #[test]
    fn a_quarter_turn_exchanges_width_and_height(corners in corners()) {
        let found = fit(&placed(&measured(&corners)), [0.25; 4], 0.0);
        let [a, b, c, d] = corners;
        let turned = fit(&placed(&measured(&[d, a, b, c])), [0.25; 4], 0.0);
        near(turned.width, found.height, 1e-7);
        near(turned.height, found.width, 1e-7);
        near(turned.turn, found.turn, 1e-7);
    }

    #[test]
    fn what_is_turned_on_the_bench_is_the_same(corners in corners(), turn in -3.0..3.0_f64) {
        let turned = corners.map(|corner| corner.turned(Point::direction(turn)) + Point::new(5.0, -2.0));
        let (found, other) = (placed(&measured(&corners)), placed(&measured(&turned)));
        near(fit(&found, [0.0; 4], 0.0).width, fit(&other, [0.0; 4], 0.0).width, 1e-8);
    }
}
