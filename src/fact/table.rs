//! Facts and their tables of fields.

use std::marker::PhantomData;

use super::datum::Datum;
use super::kind::Kind;
use super::shape::{Head, Level, Shape};
use crate::measure::write::Manner;

/// A kind of thing that is answered, with its table of fields.
pub trait Fact: Sized + 'static {
    /// What the fields are read from.
    type Of<'a>: 'a;
    /// What it is called: `part`, `stick`, `design`.
    const NAME: &'static str;
    /// What it is, in one line.
    const DOC: &'static str;
    /// Its fields, in their order.
    const FIELDS: &'static [Field<Self>];
    /// The table for those who do not know its type.
    const SHAPE: &'static dyn Shape = &Table::<Self>(PhantomData);
}

/// Reads the value of a field; the manner is for the lengths in a sentence.
pub type Get<F> = for<'a> fn(&<F as Fact>::Of<'a>, &'a Manner) -> Datum<'a>;

/// One field of a fact and where its value comes from.
pub struct Field<F: Fact> {
    /// What it is.
    pub head: Head,
    /// Its value.
    pub get: Get<F>,
}

/// A field that is always there.
pub const fn field<F: Fact>(name: &'static str, kind: Kind, doc: &'static str, get: Get<F>) -> Field<F> {
    let head = Head { name, kind, doc, level: Level::Plain, blank: "", optional: false, formerly: &[] };
    Field { head, get }
}

impl<F: Fact> Field<F> {
    /// The same with another level.
    #[must_use]
    pub const fn at(mut self, level: Level) -> Self {
        self.head.level = level;
        self
    }

    /// The same, with a word for pages where it has no value.
    #[must_use]
    pub const fn or_shown(mut self, word: &'static str) -> Self {
        self.head.blank = word;
        self
    }

    /// The same, left out where it has no value.
    #[must_use]
    pub const fn optional(mut self) -> Self {
        self.head.optional = true;
        self
    }

    /// The same, with the names that scripts had for it before.
    #[must_use]
    pub const fn formerly(mut self, names: &'static [&'static str]) -> Self {
        self.head.formerly = names;
        self
    }
}

/// The table of a fact, which needs no fact to be read.
struct Table<F>(PhantomData<fn() -> F>);

impl<F: Fact> Shape for Table<F> {
    fn name(&self) -> &'static str {
        F::NAME
    }

    fn doc(&self) -> &'static str {
        F::DOC
    }

    fn len(&self) -> usize {
        F::FIELDS.len()
    }

    fn head(&self, at: usize) -> &'static Head {
        &F::FIELDS[at].head
    }
}

/// One fact as walkers see it.
pub trait Instance<'a> {
    /// Its table.
    fn shape(&self) -> &'static dyn Shape;
    /// The value of the field at a place.
    fn get(&self, at: usize, manner: &'a Manner) -> Datum<'a>;
}

struct Held<'a, F: Fact>(F::Of<'a>);

impl<'a, F: Fact> Instance<'a> for Held<'a, F> {
    fn shape(&self) -> &'static dyn Shape {
        F::SHAPE
    }

    fn get(&self, at: usize, manner: &'a Manner) -> Datum<'a> {
        (F::FIELDS[at].get)(&self.0, manner)
    }
}

/// A fact for walkers.
pub fn fact<'a, F: Fact>(of: F::Of<'a>) -> Box<dyn Instance<'a> + 'a> {
    Box::new(Held::<F>(of))
}
