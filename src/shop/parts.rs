//! The pieces of a design, as they go on a cut list.

use std::sync::Arc;

use crate::measure::{Kind, Quantity, Real};
use crate::rules::book::Node;
use crate::rules::entry::{CutRule, PieceRule};
use crate::rules::evaluate::Evaluator;
use crate::rules::{Absent, Datum, Design, Pass};

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
    let book = design.book();
    let here = book.pieces.iter().filter(|piece| piece.builds.contains(&design.build()));
    let frames = design.made("quantity").and_then(|frames| frames.amount.to_whole()).unwrap_or(1);
    here.filter_map(|piece| design.evaluate(|evaluator| part(piece, frames, &mut Made(evaluator)))).collect()
}

/// The made values of a piece's details.
struct Made<'a, 'b>(&'a mut Evaluator<'b>);

impl Made<'_, '_> {
    fn value(&mut self, node: &Node) -> Option<Datum> {
        self.0.value(node, Pass::Cut).ok()
    }

    fn amount(&mut self, node: &Node) -> Option<Real> {
        self.value(node)?.amount().cloned()
    }

    fn length(&mut self, node: &Node) -> Option<Quantity> {
        self.amount(node).map(Quantity::inches)
    }

    /// A side of a section: nothing inside while a field is missing, nothing at all where it does not apply.
    fn side(&mut self, node: &Node) -> Option<Option<Quantity>> {
        match self.0.value(node, Pass::Cut) {
            Err(Absent::Idle) => None,
            found => Some(found.ok().and_then(|value| value.amount().cloned()).map(Quantity::inches)),
        }
    }

    /// The angle; none where nothing is said, or where it does not apply.
    fn angle(&mut self, node: Option<&Node>) -> Quantity {
        Quantity::new(node.and_then(|node| self.amount(node)).unwrap_or(Real::ZERO), Kind::ANGLE)
    }

    fn word(&mut self, node: &Node) -> Option<Arc<str>> {
        match self.value(node)? {
            Datum::Word(word) => Some(word),
            Datum::Amount(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => None,
        }
    }

    fn holds(&mut self, node: &Node) -> bool {
        self.0.holds(node, Pass::Cut) == Ok(true)
    }
}

/// A piece with the values of a design; none where the design does not have it, or not yet.
fn part(piece: &PieceRule, frames: i64, made: &mut Made) -> Option<Part> {
    if piece.when.as_ref().is_some_and(|when| !made.holds(when)) {
        return None;
    }
    let count = match &piece.count {
        Some(count) => made.amount(count)?.to_whole()?,
        None => 1,
    };
    let shape = match &piece.cut {
        CutRule::Sheet { height } => Shape::Sheet(Sheet {
            width: made.length(&piece.width)?,
            height: made.length(height)?,
            thickness: made.length(&piece.thickness)?,
        }),
        CutRule::Stick { long, short, mitre, tilt, shows, profile } => {
            let long = made.length(long)?;
            Shape::Stick(Stick {
                section: made.side(&piece.width)?.zip(made.side(&piece.thickness)?),
                short: match short {
                    Some(short) => made.length(short)?,
                    None => long.clone(),
                },
                long,
                mitre: made.angle(mitre.as_ref()),
                tilt: made.angle(tilt.as_ref()),
                show: shows.as_ref().and_then(|shows| made.word(shows)).unwrap_or_default(),
                turned: profile
                    .as_ref()
                    .and_then(|profile| made.word(profile))
                    .is_some_and(|word| &*word == REVERSIBLE),
            })
        }
    };
    (count > 0).then_some(())?;
    Some(Part {
        name: piece.name.clone(),
        quantity: count * frames,
        material: made.word(&piece.material)?.to_string(),
        shape,
    })
}

#[cfg(test)]
mod tests;
