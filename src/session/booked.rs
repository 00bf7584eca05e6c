//! Replies of the words of the design book.

use std::rc::Rc;

use crate::book::text::{Difference, LeftOut};
use crate::book::{Entry, Imported};
use crate::rules::{Design, Finding};

/// A reply of a word of the design book.
#[derive(Clone, Debug)]
pub enum Booked {
    /// A design was saved, or was saved already without a change.
    Kept {
        /// Its name.
        name: String,
        /// The number of the newest revision.
        number: u32,
        /// Whether this line saved a new revision.
        written: bool,
    },
    /// A design was put on the bench.
    Opened(Box<Opened>),
    /// Designs of the book.
    List {
        /// The designs to show, newest first.
        entries: Vec<Entry>,
        /// The number of designs in all.
        count: usize,
        /// A line that shows all designs, if there is one.
        all: Option<&'static str>,
        /// The message if there are none, and a line to type then.
        none: (&'static str, &'static str),
    },
    /// The history of a design, oldest first.
    Revisions(String, Vec<Past>),
    /// Two designs side by side.
    Compared {
        /// Name and revision of both.
        names: [String; 2],
        /// Names of fields and figures, with both values of each.
        rows: Vec<Side>,
    },
    /// The book was changed; another line undoes that.
    Done {
        /// What was done.
        said: String,
        /// A line that undoes the change.
        back: String,
    },
    /// The book was written to a file.
    Exported {
        /// The file.
        file: String,
        /// How many designs and revisions.
        counts: (usize, usize),
    },
    /// A file was imported.
    Imported(String, Imported),
    /// The book was copied to this file.
    BackedUp(String),
    /// A label for a frame.
    Label(Label),
    /// The bench of an earlier shell is back.
    PickedUp(Box<PickedUp>),
}

/// A saved design on the bench.
#[derive(Clone, Debug)]
pub struct Opened {
    /// Its name.
    pub name: String,
    /// The number of the revision.
    pub number: u32,
    /// When the revision was saved.
    pub when: String,
    /// The note saved with the revision.
    pub note: String,
    /// Whether the design is retired.
    pub retired: bool,
    /// The design on the bench.
    pub design: Rc<Design>,
    /// Figures that differ from the saved ones.
    pub differences: Vec<Difference>,
    /// Saved values that differ from the wall of the bench, each with the line that restores it.
    pub wall: Vec<(Difference, String)>,
    /// Saved values that the rules no longer take.
    pub left_out: Vec<LeftOut>,
    /// The tape that the design was saved for, if the bench has another.
    pub tape: Option<String>,
    /// The version of the program that saved the revision.
    pub program: String,
    /// The findings of the checks.
    pub findings: Vec<Finding>,
}

/// A revision and what it changed.
#[derive(Clone, Debug)]
pub struct Past {
    /// The number of the revision.
    pub number: u32,
    /// When the revision was saved.
    pub when: String,
    /// The note saved with the revision.
    pub note: String,
    /// The style that framed the design, and its version.
    pub style: Option<(String, String)>,
    /// Fields that differ from the revision before; none for the first revision.
    pub changes: Vec<Difference>,
    /// The number of figures that differ, where no field does.
    pub figures: usize,
}

/// A name in two designs.
#[derive(Clone, Debug)]
pub struct Side {
    /// The field or figure.
    pub name: String,
    /// The value in each design, if it has one.
    pub values: [Option<String>; 2],
    /// Whether the values differ.
    pub differs: bool,
}

/// The texts of a label.
#[derive(Clone, Debug)]
pub struct Label {
    /// Name and revision.
    pub head: String,
    /// Each line: its word and its value.
    pub rows: Vec<(String, String)>,
    /// The day that the revision was saved.
    pub date: String,
}

/// A bench that an earlier shell left.
#[derive(Clone, Debug)]
pub struct PickedUp {
    /// When the bench was last saved.
    pub when: String,
    /// The design on the bench.
    pub design: Rc<Design>,
    /// How many steps can be undone.
    pub steps: usize,
}
