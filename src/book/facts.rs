//! Designs of the book as facts.

use super::revision::Entry;
use super::text::{self, Difference, LeftOut};
use std::borrow::Cow;

use crate::fact::{Datum, Fact, Field, Kind, Level, field};
use crate::rules::BUILD;

impl Fact for Entry {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "entry";
    const DOC: &'static str = "A design of the book.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "name of the design", |entry, _| Datum::text(entry.name.as_str()))
            .at(Level::Key),
        field::<Self>("revision", Kind::Count, "number of the newest revision", |entry, _| {
            Datum::Count(entry.number.into())
        })
        .at(Level::Key),
        field::<Self>("time", Kind::Text, "when that revision was saved, universal time", |entry, _| {
            Datum::text(entry.time.as_str())
        }),
        field::<Self>("note", Kind::Text, "note saved with that revision", |entry, _| Datum::text(entry.note.as_str())),
        field::<Self>("retired", Kind::Truth, "whether the design is retired", |entry, _| Datum::Truth(entry.retired)),
        field::<Self>("build", Kind::Text, "build of the frame", |entry, _| {
            Datum::text(text::value(&entry.fields, BUILD).unwrap_or_default())
        }),
        field::<Self>("client", Kind::Text, "the client", |entry, _| Datum::text(text::words(&entry.fields, "client"))),
    ];
}

impl Fact for Difference {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "change";
    const DOC: &'static str = "A value before and after.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("was", Kind::OrNothing(&Kind::Text), "the value before", |one, _| {
            Datum::maybe(one.was.as_deref(), Datum::text)
        }),
        field::<Self>("is", Kind::OrNothing(&Kind::Text), "the value after", |one, _| {
            Datum::maybe(one.is.as_deref(), Datum::text)
        }),
    ];
}

/// The kind of a field that lists changes.
pub const CHANGES: Kind = Kind::Named(&Kind::One(Difference::SHAPE));

/// Changes, each under its name.
pub fn changes(all: &[Difference]) -> Datum<'_> {
    Datum::named(all.iter().map(|one| (one.name.as_str(), Datum::fact::<Difference>(one))))
}

impl Fact for LeftOut {
    type Of<'a> = &'a Self;
    const NAME: &'static str = "left out";
    const DOC: &'static str = "A saved value that the rules no longer take.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("name", Kind::Text, "the field", |left, _| Datum::text(left.name.as_str())),
        field::<Self>("value", Kind::Text, "the saved value", |left, _| Datum::text(left.value.as_str())),
        field::<Self>("because", Kind::Text, "the reason", |left, _| Datum::Message(Cow::Borrowed(&left.why))),
    ];
}
