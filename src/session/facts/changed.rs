//! Replies of lines that change the design.

#![expect(clippy::wildcard_enum_match_arm, reason = "a field belongs to few of the things that can be done")]

use crate::fact::{Datum, Fact, Field, Kind, field};
use crate::measure::Real;
use crate::rules::facts::{CHECKS, TEXTS, answered, checks, known};
use crate::rules::{Absent, Aimed, Datum as Amount, Finding, Known, answer};
use crate::session::reply::{Changed, Done};

/// What a line changed in the design.
pub struct Change;

impl Fact for Change {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "change";
    const DOC: &'static str = "What a line changed in the design.";
    const FIELDS: &'static [Field<Self>] =
        &[
            field::<Self>("changed", Kind::Named(&Kind::Known), "values that changed", |of, _| {
                let design = &of.design;
                let values = of.changed.iter().filter(|(_, value)| !matches!(value, Err(Absent::Idle)));
                Datum::named(values.map(|(slot, value)| {
                    (design.book().name(*slot).text.as_str(), known(design, *slot, value.clone()))
                }))
            }),
            field::<Self>("checks", CHECKS, "what the checks report now, the worst first", |of, _| {
                checks(of.findings.iter().map(|(finding, _)| finding.clone()).collect::<Vec<Finding>>().into())
            }),
            field::<Self>("mended", TEXTS, "checks that no longer report anything", |of, _| {
                Datum::texts(of.mended.iter().map(String::as_str))
            }),
        ];
}

/// The fields of a change, among those of a reply.
const fn change<F: for<'a> Fact<Of<'a> = &'a Changed>>() -> Field<F> {
    field::<F>("", Kind::One(Change::SHAPE), "what the line changed", |of, _| Datum::fact::<Change>(of))
}

/// The name in a line.
fn name(of: &Changed) -> &str {
    match &of.done {
        Done::Set { name, .. } | Done::Clear(name) | Done::Aimed { name, .. } | Done::Figure(name) => name,
        Done::Undo(line) | Done::Redo(line) => line,
        Done::New | Done::Script => "",
    }
}

fn to<'a>(of: &Changed) -> Datum<'a> {
    answered(&of.design, name(of))
}

const TO: Kind = Kind::OrNothing(&Kind::Value);

/// A field was set.
pub struct Set;

impl Fact for Set {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "set";
    const DOC: &'static str = "A field was set.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("set", Kind::Text, "the field", |of, _| Datum::text(name(of))),
        field::<Self>("to", TO, "the value of the field", |of, _| to(of)),
        field::<Self>("asleep", Kind::Truth, "true if the field has no effect on this build", |of, _| match of.done {
            Done::Set { asleep: true, .. } => Datum::Truth(true),
            _ => Datum::Nothing,
        })
        .optional(),
        change(),
    ];
}

/// A field was cleared.
pub struct Cleared;

impl Fact for Cleared {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "clear";
    const DOC: &'static str = "A field was cleared; its default applies again.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("clear", Kind::Text, "the field", |of, _| Datum::text(name(of))), change()];
}

/// An amount that `aim` reached or missed by.
fn amount<'a>(of: &Changed, which: fn(&Aimed) -> &Real) -> Datum<'a> {
    let Done::Aimed { aimed, .. } = &of.done else { return Datum::Nothing };
    let amount = Known { drawn: Amount::Amount(which(aimed).clone()), cut: None };
    answer(&amount, aimed.of).datum()
}

/// A field was set so that a figure reaches a wanted value.
pub struct AimedAt;

impl Fact for AimedAt {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "aim";
    const DOC: &'static str = "A field was set so that a figure reaches a wanted value.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("aim", Kind::Text, "the figure", |of, _| match &of.done {
            Done::Aimed { figure, .. } => Datum::text(figure.as_str()),
            _ => Datum::Nothing,
        }),
        field::<Self>("by", Kind::Text, "the field", |of, _| Datum::text(name(of))),
        field::<Self>("to", TO, "the value of the field", |of, _| to(of)),
        field::<Self>("reached", Kind::Value, "the value of the figure", |of, _| amount(of, |aimed| &aimed.reached)),
        field::<Self>("off", Kind::Value, "difference from the wanted value", |of, _| amount(of, |aimed| &aimed.off)),
        change(),
    ];
}

/// A figure was added to the design.
pub struct Defined;

impl Fact for Defined {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "defined";
    const DOC: &'static str = "The design has a new figure of its own.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("figure", Kind::Text, "the figure", |of, _| Datum::text(name(of))),
        field::<Self>("formula", Kind::OrNothing(&Kind::Text), "the formula", |of, _| {
            Datum::maybe(of.design.own_figures().get(name(of)).cloned(), Datum::text)
        }),
        field::<Self>("to", TO, "the value of the figure", |of, _| to(of)),
        change(),
    ];
}

/// The bench was cleared.
pub struct Fresh;

impl Fact for Fresh {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "new";
    const DOC: &'static str = "The bench was cleared for a fresh design.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("new", Kind::Text, "build of the fresh design", |of, _| Datum::text(of.design.build_name())),
        change(),
    ];
}

/// A line was undone.
pub struct Undone;

impl Fact for Undone {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "undo";
    const DOC: &'static str = "A line was undone.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("undo", Kind::Text, "the line that was undone", |of, _| Datum::text(name(of))), change()];
}

/// A line was redone.
pub struct Redone;

impl Fact for Redone {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "redo";
    const DOC: &'static str = "A line was redone.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("redo", Kind::Text, "the line that was redone", |of, _| Datum::text(name(of))), change()];
}

/// A script changed the design.
pub struct Scripted;

impl Fact for Scripted {
    type Of<'a> = &'a Changed;
    const NAME: &'static str = "script";
    const DOC: &'static str = "A script changed the design.";
    const FIELDS: &'static [Field<Self>] =
        &[field::<Self>("script", Kind::Truth, "always true", |_, _| Datum::Truth(true)), change()];
}
