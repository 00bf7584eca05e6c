//! What a frame weighs and what carries it, by another road: areas from their corners, sections cut into strips, sums of
//! forces and moments.

use std::f64::consts::TAU;

use super::{Fields, Method, number};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[
    ("areas from corners", weights),
    ("sums of forces", wire),
    ("heights from the floor", heights),
    ("six faces of a packet", packet),
    ("corners of the piece", extents),
];

/// A corner or a point, across and up.
pub type Point = (f64, f64);

/// A list of points around an area: the shoelace sum.
pub fn area(around: &[Point]) -> f64 {
    let next = around.iter().cycle().skip(1);
    around.iter().zip(next).map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>().abs() / 2.0
}

fn rectangle(width: f64, height: f64) -> [Point; 4] {
    [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
}

/// A ring that lies inside a rectangle.
fn ring(width: f64, height: f64, broad: f64) -> f64 {
    area(&rectangle(width, height)) - area(&rectangle(width - 2.0 * broad, height - 2.0 * broad))
}

/// The points of an oval, pushed out square to its edge.
fn oval(width: f64, height: f64, out: f64) -> Vec<Point> {
    let point = |step: u32| {
        let (sin, cos) = (TAU * f64::from(step) / 100_000.0).sin_cos();
        let (across, up) = (cos * height / 2.0, sin * width / 2.0);
        let square = f64::hypot(across, up);
        (cos * width / 2.0 + out * across / square, sin * height / 2.0 + out * up / square)
    };
    (0..100_000).map(point).collect()
}

/// Pounds in a cubic inch: of a wood its specific gravity, 62.4 lb in a cubic foot of water and 12 % of moisture, to a
/// hundredth; of anything else kilograms in a cubic meter, of an inch of 0.0254 m and a pound of 0.45359237 kg.
fn density(of: &str) -> f64 {
    let wood = |gravity: f64| (gravity * 62.4 * 1.12 * 100.0).round() / 100.0 / 12_f64.powi(3);
    let metric = |kilograms: f64| kilograms * 0.0254_f64.powi(3) / 0.453_592_37;
    match of {
        "ash" => wood(0.60),
        "poplar" => wood(0.42),
        "spruce" => wood(0.40),
        "white pine" => wood(0.35),
        "walnut" => wood(0.55),
        "white oak" => wood(0.68),
        "glass" => metric(2500.0),
        "acrylic" => metric(1190.0),
        "mat board" => metric(700.0),
        "foam board" => metric(146.0),
        "corrugated board" => metric(138.0),
        "hardboard" => metric(925.0),
        "birch plywood" | "panel" => metric(680.0),
        _ => panic!("nobody has weighed {of}"),
    }
}

/// Pounds in a square inch, from grams in a square meter.
fn sheet(grams: f64) -> f64 {
    grams / 1000.0 * 0.0254 * 0.0254 / 0.453_592_37
}

/// A frame of four sides, as its fields have it; every size lies on a mark.
struct Frame<'f> {
    fields: &'f Fields<'f>,
    captured: bool,
    art: [f64; 3],
    /// What the rails close in: between them, or between the walls of the rabbet.
    inside: [f64; 2],
    lip: f64,
    face: f64,
    depth: f64,
    gap: f64,
}

impl<'f> Frame<'f> {
    fn of(fields: &'f Fields<'f>) -> Self {
        let build = fields.text("build").unwrap_or("float");
        let captured = build == "rabbeted" || build == "box";
        let [width, height, deep] = fields.size("art")[..] else { panic!("a work has three sizes") };
        let canvas = fields.text("art.kind").is_none_or(|kind| kind == "canvas");
        let (inside, gap) = if captured {
            let play = fields.number("allowance", if canvas { 0.25 } else { 0.125 });
            let package = match mats(fields).first() {
                Some(_) => outer(fields, width, height),
                None => [width, height],
            };
            (package.map(|side| side + play), 0.0)
        } else {
            let all = fields.text("reveal").unwrap_or(if build == "float" { "1/4" } else { "1" });
            let gaps: Vec<f64> = all.split(", ").map(number).collect();
            let gap = |side: usize| gaps.get(side).or(gaps.first()).copied().unwrap_or_default();
            let widest = (0..4).map(gap).fold(0.0, f64::max);
            ([width + gap(1) + gap(3), height + gap(0) + gap(2)], widest)
        };
        let behind = if captured {
            fields.number("front", 0.25) + fields.number("rabbet", f64::NAN)
        } else {
            fields.number("setback", 0.125)
                + deep
                + fields.number("strip.thickness", 0.5)
                + fields.number("recess", 0.25)
        };
        Self {
            fields,
            captured,
            art: [width, height, deep],
            inside,
            lip: if captured { fields.number("lip", if canvas { 0.375 } else { 0.25 }) } else { 0.0 },
            face: fields.number("face", if captured { 1.25 } else { 0.75 }),
            depth: fields.number("depth", behind),
            gap,
        }
    }

    fn wood(&self) -> &str {
        self.fields.text("wood").unwrap_or("poplar")
    }

    fn slope(&self) -> f64 {
        self.fields.number("slope", 0.0).to_radians()
    }

    /// Outside, from the section as it leans.
    fn outside(&self) -> [f64; 2] {
        let out = self.face * self.slope().cos() + self.depth * self.slope().sin();
        self.inside.map(|side| side - 2.0 * self.lip + 2.0 * out)
    }

    /// The rails, cut along themselves into thin sticks, each as long as its way around.
    fn rails(&self) -> f64 {
        let (cells, mut sum) = (200_u32, 0.0);
        let middle = |cell: u32| (f64::from(cell) + 0.5) / f64::from(cells);
        for across in (0..cells).map(middle) {
            for down in (0..cells).map(middle) {
                let out = across * self.face * self.slope().cos() + down * self.depth * self.slope().sin();
                sum += self.inside.iter().map(|side| 2.0 * (side - 2.0 * self.lip + 2.0 * out)).sum::<f64>();
            }
        }
        sum * self.face * self.depth / f64::from(cells).powi(2)
    }

    fn boards(&self) -> [f64; 2] {
        let canvas = self.fields.text("art.kind").is_none_or(|kind| kind == "canvas");
        let play = self.fields.number("allowance", if canvas { 0.25 } else { 0.125 });
        self.inside.map(|side| side - play)
    }

    fn board(&self, name: &str) -> f64 {
        let thick = self.fields.number(&format!("{name}.thickness"), 0.0);
        self.fields.text(&format!("{name}.kind")).map_or(0.0, |kind| {
            let [width, height] = self.boards();
            area(&rectangle(width, height)) * thick * density(kind)
        })
    }

    /// Volume of board in each mat, the first in front.
    fn mat(&self, which: usize) -> f64 {
        let Some((thick, window)) = mats(self.fields).get(which).copied() else { return 0.0 };
        let [width, height] = outer(self.fields, self.art[0], self.art[1]);
        let hole = area(&rectangle(self.art[0] - window, self.art[1] - window));
        (area(&rectangle(width, height)) - hole) * thick
    }

    fn rabbet(&self) -> f64 {
        if !self.captured {
            return 0.0;
        }
        ring(self.inside[0], self.inside[1], self.lip) * self.fields.number("rabbet", f64::NAN)
    }

    fn work(&self) -> f64 {
        if let Some(pounds) = self.fields.text("art.weight") {
            return number(pounds);
        }
        let [width, height, deep] = self.art;
        let face = area(&rectangle(width, height));
        match self.fields.text("art.kind").unwrap_or("canvas") {
            "canvas" => {
                let bar = self.fields.number("art.bar", 0.75_f64.min(deep));
                let wood = self.fields.text("art.wood").unwrap_or("spruce");
                let broad = self.fields.number("bar.width", 1.5);
                let stretcher = if 2.0 * broad < width.min(height) { ring(width, height, broad) } else { 0.0 };
                face * sheet(998.0) + stretcher * bar * density(wood)
            }
            "panel" => face * deep * density("panel"),
            "paper" => face * sheet(300.0),
            "textile" => face * sheet(400.0),
            _ => 0.0,
        }
    }

    fn strip(&self) -> f64 {
        if self.captured {
            return 0.0;
        }
        let broad = self.fields.number("strip.width", self.gap + self.fields.number("strip.bearing", 0.5));
        let wood = self.fields.text("strip.wood").unwrap_or(self.wood());
        ring(self.inside[0], self.inside[1], broad) * self.fields.number("strip.thickness", 0.5) * density(wood)
    }

    fn spacers(&self) -> f64 {
        let Some(spacer) = self.fields.text("spacer").map(number) else { return 0.0 };
        let thick = self.fields.number("spacer.thickness", f64::NAN);
        let [width, height] = self.boards();
        let of = self.fields.text("spacer.board").or(self.fields.text("spacer.wood")).unwrap_or(self.wood());
        ring(width, height, thick) * spacer * density(of)
    }

    fn mats(&self) -> f64 {
        (0..3).map(|which| self.mat(which)).sum::<f64>() * density(self.fields.text("mat.board").unwrap_or("mat board"))
    }

    fn whole(&self) -> f64 {
        let rails = (self.rails() - self.rabbet()) * density(self.wood());
        let boards: f64 = ["glazing", "mount", "backing"].iter().map(|name| self.board(name)).sum();
        rails + self.strip() + self.spacers() + boards + self.mats() + self.work()
    }
}

/// Thickness of each mat and by how much its window is smaller than the work, both sides together.
fn mats(fields: &Fields) -> Vec<(f64, f64)> {
    let count = fields.number("mat", 0.0);
    let mut covered = 0.0;
    let mut all = Vec::new();
    for one in (1..=3).rev().filter(|one| f64::from(*one) <= count) {
        covered += if all.is_empty() {
            2.0 * fields.number(&format!("mat.{one}.overlap"), 0.125)
        } else {
            -2.0 * fields.number(&format!("mat.{one}.reveal"), 0.25)
        };
        all.insert(0, (fields.number(&format!("mat.{one}.thickness"), 0.0625), covered));
    }
    all
}

/// Edge to edge of the mats: the front window and its borders, clockwise from the top.
fn outer(fields: &Fields, width: f64, height: f64) -> [f64; 2] {
    let borders: Vec<f64> =
        fields.text("mat.1.border").map_or(vec![2.5], |text| text.split(", ").map(number).collect());
    let border = |side: usize| borders.get(side).or(borders.first()).copied().unwrap_or_default();
    let window = mats(fields).first().map_or(0.0, |(_, window)| *window);
    let weighting = fields.number("mat.weighting", 0.0);
    [width - window + border(1) + border(3), height - window + border(0) + border(2) + weighting]
}

/// Areas, volumes and weights.
fn weights(fields: &Fields, figure: &str) -> f64 {
    if fields.text("sides").is_some() {
        return work_of_many_sides(fields, figure);
    }
    let frame = Frame::of(fields);
    if fields.text("shape") == Some("oval") {
        // A ring grows square to its inner edge.
        let ring =
            |[width, height]: [f64; 2], out: f64| area(&oval(width, height, out)) - area(&oval(width, height, 0.0));
        let full = |[width, height]: [f64; 2]| area(&oval(width, height, 0.0));
        let sight = frame.inside.map(|side| side - 2.0 * frame.lip);
        let rail = ring(sight, frame.face) * frame.depth;
        let cut =
            if frame.captured { (full(frame.inside) - full(sight)) * fields.number("rabbet", f64::NAN) } else { 0.0 };
        return match figure {
            "rabbet.volume" => cut,
            "pane.area" | "board.area" => full(frame.boards()),
            "weight.strip" => {
                let broad = fields.number("strip.width", f64::NAN);
                ring(frame.inside.map(|side| side - 2.0 * broad), broad) * 0.5 * density(frame.wood())
            }
            "weight.spacers" => {
                let thick = fields.number("spacer.thickness", f64::NAN);
                let of = ring(frame.boards().map(|side| side - 2.0 * thick), thick);
                of * fields.number("spacer", f64::NAN) * density(fields.text("spacer.board").unwrap_or("none"))
            }
            "rail.volume" => rail,
            "weight.rails" => (rail - cut) * density(frame.wood()),
            "work.area" => area(&oval(frame.art[0], frame.art[1], 0.0)),
            _ => panic!("this method does not work out {figure} of an oval"),
        };
    }
    let [width, height] = frame.boards();
    match figure {
        "work.area" => area(&rectangle(frame.art[0], frame.art[1])),
        "board.area" | "pane.area" => area(&rectangle(width, height)),
        "rail.volume" => frame.rails(),
        "rabbet.volume" => frame.rabbet(),
        "weight.rails" => (frame.rails() - frame.rabbet()) * density(frame.wood()),
        "weight.strip" => frame.strip(),
        "weight.spacers" => frame.spacers(),
        "weight.glazing" => frame.board("glazing"),
        "weight.mount" => frame.board("mount"),
        "weight.backing" => frame.board("backing"),
        "weight.mats" => frame.mats(),
        "mat.1.sheet" => frame.mat(0),
        "mat.2.sheet" => frame.mat(1),
        "mat.3.sheet" => frame.mat(2),
        "bar.area" => ring(frame.art[0], frame.art[1], fields.number("bar.width", 1.5)),
        "art.weight" => frame.work(),
        "weight" | "pull" => frame.whole(),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// The corners of equal sides around a middle, one side at the bottom.
fn corners(sides: u32, across: f64) -> Vec<Point> {
    let turn = TAU / f64::from(sides);
    let far = across / 2.0 / (turn / 2.0).cos();
    let corner = |one: u32| (turn * (f64::from(one) + 0.5)).sin_cos();
    (0..sides).map(corner).map(|(sin, cos)| (far * sin, -far * cos)).collect()
}

/// How many sides a frame has.
fn sides(fields: &Fields) -> u32 {
    fields.text("sides").and_then(|text| text.parse().ok()).unwrap_or(4)
}

/// A canvas of many sides and its stretcher.
fn work_of_many_sides(fields: &Fields, figure: &str) -> f64 {
    let across = fields.number("art.across", f64::NAN);
    let broad = fields.number("bar.width", 1.5);
    let face = area(&corners(sides(fields), across));
    let bars = face - area(&corners(sides(fields), across - 2.0 * broad));
    let thick = fields.number("art.bar", 0.75_f64.min(fields.number("art.depth", f64::NAN)));
    match figure {
        "work.area" => face,
        "bar.area" => bars,
        "art.weight" => face * sheet(998.0) + bars * thick * density(fields.text("art.wood").unwrap_or("spruce")),
        _ => panic!("this method does not work out {figure} of many sides"),
    }
}

/// How high a wire of this length rises over a level run, found by halving.
fn rise(leg: f64, run: f64) -> f64 {
    let (mut low, mut high) = (0.0, leg);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if f64::hypot(run, middle) < leg { low = middle } else { high = middle }
    }
    low
}

/// The wire from its ends: where hangers and hooks are, and the pulls that hold a hook or a hanger still.
fn wire(fields: &Fields, figure: &str) -> f64 {
    let pull = Frame::of(fields).whole();
    let (hangers, wire) = (fields.number("hanger.span", f64::NAN), fields.number("wire", f64::NAN));
    let hooks = if fields.text("hook.count") == Some("2") { fields.number("hook.span", hangers / 3.0) } else { 0.0 };
    let (left, right) = ((-hangers / 2.0, 0.0), (hangers / 2.0, 0.0));
    let (run, leg) = ((hangers - hooks) / 2.0, (wire - hooks) / 2.0);
    let hook = (-hooks / 2.0, rise(leg, run));
    let slope = (hook.0 - left.0, hook.1 - left.1);
    // The frame hangs by its two hangers. Moments about the right one: the pull of the left one along its wire, and the
    // weight in the middle.
    let length = f64::hypot(slope.0, slope.1);
    let arm = (right.0 - left.0) * slope.1 / length;
    let tension = pull * (right.0 - left.0) / 2.0 / arm;
    match figure {
        "wire.leg" => length,
        "wire.reach" => slope.0,
        "wire.sag" => slope.1,
        "wire.angle" => slope.1.atan2(slope.0).to_degrees(),
        "wire.tension" | "hanger.load" => tension,
        // What the wire pulls along the level has no counterpart but the rails.
        "wire.inward" => tension * slope.0 / length,
        "wire.breaking" => (0..4).map(|_| tension).sum(),
        // Up and down: each hook lifts its share.
        "hook.load" => 2.0 * tension * slope.1 / length / if hooks > 0.0 { 2.0 } else { 1.0 },
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Heights counted up from the floor: bottom of the frame, top, hangers, hook, nail.
fn heights(fields: &Fields, figure: &str) -> f64 {
    let tall = Frame::of(fields).outside()[1];
    let bottom = fields.number("wall.centre", 57.0) - tall / 2.0;
    let top = bottom + tall;
    let hangers = top - fields.number("hanger.drop", f64::NAN);
    let sag = if fields.text("wire").is_some() { wire(fields, "wire.sag") } else { 0.0 };
    let nail = hangers + sag + fields.number("hook.rise", 0.5);
    match figure {
        "hook.height" => nail,
        "hook.cover" => top - nail,
        "hanger.usual" => (top - bottom) / 4.0,
        _ => panic!("this method does not work out {figure}"),
    }
}

/// The packet by its six faces, two sheets on each.
fn packet(fields: &Fields, figure: &str) -> f64 {
    let frame = Frame::of(fields);
    let around = fields.number("packing", 2.0);
    let [width, height] = frame.outside().map(|side| around + side + around);
    let deep = around + frame.depth + around;
    let faces = [(width, height), (width, deep), (height, deep)].map(|(a, b)| area(&rectangle(a, b)));
    let (board, thick) = match fields.text("packing.board").unwrap_or("corrugated board") {
        "corrugated board" => ("corrugated board", 5.0 / 32.0),
        "birch plywood" => ("birch plywood", 0.25),
        other => panic!("nobody packs in {other}"),
    };
    let packing = faces.iter().flat_map(|face| [face, face]).sum::<f64>() * thick * 2.0 * density(board);
    match figure {
        "packed.width" => width,
        "packed.height" => height,
        "packed.depth" => deep,
        "weight.packing" => packing,
        "packed.weight" => packing + frame.whole(),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// A frame of equal sides, one of them at the bottom, from its corners; an oval from the points around it. What is across
/// and up at the hangers is measured between points.
fn extents(fields: &Fields, figure: &str) -> f64 {
    let face = fields.number("face", 0.75);
    let gap = fields.number("reveal", 0.25);
    let span = |of: &[Point], part: fn(&Point) -> f64| {
        let all = of.iter().map(part);
        all.clone().fold(f64::MIN, f64::max) - all.fold(f64::MAX, f64::min)
    };
    let across = |of: &[Point]| span(of, |point| point.0);
    let up = |of: &[Point]| span(of, |point| point.1);
    let (piece, round) = if fields.text("shape") == Some("oval") {
        let art = fields.size("art");
        let outside = oval(art[0] + 2.0 * (gap + face), art[1] + 2.0 * (gap + face), 0.0);
        (outside.clone(), outside)
    } else {
        let size = fields.number("art.across", f64::NAN) + 2.0 * (gap + face);
        (corners(sides(fields), size), oval(size, size, 0.0))
    };
    let top = piece.iter().map(|point| point.1).fold(f64::MIN, f64::max);
    let hangers = top - fields.number("hanger.drop", f64::NAN);
    let bottom = round.iter().map(|point| point.1).fold(f64::MAX, f64::min);
    match figure {
        "piece.width" => across(&piece),
        "piece.height" => up(&piece),
        "piece.round" => across(&round),
        "piece.tall" => up(&round),
        "hanger.rise" => hangers - (top - up(&piece) + up(&round) / 2.0),
        // Between the two points of the round that are as high as the hangers, found by halving along the quarter.
        "hanger.chord" => {
            let rise = hangers - (top - up(&piece) + up(&round) / 2.0);
            let (mut low, mut high) = (0.0_f64, TAU / 4.0);
            for _ in 0..60 {
                let middle = (low + high) / 2.0;
                if middle.sin() * up(&round) / 2.0 < rise.abs() { low = middle } else { high = middle }
            }
            low.cos() * across(&round)
        }
        // A quarter of the round lies above them.
        "hanger.usual" => top - (bottom + up(&round) * 0.75),
        _ => panic!("this method does not work out {figure}"),
    }
}
