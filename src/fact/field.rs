//! One field of a fact.

use super::{Datum, Fact, Kind};
use crate::measure::write::Manner;

/// Reads the value of a field; the manner is for the lengths in a sentence.
pub type Get<F> = for<'a> fn(&<F as Fact>::Of<'a>, &'a Manner) -> Datum<'a>;

/// How much room a field deserves on a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Always shown.
    Key,
    /// Shown where there is room.
    Plain,
    /// Not on a page.
    Detail,
}

/// What a field is, apart from where its value comes from.
pub struct Head {
    /// The one name that it has in every format.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What it means, in one line.
    pub doc: &'static str,
    /// How much room it deserves on a page.
    pub level: Level,
    /// Whether it is left out where it has no value.
    pub optional: bool,
    /// What scripts called it in earlier versions.
    pub formerly: &'static [&'static str],
}

impl Head {
    /// Whether the keys of the value stand in the object itself: such a field has no name.
    pub fn is_spread(&self) -> bool {
        self.name.is_empty()
    }
}

/// One field of a fact and where its value comes from.
pub struct Field<F: Fact> {
    /// What it is.
    pub head: Head,
    /// Its value.
    pub get: Get<F>,
}

/// A field that is always there.
pub const fn field<F: Fact>(name: &'static str, kind: Kind, doc: &'static str, get: Get<F>) -> Field<F> {
    let head = Head { name, kind, doc, level: Level::Plain, optional: false, formerly: &[] };
    Field { head, get }
}

impl<F: Fact> Field<F> {
    /// The same with another level.
    #[must_use]
    pub const fn at(mut self, level: Level) -> Self {
        self.head.level = level;
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
