//! What is in a miter, by the points of the two rails. No source is published.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

use proptest::prelude::*;

use super::{cases, near};
use crate::frame::Point;
use crate::frame::mitre::{Brad, brad, slot};
use crate::frame::moisture::swollen_mitre;
use crate::frame::wedge::{Opens, mitre};

/// A corner: the long point at the origin, the first rail along x with its inner edge at y = face, the next at the
/// corner's angle from it.
struct Corner {
    face: f64,
    angle: f64,
}

impl Corner {
    fn of(sides: u32, face: f64) -> Self {
        Self { face, angle: PI - 2.0 * PI / f64::from(sides) }
    }

    /// The polygons of the two rails, far longer than any brad.
    fn rails(&self) -> [Vec<Point>; 2] {
        let inner = Point::direction(self.angle / 2.0) * (self.face / (self.angle / 2.0).sin());
        let (along, up) = (Point::new(1.0, 0.0), Point::direction(self.angle));
        let into = |edge: Point| inner + edge * 50.0;
        let end = |edge: Point| {
            // The end of the outer edge across from that of the inner.
            edge * into(edge).along(edge)
        };
        [vec![Point::ORIGIN, end(along), into(along), inner], vec![Point::ORIGIN, inner, into(up), end(up)]]
    }
}

/// Whether a point is inside a convex polygon whose corners go round clockwise.
fn is_inside(polygon: &[Point], point: Point) -> bool {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().zip(next).all(|(one, next)| (*next - *one).cross(point - *one) >= 0.0)
}

/// How far a point is from the way between two others.
fn from_line(one: Point, other: Point, point: Point) -> f64 {
    (other - one).heading().cross(point - one).abs()
}

const STEPS: i32 = 20_000;

proptest! {
    #![proptest_config(cases(200))]

    #[test]
    fn a_brad_walked_from_head_to_point(
        sides in 3_u32..=12, face in 0.5..3.0, part in 0.05..0.95, length in 0.5..3.0, skew in 0.0..0.3_f64,
    ) {
        let mitre = mitre(sides).unwrap();
        let at = part * face * mitre.tan();
        let found = brad(face, mitre, Brad { length, at, cover: 0.5, skew }).unwrap();
        let [own, next] = Corner::of(sides, face).rails();
        let step = length / f64::from(STEPS);
        // As seen from the front the brad is shorter than it is.
        let points = (0..=STEPS).map(|count| Point::new(at, step * f64::from(count) * skew.cos()));
        let (mut in_own, mut in_next, mut outside) = (0, 0, 0);
        for point in points {
            if is_inside(&own, point) {
                in_own += 1;
            } else if is_inside(&next, point) {
                in_next += 1;
            } else {
                outside += 1;
            }
        }
        let point = Point::new(at, length * skew.cos());
        if found.bite > 0.0 && outside == 0 {
            prop_assert!(found.to_inner >= -2.0 * step && found.to_outer >= -2.0 * step, "{found:?}");
            near(found.bite, step * f64::from(in_next), 2.0 * step);
        }
        if found.bite > 0.0 && (found.to_inner < 0.0 || found.to_outer < 0.0) {
            prop_assert!(outside > 0, "{found:?}");
        }
        if found.bite < 0.0 {
            near(step * f64::from(in_own), length, 2.0 * step);
        }
        near(found.to_outer.abs(), from_line(next[0], next[3], point), 1e-9);
        near(found.to_inner.abs(), from_line(next[1], next[2], point), 1e-9);
        // The root of a small difference keeps half of the digits.
        near(found.to_face, 0.5 - (length.powi(2) - point.y.powi(2)).max(0.0).sqrt(), 1e-7);
    }

    #[test]
    fn a_slot_measured_on_the_corner(sides in 3_u32..=12, face in 0.5..3.0, part in 0.05..0.95) {
        let mitre = mitre(sides).unwrap();
        let corner = Corner::of(sides, face);
        let [own, next] = corner.rails();
        let length = own[3].length();
        let depth = part * length;
        let found = slot(face, mitre, depth).unwrap();
        near(found.mitre, length, 1e-9);
        near(found.left, length - depth, 1e-9);
        // Where the slot's bottom meets the outer edges: both lie square to the miter from the same point of it.
        let half = depth / (corner.angle / 2.0).cos();
        let ends = [Point::new(half, 0.0), Point::direction(corner.angle) * half];
        near(ends[0].along(own[3].heading()), depth, 1e-9);
        near(found.key, ends[0].distance(ends[1]), 1e-9);
        // Two triangles of the corner, bottom's middle and its end.
        near(found.glue, ends[0].cross(own[3].heading() * depth).abs(), 1e-9);
        // Drawn a hair inwards, they lie within the rails.
        let inwards = own[3] * 0.0005;
        prop_assert!(is_inside(&own, ends[0] * 0.999 + inwards) && is_inside(&next, ends[1] * 0.999 + inwards));
    }

    /// Both ends stretched across by their points, the outer edges held where they are.
    #[test]
    fn a_mitre_swells_by_its_points(sides in 3_u32..=12, face in 0.5..3.0, strain in -0.03..0.03_f64) {
        let found = swollen_mitre(face, sides, strain).unwrap();
        let corner = Corner::of(sides, face);
        let short = corner.rails()[0][3];
        let swollen = Point::new(short.x, short.y * (1.0 + strain));
        // The next rail's end is its mirror image in the miter, whose line the first was to keep to.
        let over = 2.0 * (swollen.y.atan2(swollen.x) - corner.angle / 2.0);
        near(found.angle, over.abs(), 1e-12);
        let mirrored = swollen.turned_back(short.heading());
        let apart = 2.0 * mirrored.y.abs();
        // The gap is taken on the fresh cut: what that neglects is of second order.
        near(found.gap, apart, 8.0 * strain * strain * face / (corner.angle / 2.0).sin() + 1e-12);
        prop_assert_eq!(found.opens, if over > 0.0 { Opens::Outside } else { Opens::Inside });
    }
}

#[test]
fn a_brad_by_hand() {
    // Four sides, face 1 1/2, brad 1 1/4 driven 3/8 from the corner: it meets the joint 3/8 in and bites 7/8; it runs
    // 3/8 inside the next rail's outer edge and 1 1/8 outside its inner.
    let driven = Brad { length: 1.25, at: 0.375, cover: 0.5, skew: 0.0 };
    let found = brad(1.5, FRAC_PI_4, driven).unwrap();
    near(found.bite, 0.875, 1e-12);
    near(found.to_outer, 0.375, 1e-12);
    near(found.to_inner, 1.125, 1e-12);
    assert_eq!(found.to_face, 0.5);
}

#[test]
fn what_holds_nothing_is_refused() {
    let driven = Brad { length: 1.25, at: 0.75, cover: 0.5, skew: 0.0 };
    let said = brad(0.75, FRAC_PI_4, driven).unwrap_err().to_string();
    assert_eq!(said, "a brad 0.75 in from the long point misses the joint; it must be less than 0.75 in from it");
    let said = slot(1.0, FRAC_PI_4, 1.5).unwrap_err().to_string();
    assert_eq!(said, "a slot 1.5 in deep cuts through the miter, which is 1.414 in long");
    let said = brad(0.75, FRAC_PI_2, driven).unwrap_err().to_string();
    assert_eq!(said, "the miter is 90°, and must be from 15 to 60°");
    assert!(slot(1.0, FRAC_PI_4, 0.0).is_err() && brad(-1.0, FRAC_PI_4, driven).is_err());
}
