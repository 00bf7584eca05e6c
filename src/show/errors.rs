//! Findings as facts.

use std::borrow::Cow;

use super::finding::position;
use crate::diag::Diagnostic;
use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::rules::facts::TEXTS;

impl Fact for Diagnostic {
    /// A finding and the line that was typed.
    type Of<'a> = (&'a Self, &'a str);
    const NAME: &'static str = "finding";
    const DOC: &'static str = "A fault, its place, and a line that works.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("code", Kind::Text, "code of the fault", |(found, _), _| Datum::text(found.code.to_string())),
        field::<Self>("message", Kind::Text, "the fault", |(found, _), _| Datum::Message(Cow::Borrowed(&found.says)))
            .at(Level::Key),
        field::<Self>("hint", Kind::Text, "what to type instead", |(found, typed), _| {
            Datum::maybe(found.fixed(typed).into_iter().next(), Datum::text)
        })
        .optional(),
        field::<Self>("fixes", TEXTS, "all lines that would work, the best first", |(found, typed), _| {
            match found.fixed(typed) {
                fixes if fixes.is_empty() => Datum::Nothing,
                fixes => Datum::texts(fixes.into_iter()),
            }
        })
        .optional(),
        field::<Self>("choices", TEXTS, "all values that the place takes", |(found, _), _| match found.choices() {
            [] => Datum::Nothing,
            choices => Datum::texts(choices.iter().map(String::as_str)),
        })
        .optional(),
        field::<Self>("in", Kind::Text, "the file, where it is not the line typed", |(found, _), _| {
            Datum::maybe(found.source.as_ref(), |source| Datum::text(source.name.as_str()))
        })
        .optional(),
        field::<Self>("line", Kind::Count, "line, from 1", |(found, typed), _| {
            Datum::maybe(position(found, typed), |(line, _)| Datum::count(line))
        })
        .optional(),
        field::<Self>("column", Kind::Count, "column in characters, from 1", |(found, typed), _| {
            Datum::maybe(position(found, typed), |(_, column)| Datum::count(column))
        })
        .optional(),
    ];
}

/// A line that failed.
pub struct Failure;

impl Fact for Failure {
    type Of<'a> = (&'a [Diagnostic], &'a str);
    const NAME: &'static str = "error";
    const DOC: &'static str = "A line that failed.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("error", Kind::One(Diagnostic::SHAPE), "the fault", |(found, typed), _| {
            Datum::maybe(found.first(), |first| Datum::fact::<Diagnostic>((first, typed)))
        })
        .at(Level::Key),
        field::<Self>("more", MORE, "the other faults", |(found, typed), _| more(found, typed)).optional(),
    ];
}

/// The kind of a field for the other faults.
pub const MORE: Kind = Kind::Each(&Kind::One(Diagnostic::SHAPE));

/// All findings except the first; nothing if there are no others.
pub fn more<'a>(found: &'a [Diagnostic], typed: &'a str) -> Datum<'a> {
    match found {
        [] | [_] => Datum::Nothing,
        [_, more @ ..] => Datum::facts::<Diagnostic>(more.iter().map(move |one| (one, typed))),
    }
}
