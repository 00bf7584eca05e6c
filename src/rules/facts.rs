//! What is answered of a design: its values, checks, steps and tolerances.

use std::borrow::Cow;

use super::design::Design;
use super::evaluate::{Absent, Known};
use super::explain::Step;
use super::finding::Finding;
use super::tolerance::Tolerance;
use super::{Answer, Slot, Type, answer};
use crate::diag::Fault;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::measure::{Quantity, Real, Size};

impl Answer {
    /// The answer as the value of a field.
    pub fn datum<'a>(self) -> Datum<'a> {
        match self {
            Self::Quantity(drawn, made) => Datum::Quantity(drawn, made.map(|made| made.amount)),
            Self::Share(share) => Datum::Share(share),
            Self::Text(text) => Datum::text(text.to_string()),
            Self::List(several) => Datum::Each(Box::new(several.into_iter().map(Self::datum))),
            Self::Size(extents) => {
                let mut extents = extents.into_iter();
                match (extents.next(), extents.next()) {
                    (Some(width), Some(height)) => Datum::Size(Size { width, height, depth: extents.next() }),
                    _ => Datum::Nothing,
                }
            }
        }
    }
}

/// A value of a design, or what is missing for it.
pub fn known(design: &Design, slot: Slot, value: Result<Known, Absent>) -> Datum<'_> {
    match value {
        Ok(known) => answer(&known, design.book().name(slot).of).datum(),
        Err(Absent::Idle) => Datum::Nothing,
        Err(Absent::Missing(slots)) => {
            let fields = slots.iter().map(|slot| design.book().name(*slot).text.as_str()).collect();
            Datum::Missing { fields, because: None }
        }
        Err(why) => Datum::Missing { fields: Vec::new(), because: Some(design.refusal(slot, why).says()) },
    }
}

/// What a name of a design answers, or nothing.
pub fn answered<'a>(design: &Design, name: &str) -> Datum<'a> {
    Datum::maybe(design.answer(name).ok(), Answer::datum)
}

/// A design with what its checks report, which is worked out once for all who ask.
pub struct Designed<'a> {
    /// The design.
    pub design: &'a Design,
    /// What its checks report.
    pub findings: Cow<'a, [Finding]>,
}

impl<'a> Designed<'a> {
    /// A design with its own checks.
    pub fn of(design: &'a Design) -> Self {
        Self { design, findings: design.findings().into() }
    }

    /// What its checks report.
    pub fn checks(&self) -> Datum<'a> {
        checks(self.findings.clone())
    }

    fn values(&self, fields: bool) -> Datum<'a> {
        let design = self.design;
        let book = design.book();
        let order = book.builds[usize::from(design.build())].order.iter().copied();
        Datum::named(order.filter_map(move |slot| {
            let name = book.name(slot);
            let gathers = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
            // Extents stand for a size, and parts for what a function found.
            if gathers || matches!(name.of, Type::Size | Type::Record(_)) || design.is_field(slot) != fields {
                return None;
            }
            let value = design.known(slot);
            if matches!(value, Err(Absent::Idle)) {
                None
            } else {
                Some((name.text.as_str(), known(design, slot, value)))
            }
        }))
    }
}

/// What checks report.
pub fn checks(findings: Cow<'_, [Finding]>) -> Datum<'_> {
    match findings {
        Cow::Borrowed(findings) => Datum::facts::<Finding>(findings.iter().map(Cow::Borrowed)),
        Cow::Owned(findings) => Datum::facts::<Finding>(findings.into_iter().map(Cow::Owned)),
    }
}

/// The kind of a field that lists checks.
pub const CHECKS: Kind = Kind::Each(&Kind::One(Finding::SHAPE));
/// The kind of a field that lists texts.
pub const TEXTS: Kind = Kind::Each(&Kind::Text);

impl Fact for Design {
    type Of<'a> = Designed<'a>;
    const NAME: &'static str = "design";
    const DOC: &'static str = "A design with every field and figure that applies.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::OrNothing(&Kind::Text), "name of the design", |of, _| {
            match of.design.answer("name") {
                Ok(Answer::Text(text)) => Datum::text(text.to_string()),
                Ok(_) | Err(_) => Datum::Nothing,
            }
        })
        .at(Level::Key),
        field::<Self>("build", Kind::Text, "build of the frame", |of, _| Datum::text(of.design.build_name())),
        field::<Self>("fields", Kind::Named(&Kind::Known), "value of each field", |of, _| of.values(true)),
        field::<Self>("figures", Kind::Named(&Kind::Known), "value of each figure", |of, _| of.values(false)),
        field::<Self>("checks", CHECKS, "what the checks report, the worst first", |of, _| of.checks()),
    ];
}

/// A text of a finding, borrowed where the finding is.
fn said<'a>(of: &Cow<'a, Finding>, which: for<'f> fn(&'f Finding) -> &'f str) -> Datum<'a> {
    match of {
        Cow::Borrowed(finding) => Datum::text(which(finding)),
        Cow::Owned(finding) => Datum::text(which(finding).to_string()),
    }
}

impl Fact for Finding {
    type Of<'a> = Cow<'a, Self>;
    const NAME: &'static str = "check";
    const DOC: &'static str = "What a check reports about a design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("level", Kind::Word(&["stop", "warn", "note"]), "how bad it is", |of, _| {
            Datum::text(of.level.to_string())
        })
        .at(Level::Key),
        field::<Self>("name", Kind::Text, "name of the check", |of, _| said(of, |finding| &finding.name))
            .at(Level::Key),
        field::<Self>("says", Kind::Text, "what is wrong, and by how much", |of, _| match of {
            Cow::Borrowed(finding) => Datum::Message(Cow::Borrowed(&finding.says)),
            Cow::Owned(finding) => Datum::Message(Cow::Owned(finding.says.clone())),
        })
        .at(Level::Key),
        field::<Self>("mend", Kind::Text, "a line that mends it", |of, _| match of.mend {
            Some(_) => said(of, |finding| finding.mend.as_deref().unwrap_or_default()),
            None => Datum::Nothing,
        })
        .optional(),
    ];
}

impl Fact for Step {
    type Of<'a> = (&'a Design, &'a Self);
    const NAME: &'static str = "step";
    const DOC: &'static str = "One step of how a value came out.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "the field or figure", |(design, step), _| {
            Datum::text(design.book().name(step.slot).text.as_str())
        })
        .at(Level::Key),
        field::<Self>(
            "formula",
            Kind::OrNothing(&Kind::Text),
            "the formula, with the choices already made",
            |(_, step), _| Datum::maybe(step.formula.as_deref(), Datum::text),
        ),
        field::<Self>(
            "with",
            Kind::OrNothing(&Kind::Text),
            "the formula with values in place of names",
            |(_, step), _| Datum::maybe(step.with.as_deref(), Datum::text),
        ),
        field::<Self>("is", Kind::Value, "the value", |(design, step), _| {
            answer(&step.is, design.book().name(step.slot).of).datum()
        }),
        field::<Self>("reasons", TEXTS, "why a function of the program found what it did", |(_, step), _| {
            Datum::texts(step.reasons.iter().map(String::as_str))
        }),
        field::<Self>("sources", TEXTS, "where the values and formulas are published", |(_, step), _| {
            Datum::texts(step.sources.iter().map(String::as_str))
        }),
    ];
}

/// An amount of the kind of a name.
fn amount<'a>(design: &Design, slot: Slot, amount: &Real) -> Datum<'a> {
    Datum::Quantity(Quantity::new(amount.clone(), design.kind(slot)), None)
}

impl Fact for Tolerance {
    type Of<'a> = (&'a Design, Slot, Self);
    const NAME: &'static str = "tolerance";
    const DOC: &'static str = "How far a size may be off.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("worst", Kind::Value, "the most that it can be off", |(design, slot, tolerance), _| {
            amount(design, *slot, &tolerance.worst)
        }),
        field::<Self>("likely", Kind::Value, "what it is likely to be off", |(design, slot, tolerance), _| {
            amount(design, *slot, &tolerance.likely)
        }),
        field::<Self>(
            "of",
            Kind::Named(&Kind::Value),
            "how much of the worst each size adds",
            |(design, slot, tolerance), _| {
                let (design, slot) = (*design, *slot);
                let shares = tolerance.shares.clone();
                Datum::named(shares.into_iter().map(move |(source, share)| {
                    (design.book().name(source).text.as_str(), amount(design, slot, &share))
                }))
            },
        ),
    ];
}
