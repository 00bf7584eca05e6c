//! What comes of a word of the design book.

use std::rc::Rc;

use crate::book::text::{Difference, LeftOut};
use crate::book::{Entry, Imported};
use crate::rules::{Design, Finding};

/// What comes of a word of the design book.
#[derive(Clone, Debug)]
pub enum Booked {
    /// A design was kept, or was in the book as it is.
    Kept {
        /// Its name.
        name: String,
        /// Its newest revision.
        number: u32,
        /// Whether that was written just now.
        written: bool,
    },
    /// A design was put on the bench.
    Opened(Box<Opened>),
    /// Designs of the book.
    List {
        /// Those to show, newest first.
        entries: Vec<Entry>,
        /// How many there are.
        count: usize,
        /// A line that shows them all, if there is one.
        all: Option<&'static str>,
        /// What is said where there are none, and a line that goes on from there.
        none: (&'static str, &'static str),
    },
    /// The history of a design, oldest first.
    Revisions(String, Vec<Past>),
    /// Two designs side by side.
    Compared {
        /// Name and revision of both.
        names: [String; 2],
        /// Names of fields and figures, the value of each.
        rows: Vec<Side>,
    },
    /// Something was done that another line undoes.
    Done {
        /// What was done.
        said: String,
        /// A line that undoes it.
        back: String,
    },
    /// The book was written to a file.
    Exported {
        /// The file.
        file: String,
        /// How many designs and revisions.
        counts: (usize, usize),
    },
    /// A file was taken in.
    Imported(String, Imported),
    /// A copy was made.
    BackedUp(String),
    /// A label for a frame.
    Label(Label),
    /// A bench was picked up from where it was left.
    PickedUp(Box<PickedUp>),
}

/// A design of the book on the bench.
#[derive(Clone, Debug)]
pub struct Opened {
    /// Its name.
    pub name: String,
    /// Which revision.
    pub number: u32,
    /// When that was kept, and the note.
    pub when: String,
    /// What was said with it.
    pub note: String,
    /// Whether it is retired.
    pub retired: bool,
    /// As it is on the bench.
    pub design: Rc<Design>,
    /// What the program makes of it now, where that is not what was kept.
    pub differences: Vec<Difference>,
    /// What was saved about the wall, where the wall is another now, and the line that brings each back.
    pub wall: Vec<(Difference, String)>,
    /// What the rules of today do not take.
    pub left_out: Vec<LeftOut>,
    /// The tape it was kept by, where the bench has another.
    pub tape: Option<String>,
    /// The program that kept it, where something differs.
    pub program: String,
    /// What the checks say.
    pub findings: Vec<Finding>,
}

/// A revision and what it changed.
#[derive(Clone, Debug)]
pub struct Past {
    /// Which.
    pub number: u32,
    /// When it was kept.
    pub when: String,
    /// What was said with it.
    pub note: String,
    /// The style that framed it, and the version of that.
    pub style: Option<(String, String)>,
    /// Fields that are not as in the revision before; none for the first.
    pub changes: Vec<Difference>,
    /// How many figures alone are not as before.
    pub figures: usize,
}

/// A name, in two designs.
#[derive(Clone, Debug)]
pub struct Side {
    /// The field or figure.
    pub name: String,
    /// Its value in both, where it has one.
    pub values: [Option<String>; 2],
    /// Whether the two are not the same.
    pub differs: bool,
}

/// What stands on a label.
#[derive(Clone, Debug)]
pub struct Label {
    /// Name and revision.
    pub head: String,
    /// What is said of it, word by word.
    pub rows: Vec<(String, String)>,
    /// The day it was kept.
    pub date: String,
}

/// A bench as it was left.
#[derive(Clone, Debug)]
pub struct PickedUp {
    /// When it was last written down.
    pub when: String,
    /// The design on it.
    pub design: Rc<Design>,
    /// How many steps can be undone.
    pub steps: usize,
}
