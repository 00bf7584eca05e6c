//! The places of four corners, by the lengths between them.

use super::super::point::Point;
use super::fault::QuadrilateralFault;

/// The lengths between neighboring corners.
pub(super) fn edges(corners: &[Point; 4]) -> [f64; 4] {
    let [a, b, c, d] = *corners;
    [a.distance(b), b.distance(c), c.distance(d), d.distance(a)]
}

/// The lengths between opposite corners.
pub(super) fn diagonals(corners: &[Point; 4]) -> [f64; 2] {
    [corners[0].distance(corners[2]), corners[1].distance(corners[3])]
}

/// The corner that falls flat when the first diagonal is at its shortest, and how long it is then (Stewart's theorem).
///
/// The second diagonal is at its longest then: as long as the two edges of that corner, or of the one across.
fn shortest_first([top, right, bottom, left]: [f64; 4]) -> (usize, f64) {
    let stewart = |one: f64, two: f64, beside_one: f64, beside_two: f64| {
        ((beside_one * beside_one * two + beside_two * beside_two * one) / (one + two) - one * two).max(0.0).sqrt()
    };
    if top + left <= right + bottom {
        (0, stewart(top, left, right, bottom))
    } else {
        (2, stewart(right, bottom, top, left))
    }
}

/// The corners by four edges and the diagonal from the first corner; `diagonal` is its name in a fault.
pub(super) fn on_first(edges: [f64; 4], first: f64, diagonal: usize) -> Result<[Point; 4], QuadrilateralFault> {
    let original = |index: usize| (index + diagonal) % 4;
    for [one, other] in [[0, 1], [2, 3]] {
        let below = edges[one] + edges[other];
        if first >= below {
            let edges = [original(one), original(other)];
            return Err(QuadrilateralFault::DiagonalTooLong { diagonal, length: first, edges, below });
        }
    }
    let (corner, above) = shortest_first(edges);
    if first <= above {
        let corner = original(corner);
        return Err(QuadrilateralFault::DiagonalTooShort { diagonal, length: first, corner, above });
    }
    Ok(two_triangles(edges, first))
}

/// The corners by four edges and the diagonal from the top right.
pub(super) fn on_second([top, right, bottom, left]: [f64; 4], second: f64) -> Result<[Point; 4], QuadrilateralFault> {
    let [b, c, d, a] = on_first([right, bottom, left, top], second, 1)?;
    Ok([a, b, c, d])
}

/// Two triangles on a diagonal that lies along the x axis.
fn two_triangles([top, right, bottom, left]: [f64; 4], first: f64) -> [Point; 4] {
    let apex = |from_start: f64, from_end: f64| {
        let x = (first + (from_start - from_end) * (from_start + from_end) / first) / 2.0;
        Point::new(x, ((from_start - x) * (from_start + x)).max(0.0).sqrt())
    };
    let (above, below) = (apex(top, right), apex(left, bottom));
    [Point::ORIGIN, Point::new(above.x, -above.y), Point::new(first, 0.0), below]
}

/// The corners by four edges, with diagonals of one length.
///
/// The second diagonal shrinks while the first grows over all that is convex, so that there is one such shape or none.
pub(super) fn with_equal_diagonals(edges: [f64; 4]) -> Result<[Point; 4], QuadrilateralFault> {
    let [top, right, bottom, left] = edges;
    if top == bottom && right == left {
        // The rectangle itself, free of roots.
        return Ok([Point::ORIGIN, Point::new(top, 0.0), Point::new(top, right), Point::new(0.0, right)]);
    }
    let longer = |first: f64| diagonals(&two_triangles(edges, first))[1] > first;
    let (mut short, mut long) = (shortest_first(edges).1, (top + right).min(bottom + left));
    if (top + left).min(right + bottom) <= short || longer(long) {
        return Err(QuadrilateralFault::NoEqualDiagonals);
    }
    for _ in 0..64 {
        let middle = (short + long) / 2.0;
        if longer(middle) { short = middle } else { long = middle }
    }
    on_first(edges, long, 0)
}

/// The corners that disagree least with all six lengths (edges, first and second diagonal).
///
/// Six lengths between four points meet one condition. Its slope by each length is the self-stress of the six bars:
/// the product of the weights of a length's two ends in the affine relation of the four points, times the length.
/// Adjustment by conditions (least squares) moves the lengths along that slope until the condition holds.
pub(super) fn adjusted(edges: [f64; 4], [first, second]: [f64; 2]) -> Result<[Point; 4], QuadrilateralFault> {
    let [top, right, bottom, left] = edges;
    let by_first = diagonals(&on_first(edges, first, 0)?)[1];
    on_second(edges, second)?;
    let measured = [top, right, bottom, left, first, second];
    let mut lengths = measured;
    let mut moved = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let corners = on_five(lengths);
        let off = diagonals(&corners)[1] - lengths[5];
        let slopes = self_stress(&corners);
        let missed = slopes.iter().zip(measured).zip(lengths).map(|((slope, is), now)| slope * (is - now)).sum::<f64>();
        let step = (missed - off * slopes[5]) / slopes.iter().map(|slope| slope * slope).sum::<f64>();
        let next: [f64; 6] = std::array::from_fn(|at| measured[at] - slopes[at] * step);
        if !next.iter().all(|length| *length > 0.0 && length.is_finite()) {
            break;
        }
        let before = moved;
        moved = next.iter().zip(lengths).map(|(next, now)| (next - now).abs()).fold(0.0, f64::max);
        lengths = next;
        // Near the end it moves only by rounding errors.
        if moved <= 1e-11 * first && moved >= before || moved == 0.0 {
            let corners = on_five(lengths);
            // The lengths no longer make two triangles.
            let bent = self::edges(&corners).into_iter().zip(lengths).any(|(is, now)| (is - now).abs() > 1e-9 * first);
            if bent {
                break;
            }
            return Ok(corners);
        }
    }
    Err(QuadrilateralFault::DiagonalsApart { second, by_first })
}

/// More than any pair of diagonals needs if it comes together.
const MOST_STEPS: usize = 100;

fn on_five([top, right, bottom, left, first, _]: [f64; 6]) -> [Point; 4] {
    two_triangles([top, right, bottom, left], first)
}

/// The self-stress of the bars top, right, bottom, left, first and second diagonal, times their lengths.
fn self_stress(corners: &[Point; 4]) -> [f64; 6] {
    // The weight of a corner is the area of the triangle of the other three, with turns of sign.
    let weight = |at: usize| {
        let [one, two, three] = [1, 2, 3].map(|on| corners[(at + on) % 4]);
        let area = (two - one).cross(three - one);
        if at.is_multiple_of(2) { area } else { -area }
    };
    let weights: [f64; 4] = std::array::from_fn(weight);
    let (lengths, [first, second]) = (edges(corners), diagonals(corners));
    let edge = |at: usize| weights[at] * weights[(at + 1) % 4] * lengths[at];
    let (across, back) = (weights[0] * weights[2] * first, weights[1] * weights[3] * second);
    [edge(0), edge(1), edge(2), edge(3), across, back]
}
