//! The functions of the program that a rule may call where a choice is more than a formula: what they take and give.
//! [`super::natives`] has what they do.

// Each question here is about a few forms of many.
#![allow(clippy::wildcard_enum_match_arm)]

mod table;

pub use table::NATIVES;

use super::book::{Book, Node, Type};

/// A thing that a function takes or gives: its name, what it is, what it means.
pub type Thing = (&'static str, Type, &'static str);

/// A function of the program: one call finds several values, with reasons.
#[derive(Debug)]
pub struct Native {
    /// As a rule calls it.
    pub name: &'static str,
    /// What it finds, in a sentence.
    pub brief: &'static str,
    /// A call as scripts write it, of which one thing is asked, and the answer.
    pub example: (&'static str, &'static str),
    /// What it takes, in order.
    pub takes: &'static [Thing],
    /// Those that may be idle, and are handed on as nothing then; without any other there is nothing to find.
    pub may_lack: &'static [&'static str],
    /// What it gives, each asked for by `NAME of WHAT IT FOUND`.
    pub gives: &'static [Thing],
    /// Which of them it is.
    pub work: Work,
}

/// The functions of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Work {
    Screw,
    Places,
    Moisture,
    Swelling,
    Seat,
    Oval,
    Brad,
    Key,
    Mitres,
    Racked,
    Unlike,
}

/// The place of the function of that name.
pub fn native(name: &str) -> Option<u8> {
    NATIVES.iter().position(|native| native.name == name).and_then(|place| u8::try_from(place).ok())
}

impl Book {
    /// The function whose finding an expression is: a name that stands for it, or the function itself.
    pub fn native_of(&self, node: &Node) -> Option<&'static Native> {
        let place = match node {
            Node::Native(place, _) => *place,
            Node::Slot(slot) => match self.name(*slot).of {
                Type::Record(place) => place,
                _ => return None,
            },
            _ => return None,
        };
        NATIVES.get(usize::from(place))
    }

    /// What the values of something looked up are: a column of a table, or a part of what a function found.
    pub fn type_found(&self, node: &Node) -> Type {
        match node {
            Node::Column(table, column, _) | Node::Largest(table, column) => {
                let table = self.tables.get(usize::from(*table));
                table
                    .and_then(|table| table.columns.get(usize::from(*column)))
                    .map_or(Type::Nothing, |column| column.of)
            }
            Node::Part(of, place) => {
                let part = self.native_of(of).and_then(|native| native.gives.get(usize::from(*place)));
                part.map_or(Type::Nothing, |(_, of, _)| *of)
            }
            _ => Type::Nothing,
        }
    }
}
