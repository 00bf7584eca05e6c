//! What a rules file says, entry by entry, before names are looked up.

use crate::diag::Span;
use crate::measure::{Quantity, Toward};

/// An expression with its place in the file.
#[derive(Clone, Debug)]
pub struct Term {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub form: Form,
}

/// The forms of an expression.
#[derive(Clone, Debug)]
pub enum Form {
    /// A quantity written out.
    Literal(Quantity),
    /// A word in quotes.
    Word(String),
    /// A field, a figure, or `idle`.
    Name(String),
    /// The number of the record, in entries written once for several.
    This,
    /// The other sign.
    Negative(Box<Term>),
    /// The other truth.
    Not(Box<Term>),
    /// Two operands.
    Pair(Op, Box<Term>, Box<Term>),
    /// Condition, then, else.
    Choice(Box<Term>, Box<Term>, Box<Term>),
    /// A function of arguments.
    Call(String, Vec<Term>),
    /// One thing that is known of a word of a table, or of what a function found.
    Of(Placed, Box<Term>),
}

/// The operators, weakest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[allow(missing_docs)]
pub enum Op {
    /// The right side where the left one is idle or not given.
    Else,
    Or,
    And,
    Equal,
    Unequal,
    AtLeast,
    AtMost,
    Above,
    Below,
    Add,
    Subtract,
    Multiply,
    Divide,
}

/// Every operator with its sign.
pub const OPS: &[(&str, Op)] = &[
    ("??", Op::Else),
    ("||", Op::Or),
    ("&&", Op::And),
    ("==", Op::Equal),
    ("!=", Op::Unequal),
    (">=", Op::AtLeast),
    ("<=", Op::AtMost),
    (">", Op::Above),
    ("<", Op::Below),
    ("+", Op::Add),
    ("-", Op::Subtract),
    ("*", Op::Multiply),
    ("/", Op::Divide),
];

impl Op {
    /// As it is written.
    pub fn sign(self) -> &'static str {
        OPS.iter().find(|(_, op)| *op == self).map_or("", |(sign, _)| sign)
    }

    /// Whether it calculates with amounts, and does not compare or choose.
    pub fn is_sum(self) -> bool {
        matches!(self, Self::Add | Self::Subtract | Self::Multiply | Self::Divide)
    }

    /// How strongly it binds.
    pub fn strength(self) -> u8 {
        match self {
            Self::Else => 1,
            Self::Or => 2,
            Self::And => 3,
            Self::Equal | Self::Unequal => 4,
            Self::AtLeast | Self::AtMost | Self::Above | Self::Below => 5,
            Self::Add | Self::Subtract => 6,
            Self::Multiply | Self::Divide => 7,
        }
    }
}

/// A name with its place in the file.
pub type Placed = (String, Span);

/// One entry, with the builds it is for.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Where it stands.
    pub span: Span,
    /// Names of the builds, empty for all.
    pub scope: Vec<Placed>,
    /// The heading it is under.
    pub group: String,
    /// Whether it takes the place of one of the same name.
    pub instead: bool,
    /// What it says.
    pub body: Body,
}

/// What an entry says.
#[derive(Clone, Debug)]
pub enum Body {
    /// A heading of the sheet, in its place, and the page that shows it as well.
    Group(Option<Placed>),
    /// A build and what it is.
    Build(Placed, String),
    /// The builds that the next entries are for.
    Scope,
    /// A list of words.
    Table(Placed, Vec<Placed>),
    /// A list of words with what is known of each, in a file of data.
    Data(Placed, Placed, String),
    /// A field or a figure.
    Rule(Box<RuleEntry>),
    /// A name that stands for several fields.
    Gather(GatherEntry),
    /// A condition of the design.
    Check(CheckEntry),
    /// A page and what it shows.
    Page(Placed, String),
    /// A piece to make.
    Piece(PieceEntry),
    /// A caution for whoever makes or hangs the frame.
    Caution(CautionEntry),
    /// A line of a label or a list.
    Label(LabelEntry),
}

/// A piece to make: what it is cut from, and its sizes by name.
#[derive(Clone, Debug)]
pub struct PieceEntry {
    /// As a cut list has it: `rail top, bottom`.
    pub name: Placed,
    /// A sheet, or else a stick.
    pub is_sheet: bool,
    /// `material wood`, `long rail.long`: each detail with its formula.
    pub details: Vec<(Placed, Term)>,
    /// When the frame has it.
    pub when: Option<Term>,
    /// What it is, in one line.
    pub doc: String,
}

/// `weight of pieces` in a formula is what all pieces of a frame weigh.
pub const PIECES: &str = "pieces";

/// A piece of a rules file, with the builds that it is for.
#[derive(Clone, Debug)]
pub struct Drafted {
    /// The file it is from.
    pub home: usize,
    /// Where it stands.
    pub span: Span,
    /// The builds that have it, by place.
    pub builds: Vec<u8>,
    /// What the file says.
    pub entry: PieceEntry,
}

/// A caution, the pages that show it, and when it applies.
#[derive(Clone, Debug)]
pub struct CautionEntry {
    /// Its name.
    pub name: Placed,
    /// The pages that show its short line.
    pub pages: Vec<Placed>,
    /// The pieces it is about, if it is about any.
    pub about: Option<AboutEntry>,
    /// A condition of the design.
    pub when: Option<Term>,
    /// The short line: the hazard and what to do.
    pub says: Vec<Piece<Term>>,
    /// The whole text.
    pub full: Vec<Piece<Term>>,
    /// Where it is from.
    pub source: String,
}

/// Pieces that a caution is about.
#[derive(Clone, Debug)]
pub struct AboutEntry {
    /// Sticks, sheets, or both.
    pub shape: Pieces,
    /// Which materials.
    pub of: Option<MaterialEntry>,
    /// Fields whose material counts too.
    pub or: Vec<Placed>,
    /// Only sticks shorter than this between their short points.
    pub under: Option<Term>,
}

/// Materials that a caution is about.
#[derive(Clone, Debug)]
pub enum MaterialEntry {
    /// This one.
    Word(Placed),
    /// Every word of a table.
    Table(Placed),
    /// Every word whose row has something in this column.
    Column(Placed),
}

/// Which pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum Pieces {
    /// Pieces of sticks.
    Sticks,
    /// Pieces of sheets.
    Sheets,
    /// All.
    All,
}

/// A line of a label or a list: a word, and the names whose values follow it.
#[derive(Clone, Debug)]
pub struct LabelEntry {
    /// The word.
    pub word: Placed,
    /// Where the line is shown.
    pub pages: Vec<Placed>,
    /// The names, `x` between them.
    pub names: Vec<Placed>,
}

/// A name that stands for several fields.
#[derive(Clone, Debug)]
pub struct GatherEntry {
    /// How it is written.
    pub way: Way,
    /// The name.
    pub name: Placed,
    /// The fields.
    pub parts: Vec<Placed>,
    /// What it is, in one line.
    pub doc: String,
}

/// How a gathered name is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum Way {
    /// One value for all, or up to four clockwise from the top.
    Around,
    /// Two or three values with `x` between.
    Size,
    /// A word, then a value.
    With,
    /// Values in their order with commas between; the last may be left out.
    Row,
}

/// A field or a figure.
#[derive(Clone, Debug)]
pub struct RuleEntry {
    /// The names it gives a value to.
    pub names: Vec<Placed>,
    /// What a field takes; a figure has none.
    pub takes: Option<Takes>,
    /// Its formula or default.
    pub value: Option<Term>,
    /// Which way it is rounded when made.
    pub toward: Option<(Toward, Span)>,
    /// When it applies.
    pub when: Option<Term>,
    /// Whether a person may give it.
    pub given: bool,
    /// Where it says that it may be left out, if it may.
    pub optional: Option<Span>,
    /// Whether a sheet leaves it out unless it is given.
    pub aside: bool,
    /// What it is measured or made with, for how far it may be off.
    pub by: Option<Placed>,
    /// Least value, and whether it is itself excluded.
    pub low: Option<(Term, bool)>,
    /// Greatest value.
    pub high: Option<Term>,
    /// Where its formula or its usual value is published.
    pub source: String,
    /// What it is, in one line.
    pub doc: String,
}

/// What a field takes.
#[derive(Clone, Debug)]
pub enum Takes {
    /// One of the kinds of quantity, or `text`, or `whole`.
    Plain(String),
    /// One of these words.
    Words(Vec<String>),
    /// One of the words of a table.
    From(Placed),
}

/// A condition of the design.
#[derive(Clone, Debug)]
pub struct CheckEntry {
    /// How bad it is.
    pub level: Level,
    /// Its name.
    pub name: Placed,
    /// True when it holds, or when it does not.
    pub fires_if: bool,
    /// The condition.
    pub test: Term,
    /// The message, in pieces.
    pub says: Vec<Piece<Term>>,
    /// A field, the value that would mend it, and which way that is rounded.
    pub mend: Option<(Placed, Term, Option<Toward>)>,
}

/// How bad a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum Level {
    /// It cannot be made, or harms the work.
    Stop,
    /// It will be regretted.
    Warn,
    /// It is unusual.
    Note,
}

impl std::fmt::Display for Level {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Stop => "stop",
            Self::Warn => "warn",
            Self::Note => "note",
        })
    }
}

/// A piece of a message: words, or a value put among them.
#[derive(Clone, Debug, serde::Serialize, serde::Deserialize)]
pub enum Piece<T> {
    /// As it stands.
    Words(String),
    /// The value of an expression.
    Value(T),
}
