//! Errors of the saw against the four rails themselves: rigid, laid end to end with nothing neglected. No numbers were
//! found published; the small ones differ by what is of second order.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI, TAU};

use proptest::prelude::*;

use super::{cases, near};
use crate::frame::Point;
use crate::frame::saw::{diagonals, mitres_off, racked, total_error, unequal_rails};
use crate::frame::wedge::Opens;

/// What rounding leaves.
const GRAIN: f64 = 1e-12;

/// A rail as it came from the saw, laid down: its outer edge between two long points, its inner between two short ones.
struct Rail {
    long: [Point; 2],
    short: [Point; 2],
}

impl Rail {
    /// Laid from a long point in a direction; the inner edge lies to the right of the way. The angle between the outer
    /// edge and the cut is `toe` at both ends.
    fn laid(length: f64, face: f64, toe: f64, from: Point, heading: f64) -> Self {
        let place = |x: f64, y: f64| from + Point::new(x, y).turned(Point::direction(heading));
        let back = face / toe.tan();
        Self { long: [place(0.0, 0.0), place(length, 0.0)], short: [place(back, face), place(length - back, face)] }
    }
}

/// Rails that follow each other with the faces of their miters flush.
fn chain(lengths: &[f64], face: f64, toe: f64) -> Vec<Rail> {
    let (mut from, mut heading) = (Point::ORIGIN, 0.0);
    let mut rails: Vec<Rail> = Vec::new();
    for length in lengths {
        let rail = Rail::laid(*length, face, toe, from, heading);
        if let Some(last) = rails.last() {
            // Flush: both ends of the faces meet.
            near(rail.short[0].distance(last.short[1]), 0.0, 1e-9);
        }
        from = rail.long[1];
        heading += PI - 2.0 * toe;
        rails.push(rail);
    }
    rails
}

fn angle_between(one: Point, other: Point) -> f64 {
    one.cross(other).atan2(one.along(other)).abs()
}

#[test]
fn a_tenth_of_a_degree() {
    // Frame maths §9: 18 3/8 × 22 3/8, face 13/16, ε = 0.1°: 0.202 in and 0.004 in.
    let off = mitres_off(18.375, 22.375, 0.8125, 0.1_f64.to_radians()).unwrap();
    assert_eq!(format!("{:.3}", off.long_points_apart), "0.202");
    assert_eq!(format!("{:.3}", off.corner.gap), "0.004");
    near(off.last_angle.to_degrees(), 0.8, 1e-12);
}

proptest! {
    #![proptest_config(cases(500))]

    #[test]
    fn three_corners_pulled_tight(
        width in 6.0..60.0, height in 6.0..60.0, face in 0.5..3.0, degrees in -0.5..0.5_f64,
    ) {
        let error = degrees.to_radians();
        let rails = chain(&[width, height, width, height], face, FRAC_PI_4 - error);
        let off = mitres_off(width, height, face, error).unwrap();
        let (first, last) = (&rails[0], &rails[3]);
        // Second order: the rails turn by up to 6 ε on the way.
        let neglected = 36.0 * error * error * (width + height) + GRAIN;
        near(off.long_points_apart, first.long[0].distance(last.long[1]), neglected);
        let faces = [first.short[0] - first.long[0], last.short[1] - last.long[1]];
        near(off.last_angle, angle_between(faces[0], faces[1]), 1e-9);
    }

    #[test]
    fn a_corner_pulled_square(face in 0.5..3.0, degrees in -0.5..0.5_f64) {
        let error = degrees.to_radians();
        let toe = FRAC_PI_4 - error;
        let corner = mitres_off(20.0, 16.0, face, error).unwrap().corner;
        let one = Rail::laid(20.0, face, toe, Point::ORIGIN, 0.0);
        let next = Rail::laid(16.0, face, toe, one.long[1], FRAC_PI_2);
        // Long points together, the short points are as far apart as the corner opens; or the other way about, with the
        // short points together.
        near(corner.gap, one.short[1].distance(next.short[0]), 8.0 * error * error * face + GRAIN);
        // What is too blunt would overlap there.
        let overlaps = one.short[1].x > next.short[0].x;
        prop_assert_eq!(corner.opens, if overlaps { Opens::Outside } else { Opens::Inside });
    }

    #[test]
    fn more_sides_add_up(sides in 3_u32..=12, degrees in -0.5..0.5_f64) {
        let error = degrees.to_radians();
        let toe = FRAC_PI_2 - PI / f64::from(sides) - error;
        let lengths = vec![10.0; usize::try_from(sides).unwrap()];
        let rails = chain(&lengths, 1.0, toe);
        let (first, last) = (&rails[0], &rails[rails.len() - 1]);
        let turned: f64 = rails
            .iter()
            .zip(rails.iter().skip(1))
            .map(|(one, next)| angle_between(one.long[1] - one.long[0], next.long[1] - next.long[0]))
            .sum();
        // What is missing from the last corner to one whole turn, beyond its own two ends.
        near((turned + PI - 2.0 * toe - TAU).abs(), total_error(sides, error).unwrap().abs(), 1e-9);
        let faces = [first.short[0] - first.long[0], last.short[1] - last.long[1]];
        near(angle_between(faces[0], faces[1]), total_error(sides, error).unwrap().abs(), 1e-9);
    }

    #[test]
    fn diagonals_of_a_racked_frame(width in 6.0..60.0, height in 6.0..60.0, degrees in -3.0..3.0_f64) {
        let angle = degrees.to_radians();
        // The corners themselves, the top pushed over.
        let over = Point::new(angle.sin(), -angle.cos()) * height;
        let corners = [over, over + Point::new(width, 0.0), Point::new(width, 0.0), Point::ORIGIN];
        let measured = [corners[1].distance(corners[3]), corners[0].distance(corners[2])];
        let found = racked(width, height, measured).unwrap();
        near(found.angle, angle, 1e-9);
        near(found.lean, over.x, 1e-9);
        near(found.misfit, 0.0, 1e-9);
        let back = diagonals(width, height, angle).unwrap();
        near(back[0], measured[0], 1e-9);
        near(back[1], measured[1], 1e-9);
        // As in frame maths §9, to the first order.
        let rough = 2.0 * width * height * angle / width.hypot(height);
        near(measured[0] - measured[1], rough, 8.0 * angle.abs().powi(3) * (width + height) + GRAIN);
    }

    /// The frame closed with nothing neglected: the longer rail touches at its short points, the shorter at its long
    /// points, and the other two lean until that is so.
    #[test]
    fn rails_of_two_lengths(
        width in 10.0..60.0, side in 10.0..60.0, face in 0.5..2.0, difference in 0.001..0.125,
    ) {
        let longer = Rail::laid(width + difference, face, FRAC_PI_4, Point::new((width + difference) / -2.0, 0.0), 0.0);
        let side_at = |lean: f64| {
            let rail = Rail::laid(side, face, FRAC_PI_4, Point::ORIGIN, FRAC_PI_2 + lean);
            let off = longer.short[1] - rail.short[0];
            Rail { long: rail.long.map(|point| point + off), short: rail.short.map(|point| point + off) }
        };
        let (mut least, mut most) = (0.0, 0.1);
        for _ in 0..60 {
            let middle = (least + most) / 2.0;
            if side_at(middle).long[1].x > width / 2.0 { least = middle } else { most = middle }
        }
        let found = unequal_rails(side, face, difference).unwrap();
        let rail = side_at(most);
        let shorter = Rail::laid(width, face, FRAC_PI_4, rail.long[1], PI);
        let neglected = 4.0 * found.corner * found.corner + GRAIN;
        near(found.corner, most, neglected);
        near(found.at_longer.gap, longer.long[1].distance(rail.long[0]), neglected * face);
        near(found.at_shorter.gap, shorter.short[0].distance(rail.short[1]), neglected * face);
        prop_assert_eq!((found.at_longer.opens, found.at_shorter.opens), (Opens::Outside, Opens::Inside));
        near(found.step, longer.long[0].distance(longer.long[1]) - width, 1e-9);
    }
}

#[test]
fn half_a_degree_on_the_diagonals() {
    // Computed apart from this program: 16 × 20 with corners half a degree off has diagonals 0.218059 apart.
    let [first, second] = diagonals(16.0, 20.0, 0.5_f64.to_radians()).unwrap();
    assert_eq!(format!("{:.6}", first - second), "0.218059");
    // Square: computed apart from this program, and 3 × 4 by hand.
    for (width, height, expected) in [(16.0, 20.0, "25.6124969"), (24.0, 36.0, "43.2666153"), (3.0, 4.0, "5.0000000")] {
        let [first, second] = diagonals(width, height, 0.0).unwrap();
        assert_eq!((format!("{first:.7}"), first), (expected.into(), second));
    }
}

#[test]
fn a_slip_of_the_tape_shows_as_misfit() {
    // Both diagonals of 3 × 4 measured a quarter too long.
    let found = racked(3.0, 4.0, [5.25, 5.25]).unwrap();
    near(found.misfit, 0.25, 1e-12);
    near(found.angle, 0.0, 1e-12);
}

#[test]
fn what_cannot_be_sawn_is_refused() {
    let said = racked(3.0, 4.0, [7.5, 1.0]).unwrap_err().to_string();
    assert_eq!(said, "the difference of the diagonals is 6.5 in, and must be from 0 to 5.647 in");
    let said = mitres_off(18.0, 22.0, 1.0, 0.2).unwrap_err().to_string();
    assert_eq!(said, "the error of the saw is 11.459°, and must be from -5 to 5°");
    let said = unequal_rails(20.0, 1.0, -0.1).unwrap_err().to_string();
    assert_eq!(said, "the difference of the rails is -0.1 in, and must be 0 in or more");
    assert!(mitres_off(0.0, 22.0, 1.0, 0.0).is_err() && total_error(2, 0.0).is_err());
    assert!(unequal_rails(20.0, 11.0, 0.1).is_err() && diagonals(3.0, 4.0, 2.0).is_err());
}
