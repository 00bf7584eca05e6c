//! Oval frames: the perimeter, and the boards for the rail.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::fault::{OutOfRange, above_zero, within};
use super::point::Point;

/// The perimeter of an ellipse by its full width and height, in inches.
///
/// Exact to the last digits of the numbers, by the arithmetic-geometric mean of the half axes:
/// `2π (a² − Σ 2ⁿ⁻¹ cₙ²) / M(a, b)`, `c₀² = a² − b²`, `cₙ = (aₙ₋₁ − bₙ₋₁) / 2`.
///
/// Errors: a width or height that is not above zero. Source: the complete elliptic integral of the second kind
/// (Abramowitz and Stegun 17.6, memory).
pub fn perimeter(width: f64, height: f64) -> Result<f64, OutOfRange> {
    above_zero("the width of the oval", width)?;
    above_zero("the height of the oval", height)?;
    let (mut long, mut short) = (width.max(height) / 2.0, width.min(height) / 2.0);
    // The first term of the sum, together with a².
    let mut squares = (long * long + short * short) / 2.0;
    let mut power = 1.0;
    // Each step doubles the digits that agree.
    while long - short > long * f64::EPSILON {
        let half = (long - short) / 2.0;
        squares -= power * half * half;
        power *= 2.0;
        (long, short) = ((long + short) / 2.0, (long * short).sqrt());
    }
    Ok(TAU * squares / long)
}

/// The length around the outer edge of a rail of constant face about an oval opening, in inches.
///
/// `perimeter + 2π · face`: a curve at a constant distance from a convex one is longer by one full turn at that
/// distance (Steiner). The result is not an ellipse. Errors: as of `perimeter`; a face that is not above zero.
pub fn outer_edge(width: f64, height: f64, face: f64) -> Result<f64, OutOfRange> {
    above_zero("the face", face)?;
    Ok(perimeter(width, height)? + TAU * face)
}

/// A board from which one part of an oval rail is sawn. Lengths in inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Between its edges, along the joints' normals as far as the outer curve asks for.
    pub width: f64,
    /// Over its long points, on the outer edge.
    pub long: f64,
    /// Over its short points, on the inner edge: the chord of the opening's curve.
    pub short: f64,
    /// The cuts at its ends, from square, in radians.
    pub mitres: [f64; 2],
    /// Where its short points lie, from the middle of the oval.
    pub ends: [Point; 2],
}

/// The fewest boards of an oval.
pub const FEWEST_BOARDS: u32 = 4;
/// The most.
pub const MOST_BOARDS: u32 = 64;

/// The boards of an oval rail of constant face, each with both curves of its part inside.
///
/// Joints lie along the normals of the opening's curve, at equal turns of the normal: no board is asked to turn through
/// more than 360° / n, so that its grain never runs out by more. The inner edge of a board is the chord between its
/// joints. Symmetric: the first joint lies at the right end of the width, or half a step from it, whichever needs the
/// narrower widest board. Room for the saw is not in it.
///
/// Takes the opening's width and height and the face (in), and 4 to 64 boards. Errors: what is out of range. Source:
/// plane geometry, common practice.
pub fn boards(width: f64, height: f64, face: f64, count: u32) -> Result<Vec<Board>, OutOfRange> {
    above_zero("the width of the oval", width)?;
    above_zero("the height of the oval", height)?;
    above_zero("the face", face)?;
    within("the number of boards", f64::from(count), "", [FEWEST_BOARDS, MOST_BOARDS].map(f64::from))?;
    let curve = Curve { across: width / 2.0, down: height / 2.0 };
    let step = TAU / f64::from(count);
    let all = |first: f64| -> Vec<Board> {
        (0..count).map(|at| curve.board(first + step * f64::from(at), step, face)).collect()
    };
    let widest = |boards: &[Board]| boards.iter().map(|board| board.width).fold(0.0, f64::max);
    let (on_axis, between) = (all(0.0), all(step / 2.0));
    Ok(if widest(&between) < widest(&on_axis) { between } else { on_axis })
}

/// An ellipse by its half axes.
#[derive(Clone, Copy, Debug)]
struct Curve {
    across: f64,
    down: f64,
}

impl Curve {
    /// The reach of the curve from its middle in a direction.
    fn reach(self, direction: Point) -> f64 {
        (self.across * direction.x).hypot(self.down * direction.y)
    }

    /// The point whose outward normal is `direction`.
    fn point(self, direction: Point) -> Point {
        let reach = self.reach(direction);
        Point::new(self.across * self.across * direction.x / reach, self.down * self.down * direction.y / reach)
    }

    /// The board between the normals at `angle` and a step on.
    fn board(self, angle: f64, step: f64, face: f64) -> Board {
        let normals = [angle, angle + step].map(Point::direction);
        let ends = normals.map(|normal| self.point(normal));
        let way = ends[1] - ends[0];
        let outward = way.turned(Point::direction(-FRAC_PI_2)).heading();
        // Somewhere between its joints the curve runs along the chord, and there it is farthest out.
        let width = self.reach(outward) - ends[0].along(outward) + face;
        let between = |from: Point, to: Point| from.cross(to).atan2(from.along(to));
        let mitres = [between(normals[0], outward), between(outward, normals[1])];
        let short = way.length();
        let long = short + width * (mitres[0].tan() + mitres[1].tan());
        Board { width, long, short, mitres, ends }
    }
}
