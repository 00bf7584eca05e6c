//! How large frames of many sides and ovals are as they hang, against their corners and edges in the plane: a second
//! method, no source.

use std::f64::consts::PI;

use super::{design, near, value};

/// The corners of a frame that rests on one side, `across` between its sides.
fn corners(sides: u32, across: f64) -> Vec<(f64, f64)> {
    let half = PI / f64::from(sides);
    let radius = across / 2.0 / half.cos();
    (0..sides)
        .map(|corner| {
            let angle = -PI / 2.0 + half + 2.0 * half * f64::from(corner);
            (radius * angle.cos(), radius * angle.sin())
        })
        .collect()
}

fn extent(values: impl Iterator<Item = f64> + Clone) -> f64 {
    values.clone().fold(f64::MIN, f64::max) - values.fold(f64::MAX, f64::min)
}

/// How wide the shape with these corners is at a height.
fn chord(corners: &[(f64, f64)], height: f64) -> f64 {
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    let crossings = edges
        .filter(|(one, other)| (one.1 > height) != (other.1 > height))
        .map(|(one, other)| one.0 + (other.0 - one.0) * (height - one.1) / (other.1 - one.1));
    extent(crossings)
}

#[test]
fn frames_of_many_sides_are_as_large_as_their_corners_say() {
    for sides in (3..=12).filter(|sides| *sides != 4) {
        let frame = design(&[("sides", &sides.to_string()), ("art.across", "12"), ("art.depth", "3/4")]);
        let corners = corners(sides, value(&frame, "outside.across"));
        near(value(&frame, "piece.width"), extent(corners.iter().map(|corner| corner.0)), 1e-9);
        near(value(&frame, "piece.height"), extent(corners.iter().map(|corner| corner.1)), 1e-9);
        let doubled: f64 = corners
            .iter()
            .zip(corners.iter().cycle().skip(1))
            .map(|(one, other)| one.0 * other.1 - other.0 * one.1)
            .sum();
        let outside = value(&frame, "outside.across");
        near(value(&frame, "shape.fills") * outside * outside, doubled / 2.0, 1e-6);
        // Hangers where they usually go are on the frame, and in its round.
        let top = corners.iter().map(|corner| corner.1).fold(f64::MIN, f64::max);
        let here = chord(&corners, top - value(&frame, "hanger.drop"));
        assert!(value(&frame, "hanger.chord") <= here + 1e-9, "{sides}");
        assert!(value(&frame, "hanger.span") < value(&frame, "hanger.chord"), "{sides}");
    }
}

#[test]
fn an_oval_is_as_wide_at_its_hangers_as_its_edge_says() {
    let frame = design(&[("shape", "oval"), ("art", "16 x 20 x 3/4")]);
    let (width, height) = (value(&frame, "outside.width"), value(&frame, "outside.height"));
    let edge: Vec<(f64, f64)> = (0..100_000)
        .map(|step| {
            let angle = 2.0 * PI * f64::from(step) / 100_000.0;
            (width / 2.0 * angle.cos(), height / 2.0 * angle.sin())
        })
        .collect();
    near(value(&frame, "hanger.chord"), chord(&edge, height / 2.0 - value(&frame, "hanger.drop")), 1e-3);
    let area: f64 =
        edge.iter().zip(edge.iter().cycle().skip(1)).map(|(one, other)| one.0 * other.1 - other.0 * one.1).sum();
    near(value(&frame, "shape.fills") * width * height, area / 2.0, 1e-3);
}
