//! What comes of a line: values, not words; how they look is settled in `show`.

use std::rc::Rc;

use super::booked::Booked;
use super::command::Word;
use super::question::Question;
use crate::diag::{Diagnostic, Fault};
use crate::lang::Value;
use crate::measure::Length;
use crate::plan::{BareRow, Rack, Whole};
use crate::rules::{Absent, Aimed, Answer, Design, Finding, Known, Level, Slot, Step};
use crate::shop::{Caution, Part, Places, Settings};

/// Why a line does nothing: one finding or more.
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

/// What comes of one line.
#[derive(Clone, Debug)]
pub enum Reply {
    /// Nothing to say.
    Nothing,
    /// The session is over.
    Quit,
    /// The value of an expression.
    Value(Value),
    /// A field or a figure.
    Known {
        /// Its name.
        name: String,
        /// Its value.
        answer: Answer,
    },
    /// Something was set, taken back, undone.
    Changed(Box<Changed>),
    /// The whole design, after the style of that name where one made it.
    Sheet(Rc<Design>, Option<String>),
    /// How a number came out.
    Why(Rc<Design>, Vec<Step>),
    /// A stretch of the tape.
    Tape(Length),
    /// Pieces of designs, what stops these from being made as they are, and cautions.
    Parts(Vec<Part>, Vec<Finding>, Vec<Caution>),
    /// Every caution that applies to a design.
    Cautions(Vec<Caution>),
    /// A cutting plan.
    Plan(Box<Planned>),
    /// Rows of stock whose lengths have no unit, each in inches and in millimeters.
    BareStock(Vec<BareRow>),
    /// What the shop has to cut from, and what was done with it.
    Stock {
        /// All of it.
        rack: Rack,
        /// What was done.
        said: Option<String>,
    },
    /// Something was written to a file.
    Written {
        /// What.
        what: String,
        /// Where.
        file: String,
        /// What stops the designs that it is of.
        stops: Vec<Finding>,
    },
    /// One page of the design: its headings that stand on the page of that name.
    Page(Rc<Design>, &'static str),
    /// How a design hangs, or several, and where they go on the wall, if one was given.
    Hang {
        /// One or more.
        designs: Vec<Design>,
        /// Where they go.
        places: Option<Places>,
    },
    /// How far figures may be off: one, with what adds to it, or all.
    Tolerance(Rc<Design>, Option<Slot>),
    /// The figures of the design's own.
    Figures(Rc<Design>),
    /// A house style that was checked and has no fault.
    Checked(Checked),
    /// The house styles.
    Styles(Vec<StyleRow>),
    /// The settings of the shop.
    Shop {
        /// All of them.
        settings: Settings,
        /// The ones to show: those that were just set, or all.
        shown: Vec<String>,
        /// The file they were just written to.
        file: Option<String>,
    },
    /// What came of a word of the design book.
    Book(Box<Booked>),
    /// Help.
    Help(Help),
    /// Only what was printed on the way.
    Ran,
}

impl Reply {
    /// Whether its page shows a `stop`: a design that cannot be made as it is, or a plan that leaves a part out. A change
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

/// A plan, how long it took, and what is wrong with the shop's stock.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The plan.
    pub whole: Whole,
    /// In seconds.
    pub seconds: f64,
    /// Rows of the stock that cannot be read.
    pub found: Vec<Diagnostic>,
    /// What was read in another way than it stands in a table.
    pub notes: Vec<String>,
    /// What stops the designs from being made as they are.
    pub stops: Vec<Finding>,
    /// What to take care of while the parts are cut.
    pub cautions: Vec<Caution>,
}

/// What a change brought.
#[derive(Clone, Debug)]
pub struct Changed {
    /// What was done.
    pub deed: Done,
    /// The design after it.
    pub design: Rc<Design>,
    /// Every name whose value is another now, the one that was set left out.
    pub changed: Vec<(Slot, Result<Known, Absent>)>,
    /// Every check that fires now, and whether it is news.
    pub findings: Vec<(Finding, bool)>,
    /// Checks that fired before and do not any more.
    pub mended: Vec<String>,
}

/// What was done to the design.
#[derive(Clone, Debug)]
pub enum Done {
    /// A field was set; asleep means that it does not apply as the design stands.
    Set {
        /// Its name.
        name: String,
        /// Whether it does nothing yet.
        asleep: bool,
    },
    /// A field was taken back.
    Clear(String),
    /// A field was set so that a figure comes out as wanted.
    Aimed {
        /// The field.
        name: String,
        /// The figure.
        figure: String,
        /// How near it comes.
        aimed: Aimed,
    },
    /// The design got a figure of its own.
    Figure(String),
    /// The bench was cleared.
    New,
    /// A step back; the line that was undone.
    Undo(String),
    /// A step forward; the line that was done again.
    Redo(String),
    /// A script changed the design.
    Script,
}

/// A house style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StyleRow {
    /// What it is called.
    pub name: String,
    /// What it is for, in one line.
    pub about: String,
    /// Where it comes from: `shipped`, or a file.
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
        /// How bad it is.
        level: String,
        /// The builds it is for, as a sentence has them.
        builds: String,
        /// When it fires, as the rules have it.
        test: String,
        /// Whether it fires when that holds, or when it does not.
        fires_if: bool,
    },
    /// A house style, and what it asks for; or why that cannot be told.
    Style(StyleRow, Result<Vec<Question>, Vec<Diagnostic>>),
    /// A setting of the shop.
    Setting(crate::shop::Setting),
    /// The shape of what is answered.
    Shape(&'static dyn crate::fact::Shape),
    /// A word of tables: what each of them has for it.
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
    /// What it is called.
    pub name: String,
    /// How many designs were made.
    pub designs: usize,
    /// Warnings and notes that fire in some of them, and in how many.
    pub seen: Vec<(Level, String, usize)>,
}
