//! Movement, stiffness, corners as sawn, by another road.

use super::{Fields, Method, number};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[
    ("what the word says", named),
    ("coefficient from shrinkage", coefficient_of),
    ("wood in air of so many Celsius", air),
    ("corner that swells, by its points", swollen),
    ("beam by its moments", beam),
    ("rails laid end to end", chain),
    ("frame closed on unlike rails", closed),
    ("frame pushed over", pushed),
];

/// The size by which a row of a table is called: `hook 75 lb`, `5/4`, `two-hole ring`.
fn named(_: &Fields, subject: &str) -> f64 {
    let word = subject.rsplit(": ").next().unwrap_or_default();
    let counts = ["one-", "two-", "three-", "four-"];
    if let Some((count, _)) = (1_u8..).zip(counts).find(|(_, count)| word.starts_with(count)) {
        return count.into();
    }
    let size = word.split(' ').find(|part| part.starts_with(|letter: char| letter.is_ascii_digit()));
    size.map_or(f64::NAN, number)
}

/// A number, or a share in percent.
fn plain(fields: &Fields, name: &str, usual: f64) -> f64 {
    fields.text(name).map_or(usual, |text| number(text.trim_end_matches('%')))
}

/// Shrinkage from green to ovendry of each wood, Wood Handbook (2010) Table 4-3.
const SHRINKAGE: &str = include_str!("../../table/shrinkage.tsv");

/// Movement for each percent of moisture of a board that dries from green, seen at 10 %: two sizes a percent apart on the
/// straight line from where shrinking begins to ovendry.
fn coefficient(grain: &str, word: &str) -> f64 {
    let of = |line: &&str| {
        let mut cells = line.split('\t');
        cells.next() == Some(word) && cells.next() == Some(grain)
    };
    let row = SHRINKAGE.lines().find(of).unwrap_or_else(|| panic!("no shrinkage of {word}"));
    let row: Vec<&str> = row.split('\t').collect();
    let (total, saturation) = (number(row[2]) / 100.0, number(row[3]));
    let size = |moisture: f64| 1.0 - total * (saturation - moisture) / saturation;
    (size(10.5) - size(9.5)) / size(10.0)
}

fn coefficient_of(_: &Fields, subject: &str) -> f64 {
    let (column, word) = subject.split_once(": ").unwrap_or_default();
    coefficient(column.rsplit('.').next().unwrap_or_default(), word)
}

/// Water in wood for its dry weight, by the coefficients for Celsius (Wood Handbook ch. 4, memory). They differ from those
/// for Fahrenheit by a few parts in ten thousand. The water is how the logarithm of the sum of states grows with that of
/// the activity, which is all that the equation says.
fn moisture(fields: &Fields, when: &str, usual: [f64; 2]) -> f64 {
    let of = |part: &str, usual| plain(fields, &format!("climate.{when}.{part}"), usual);
    let celsius = (of("temperature", usual[0]) - 32.0) / 1.8;
    let humidity = of("humidity", usual[1]) / 100.0;
    let by = |[constant, linear, square]: [f64; 3]| constant + linear * celsius + square * celsius.powi(2);
    let [first, second] = [by([6.27, -0.00938, -0.000_303]), by([1.91, 0.0407, -0.000_293])];
    let states = |activity: f64| ((1.0 + first * activity + first * second * activity.powi(2)) / (1.0 - activity)).ln();
    let activity = by([0.805, 0.000_736, -0.000_002_73]) * humidity;
    let step = 1e-4_f64;
    let grown = states(activity * step.exp()) - states(activity * (-step).exp());
    18.0 * grown / (2.0 * step) / by([349.0, 1.29, 0.0135])
}

/// Figures of moisture and of what moves with it.
fn air(fields: &Fields, figure: &str) -> f64 {
    let before = moisture(fields, "before", [70.0, 35.0]);
    let after = moisture(fields, "after", [75.0, 65.0]);
    let grain = if fields.text("grain") == Some("quarter") { "radial" } else { "tangential" };
    let wood = fields.text("wood").unwrap_or("poplar");
    // The handbook prints five places.
    let printed = |word: &str| (coefficient(grain, word) * 1e5).round() / 1e5;
    let swells = |word: &str| printed(word) * 100.0 * (after - before);
    let panel = || {
        let wood = fields.text("panel.wood").or(fields.text("art.wood")).unwrap_or("spruce");
        let across = usize::from(fields.text("panel.grain") == Some("level"));
        let moves = fields.size("art").get(across).map_or(0.0, |size| size * swells(wood));
        (swells(wood), if fields.text("panel.solid") == Some("yes") { moves } else { 0.0 })
    };
    let strip = fields.text("strip.wood").unwrap_or(wood);
    let is_rabbeted = fields.text("build") == Some("rabbeted");
    // The narrowest gap, or the play, less what the work takes of it.
    let gap = || {
        let taken = panel().1.max(0.0);
        if !is_rabbeted {
            return fields.number("reveal", 0.25) - taken / 2.0;
        }
        let longest = fields.size("art").into_iter().take(2).fold(0.0, f64::max);
        // Acrylic, for each degree F: US Department of Defense, unified guide 4-159-01 Table 3-1 (read).
        let growth = if fields.text("glazing") == Some("acrylic") { 0.000_04 } else { 0.0 };
        fields.number("allowance", 0.125) - taken - longest * growth * fields.number("glazing.warms", 30.0)
    };
    match figure {
        "moisture.before" => before,
        "moisture.after" => after,
        "moisture.change" => after - before,
        "rail.swells" => swells(wood),
        "rail.moves" => swells(wood) * fields.number("face", 0.75),
        "strip.swells" => swells(strip),
        "strip.moves" => swells(strip) * (fields.number("reveal", 0.25) + 0.5),
        "panel.swells" => panel().0,
        "panel.moves" => panel().1,
        "clearance.left" => gap(),
        "check moisture.low" => is(before.min(after) < 0.06),
        "check moisture.high" => is(before.max(after) > 0.14),
        "check clearance.gone" if is_rabbeted => is(gap() <= 0.0),
        "check clearance.gone" => is(gap() < 1.0 / 16.0),
        _ => panic!("this method knows nothing about {figure}"),
    }
}

fn is(holds: bool) -> f64 {
    u8::from(holds).into()
}

type Point = [f64; 2];

fn distance(a: Point, b: Point) -> f64 {
    f64::hypot(b[0] - a[0], b[1] - a[1])
}

/// A point turned about the origin.
fn turned([x, y]: Point, angle: f64) -> Point {
    let (sine, cosine) = angle.sin_cos();
    [x * cosine - y * sine, x * sine + y * cosine]
}

/// The end of a rail: long point at the origin, outer edge along x, the short point stretched away from that edge. Twice
/// the turn of its cut, over the length that the cut had, is the gap.
fn swollen(fields: &Fields, figure: &str) -> f64 {
    let face = fields.number("face", 0.75);
    let inside = (1.0 - 2.0 / fields.number("sides", 4.0)) * std::f64::consts::PI;
    let middle = turned([1.0, 0.0], inside / 2.0);
    let short = middle.map(|part| part * face / middle[1]);
    let stretched = [short[0], short[1] * (1.0 + air(fields, "rail.swells"))];
    let turn = (short[0] * stretched[1] - short[1] * stretched[0]) / distance([0.0, 0.0], short).powi(2);
    let turn = turn.atan2((short[0] * stretched[0] + short[1] * stretched[1]) / distance([0.0, 0.0], short).powi(2));
    let gap = 2.0 * turn.abs() * distance([0.0, 0.0], short);
    match figure {
        "mitre.wedge" => gap,
        "check mitre.gapes" => is(gap > 1.0 / 32.0),
        _ => panic!("this method knows nothing about {figure}"),
    }
}

/// An open frame of four sides on the marks.
struct Frame {
    opening: [f64; 2],
    outside: [f64; 2],
    face: f64,
    depth: f64,
    widest: f64,
}

impl Frame {
    fn of(fields: &Fields) -> Self {
        let art = fields.size("art");
        let usual = if fields.text("build") == Some("shadowbox") { 1.0 } else { 0.25 };
        let gap = |side: &str| fields.number(&format!("reveal.{side}"), fields.number("reveal", usual));
        let [left, right, top, bottom] = ["left", "right", "top", "bottom"].map(gap);
        let face = fields.number("face", 0.75);
        let stack = fields.number("setback", 0.125) + art[2] + fields.number("strip.thickness", 0.5);
        let depth = fields.number("depth", stack + fields.number("recess", 0.25));
        let opening = [art[0] + left + right, art[1] + top + bottom];
        // The section turned by its slope, from its leftmost corner to its rightmost.
        let slope = plain(fields, "slope", 0.0).to_radians();
        let section = [[0.0, 0.0], [face, 0.0], [face, depth], [0.0, depth]].map(|corner| turned(corner, -slope)[0]);
        let plan = section.iter().copied().fold(f64::MIN, f64::max) - section.iter().copied().fold(f64::MAX, f64::min);
        let widest = [left, right, top, bottom].into_iter().fold(0.0, f64::max);
        Self { opening, outside: opening.map(|side| side + 2.0 * plan), face, depth, widest }
    }

    /// Weight of the rails, the strip and the work: rings between rectangles.
    fn weight(&self, fields: &Fields) -> f64 {
        let ring = |outer: [f64; 2], inner: [f64; 2]| outer[0] * outer[1] - inner[0] * inner[1];
        let wood = wood(fields.text("wood").unwrap_or("poplar"));
        let strip = self.opening.map(|side| side - 2.0 * (self.widest + 0.5));
        let volume = self.depth * ring(self.outside, self.opening)
            + fields.number("strip.thickness", 0.5) * ring(self.opening, strip);
        volume * wood.density + plain(fields, "art.weight", f64::NAN)
    }
}

struct Wood {
    /// Pounds for each cubic inch.
    density: f64,
    /// Pounds for each square inch.
    elasticity: f64,
}

/// Gravity and modulus of elasticity, Wood Handbook (2010) Tables 5-3a (read) and 5-3b (memory).
fn wood(word: &str) -> Wood {
    let (gravity, elasticity) = match word {
        "ash" => (0.60, 1.74e6),
        "hard maple" => (0.63, 1.83e6),
        "poplar" => (0.42, 1.58e6),
        "white pine" => (0.35, 1.24e6),
        _ => panic!("{word} is not among these"),
    };
    let foot: f64 = 62.4 * 1.12 * gravity;
    Wood { density: (foot * 100.0).round() / 100.0 / 1728.0, elasticity }
}

/// Slices of a beam, of its section, of a curve.
const SLICES: u16 = 20_000;

/// The sum of a function over slices from 0 to a length, taken at their middles.
fn sum(length: f64, of: impl Fn(f64) -> f64) -> f64 {
    let slice = length / f64::from(SLICES);
    (0..SLICES).map(|count| of(slice * (f64::from(count) + 0.5)) * slice).sum()
}

/// How far a beam on two supports gives at a place: the work of a unit load there, slice by slice.
fn gives(length: f64, at: f64, stiffness: f64, moment: impl Fn(f64) -> f64) -> f64 {
    let unit = |x: f64| if x < at { x * (length - at) / length } else { at * (length - x) / length };
    sum(length, |x| moment(x) * unit(x) / stiffness)
}

/// Bending of rails: the load acts along the face.
fn beam(fields: &Fields, figure: &str) -> f64 {
    let frame = Frame::of(fields);
    let inertia = sum(frame.face, |y| frame.depth * (y - frame.face / 2.0).powi(2));
    let stiffness = inertia * wood(fields.text("wood").unwrap_or("poplar")).elasticity;
    let limit = fields.number("bend.limit", 1.0 / 16.0);
    let span = fields.number("rail.span", frame.outside[0]);
    // The load of each inch bends what is left of the support from it.
    let spread = |length: f64| {
        let inch = frame.weight(fields) / span;
        gives(length, length / 2.0, stiffness, |x| inch * length / 2.0 * x - inch * x * x / 2.0)
    };
    let drawn = || {
        let hooks = fields.number("hook.span", 0.0);
        let [leg, reach] =
            [fields.number("wire", 0.0), fields.number("hanger.span", 0.0)].map(|all| (all - hooks) / 2.0);
        let inward = frame.weight(fields) / 2.0 * reach / (leg * leg - reach * reach).sqrt();
        let (length, at) = (frame.outside[1], fields.number("hanger.drop", 0.0));
        let below = inward * at / length;
        gives(length, at, stiffness, |x| if x < at { (inward - below) * x } else { below * (length - x) })
    };
    match figure {
        "bend.inertia" => inertia,
        "rail.bends" => spread(span),
        "rail.pulled" => drawn(),
        "brace.span" => root([0.0, 2000.0], |length| spread(length) - limit),
        "check brace.due" => is(spread(span) > limit),
        "check rail.drawn" => is(drawn() > 2.0 * limit),
        _ => panic!("this method knows nothing about {figure}"),
    }
}

/// Where a function that grows comes to nothing.
fn root([mut least, mut most]: [f64; 2], of: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..100 {
        let middle = (least + most) / 2.0;
        if of(middle) < 0.0 { least = middle } else { most = middle }
    }
    (least + most) / 2.0
}

/// Errors are taken at a fine part and the effect as many times: what is of second order is lost.
const FINE: f64 = 20_000.0;

/// A rail on the bench: its long points and its short points.
#[derive(Clone, Copy)]
struct Rail {
    long: [Point; 2],
    short: [Point; 2],
}

impl Rail {
    /// From a long point in a direction, the inner edge to its left; the ends are cut at an angle to the outer edge.
    fn laid(from: Point, heading: f64, length: f64, face: f64, cut: f64) -> Self {
        let back = face / cut.tan();
        let place = |point: Point| {
            let [x, y] = turned(point, heading);
            [from[0] + x, from[1] + y]
        };
        Self { long: [[0.0, 0.0], [length, 0.0]].map(place), short: [[back, face], [length - back, face]].map(place) }
    }

    /// Moved so that its first short point comes to a place.
    fn with_short_at(self, [x, y]: Point) -> Self {
        let [dx, dy] = [x - self.short[0][0], y - self.short[0][1]];
        let moved = |[x, y]: Point| [x + dx, y + dy];
        Self { long: self.long.map(moved), short: self.short.map(moved) }
    }
}

/// Four rails with every cut off alike.
fn chain(fields: &Fields, figure: &str) -> f64 {
    let frame = Frame::of(fields);
    let usual = plain(fields, "shop.angle", 0.1);
    let cut = (45.0 - plain(fields, "saw.mitre", usual) / FINE).to_radians();
    let [width, height] = frame.outside;
    let mut rails: Vec<Rail> = Vec::new();
    let mut heading = 0.0;
    for length in [width, height, width, height] {
        let from = rails.last().map_or([0.0, 0.0], |last| last.long[1]);
        rails.push(Rail::laid(from, heading, length, frame.face, cut));
        heading += std::f64::consts::PI - 2.0 * cut;
    }
    let (first, last) = (rails[0], rails[3]);
    let along = |from: Point, to: Point| (to[1] - from[1]).atan2(to[0] - from[0]);
    FINE * match figure {
        "mitre.last" => distance(first.long[0], last.long[1]),
        "mitre.faces" => (along(first.long[0], first.short[0]) - along(last.long[1], last.short[1])).abs().to_degrees(),
        // Two rails held square, long point on long point.
        "mitre.gap" => {
            let next = Rail::laid(first.long[1], std::f64::consts::FRAC_PI_2, height, frame.face, cut);
            distance(first.short[1], next.short[0])
        }
        _ => panic!("this method knows nothing about {figure}"),
    }
}

/// One rail longer than the one across from it: its corners touch inside, those of the other outside, and the two
/// between them lean until the frame closes.
fn closed(fields: &Fields, figure: &str) -> f64 {
    let frame = Frame::of(fields);
    let unlike = fields.number("saw.rails", fields.number("shop.saw", 1.0 / 64.0)) / FINE;
    let [width, height] = frame.outside;
    let (side, across) = (width.min(height), width.max(height));
    let square = std::f64::consts::FRAC_PI_4;
    let longer = Rail::laid([(across + unlike) / -2.0, 0.0], 0.0, across + unlike, frame.face, square);
    let lean = |angle: f64| {
        let heading = std::f64::consts::FRAC_PI_2 + angle;
        Rail::laid([0.0, 0.0], heading, side, frame.face, square).with_short_at(longer.short[1])
    };
    let angle = root([0.0, 0.1], |angle| across / 2.0 - lean(angle).long[1][0]);
    FINE * match figure {
        "rails.lean" => angle.to_degrees(),
        "rails.gap" => distance(longer.long[1], lean(angle).long[0]),
        "rails.step" => distance(longer.long[0], longer.long[1]) - across,
        _ => panic!("this method knows nothing about {figure}"),
    }
}

/// A frame whose top slides to the left until its diagonals are as unlike as the measured ones.
fn pushed(fields: &Fields, figure: &str) -> f64 {
    let [width, height] = Frame::of(fields).outside;
    let top = |angle: f64| [-height * angle.sin(), height * angle.cos()];
    let squares = |angle: f64| {
        let [x, y] = top(angle);
        distance([x, y], [width, 0.0]).powi(2) - distance([x + width, y], [0.0, 0.0]).powi(2)
    };
    let [first, second] = ["built.diagonal.1", "built.diagonal.2"].map(|name| fields.number(name, f64::NAN));
    let angle = root([-1.5, 1.5], |angle| squares(angle) - (first * first - second * second));
    match figure {
        "rack.angle" => angle.to_degrees(),
        "rack.off" => -top(angle)[0],
        "check rack.off.square" => is(top(angle)[0].abs() > 1.0 / 16.0),
        _ => panic!("this method knows nothing about {figure}"),
    }
}
