//! The reply to a line: values, not words; `show` decides how they look.

use std::rc::Rc;

use super::booked::Booked;
use super::command::Word;
use super::question::Question;
use crate::diag::{Diagnostic, Fault};
use crate::lang::Value;
use crate::measure::Length;
use crate::plan::{Rack, Readings, Whole};
use crate::rules::{Absent, Aimed, Answer, Design, Finding, Known, Level, Slot, Step};
use crate::shop::{Caution, Part, Places, Settings};

/// Why a line failed: one finding or more.
#[derive(Debug)]
pub struct Faults(pub Vec<Diagnostic>);

impl From<Diagnostic> for Faults {
    fn from(found: Diagnostic) -> Self {
        Self(vec![found])
    }
}

impl From<Vec<Diagnostic>> for Faults {
    fn from(found: Vec<Diagnostic>) -> Self {
        Self(found)
    }
}

impl<F: Fault> From<F> for Faults {
    fn from(fault: F) -> Self {
        Self(vec![fault.into()])
    }
}

/// The reply to a line.
#[derive(Clone, Debug)]
pub enum Reply {
    /// No answer.
    Nothing,
    /// The session is over.
    Quit,
    /// The value of a line.
    Value(Value),
    /// A field or a figure.
    Known {
        /// Its name.
        name: String,
        /// Its value.
        answer: Answer,
    },
    /// The design was changed.
    Changed(Box<Changed>),
    /// The whole design, with the name of the style that has just framed it.
    Sheet(Rc<Design>, Option<String>),
    /// How a value is worked out.
    Why(Rc<Design>, Vec<Step>),
    /// A length on the tape.
    Tape(Length),
    /// The parts of designs, the stops of the designs, and cautions.
    Parts(Vec<Part>, Vec<Finding>, Vec<Caution>),
    /// Every caution that applies to a design.
    Cautions(Vec<Caution>),
    /// A cutting plan.
    Plan(Box<Planned>),
    /// Rows of stock whose lengths have no unit, each in inches and in millimeters.
    BareStock(Readings),
    /// The stock, and what was done with it.
    Stock {
        /// All rows.
        rack: Rack,
        /// What was done.
        said: Option<String>,
    },
    /// Something was written to a file.
    Written {
        /// The contents of the file.
        what: String,
        /// The file.
        file: String,
        /// The stops of the designs.
        stops: Vec<Finding>,
    },
    /// One page of the design: the headings on the page of that name.
    Page(Rc<Design>, String),
    /// How designs hang, and their places on the wall, if its width is set.
    Hang {
        /// One design or more.
        designs: Vec<Design>,
        /// Their places on the wall.
        places: Option<Places>,
    },
    /// The tolerance of one size, with the share of each cause, or of all sizes.
    Tolerance(Rc<Design>, Option<Slot>),
    /// The figures added to the design.
    Figures(Rc<Design>),
    /// A house style that was checked and has no fault.
    Checked(Checked),
    /// The house styles.
    Styles(Vec<StyleRow>),
    /// The settings of the shop.
    Shop {
        /// All settings.
        settings: Settings,
        /// The settings to show: those that were just set, or all.
        shown: Vec<String>,
        /// The file that the settings were just saved to.
        file: Option<String>,
    },
    /// The reply to a word of the design book.
    Book(Box<Booked>),
    /// Help.
    Help(Help),
    /// A script ran; only its printed lines are shown.
    Ran,
}

impl Reply {
    /// Whether its page shows a `stop`: a design that cannot be built as specified, or a plan that leaves a part out. A change
    /// shows only the checks that it raised.
    pub(super) fn is_stopped(&self) -> bool {
        let stops = |findings: &[Finding]| findings.iter().any(|finding| finding.level == Level::Stop);
        match self {
            Self::Sheet(design, _) => design.is_stopped(),
            Self::Page(design, page) => stops(&design.findings_of(page)),
            Self::Hang { designs, .. } => designs.iter().any(|design| stops(&design.findings_of("hang"))),
            Self::Tolerance(design, None) => stops(&design.findings_of("tolerance")),
            Self::Parts(_, found, _) | Self::Written { stops: found, .. } => stops(found),
            Self::BareStock(_) => true,
            Self::Plan(planned) => stops(&planned.stops) || planned.whole.lacking().next().is_some(),
            Self::Changed(changed) => changed.findings.iter().any(|(one, news)| *news && one.level == Level::Stop),
            Self::Book(booked) => matches!(&**booked, Booked::Opened(opened) if stops(&opened.findings)),
            Self::Nothing
            | Self::Quit
            | Self::Value(_)
            | Self::Known { .. }
            | Self::Why(..)
            | Self::Tape(_)
            | Self::Stock { .. }
            | Self::Cautions(_)
            | Self::Tolerance(_, Some(_))
            | Self::Figures(_)
            | Self::Checked(_)
            | Self::Styles(_)
            | Self::Shop { .. }
            | Self::Help(_)
            | Self::Ran => false,
        }
    }
}

/// A plan, the time of its search, and the faults of the stock.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The plan.
    pub whole: Whole,
    /// The time of the search, in seconds.
    pub seconds: f64,
    /// Rows of the stock that cannot be read.
    pub found: Vec<Diagnostic>,
    /// How headings and numbers of a table were read, where that was a choice.
    pub notes: Vec<String>,
    /// The stops of the designs.
    pub stops: Vec<Finding>,
    /// The cautions for cutting the parts.
    pub cautions: Vec<Caution>,
}

/// A change of the design and its effects.
#[derive(Clone, Debug)]
pub struct Changed {
    /// The kind of change.
    pub done: Done,
    /// The design after it.
    pub design: Rc<Design>,
    /// Every name whose value changed, except the one that was set.
    pub changed: Vec<(Slot, Result<Known, Absent>)>,
    /// Every finding of the checks, and whether it is new.
    pub findings: Vec<(Finding, bool)>,
    /// Checks that no longer report anything.
    pub mended: Vec<String>,
}

/// A way to change a design.
#[derive(Clone, Debug)]
pub enum Done {
    /// A field was set; asleep if the field has no effect on the design.
    Set {
        /// Its name.
        name: String,
        /// Whether the field has no effect.
        asleep: bool,
    },
    /// A field was cleared.
    Clear(String),
    /// A field was set so that a figure reaches a wanted value.
    Aimed {
        /// The field.
        name: String,
        /// The figure.
        figure: String,
        /// The result of the aim.
        aimed: Aimed,
    },
    /// A figure was added to the design.
    Figure(String),
    /// The bench was cleared.
    New,
    /// This line was undone.
    Undo(String),
    /// This line was redone.
    Redo(String),
    /// A script changed the design.
    Script,
}

/// A house style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StyleRow {
    /// The name of the style.
    pub name: String,
    /// What the style is for, in one line.
    pub about: String,
    /// `shipped`, or the file of the style.
    pub from: String,
}

/// Help about something.
#[derive(Clone, Debug)]
pub enum Help {
    /// The one screen of help.
    Screen(crate::rules::Rules),
    /// A word of the prompt.
    Word(&'static Word),
    /// A field or a figure, explained for the design at the bench.
    Name(Rc<Design>, Slot),
    /// A function.
    Function(&'static str),
    /// A unit.
    Unit(&'static crate::measure::Unit),
    /// A check.
    Check {
        /// Its name.
        name: String,
        /// Stop, warning or note.
        level: String,
        /// The builds that have the check, as part of a sentence.
        builds: String,
        /// The formula of the check.
        test: String,
        /// Whether the check reports when the formula holds, or when it does not.
        fires_if: bool,
    },
    /// A house style and its questions, or the faults that hide them.
    Style(StyleRow, Result<Vec<Question>, Vec<Diagnostic>>),
    /// A setting of the shop.
    Setting(crate::shop::Setting),
    /// A shape of replies.
    Shape(&'static dyn crate::fact::Shape),
    /// A word of tables, with its row in each.
    Rows(Vec<HelpRow>),
}

/// A row of a table of the rules, for help.
#[derive(Clone, Debug)]
pub struct HelpRow {
    /// The word.
    pub word: String,
    /// What the table holds.
    pub table: String,
    /// Columns and their values.
    pub values: Vec<(String, String)>,
    /// Where the values are published.
    pub source: String,
}

/// A style without a fault.
#[derive(Clone, Debug)]
pub struct Checked {
    /// The name of the style.
    pub name: String,
    /// The number of designs that were framed.
    pub designs: usize,
    /// Warnings and notes of some designs, with the number of these designs.
    pub seen: Vec<(Level, String, usize)>,
}
