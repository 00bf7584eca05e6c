//! Pieces of a frame: how each comes of the figures of a design, and what all of them weigh together.

use super::book::Type;
use super::entry::{CutRule, PieceRule};
use super::once::Once;
use super::resolve::{Maker, unknown};
use super::term::{Drafted, Form, Op, PIECES, PieceEntry, Placed, Term};
use crate::diag::{Diagnostic, Span, codes};
use crate::measure::{Kind, Quantity, Real};

/// A detail that a piece may have.
struct Detail {
    name: &'static str,
    of: Type,
    /// Whether a stick may have it, and must.
    stick: (bool, bool),
    /// Whether a sheet may have it, and must.
    sheet: (bool, bool),
}

const NEEDED: (bool, bool) = (true, true);
const MAY: (bool, bool) = (true, false);
const NEVER: (bool, bool) = (false, false);
const LENGTH: Type = Type::Quantity(Kind::LENGTH);
const ANGLE: Type = Type::Quantity(Kind::ANGLE);

const DETAILS: &[Detail] = &[
    Detail { name: "count", of: Type::Whole, stick: MAY, sheet: MAY },
    Detail { name: MATERIAL, of: Type::Word, stick: NEEDED, sheet: NEEDED },
    Detail { name: "width", of: LENGTH, stick: NEEDED, sheet: NEEDED },
    Detail { name: "thickness", of: LENGTH, stick: NEEDED, sheet: NEEDED },
    Detail { name: "height", of: LENGTH, stick: NEVER, sheet: NEEDED },
    Detail { name: "long", of: LENGTH, stick: NEEDED, sheet: NEVER },
    Detail { name: "short", of: LENGTH, stick: MAY, sheet: NEVER },
    Detail { name: "mitre", of: ANGLE, stick: MAY, sheet: NEVER },
    Detail { name: "tilt", of: ANGLE, stick: MAY, sheet: NEVER },
    Detail { name: "shows", of: Type::Word, stick: MAY, sheet: NEVER },
    Detail { name: "profile", of: Type::Word, stick: MAY, sheet: NEVER },
    Detail { name: WEIGHT, of: Type::Quantity(Kind::MASS), stick: MAY, sheet: MAY },
];

const MATERIAL: &str = "material";
const WEIGHT: &str = "weight";
impl PieceEntry {
    fn detail(&self, name: &str) -> Option<&Term> {
        self.details.iter().find(|((one, _), _)| one == name).map(|(_, term)| term)
    }
}

impl Maker<'_> {
    /// Takes in a piece, in place of another of its name where it says so.
    pub(super) fn draft(
        &mut self,
        home: usize,
        entry: &PieceEntry,
        place: (&Span, Vec<u8>, bool),
    ) -> Result<(), Diagnostic> {
        let (span, builds, instead) = place;
        let once = Once { what: "piece", name: &entry.name, builds: &builds, instead };
        once.make_room(&mut self.pieces, |one| (&one.entry.name.0, &mut one.builds), &self.book.builds)?;
        self.pieces.push(Drafted { home, span: span.clone(), builds, entry: entry.clone() });
        Ok(())
    }

    /// Looks up the names in every piece.
    pub(super) fn name_pieces(&mut self) -> Result<(), Diagnostic> {
        let drafts = std::mem::take(&mut self.pieces);
        for draft in &drafts {
            let made = self.piece(draft).map_err(|found| self.sheets[draft.home].inside(found))?;
            self.book.pieces.push(made);
        }
        self.pieces = drafts;
        Ok(())
    }

    fn piece(&self, draft: &Drafted) -> Result<PieceRule, Diagnostic> {
        let Drafted { entry, builds, span, .. } = draft;
        let allowed = |detail: &Detail| if entry.is_sheet { detail.sheet } else { detail.stick };
        for (at, (name, _)) in entry.details.iter().enumerate() {
            let known = DETAILS.iter().filter(|detail| allowed(detail).0).map(|detail| detail.name);
            if !known.clone().any(|one| one == name.0) {
                return Err(unknown(
                    if entry.is_sheet { "detail of a sheet" } else { "detail of a stick" },
                    name,
                    known,
                ));
            }
            if entry.details[..at].iter().any(|((before, _), _)| *before == name.0) {
                return Err(
                    Diagnostic::of(&codes::rules::DEFINED, format!("{} is given twice", name.0)).at(name.1.clone())
                );
            }
        }
        let node = |name: &str| entry.detail(name).map(|term| self.node(term, builds)).transpose();
        let needed = |name: &str| {
            let missing = || {
                let message = format!("the piece \"{}\" has no {name}", entry.name.0);
                Diagnostic::of(&codes::rules::SYNTAX, message).at(span.start..span.start + "piece".len())
            };
            node(name)?.ok_or_else(missing)
        };
        for detail in DETAILS.iter().filter(|detail| allowed(detail).1) {
            needed(detail.name)?;
        }
        if let (None, Some(material)) = (entry.detail(WEIGHT), entry.detail(MATERIAL)) {
            self.node(&density(material), builds).map_err(|_| {
                let message =
                    "no table has a density for this material; add the figure that the piece weighs: weight NAME";
                Diagnostic::of(&codes::rules::NAME_UNKNOWN, message).at(material.span.clone())
            })?;
        }
        let when = entry.when.as_ref().map(|term| self.node(term, builds)).transpose()?;
        let cut = if entry.is_sheet {
            CutRule::Sheet { height: needed("height")? }
        } else {
            CutRule::Stick {
                long: needed("long")?,
                short: node("short")?,
                mitre: node("mitre")?,
                tilt: node("tilt")?,
                shows: node("shows")?,
                profile: node("profile")?,
            }
        };
        Ok(PieceRule {
            name: entry.name.0.clone(),
            doc: entry.doc.clone(),
            builds: builds.clone(),
            when,
            count: node("count")?,
            material: needed(MATERIAL)?,
            width: needed("width")?,
            thickness: needed("thickness")?,
            cut,
        })
    }

    /// Refuses details of the wrong kind.
    pub(super) fn type_pieces(&mut self) -> Result<(), Diagnostic> {
        let drafts = std::mem::take(&mut self.pieces);
        for draft in &drafts {
            self.type_piece(draft).map_err(|found| self.sheets[draft.home].inside(found))?;
        }
        self.pieces = drafts;
        Ok(())
    }

    fn type_piece(&mut self, draft: &Drafted) -> Result<(), Diagnostic> {
        let Drafted { entry, builds, .. } = draft;
        for ((name, _), term) in &entry.details {
            let wanted = DETAILS.iter().find(|detail| detail.name == name).map_or(Type::Nothing, |detail| detail.of);
            self.wants(builds, name, term, wanted)?;
        }
        if let Some(when) = &entry.when {
            self.wants(builds, "when", when, Type::Truth)?;
        }
        Ok(())
    }

    /// A formula in which `weight of pieces` is written out.
    pub(super) fn with_pieces(&self, term: &Term) -> Term {
        let each = |term: &Term| Box::new(self.with_pieces(term));
        let form = match &term.form {
            Form::Of((part, _), whole) if part == WEIGHT && is_pieces(whole) => {
                return self.weight_of_pieces(&term.span);
            }
            Form::Negative(of) => Form::Negative(each(of)),
            Form::Pair(op, left, right) => Form::Pair(*op, each(left), each(right)),
            Form::Choice(test, then, other) => Form::Choice(each(test), each(then), each(other)),
            Form::Literal(_)
            | Form::Word(_)
            | Form::Name(_)
            | Form::This
            | Form::Not(_)
            | Form::Call(..)
            | Form::Of(..) => return term.clone(),
        };
        Term { span: term.span.clone(), form }
    }

    /// The sum of what every piece weighs. Pieces that name one figure as their weight share it: it counts once.
    fn weight_of_pieces(&self, span: &Span) -> Term {
        let term = |form| Term { span: span.clone(), form };
        let nothing = || term(Form::Literal(Quantity::new(Real::ZERO, Kind::MASS)));
        let mut shared: Vec<&str> = Vec::new();
        let mut sum: Option<Term> = None;
        for Drafted { entry, builds, .. } in &self.pieces {
            let weight = match entry.detail(WEIGHT) {
                Some(Term { form: Form::Name(name), .. }) if shared.contains(&name.as_str()) => continue,
                Some(weight) => {
                    if let Form::Name(name) = &weight.form {
                        shared.push(name);
                    }
                    weight.clone()
                }
                None => match by_volume(entry) {
                    Some(weight) => self.only_where(entry, builds, weight),
                    None => continue,
                },
            };
            let weight = term(Form::Pair(Op::Else, Box::new(weight), Box::new(nothing())));
            sum = Some(match sum {
                Some(sum) => term(Form::Pair(Op::Add, Box::new(sum), Box::new(weight))),
                None => weight,
            });
        }
        sum.unwrap_or_else(nothing)
    }

    /// A weight that is idle where the frame does not have the piece.
    fn only_where(&self, entry: &PieceEntry, builds: &[u8], weight: Term) -> Term {
        let span = weight.span.clone();
        let term = |form| Term { span: span.clone(), form };
        let idle = || Box::new(term(Form::Name("idle".into())));
        let mut weight = weight;
        if let Some(when) = &entry.when {
            weight = term(Form::Choice(Box::new(when.clone()), Box::new(weight), idle()));
        }
        if builds.len() < self.book.builds.len() {
            let is = |build: &u8| {
                let name = term(Form::Word(self.book.builds[usize::from(*build)].name.to_string()));
                term(Form::Pair(Op::Equal, Box::new(term(Form::Name("build".into()))), Box::new(name)))
            };
            let or = |one: Term, other: Term| term(Form::Pair(Op::Or, Box::new(one), Box::new(other)));
            if let Some(test) = builds.iter().map(is).reduce(or) {
                weight = term(Form::Choice(Box::new(test), Box::new(weight), idle()));
            }
        }
        weight
    }
}

fn is_pieces(term: &Term) -> bool {
    matches!(&term.form, Form::Name(name) if name == PIECES)
}

fn density(material: &Term) -> Term {
    let span = material.span.clone();
    let column: Placed = ("density".into(), span.clone());
    Term { span, form: Form::Of(column, Box::new(material.clone())) }
}

/// Density by volume, of all pieces of the name in a frame. A stick with mitered ends is as long as the mean of both edges.
fn by_volume(entry: &PieceEntry) -> Option<Term> {
    let material = entry.detail(MATERIAL)?;
    let times = |one: Term, other: &Term| {
        let span = one.span.clone();
        Term { span, form: Form::Pair(Op::Multiply, Box::new(one), Box::new(other.clone())) }
    };
    let section = times(times(density(material), entry.detail("width")?), entry.detail("thickness")?);
    let along = if entry.is_sheet { entry.detail("height")? } else { entry.detail("long")? };
    let volume = match entry.detail("short") {
        Some(short) => {
            let span = short.span.clone();
            let both = Form::Pair(Op::Add, Box::new(short.clone()), Box::new(along.clone()));
            let both = Term { span: span.clone(), form: both };
            let two = Term { span: span.clone(), form: Form::Literal(Quantity::number(Real::whole(2))) };
            let mean = Term { span, form: Form::Pair(Op::Divide, Box::new(both), Box::new(two)) };
            times(section, &mean)
        }
        None => times(section, along),
    };
    Some(match entry.detail("count") {
        Some(count) => times(volume, count),
        None => volume,
    })
}
