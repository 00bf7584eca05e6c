//! The pieces of a design, as they go on a cut list.

use crate::measure::{Kind, Quantity, Real};
use crate::rules::{Datum, Design};

/// One kind of piece: how many, what of, and its shape.
#[derive(Clone, Debug)]
pub struct Part {
    /// What it is called: `rail top`.
    pub name: String,
    /// How many, for all frames of the design.
    pub quantity: i64,
    /// What it is made of.
    pub material: String,
    /// How it is cut.
    pub shape: Shape,
}

/// What a piece is cut from.
#[derive(Clone, Debug)]
pub enum Shape {
    /// A stick.
    Stick(Stick),
    /// A sheet.
    Sheet(Sheet),
}

/// A piece of a stick: its section, its lengths and the angles of its ends.
#[derive(Clone, Debug)]
pub struct Stick {
    /// Across the grain, as it lies in the frame: width by thickness; none as long as it is not known.
    pub section: Option<(Quantity, Quantity)>,
    /// Between the short points.
    pub short: Quantity,
    /// Between the long points.
    pub long: Quantity,
    /// Turn of the saw from square, both ends.
    pub mitre: Quantity,
    /// Lean of the blade from upright, both ends.
    pub tilt: Quantity,
    /// Which face is seen, so that it goes up on the saw.
    pub show: &'static str,
    /// Whether its inner and outer edge are alike, so that it may be turned end for end.
    pub turned: bool,
}

impl Stick {
    /// Every way to cut the ends.
    pub const JOINTS: &'static [&'static str] = &["square", "profiled", "reversible"];

    /// How its ends are cut: square, or mitred, and then whether it may be turned end for end.
    pub fn joint(&self) -> &'static str {
        match (self.mitre.amount.is_exact_zero(), self.turned) {
            (true, _) => Self::JOINTS[0],
            (false, false) => Self::JOINTS[1],
            (false, true) => Self::JOINTS[2],
        }
    }
}

/// A piece of a sheet.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Across.
    pub width: Quantity,
    /// Up and down.
    pub height: Quantity,
    /// Through it.
    pub thickness: Quantity,
}

impl Part {
    /// Its lengths and angles by their names; a stick's section is beside them.
    pub fn sizes(&self) -> Vec<(&'static str, &Quantity)> {
        match &self.shape {
            Shape::Stick(stick) => {
                vec![("short", &stick.short), ("long", &stick.long), ("mitre", &stick.mitre), ("tilt", &stick.tilt)]
            }
            Shape::Sheet(sheet) => {
                vec![("width", &sheet.width), ("height", &sheet.height), ("thickness", &sheet.thickness)]
            }
        }
    }

    /// Whether two are the same piece but for their names.
    pub fn is_like(&self, other: &Self) -> bool {
        let same = |one: &Quantity, other: &Quantity| one.amount.same(&other.amount);
        let all = |pairs: &[(&Quantity, &Quantity)]| pairs.iter().all(|(one, other)| same(one, other));
        let alike = match (&self.shape, &other.shape) {
            (Shape::Sheet(one), Shape::Sheet(other)) => {
                all(&[(&one.width, &other.width), (&one.height, &other.height), (&one.thickness, &other.thickness)])
            }
            (Shape::Stick(one), Shape::Stick(other)) => {
                let section = match (&one.section, &other.section) {
                    (Some(one), Some(other)) => all(&[(&one.0, &other.0), (&one.1, &other.1)]),
                    (one, other) => one.is_none() && other.is_none(),
                };
                section
                    && (one.show, one.turned) == (other.show, other.turned)
                    && all(&[
                        (&one.short, &other.short),
                        (&one.long, &other.long),
                        (&one.mitre, &other.mitre),
                        (&one.tilt, &other.tilt),
                    ])
            }
            (Shape::Stick(_), Shape::Sheet(_)) | (Shape::Sheet(_), Shape::Stick(_)) => false,
        };
        alike && self.material == other.material
    }
}

/// How a piece comes of the figures of a design: every word but the name, the count and the face is a figure or field.
struct Row {
    name: &'static str,
    count: Count,
    width: &'static str,
    thickness: &'static str,
    material: &'static str,
    /// Of a sheet its width.
    short: &'static str,
    /// Of a sheet its height.
    long: &'static str,
    mitred: Mitred,
    show: &'static str,
    sheet: bool,
}

#[derive(Clone, Copy)]
enum Count {
    Each(i64),
    Sides,
    Boards,
}

#[derive(Clone, Copy)]
enum Mitred {
    /// Always, by `mitre` and `tilt`.
    Always,
    /// Where `strip.joint` says so, the strip lying flat.
    AsStrip,
    /// By the steepest cut of the boards of an oval, a figure.
    Oval(&'static str),
    /// Never.
    Square,
}

const fn rail(name: &'static str, count: Count, short: &'static str, long: &'static str) -> Row {
    Row {
        name,
        count,
        width: "face",
        thickness: "depth",
        material: "wood",
        short,
        long,
        mitred: Mitred::Always,
        show: "front",
        sheet: false,
    }
}

const fn strip(name: &'static str, count: Count, short: &'static str, long: &'static str) -> Row {
    Row {
        name,
        count,
        width: "strip.width",
        thickness: "strip.thickness",
        material: "strip.wood",
        short,
        long,
        mitred: Mitred::AsStrip,
        show: "front",
        sheet: false,
    }
}

const fn sheet(
    name: &'static str,
    thickness: &'static str,
    material: &'static str,
    width: &'static str,
    height: &'static str,
) -> Row {
    Row {
        name,
        count: Count::Each(1),
        width: "",
        thickness,
        material,
        short: width,
        long: height,
        mitred: Mitred::Square,
        show: "",
        sheet: true,
    }
}

/// Every piece that a design can have; those whose figures are idle are left out.
const ROWS: &[Row] = &[
    rail("rail top, bottom", Count::Each(2), "rail.top.short", "rail.top.long"),
    rail("rail left, right", Count::Each(2), "rail.left.short", "rail.left.long"),
    rail("rail", Count::Sides, "rail.short", "rail.long"),
    Row {
        width: "oval.wide",
        mitred: Mitred::Oval("oval.mitre"),
        ..rail("rail board", Count::Boards, "oval.short", "oval.long")
    },
    strip("strip top, bottom", Count::Each(2), "strip.top.short", "strip.top.long"),
    strip("strip left, right", Count::Each(2), "strip.side.short", "strip.side.long"),
    strip("strip", Count::Sides, "strip.short", "strip.long"),
    Row {
        width: "oval.strip.wide",
        mitred: Mitred::Oval("oval.strip.mitre"),
        ..strip("strip board", Count::Boards, "oval.strip.short", "oval.strip.long")
    },
    sheet("glazing", "glazing.thickness", "glazing.kind", "glazing.width", "glazing.height"),
    sheet("glazing", "glazing.thickness", "glazing.kind", "glazing.across", "glazing.across"),
    sheet("mount", "mount.thickness", "mount.kind", "board.width", "board.height"),
    sheet("mount", "mount.thickness", "mount.kind", "board.across", "board.across"),
    sheet("mat 1", "mat.1.thickness", "mat.board", "mat.outer.width", "mat.outer.height"),
    sheet("mat 2", "mat.2.thickness", "mat.board", "mat.outer.width", "mat.outer.height"),
    sheet("mat 3", "mat.3.thickness", "mat.board", "mat.outer.width", "mat.outer.height"),
    sheet("backing", "backing.thickness", "backing.kind", "backing.width", "backing.height"),
    sheet("backing", "backing.thickness", "backing.kind", "backing.across", "backing.across"),
];

/// The pieces of a design that can be told so far, as they are made, in the order of the bench.
pub fn parts(design: &Design) -> Vec<Part> {
    ROWS.iter().filter_map(|row| part(design, row)).collect()
}

/// The made value of a name, if there is one.
fn made(design: &Design, name: &str) -> Option<Datum> {
    let slot = design.book().slot(name)?;
    design.known(slot).ok().map(|known| known.made().clone())
}

fn amount(design: &Design, name: &str) -> Option<Real> {
    made(design, name)?.amount().cloned()
}

fn length(design: &Design, name: &str) -> Option<Quantity> {
    amount(design, name).map(Quantity::inches)
}

fn count(design: &Design, name: &str) -> i64 {
    amount(design, name).and_then(|amount| amount.to_whole()).unwrap_or(1)
}

fn part(design: &Design, row: &Row) -> Option<Part> {
    let short = length(design, row.short)?;
    let long = length(design, row.long)?;
    let thickness = length(design, row.thickness);
    let each = match row.count {
        Count::Each(each) => each,
        Count::Sides => count(design, "sides"),
        Count::Boards => count(design, "oval.boards"),
    };
    let none = || Quantity::new(Real::ZERO, Kind::ANGLE);
    let angle = |name: &str| amount(design, name).map_or_else(none, |amount| Quantity::new(amount, Kind::ANGLE));
    let is_turned = || matches!(made(design, "moulding"), Some(Datum::Word(moulding)) if &*moulding == "reversible");
    let is_strip_mitred = || matches!(made(design, "strip.joint"), Some(Datum::Word(joint)) if &*joint == "mitred");
    let (mitre, tilt) = match row.mitred {
        Mitred::Always => (angle("mitre"), angle("tilt")),
        Mitred::Oval(mitre) => (angle(mitre), none()),
        // A strip lies flat whatever the slope of its rails.
        Mitred::AsStrip if is_strip_mitred() => {
            (Quantity::new(Real::ratio(180, count(design, "sides")), Kind::ANGLE), none())
        }
        Mitred::AsStrip | Mitred::Square => (none(), none()),
    };
    let material = match made(design, row.material) {
        Some(Datum::Word(word)) => word.to_string(),
        Some(Datum::Amount(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_)) | None => row.material.to_string(),
    };
    let shape = if row.sheet {
        // A sheet whose thickness does not apply is not in the package.
        Shape::Sheet(Sheet { width: short, height: long, thickness: thickness? })
    } else {
        let section = length(design, row.width).zip(thickness);
        let turned = matches!(row.mitred, Mitred::AsStrip) || is_turned();
        Shape::Stick(Stick { section, short, long, mitre, tilt, show: row.show, turned })
    };
    Some(Part { name: row.name.into(), quantity: each * count(design, "quantity"), material, shape })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::write::Manner;
    use crate::rules::shipped;

    #[test]
    fn every_figure_named_is_in_the_book() {
        let book = shipped();
        for row in ROWS {
            for name in [row.width, row.thickness, row.short, row.long] {
                assert!(name.is_empty() || book.slot(name).is_some(), "{name}");
            }
        }
    }

    #[test]
    fn an_empty_bench_has_no_parts() {
        assert!(parts(&Design::new(shipped(), Manner::default())).is_empty());
    }
}
