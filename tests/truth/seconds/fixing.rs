//! Screws, points, brads, keys and glue, by another road: stepped along an edge, tried one by one, drawn and measured.

use super::hanging::{Point, area};
use super::{Fields, Method, number};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[
    ("stepped along the edges", stepped),
    ("screws tried one by one", screw),
    ("a brad drawn in its corner", brad),
    ("a key drawn in its corner", key),
    ("corners cut square", glue),
];

fn gaps(fields: &Fields) -> [f64; 4] {
    let all: Vec<f64> = fields.text("reveal").unwrap_or("1/4").split(", ").map(number).collect();
    [0, 1, 2, 3].map(|side| all.get(side).or(all.first()).copied().unwrap_or_default())
}

/// Steps along one edge: one more place until no two are farther apart than the pitch.
fn along(edge: f64, first: f64, pitch: f64, short: f64) -> Vec<f64> {
    if edge <= short || edge <= 2.0 * first {
        return vec![edge / 2.0];
    }
    let mut steps = 1.0;
    while (edge - 2.0 * first) / steps > pitch {
        steps += 1.0;
    }
    let mut at = vec![first];
    for _ in 1..100 {
        match at.last() {
            Some(last) if last + 1e-9 < edge - first => at.push(last + (edge - 2.0 * first) / steps),
            _ => break,
        }
    }
    at
}

/// Length of one side of equal sides, from the two corners that it joins.
fn side(across: f64, sides: f64) -> f64 {
    let half = std::f64::consts::PI / sides;
    let far = across / 2.0 / half.cos();
    let (a, b) = ((far * (-half).sin(), far * (-half).cos()), (far * half.sin(), far * half.cos()));
    f64::hypot(b.0 - a.0, b.1 - a.1)
}

/// `screw.count`, `point.count`, and one place of a list: `item screw.top.at: 2`.
fn stepped(fields: &Fields, figure: &str) -> f64 {
    let points = figure.contains("point");
    let given = |name: &str, screws: f64, points_are: f64| {
        let build = if points { "point" } else { "screw" };
        fields.number(&format!("{build}.{name}"), if points { points_are } else { screws })
    };
    let (first, pitch) = (given("first", 2.5, 2.0), given("pitch", 12.0, 5.0));
    let short = if points { 6.0 } else { 8.0 };
    let sides = fields.number("sides", 4.0);
    let play = if points { fields.number("allowance", 0.25) } else { 0.0 };
    let edges: Vec<f64> = if fields.text("sides").is_some() {
        let edge = side(fields.number("art.across", f64::NAN) + play, sides);
        (0..12).filter(|one| f64::from(*one) < sides).map(|_| edge).collect()
    } else {
        let art = fields.size("art");
        vec![art[0] + play, art[1] + play, art[0] + play, art[1] + play]
    };
    let places: Vec<Vec<f64>> = edges.iter().map(|edge| along(*edge, first, pitch, short)).collect();
    if let Some((list, place)) = figure.strip_prefix("item ").and_then(|rest| rest.split_once(": ")) {
        let of = &places[usize::from(list.contains("side"))];
        return of[place.parse::<usize>().map_or(0, |place| place - 1)];
    }
    places.iter().flatten().map(|_| 1.0).sum()
}

/// Specific gravity, and the share of the root that a lead hole takes: NDS Commentary (1997) 11.1.2.
fn wood(name: &str) -> (f64, f64) {
    match name {
        "spruce" => (0.40, 0.7),
        "white pine" => (0.35, 0.7),
        "birch" => (0.62, 0.9),
        "ash" => (0.60, 0.9),
        "mahogany" => (0.45, 0.9),
        "poplar" => (0.42, 0.9),
        _ => panic!("no gravity of {name} here"),
    }
}

/// Shortest and longest of the numbers up to 8, in quarters of an inch: Wood Handbook (2010) ch. 8.
const MADE: &[(f64, [f64; 2])] = &[
    (8.0, [3.0, 8.0]),
    (7.0, [3.0, 8.0]),
    (6.0, [2.0, 6.0]),
    (5.0, [2.0, 6.0]),
    (4.0, [2.0, 4.0]),
    (3.0, [2.0, 4.0]),
    (2.0, [2.0, 3.0]),
    (1.0, [2.0, 2.0]),
];

/// Eighths of an inch that screws are stocked in.
const STOCKED: &[f64] = &[2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 14.0, 16.0];

fn screw(fields: &Fields, figure: &str) -> f64 {
    let art = fields.size("art");
    let deep = art.get(2).copied().unwrap_or(fields.number("art.depth", f64::NAN));
    let bar = fields.number("art.bar", deep.min(0.75));
    let widest = gaps(fields).into_iter().fold(0.0, f64::max);
    let width = fields.number("strip.width", widest + fields.number("strip.bearing", 0.5));
    let through =
        fields.number("strip.thickness", 0.5) - fields.number("screw.sink", 0.0) + fields.number("art.bulk_back", 0.0);
    let stocked: Vec<f64> = match fields.text("shop.screws") {
        Some(text) => text.split(", ").map(number).collect(),
        None => STOCKED.iter().map(|eighths| eighths / 8.0).collect(),
    };
    let bites = |length: &f64| length - through >= fields.number("screw.bite", 0.375);
    let made = |length: f64, limits: [f64; 2]| (limits[0]..=limits[1]).contains(&(length * 4.0));
    let length = stocked.into_iter().filter(bites).find(|length| MADE.iter().any(|one| made(*length, one.1)));
    let length = length.unwrap_or(f64::NAN);
    // The thickest whose three bodies side by side lie under the work.
    let body = |number: f64| 0.060 + 0.013 * number;
    let fits =
        |one: &&(f64, [f64; 2])| made(length, one.1) && body(one.0) + body(one.0) + body(one.0) <= width - widest;
    let number = MADE.iter().find(fits).map_or(f64::NAN, |one| one.0);
    let (gravity, share) = wood(fields.text("art.wood").unwrap_or("spruce"));
    let inch = |constant: f64| constant * gravity.powi(2) * body(number);
    let all = |constant: f64| stepped(fields, "screw.count") * inch(constant) * (length - through);
    match figure {
        "screw.through" => through,
        "screw.length" => length,
        "screw.number" => number,
        "screw.body" => body(number),
        // Two thirds of the body, to the fourth place.
        "screw.lead" => (body(number) * 2.0 / 3.0 * 10_000.0).round() / 10_000.0 * share,
        "screw.holds" => length - through,
        "screw.left" => bar + through - length,
        "screw.line" => (widest + width) / 2.0,
        "screw.pull" => all(15_700.0),
        "screw.allowed" => all(2850.0),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Where two lines meet: a point and a direction of each.
fn meet(a: Point, along: Point, b: Point, other: Point) -> Point {
    let cross = along.0 * other.1 - along.1 * other.0;
    let far = ((b.0 - a.0) * other.1 - (b.1 - a.1) * other.0) / cross;
    (a.0 + far * along.0, a.1 + far * along.1)
}

fn apart(a: Point, b: Point) -> f64 {
    f64::hypot(b.0 - a.0, b.1 - a.1)
}

/// How far a point lies from a line.
fn from(point: Point, on: Point, along: Point) -> f64 {
    ((point.0 - on.0) * along.1 - (point.1 - on.1) * along.0) / f64::hypot(along.0, along.1)
}

/// The rail lies along the first axis, its long point at the start; the brad goes up the second, across the mitre.
fn brad(fields: &Fields, figure: &str) -> f64 {
    let half = std::f64::consts::PI / fields.number("sides", 4.0);
    let face = fields.number("face", 0.75);
    let captured = fields.text("build") == Some("rabbeted");
    let depth = fields.number("depth", f64::NAN);
    let cover = fields.number("brad.cover", depth / 4.0);
    let front = depth - fields.number("rabbet", f64::NAN);
    let wall = if captured && cover > front { face - fields.number("lip", 0.25) } else { face };
    let at = fields.number("brad.at", f64::NAN);
    let length = fields.number("brad.length", 1.25);
    let (askew, level) = fields.number("brad.skew", 5.0).to_radians().sin_cos();
    // The mitre leaves the long point at the angle between rail and cut.
    let mitre = (half.sin(), half.cos());
    let joint = meet((at, 0.0), (0.0, 1.0), (0.0, 0.0), mitre);
    // Along a brad that is askew, everything is farther.
    let holds = length - joint.1 / level;
    let point = (at, length * level);
    // The next rail's outer edge is this one's, mirrored in the mitre.
    let edge = (2.0 * mitre.0 * mitre.0 - 1.0, 2.0 * mitre.0 * mitre.1);
    let outer = from(point, (0.0, 0.0), edge);
    let gravity = wood(fields.text("wood").unwrap_or("poplar")).0;
    let thick = match fields.text("brad").unwrap_or("18 gauge") {
        "18 gauge" => 1.25 / 25.4,
        "6d common" => 0.113,
        other => panic!("no thickness of {other} here"),
    };
    match figure {
        "brad.wall" => wall,
        "brad.holds" => holds,
        "brad.outer" => outer,
        "brad.inner" => wall - outer,
        "brad.clear" => cover - length * askew,
        "brad.pull" => (1..=5).map(|_| gravity.sqrt()).product::<f64>() * 7850.0 * thick * holds,
        _ => panic!("this method does not work out {figure}"),
    }
}

/// The corner points up; its outer edges run down on both sides, and the key's bottom lies level.
fn key(fields: &Fields, figure: &str) -> f64 {
    let half = std::f64::consts::PI / fields.number("sides", 4.0);
    let (face, deep) = (fields.number("face", 0.75), fields.number("key.depth", f64::NAN));
    let (left, right) = ((-half.cos(), -half.sin()), (half.cos(), -half.sin()));
    let bottom = (0.0, -deep);
    let ends = [left, right].map(|edge| meet((0.0, 0.0), edge, bottom, (1.0, 0.0)));
    // The short point: where the inner edge, a face away from the outer one, meets the middle.
    let inner = (-right.1 * -face, right.0 * -face);
    let short = meet(inner, right, (0.0, 0.0), (0.0, 1.0));
    match figure {
        "key.left" => apart(bottom, short),
        "key.long" => apart(ends[0], ends[1]),
        // Both sides of the key, within one rail.
        "key.glue" => 2.0 * area(&[(0.0, 0.0), bottom, ends[1]]),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Each corner is cut by an upright plane halfway between its rails: the section, stretched by the turn of that plane.
fn glue(fields: &Fields, figure: &str) -> f64 {
    assert_eq!(figure, "glue.area");
    let sides = fields.number("sides", 4.0);
    let turn = std::f64::consts::PI / sides;
    sides * fields.number("face", 0.75) * fields.number("depth", f64::NAN) / turn.cos()
}
