//! What is kept of a design.

use crate::rules::book::WALL;

/// A style that framed a work, and which text of it did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// What the style is called.
    pub name: String,
    /// The version of its text.
    pub version: String,
}

/// A design on its way into the book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// What was given, as [`super::text::fields`] writes it.
    pub fields: String,
    /// What came of it, as [`super::text::figures`] writes it.
    pub figures: String,
    /// The marks of the tape that it is made by.
    pub tape: String,
    /// The style that framed it, if one did.
    pub style: Option<Mark>,
}

impl Draft {
    /// Whether nothing was given but the build and the wall.
    pub fn is_empty(&self) -> bool {
        self.fields.lines().filter(|line| !line.starts_with(WALL)).count() < 2
    }
}

/// A revision as it was kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// What the design is called now.
    pub name: String,
    /// Whether the design is retired.
    pub retired: bool,
    /// Counted from 1 for each design.
    pub number: u32,
    /// When it was kept, universal time: `2026-03-02T12:01:00Z`.
    pub time: String,
    /// The same for people, by the clock of the place: `2026-03-02 12:01`.
    pub when: String,
    /// What was said when it was kept.
    pub note: String,
    /// The program that kept it.
    pub program: String,
    /// The design.
    pub draft: Draft,
}

/// A line of the list of designs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What the design is called.
    pub name: String,
    /// Whether it is retired.
    pub retired: bool,
    /// Its newest revision.
    pub number: u32,
    /// When that was kept, universal time.
    pub time: String,
    /// The same for people.
    pub when: String,
    /// What was said with it.
    pub note: String,
    /// What was given, as kept.
    pub fields: String,
}
