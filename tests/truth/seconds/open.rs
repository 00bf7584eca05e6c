//! Open frames, by another road: corners where lines cross, edges measured between them, curves walked in small steps.

use super::{Fields, Method};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[
    ("corners of the work", work),
    ("corners where lines cross", corners),
    ("planes in space", planes),
    ("oval in small steps", oval),
    ("turns tried one by one", turned),
];

type Point = (f64, f64);

fn distance(a: Point, b: Point) -> f64 {
    f64::hypot(b.0 - a.0, b.1 - a.1)
}

/// Each point with the next, and the last with the first.
fn around(points: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    points.iter().copied().zip(points.iter().copied().cycle().skip(1))
}

fn girth(points: &[Point]) -> f64 {
    around(points).map(|(a, b)| distance(a, b)).sum()
}

/// The shoelace sum.
fn area(points: &[Point]) -> f64 {
    around(points).map(|(a, b)| (a.0 * b.1 - b.0 * a.1) / 2.0).sum::<f64>().abs()
}

/// From the least to the greatest, sideways or upward.
fn extent(points: &[Point], along: fn(&Point) -> f64) -> f64 {
    let all = || points.iter().map(along);
    all().fold(f64::MIN, f64::max) - all().fold(f64::MAX, f64::min)
}

/// Area of the work from its corners: the shoelace sum.
fn work(fields: &Fields, figure: &str) -> f64 {
    let art = fields.size("art");
    let corners = [(0.0, 0.0), (art[0], 0.0), (art[0], art[1]), (0.0, art[1])];
    match figure {
        "work.area" => area(&corners),
        _ => panic!("this method does not know {figure}"),
    }
}

/// The gaps at the top, right, bottom and left.
fn gaps(fields: &Fields) -> [f64; 4] {
    let usual = if fields.text("build") == Some("shadowbox") { 1.0 } else { 0.25 };
    let all = fields.number("reveal", usual);
    ["reveal.top", "reveal.right", "reveal.bottom", "reveal.left"].map(|side| fields.number(side, all))
}

/// From the front edge to the back, by what lies one behind the other.
fn depth(fields: &Fields) -> f64 {
    let stack = [("setback", 0.125), ("art.bulk_back", 0.0), ("strip.thickness", 0.5), ("recess", 0.25)];
    let thickness = fields.size("art").get(2).copied().unwrap_or(fields.number("art.depth", 0.0));
    stack.iter().fold(thickness, |sum, (field, usual)| sum + fields.number(field, *usual))
}

/// How far a rail reaches over the ground: the section is a rectangle, turned corner by corner.
fn reach(fields: &Fields) -> f64 {
    let slope = fields.number("slope", 0.0).to_radians();
    let (face, depth) = (fields.number("face", 0.75), if slope == 0.0 { 0.0 } else { depth(fields) });
    let section = [(0.0, 0.0), (face, 0.0), (face, depth), (0.0, depth)];
    let turned = section.map(|(x, y)| (x * slope.cos() - y * slope.sin(), x * slope.sin() + y * slope.cos()));
    extent(&turned, |point| point.0)
}

/// The sides of the work as lines, one of them at the bottom, counterclockwise: which way each faces, and how far it lies
/// from the middle. The line is `out` farther off, and by its gap and the folds too if these are counted.
fn lines(fields: &Fields, out: f64, gap: bool) -> Vec<(f64, f64)> {
    let sides = fields.number("sides", 4.0);
    let [top, right, bottom, left] = gaps(fields);
    let art = fields.size("art");
    let mut all = Vec::new();
    let mut facing = -90.0;
    while facing < 269.9 {
        let (half, beyond) = match art[..] {
            [width, height, ..] if sides == 4.0 => match all.len() {
                0 => (height / 2.0, bottom),
                1 => (width / 2.0, right),
                2 => (height / 2.0, top),
                _ => (width / 2.0, left),
            },
            _ => (fields.number("art.across", 0.0) / 2.0, top),
        };
        let beyond = if gap { beyond + fields.number("art.bulk", 0.0) } else { 0.0 };
        all.push((f64::to_radians(facing), half + beyond + out));
        facing += 360.0 / sides;
    }
    all
}

/// Where each line crosses the next.
fn crossings(lines: &[(f64, f64)]) -> Vec<Point> {
    around(lines)
        .map(|((one, near), (other, far))| {
            let determinant = one.cos() * other.sin() - other.cos() * one.sin();
            let x = (near * other.sin() - far * one.sin()) / determinant;
            (x, (one.cos() * far - other.cos() * near) / determinant)
        })
        .collect()
}

/// Everything of a frame with straight rails that is seen from the front, measured between corners.
fn corners(fields: &Fields, figure: &str) -> f64 {
    let ring = |out: f64| crossings(&lines(fields, out, true));
    let art = crossings(&lines(fields, 0.0, false));
    let (opening, outside) = (ring(0.0), ring(reach(fields)));
    let widest = gaps(fields).into_iter().fold(0.0, f64::max);
    let strip = fields.number("strip.width", widest + fields.number("strip.bearing", 0.5));
    let inner = ring(-strip);
    // The first corner ends the side at the bottom, on the right.
    let side = |points: &[Point]| distance(points[0], points[1]);
    let top = |points: &[Point]| distance(points[1], points[2]);
    let each = |points: &[Point]| distance(points[points.len() - 1], points[0]);
    let across = |lines: Vec<(f64, f64)>| 2.0 * lines[0].1;
    let wide = |points: &[Point]| extent(points, |point| point.0);
    let high = |points: &[Point]| extent(points, |point| point.1);
    let size = fields.number("art.across", 1.0);
    match figure {
        "opening.width" | "fit.width" => wide(&opening),
        "opening.height" | "fit.height" => high(&opening),
        "opening.across" => across(lines(fields, 0.0, true)),
        "opening.diagonal" => distance(opening[0], opening[2]),
        "outside.width" => wide(&outside),
        "outside.height" => high(&outside),
        "outside.across" => across(lines(fields, reach(fields), true)),
        "outside.diagonal" => distance(outside[0], outside[2]),
        "rail.top.short" | "rail.bottom.short" => top(&opening),
        "rail.top.long" | "rail.bottom.long" => top(&outside),
        "rail.left.short" | "rail.right.short" => side(&opening),
        "rail.left.long" | "rail.right.long" => side(&outside),
        "rail.short" | "strip.long" => each(&opening),
        "rail.long" => each(&outside),
        "strip.top.long" => top(&opening),
        "strip.top.short" => top(&inner),
        "strip.side.long" => side(&opening),
        "strip.side.short" => side(&inner),
        "strip.short" => each(&inner),
        "perimeter" => girth(&outside),
        "face.plan" => reach(fields),
        "mitre.run" => (each(&outside) - each(&opening)) / 2.0,
        "shape.fills" => area(&art) / (size * size),
        "shape.width" => wide(&art) / size,
        "shape.height" => high(&art) / size,
        _ => panic!("this method does not know {figure}"),
    }
}

type Vector = [f64; 3];

fn cross([a, b, c]: Vector, [x, y, z]: Vector) -> Vector {
    [b * z - c * y, c * x - a * z, a * y - b * x]
}

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The cut of a sloping rail: where the upright plane of the joint cuts the plane of the face, and how it meets it.
fn planes(fields: &Fields, figure: &str) -> f64 {
    let half = (180.0 / fields.number("sides", 4.0)).to_radians();
    let slope = fields.number("slope", 0.0).to_radians();
    // The rail runs along the first axis, the third points up.
    let across = [0.0, slope.cos(), slope.sin()];
    let upright = cross([1.0, 0.0, 0.0], across);
    let joint = cross([half.sin(), half.cos(), 0.0], [0.0, 0.0, 1.0]);
    let cut = cross(joint, upright);
    let between = |a: Vector, b: Vector| dot(cross(a, b), cross(a, b)).sqrt().atan2(dot(a, b).abs()).to_degrees();
    match figure {
        "mitre" | "piece rail: mitre" | "piece rail top, bottom: mitre" | "piece rail left, right: mitre" => {
            between(cut, across)
        }
        "tilt" | "piece rail: tilt" | "piece rail top, bottom: tilt" | "piece rail left, right: tilt" => {
            90.0 - between(joint, upright)
        }
        _ => panic!("this method does not know {figure}"),
    }
}

/// An oval with half axes, and its point and outward direction where the normal has turned so far.
fn on_oval((a, b): Point, turn: f64) -> (Point, Point) {
    // The tangent at parameter t is (-a sin t, b cos t); the normal has turned as far as asked where b cos t : a sin t fits.
    let t = f64::atan2(b * turn.sin(), a * turn.cos());
    ((a * t.cos(), b * t.sin()), (turn.cos(), turn.sin()))
}

/// The points of a curve beside an oval, at a distance from it, between two turns of the normal.
fn walk(half: Point, out: f64, from: f64, to: f64, steps: u32) -> Vec<Point> {
    let point = |step: u32| {
        let (point, way) = on_oval(half, from + (to - from) * f64::from(step) / f64::from(steps));
        (point.0 + out * way.0, point.1 + out * way.1)
    };
    (0..=steps).map(point).collect()
}

/// Width, length over the long and the short points and steepest cut of the boards round an oval, if the first joint lies
/// `first` from the right end.
fn boards(half: Point, face: f64, count: f64, first: f64) -> [f64; 4] {
    let step = std::f64::consts::TAU / count;
    let mut most = [0.0_f64; 4];
    let mut from = first;
    while from < first + std::f64::consts::TAU - step / 2.0 {
        let ends = [on_oval(half, from), on_oval(half, from + step)];
        let chord = distance(ends[0].0, ends[1].0);
        let way = ((ends[1].0.0 - ends[0].0.0) / chord, (ends[1].0.1 - ends[0].0.1) / chord);
        let out = (way.1, -way.0);
        let off = |point: &Point| (point.0 - ends[0].0.0) * out.0 + (point.1 - ends[0].0.1) * out.1;
        let width = walk(half, face, from, from + step, 2_000).iter().map(off).fold(0.0, f64::max);
        // The joints, drawn out to the edge of the board.
        let [first, last] = ends.map(|(point, normal)| {
            let far = width / (normal.0 * out.0 + normal.1 * out.1);
            (point.0 + far * normal.0, point.1 + far * normal.1)
        });
        let lean = |normal: Point| (normal.0 * out.0 + normal.1 * out.1).min(1.0).acos().to_degrees();
        let cut = f64::max(lean(ends[0].1), lean(ends[1].1));
        for (most, one) in most.iter_mut().zip([width, distance(first, last), chord, cut]) {
            *most = most.max(one);
        }
        from += step;
    }
    most
}

/// An oval rail and its strip, walked in small steps.
fn oval(fields: &Fields, figure: &str) -> f64 {
    let opening = lines(fields, 0.0, true);
    let (wide, high) = (opening[1].1 + opening[3].1, opening[0].1 + opening[2].1);
    let widest = gaps(fields).into_iter().fold(0.0, f64::max);
    let strip = fields.number("strip.width", widest + fields.number("strip.bearing", 0.5));
    let of_strip = figure.contains("strip");
    let (half, face) = if of_strip {
        ((wide / 2.0 - strip, high / 2.0 - strip), strip)
    } else {
        ((wide / 2.0, high / 2.0), fields.number("face", 0.75))
    };
    let full = |out: f64| girth(&walk(half, out, 0.0, std::f64::consts::TAU, 40_000));
    let count = fields.number("oval.boards", 8.0);
    let (one, other) = (boards(half, face, count, 0.0), boards(half, face, count, std::f64::consts::PI / count));
    let [width, long, short, cut] = if other[0] < one[0] - 1e-9 { other } else { one };
    // A board is made on a mark, and no smaller.
    let made = |size: f64| (size * 16.0).ceil() / 16.0;
    match figure.trim_start_matches("oval.").trim_start_matches("strip.") {
        "inner" => full(0.0),
        "perimeter" => full(face),
        "wide" => width,
        "long" => long,
        "short" => short,
        "mitre" | "piece rail board: mitre" | "piece strip board: mitre" => cut,
        "piece rail board: width" | "piece strip board: width" => made(width),
        "piece rail board: long" | "piece strip board: long" => made(long),
        "piece rail board: short" | "piece strip board: short" => made(short),
        "shape.fills" => area(&walk(half, 0.0, 0.0, std::f64::consts::TAU, 40_000)) / (wide * high),
        _ => panic!("this method does not know {figure}"),
    }
}

/// The lengths that were measured: which corners lie between, and what the tape said.
fn measured(fields: &Fields) -> Vec<(usize, usize, f64)> {
    let all = [
        ("art.edge.top", 0, 1),
        ("art.edge.right", 1, 2),
        ("art.edge.bottom", 2, 3),
        ("art.edge.left", 3, 0),
        ("art.diagonal.1", 0, 2),
        ("art.diagonal.2", 1, 3),
    ];
    all.iter().filter_map(|(name, a, b)| fields.text(name).map(|_| (*a, *b, fields.number(name, 0.0)))).collect()
}

/// Four corners moved a little at a time, each along the lengths that end there, until no length pulls any more; without a
/// diagonal, both pull until they are alike. The sum of squared disagreements is at its least where all pulls balance.
fn settled(fields: &Fields) -> [Point; 4] {
    let lengths = measured(fields);
    let [top, right, bottom, left] = [0, 1, 2, 3].map(|at| lengths[at].2);
    let (w, h) = (f64::midpoint(top, bottom), f64::midpoint(left, right));
    let mut all = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)];
    for _ in 0..4_000 {
        let mut moves = [(0.0, 0.0); 4];
        let mut pull = |a: usize, b: usize, by: f64| {
            let is = distance(all[a], all[b]);
            let way = ((all[b].0 - all[a].0) / is * by, (all[b].1 - all[a].1) / is * by);
            moves[a] = (moves[a].0 + way.0, moves[a].1 + way.1);
            moves[b] = (moves[b].0 - way.0, moves[b].1 - way.1);
        };
        for (a, b, length) in &lengths {
            pull(*a, *b, (distance(all[*a], all[*b]) - length) * 0.2);
        }
        if lengths.len() == 4 {
            let off = distance(all[0], all[2]) - distance(all[1], all[3]);
            pull(0, 2, off * 0.1);
            pull(1, 3, -off * 0.1);
        }
        for (corner, by) in all.iter_mut().zip(moves) {
            *corner = (corner.0 + by.0, corner.1 + by.1);
        }
    }
    all
}

fn turn(point: Point, by: f64) -> Point {
    (point.0 * by.cos() - point.1 * by.sin(), point.0 * by.sin() + point.1 * by.cos())
}

/// A work that is out of square: its corners settled, then every turn tried, the most even kept.
fn turned(fields: &Fields, figure: &str) -> f64 {
    let corners = settled(fields);
    // Level: edges turned back by their quarter turns and laid end to end point along it.
    let sum = around(&corners).zip(0..4_i32).fold((0.0, 0.0), |sum, ((a, b), at)| {
        let back = turn((b.0 - a.0, b.1 - a.1), -f64::from(at) * std::f64::consts::FRAC_PI_2);
        (sum.0 + back.0, sum.1 + back.1)
    });
    let level = -f64::atan2(sum.1, sum.0);
    // Middles, and the length at mid-span shared by both edges it runs between.
    let mut middles: Vec<Point> =
        around(&corners).map(|(a, b)| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1))).collect();
    for (name, from, to) in [("art.middle.width", 3, 1), ("art.middle.height", 0, 2)] {
        if fields.text(name).is_none() {
            continue;
        }
        let (a, b, straight) = (middles[from], middles[to], distance(middles[from], middles[to]));
        let share = (fields.number(name, 0.0) - straight) / 2.0 / straight;
        middles[to] = (b.0 + (b.0 - a.0) * share, b.1 + (b.1 - a.1) * share);
        middles[from] = (a.0 - (b.0 - a.0) * share, a.1 - (b.1 - a.1) * share);
    }
    // The points of each side: its ends and its middle, top first.
    let sides = |by: f64| -> Vec<[Point; 3]> {
        (0..4).map(|at| [corners[at], middles[at], corners[(at + 1) % 4]].map(|one| turn(one, level + by))).collect()
    };
    let uneven = |by: f64| {
        let along = [|one: &Point| one.1, |one: &Point| one.0];
        (0..4).zip(sides(by)).map(|(at, side): (usize, _)| extent(&side, along[at % 2])).fold(0.0, f64::max)
    };
    // In coarse steps over three degrees either way, then ever finer about the best.
    let (mut best, mut step) = (0.0_f64, 0.02_f64.to_radians());
    let most = 3.0_f64.to_radians();
    let mut reach = 150_i32;
    while step > 1e-13 {
        let middle = best;
        for at in -reach..=reach {
            let by = (middle + f64::from(at) * step).clamp(-most, most);
            if uneven(by) < uneven(best) {
                best = by;
            }
        }
        reach = 12;
        step /= 8.0;
    }
    let all: Vec<Point> = sides(best).concat();
    let bulk = 2.0 * fields.number("art.bulk", 0.0);
    let [top, right, bottom, left] = gaps(fields);
    let (wide, high) = (extent(&all, |point| point.0) + bulk, extent(&all, |point| point.1) + bulk);
    let wall = |along: fn(&Point) -> f64| all.iter().map(along).fold(f64::MAX, f64::min);
    let (x, y) = (wall(|point| point.0), wall(|point| point.1));
    // Above, right of, below, left of a point.
    let gap = |point: Point, side: usize| match side {
        0 => point.1 - y + top,
        1 => wide - bulk - (point.0 - x) + right,
        2 => high - bulk - (point.1 - y) + bottom,
        _ => point.0 - x + left,
    };
    let misfit = || {
        let off = |(a, b, length): &(usize, usize, f64)| (distance(corners[*a], corners[*b]) - length).abs();
        measured(fields).iter().map(off).fold(0.0, f64::max)
    };
    let walls = [[0, 3], [0, 1], [2, 1], [2, 3]];
    match figure.split_once(": ").map(|(list, place)| (list, place.parse::<usize>().unwrap_or(0))) {
        Some(("item art.corners", place)) => {
            let at = (place - 1) / 2;
            gap(turn(corners[at], level + best), walls[at][(place - 1) % 2])
        }
        Some(("item art.sides", place)) => gap(turn(middles[place - 1], level + best), place - 1),
        _ => match figure {
            "opening.width" => wide + left + right,
            "opening.height" => high + top + bottom,
            "needs.width" => wide,
            "needs.height" => high,
            "art.turn" => best.to_degrees(),
            "art.uneven" => uneven(best),
            "check art.uneven.large" => f64::from(uneven(best) > 0.125),
            "check art.misfit.large" => f64::from(misfit() > 0.125),
            "art.misfit" => misfit(),
            _ => panic!("this method does not know {figure}"),
        },
    }
}
