//! Revisions of a design.

use crate::rules::book::WALL;

/// A style that framed a work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The name of the style.
    pub name: String,
    /// The version of the style.
    pub version: String,
}

/// A design to save.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The fields that were set, as [`super::text::fields`] writes them.
    pub fields: String,
    /// The figures, as [`super::text::figures`] writes them.
    pub figures: String,
    /// The graduation of the tape.
    pub tape: String,
    /// The style that framed the design, if one did.
    pub style: Option<Mark>,
}

impl Draft {
    /// Whether no field is set except the build and the wall.
    pub fn is_empty(&self) -> bool {
        self.fields.lines().filter(|line| !line.starts_with(WALL)).count() < 2
    }
}

/// A saved revision.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// The present name of the design.
    pub name: String,
    /// Whether the design is retired.
    pub retired: bool,
    /// The number of the revision, counted from 1 for each design.
    pub number: u32,
    /// When the revision was saved, in universal time: `2026-03-02T12:01:00Z`.
    pub time: String,
    /// When the revision was saved, in local time: `2026-03-02 12:01`.
    pub when: String,
    /// The note saved with the revision.
    pub note: String,
    /// The version of the program that saved the revision.
    pub program: String,
    /// The design.
    pub draft: Draft,
}

/// A line of the list of designs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The name of the design.
    pub name: String,
    /// Whether the design is retired.
    pub retired: bool,
    /// The number of the newest revision.
    pub number: u32,
    /// When the newest revision was saved, in universal time.
    pub time: String,
    /// When the newest revision was saved, in local time.
    pub when: String,
    /// The note saved with the newest revision.
    pub note: String,
    /// The saved fields.
    pub fields: String,
}
