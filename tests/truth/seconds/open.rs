//! Open frames, by another road.

use super::{Fields, Method};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[("corners of the work", work), ("corners of the opening", opening)];

/// Area of the work from its corners: the shoelace sum.
fn work(fields: &Fields, figure: &str) -> f64 {
    let art = fields.size("art");
    let (width, height) = (art[0], art[1]);
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let next = corners.iter().cycle().skip(1);
    let pairs = corners.iter().zip(next);
    match figure {
        "work.area" => pairs.map(|(a, b): (&(f64, f64), _)| (a.0 * b.1 - b.0 * a.1) / 2.0).sum::<f64>().abs(),
        _ => panic!("this method does not know {figure}"),
    }
}

/// The opening from its corners: the work at the origin, the gaps around it, the distance across.
fn opening(fields: &Fields, figure: &str) -> f64 {
    let art = fields.size("art");
    let gap = |side: &str| fields.number(side, fields.number("reveal", 0.25));
    let (left, bottom) = (-gap("reveal.left"), -gap("reveal.bottom"));
    let (right, top) = (art[0] + gap("reveal.right"), art[1] + gap("reveal.top"));
    match figure {
        "opening.diagonal" => f64::hypot(right - left, top - bottom),
        _ => panic!("this method does not know {figure}"),
    }
}
