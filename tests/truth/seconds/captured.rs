//! Packages in a rabbet, by another road: layers laid on the glass, edges set out from the middle, corners where edges
//! meet, a package pushed against its walls, a blade as a plane.

use super::{Fields, Method, number};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[
    ("layers laid on the glass", layers),
    ("edges set out from the middle", edges),
    ("corners where the edges meet", corners),
    ("pushed against the walls", pushed),
    ("spacers laid around the board", spacers),
    ("the saw as a plane", saw),
];

/// Thickness of a board or a pane that is not measured: the tables of the trade.
fn thickness(kind: &str) -> f64 {
    match kind {
        "glass" => 2.0 / 25.4,
        "acrylic" | "hardboard" => 1.0 / 8.0,
        "mat board" => 1.0 / 16.0,
        "foam board" => 3.0 / 16.0,
        "corrugated board" => 5.0 / 32.0,
        "mdf" => 1.0 / 4.0,
        _ => panic!("no thickness of {kind} here"),
    }
}

fn layer(fields: &Fields, of: &str) -> f64 {
    let kind = fields.text(&format!("{of}.kind")).filter(|kind| *kind != "none");
    let measured = fields.text(&format!("{of}.thickness"));
    measured.map(number).or(kind.map(thickness)).unwrap_or_default()
}

/// Front to back, each layer on the one before: where the pile ends. In a box the work stands inside its spacer.
fn pile(fields: &Fields) -> f64 {
    let mut behind = layer(fields, "glazing");
    for mat in ["1", "2", "3"].iter().filter(|mat| number(mat) <= fields.number("mat", 0.0)) {
        behind += fields.number(&format!("mat.{mat}.thickness"), 1.0 / 16.0);
    }
    let work = fields.size("art").get(2).copied().unwrap_or(fields.number("art.depth", f64::NAN))
        + fields.number("art.bulk_back", 0.0);
    behind += match fields.text("build") {
        Some("box") => fields.number("spacer", work + fields.number("clearance", 1.0 / 4.0)),
        _ => fields.number("spacer", 0.0) + work,
    };
    behind + layer(fields, "mount") + layer(fields, "backing")
}

fn layers(fields: &Fields, figure: &str) -> f64 {
    let end = pile(fields);
    let rabbet = fields.number("rabbet", end + 1.0 / 8.0);
    match figure {
        "package.depth" => end,
        "rabbet" => rabbet,
        "room" => rabbet - end,
        "depth" => fields.number("depth", fields.number("front", 1.0 / 4.0) + rabbet),
        "front" => fields.number("depth", f64::NAN) - rabbet,
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Edges from the middle: left, right, bottom, top.
type Around = [f64; 4];

fn moved(edges: Around, by: Around) -> Around {
    [edges[0] - by[0], edges[1] + by[1], edges[2] - by[2], edges[3] + by[3]]
}

fn width(edges: Around) -> f64 {
    edges[1] - edges[0]
}

fn height(edges: Around) -> f64 {
    edges[3] - edges[2]
}

/// Edges of a mat's window: the last lies on the work or around its image, each mat in front stands back from it.
fn window(fields: &Fields, mat: f64) -> Around {
    let last = fields.number("mat", 0.0);
    let reveal = |mat: f64| fields.number(&format!("mat.{mat}.reveal"), 1.0 / 4.0);
    let overlap = fields.number(&format!("mat.{last}.overlap"), 1.0 / 8.0);
    let art = fields.size("art");
    let half = |image: &str, art: f64| match fields.text(image) {
        Some(image) => number(image) / 2.0 + reveal(last),
        None => art / 2.0 - overlap,
    };
    let (x, y) = (half("image.width", art[0]), half("image.height", art[1]));
    let mut edges = [-x, x, -y, y];
    let mut front = last;
    while front > mat {
        front -= 1.0;
        edges = moved(edges, [reveal(front); 4]);
    }
    edges
}

/// Top, right, bottom, left.
fn borders(fields: &Fields) -> [f64; 4] {
    let all: Vec<f64> = fields.text("mat.1.border").unwrap_or("2 1/2").split(", ").map(number).collect();
    [0, 1, 2, 3].map(|side| all.get(side).or(all.first()).copied().unwrap_or_default())
}

fn package(fields: &Fields) -> Around {
    let size = match fields.text("sides") {
        Some(_) => vec![fields.number("art.across", f64::NAN); 2],
        None => fields.size("art"),
    };
    if fields.number("mat", 0.0) < 1.0 {
        let (x, y) = (size[0] / 2.0, size[1] / 2.0);
        return moved([-x, x, -y, y], [fields.number("art.bulk", 0.0); 4]);
    }
    let [top, right, bottom, left] = borders(fields);
    moved(window(fields, 1.0), [left, right, bottom + fields.number("mat.weighting", 0.0), top])
}

fn lip(fields: &Fields) -> f64 {
    fields.number("lip", if fields.text("art.kind").unwrap_or("canvas") == "canvas" { 3.0 / 8.0 } else { 1.0 / 4.0 })
}

fn allowance(fields: &Fields) -> f64 {
    let canvas = fields.text("art.kind").unwrap_or("canvas") == "canvas";
    fields.number("allowance", if canvas { 1.0 / 4.0 } else { 1.0 / 8.0 })
}

/// The walls of the rabbet as they are set out: half the play on each side of the package.
fn walls(fields: &Fields) -> Around {
    moved(package(fields), [allowance(fields) / 2.0; 4])
}

/// The walls as they were built and measured.
fn built(fields: &Fields) -> Around {
    let out = walls(fields);
    let more = |name: &str, is: f64| (fields.number(name, is) - is) / 2.0;
    let (x, y) = (more("built.width", width(out)), more("built.height", height(out)));
    moved(out, [x, x, y, y])
}

/// How wide a rail is seen from the front: its section, turned up by the slope, from its leftmost corner to its rightmost.
fn plan(fields: &Fields) -> f64 {
    let face = fields.number("face", 5.0 / 4.0);
    let (sine, cosine) = fields.number("slope", 0.0).to_radians().sin_cos();
    let depth = fields.number("depth", if sine == 0.0 { 1.0 } else { f64::NAN });
    let across = [(0.0, 0.0), (face, 0.0), (face, -depth), (0.0, -depth)].map(|(x, z)| x * cosine - z * sine);
    across.iter().fold(f64::MIN, |most, x| x.max(most)) - across.iter().fold(f64::MAX, |least, x| x.min(least))
}

fn edges(fields: &Fields, figure: &str) -> f64 {
    let (of, way) = figure.rsplit_once('.').unwrap_or((figure, ""));
    let walls = walls(fields);
    let sight = moved(walls, [-lip(fields); 4]);
    let pane = moved(built(fields), [-allowance(fields) / 2.0; 4]);
    let rectangle = match of {
        "mat.1.window" => window(fields, 1.0),
        "mat.2.window" => window(fields, 2.0),
        "mat.3.window" => window(fields, 3.0),
        "mat.window" => window(fields, fields.number("mat", 0.0)),
        "mat.outer" | "package" => package(fields),
        "inside" => walls,
        "board" | "glazing" | "backing" => pane,
        "sight" => sight,
        "outside" => moved(sight, [plan(fields); 4]),
        _ => [f64::NAN; 4],
    };
    match (figure, way) {
        // The narrowest border that the lip leaves in sight.
        ("mat.seen", _) => {
            let window = window(fields, 1.0);
            let shown = [window[0] - sight[0], sight[1] - window[1], window[2] - sight[2], sight[3] - window[3]];
            shown.into_iter().fold(f64::MAX, f64::min)
        }
        // The least that the last mat lies on the work.
        ("mat.hold", _) => {
            let (art, window) = (fields.size("art"), window(fields, fields.number("mat", 0.0)));
            f64::min(art[0] / 2.0 - window[1], art[1] / 2.0 - window[3])
        }
        ("united", _) => width(package(fields)) + height(package(fields)),
        (_, "width" | "across") => width(rectangle),
        (_, "height") => height(rectangle),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Where the edge of one side, square to the first axis at a distance, is met by the edge turned from it by `turn`.
fn corner(distance: f64, turn: f64) -> (f64, f64) {
    // The edge turned away: x cos + y sin = distance.
    (distance, (distance - distance * turn.cos()) / turn.sin())
}

/// The length of one of equal sides at this distance from the middle: from corner to corner.
fn side(distance: f64, sides: f64) -> f64 {
    let turn = 2.0 * std::f64::consts::PI / sides;
    let (one, other) = (corner(distance, turn), corner(distance, -turn));
    f64::hypot(one.0 - other.0, one.1 - other.1)
}

fn corners(fields: &Fields, figure: &str) -> f64 {
    let sight = moved(walls(fields), [-lip(fields); 4]);
    let outside = moved(sight, [plan(fields); 4]);
    let apart = |a: (f64, f64), b: (f64, f64)| f64::hypot(b.0 - a.0, b.1 - a.1);
    let sides = fields.number("sides", 4.0);
    let [left, right, bottom, top] =
        if figure.contains("long") || figure.contains("outside") { outside } else { sight };
    match figure {
        "rail.short" | "rail.long" | "piece rail: short" | "piece rail: long" => side(right, sides),
        "perimeter" if fields.text("sides").is_some() => sides * side(outside[1], sides),
        "sight.diagonal" | "outside.diagonal" => apart((left, bottom), (right, top)),
        _ if figure.contains("left") || figure.contains("right") => apart((left, bottom), (left, top)),
        _ if figure.contains("top") || figure.contains("bottom") => apart((left, top), (right, top)),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// The package lies against one wall after the other: what is free on the far side, and what the lip there still covers.
fn pushed(fields: &Fields, figure: &str) -> f64 {
    let (package, walls) = (package(fields), built(fields));
    let free = |low: usize, high: usize| {
        let slid = walls[low] + (package[high] - package[low]);
        let lip_ends = walls[high] - lip(fields);
        (walls[high] - slid, slid - lip_ends)
    };
    let (across, up) = (free(0, 1), free(2, 3));
    match figure {
        "play" => across.0.max(up.0),
        "cover.least" => across.1.min(up.1),
        "cover" => package[1] - (walls[1] - lip(fields)),
        _ => panic!("this method does not work out {figure}"),
    }
}

/// Spacers lie flush with the boards: those above and below from edge to edge, those at the sides between them.
fn spacers(fields: &Fields, figure: &str) -> f64 {
    let board = moved(built(fields), [-allowance(fields) / 2.0; 4]);
    let usual = match fields.text("spacer.board").filter(|kind| *kind != "none") {
        Some(kind) => thickness(kind),
        None => f64::max(lip(fields) - allowance(fields), 1.0 / 16.0),
    };
    let thick = fields.number("spacer.thickness", usual);
    let inner = moved(board, [-thick; 4]);
    let sides = fields.number("sides", 4.0);
    match figure {
        "spacer.thickness" => thick,
        "spacer.top.long" => width(board),
        "spacer.side.long" => height(inner),
        "spacer.each.long" => side(board[1], sides),
        "spacer.each.short" => side(inner[1], sides),
        _ => panic!("this method does not work out {figure}"),
    }
}

type Vector = [f64; 3];

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// The rail lies along the first axis, its face turned up by the slope; the joint is an upright plane halfway between two
/// rails. The turn of the saw is seen on the face, its tilt is the plane's against the face.
fn saw(fields: &Fields, figure: &str) -> f64 {
    let (sine, cosine) = fields.number("slope", 0.0).to_radians().sin_cos();
    let half = (180.0 / fields.number("sides", 4.0)).to_radians();
    let (square, face) = ([0.0, cosine, sine], [0.0, -sine, cosine]);
    let joint = [half.cos(), half.sin(), 0.0];
    let line = cross(face, joint);
    if figure.ends_with("tilt") {
        return dot(joint, face).abs().asin().to_degrees();
    }
    assert!(figure.ends_with("mitre"), "this method does not work out {figure}");
    (dot(line, square).abs() / dot(line, line).sqrt()).acos().to_degrees()
}
