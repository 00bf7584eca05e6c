//! Expressions with their names looked up, and the types of values.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::term::Op;
use crate::measure::{Kind, Real};

/// The place of a name in [`super::Book::names`].
pub type Slot = u16;

/// What the values of a name are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Type {
    /// A quantity.
    Quantity(Kind),
    /// A number without a fraction.
    Whole,
    /// A number shown in percent.
    Share,
    /// A word of a list.
    Word,
    /// Any text.
    Text,
    /// Several quantities of a kind.
    List(Kind),
    /// What a function found: several values under one name, a place in [`super::native::NATIVES`].
    Record(u8),
    /// Yes or no.
    Truth,
    /// Two or three lengths.
    Size,
    /// Only ever idle.
    Nothing,
}

impl Type {
    /// With its article, for messages.
    pub fn with_article(self) -> String {
        match self {
            Self::Quantity(kind) => kind.with_article(),
            Self::Share => "a percentage".into(),
            Self::Text | Self::Truth | Self::Nothing | Self::List(_) | Self::Record(_) => self.to_string(),
            Self::Whole | Self::Word | Self::Size => format!("a {self}"),
        }
    }
}

impl std::fmt::Display for Type {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Quantity(kind) => kind.fmt(f),
            Self::Whole => f.write_str("whole number"),
            Self::Share => f.write_str("percentage"),
            Self::Word => f.write_str("word"),
            Self::Text => f.write_str("text"),
            Self::List(kind) => write!(f, "{kind}s with commas between"),
            Self::Record(_) => f.write_str("what a function found"),
            Self::Truth => f.write_str("yes or no"),
            Self::Size => f.write_str("size"),
            Self::Nothing => f.write_str("nothing"),
        }
    }
}

/// An expression with its names looked up.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Node {
    /// A quantity written out, in storage units.
    Amount(Real, Kind),
    /// A word written out.
    Word(Arc<str>),
    /// A field or a figure.
    Slot(Slot),
    /// Not there, whatever the design.
    Idle,
    /// To be given by a person.
    Missing,
    /// Whether a field is given.
    Given(Slot),
    /// The one value that several fields have, if they have one.
    Common(Vec<Slot>),
    /// Several values side by side; only to be shown.
    Several(Vec<Slot>),
    /// The other sign.
    Negative(Box<Node>),
    /// The other truth.
    Not(Box<Node>),
    /// Two operands.
    Pair(Op, Box<(Node, Node)>),
    /// Condition, then, else.
    Choice(Box<(Node, Node, Node)>),
    /// A function of arguments.
    Call(Func, Vec<Node>),
    /// What a table knows of a word: table, column, word.
    Column(u16, u16, Box<Node>),
    /// The word of a table whose column is the least that is not below a value.
    Smallest(u16, u16, Box<Node>),
    /// The greatest value in a column.
    Largest(u16, u16),
    /// All values of a column.
    Every(u16, u16),
    /// What a function of the program finds: its place in [`super::native::NATIVES`].
    Native(u8, Vec<Node>),
    /// One of the things that it found.
    Part(Box<Node>, u8),
    /// Whether it found nothing.
    Failed(Box<Node>),
    /// Why it found nothing.
    Fault(Box<Node>),
}

/// The functions that a formula may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[allow(missing_docs)]
pub enum Func {
    Greatest,
    Least,
    Size,
    Root,
    Sine,
    Cosine,
    Tangent,
    ArcSine,
    ArcCosine,
    ArcTangent,
    Floor,
    Ceiling,
}

/// Every function with its name in a formula.
pub const FUNCS: &[(&str, Func)] = &[
    ("max", Func::Greatest),
    ("min", Func::Least),
    ("abs", Func::Size),
    ("sqrt", Func::Root),
    ("sin", Func::Sine),
    ("cos", Func::Cosine),
    ("tan", Func::Tangent),
    ("asin", Func::ArcSine),
    ("acos", Func::ArcCosine),
    ("atan", Func::ArcTangent),
    ("floor", Func::Floor),
    ("ceil", Func::Ceiling),
];

impl Func {
    /// As it is written.
    pub fn name(self) -> &'static str {
        FUNCS.iter().find(|(_, func)| *func == self).map_or("", |(name, _)| name)
    }
}

impl Node {
    /// Calls `see` with every slot that the value may read or ask after.
    pub fn each_slot(&self, see: &mut dyn FnMut(Slot)) {
        match self {
            Self::Slot(slot) | Self::Given(slot) => see(*slot),
            Self::Common(slots) | Self::Several(slots) => slots.iter().for_each(|slot| see(*slot)),
            Self::Negative(_)
            | Self::Not(_)
            | Self::Pair(..)
            | Self::Choice(_)
            | Self::Call(..)
            | Self::Column(..)
            | Self::Smallest(..)
            | Self::Native(..)
            | Self::Part(..)
            | Self::Failed(_)
            | Self::Fault(_) => {
                self.each_part(&mut |part| part.each_slot(see));
            }
            Self::Amount(..) | Self::Word(_) | Self::Idle | Self::Missing | Self::Largest(..) | Self::Every(..) => {}
        }
    }

    /// Calls `see` with the parts that an expression is made of, one level down.
    pub fn each_part(&self, see: &mut dyn FnMut(&Self)) {
        match self {
            Self::Negative(of)
            | Self::Not(of)
            | Self::Column(_, _, of)
            | Self::Smallest(_, _, of)
            | Self::Part(of, _)
            | Self::Failed(of)
            | Self::Fault(of) => see(of),
            Self::Pair(_, both) => {
                see(&both.0);
                see(&both.1);
            }
            Self::Choice(ways) => {
                see(&ways.0);
                see(&ways.1);
                see(&ways.2);
            }
            Self::Call(_, args) | Self::Native(_, args) => args.iter().for_each(see),
            Self::Amount(..)
            | Self::Word(_)
            | Self::Slot(_)
            | Self::Idle
            | Self::Missing
            | Self::Given(_)
            | Self::Common(_)
            | Self::Several(_)
            | Self::Largest(..)
            | Self::Every(..) => {}
        }
    }
}
