//! The pieces of a design, as they go on a cut list.

use std::sync::Arc;

use crate::diag::{list, says};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::book::Node;
use crate::rules::entry::{CutRule, PieceRule};
use crate::rules::evaluate::Evaluator;
use crate::rules::{Absent, Datum, Design, Finding, Level, Pass, Slot};

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
    pub show: Arc<str>,
    /// Whether its inner and outer edge are alike, so that it may be turned end for end.
    pub turned: bool,
}

impl Stick {
    /// Every way to cut the ends.
    pub const JOINTS: &'static [&'static str] = &["square", "profiled", "reversible"];

    /// How its ends are cut: square, or mitered, and then whether it may be turned end for end.
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
                    && (&one.show, one.turned) == (&other.show, other.turned)
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

/// The profile of a stick that may be turned end for end.
const REVERSIBLE: &str = "reversible";

/// The pieces of a design that are known so far, as they are made, in the order of the bench.
pub fn parts(design: &Design) -> Vec<Part> {
    pieces(design).into_iter().filter_map(|piece| piece.part).collect()
}

/// A stop for the pieces that wait for a field: a cut list or a plan without them is not whole. Pieces that wait for the
/// same fields share one.
pub fn incomplete(design: &Design) -> Vec<Finding> {
    let waiting = pieces(design).into_iter().filter(|piece| !piece.missing.is_empty());
    let mut groups: Vec<(Vec<Slot>, Vec<String>)> = Vec::new();
    for piece in waiting {
        match groups.iter_mut().find(|(missing, _)| *missing == piece.missing) {
            Some((_, names)) => names.push(piece.name),
            None => groups.push((piece.missing, vec![piece.name])),
        }
    }
    let finding = |(missing, names): (Vec<Slot>, Vec<String>)| {
        let fields: Vec<&str> = missing.iter().map(|slot| design.book().name(*slot).text.as_str()).collect();
        let verb = if fields.len() == 1 { "is" } else { "are" };
        Finding {
            level: Level::Stop,
            name: "parts.incomplete".into(),
            says: says!("{}: {} {} still to set", names.join(", "), list(&fields, "and"), verb),
            // What is missing is measured at the work: no value is offered for it.
            mend: None,
        }
    };
    groups.into_iter().map(finding).collect()
}

/// A piece that a design has.
struct Piece {
    name: String,
    /// With all its sizes, as soon as they are known; a section may still be missing.
    part: Option<Part>,
    /// The fields that it waits for.
    missing: Vec<Slot>,
}

fn pieces(design: &Design) -> Vec<Piece> {
    let book = design.book();
    let here = book.pieces.iter().filter(|piece| piece.builds.contains(&design.build()));
    let frames = design.made("quantity").and_then(|frames| frames.amount.to_whole()).unwrap_or(1);
    let piece = |piece: &PieceRule| {
        design.evaluate(|evaluator| {
            let mut made = Made { evaluator, missing: Vec::new(), is_idle: false };
            let part = part(piece, frames, &mut made);
            let missing = if made.is_idle { Vec::new() } else { made.missing };
            Piece { name: piece.name.clone(), part, missing }
        })
    };
    here.map(piece).collect()
}

/// The made values of a piece's details.
struct Made<'a, 'b> {
    evaluator: &'a mut Evaluator<'b>,
    /// Fields that a detail waits for.
    missing: Vec<Slot>,
    /// Whether the design does not have the piece.
    is_idle: bool,
}

impl Made<'_, '_> {
    fn value(&mut self, node: &Node) -> Option<Datum> {
        match self.evaluator.value(node, Pass::Cut) {
            Ok(value) => return Some(value),
            Err(Absent::Missing(slots)) => {
                let news = slots.into_iter().filter(|slot| !self.missing.contains(slot)).collect::<Vec<_>>();
                self.missing.extend(news);
            }
            Err(Absent::Idle) => self.is_idle = true,
            Err(Absent::Broken(_) | Absent::Refused(_) | Absent::Differ(_)) => {}
        }
        None
    }

    /// A detail that a piece may do without.
    fn optional<T>(&mut self, ask: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let was_idle = self.is_idle;
        let found = ask(self);
        self.is_idle = was_idle;
        found
    }

    fn amount(&mut self, node: &Node) -> Option<Real> {
        self.value(node)?.amount().cloned()
    }

    fn length(&mut self, node: &Node) -> Option<Quantity> {
        self.amount(node).map(Quantity::inches)
    }

    /// A side of a section: nothing inside while a field is missing, nothing at all where it does not apply.
    fn side(&mut self, node: &Node) -> Option<Option<Quantity>> {
        let side = self.length(node);
        (!self.is_idle).then_some(side)
    }

    /// The angle; none where nothing is said, or where it does not apply.
    fn angle(&mut self, node: Option<&Node>) -> Quantity {
        let angle = node.and_then(|node| self.optional(|made| made.amount(node)));
        Quantity::new(angle.unwrap_or(Real::ZERO), Kind::ANGLE)
    }

    fn word(&mut self, node: &Node) -> Option<Arc<str>> {
        match self.value(node)? {
            Datum::Word(word) => Some(word),
            Datum::Amount(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => None,
        }
    }

    fn optional_word(&mut self, node: Option<&Node>) -> Option<Arc<str>> {
        node.and_then(|node| self.optional(|made| made.word(node)))
    }

    fn holds(&mut self, node: &Node) -> bool {
        self.evaluator.holds(node, Pass::Cut) == Ok(true)
    }

    /// The shape of a piece. Every detail is asked for, so that all missing fields are found at once.
    fn shape(&mut self, piece: &PieceRule) -> Option<Shape> {
        match &piece.cut {
            CutRule::Sheet { height } => {
                let [width, height, thickness] = [&piece.width, height, &piece.thickness].map(|side| self.length(side));
                Some(Shape::Sheet(Sheet { width: width?, height: height?, thickness: thickness? }))
            }
            CutRule::Stick { long, short, mitre, tilt, shows, profile } => {
                let [width, thickness] = [&piece.width, &piece.thickness].map(|side| self.side(side));
                let long = self.length(long);
                let short = short.as_ref().map(|short| self.length(short));
                let [mitre, tilt] = [mitre, tilt].map(|angle| self.angle(angle.as_ref()));
                let [shows, profile] = [shows, profile].map(|word| self.optional_word(word.as_ref()));
                let long = long?;
                Some(Shape::Stick(Stick {
                    section: width?.zip(thickness?),
                    short: short.unwrap_or_else(|| Some(long.clone()))?,
                    long,
                    mitre,
                    tilt,
                    show: shows.unwrap_or_default(),
                    turned: profile.is_some_and(|word| &*word == REVERSIBLE),
                }))
            }
        }
    }
}

/// A piece with the values of a design; none where the design does not have it, or not yet.
fn part(piece: &PieceRule, frames: i64, made: &mut Made) -> Option<Part> {
    if piece.when.as_ref().is_some_and(|when| !made.holds(when)) {
        return None;
    }
    let count = match &piece.count {
        Some(count) => made.amount(count).and_then(|count| count.to_whole()),
        None => Some(1),
    };
    if count.is_some_and(|count| count <= 0) {
        made.is_idle = true;
        return None;
    }
    let (material, shape) = (made.word(&piece.material), made.shape(piece));
    Some(Part { name: piece.name.clone(), quantity: count? * frames, material: material?.to_string(), shape: shape? })
}

#[cfg(test)]
mod tests;
