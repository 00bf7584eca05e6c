//! The functions of the program that a rule may call where a choice is more than a formula: what they take and give.
//! What they do stands in [`super::natives`].

// Each question here is about a few forms of many.
#![allow(clippy::wildcard_enum_match_arm)]

use super::book::{Book, Node, Type};
use crate::measure::Kind;

/// A function of the program: one call finds several values, with reasons.
#[derive(Debug)]
pub struct Native {
    /// As a rule calls it.
    pub name: &'static str,
    /// What it takes, in order.
    pub takes: &'static [(&'static str, Type)],
    /// Those that may be idle, and are handed on as nothing then; without any other there is nothing to find.
    pub may_lack: &'static [&'static str],
    /// What it gives, each asked for by `NAME of WHAT IT FOUND`.
    pub gives: &'static [(&'static str, Type)],
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

const LENGTH: Type = Type::Quantity(Kind::LENGTH);
const ANGLE: Type = Type::Quantity(Kind::ANGLE);
const NUMBER: Type = Type::Quantity(Kind::NUMBER);

/// Every function of the program.
pub const NATIVES: &[Native] = &[
    Native {
        name: "screw",
        takes: &[
            ("through", LENGTH),
            ("bite", LENGTH),
            ("bar", LENGTH),
            ("clear", LENGTH),
            ("reach", LENGTH),
            ("lead", NUMBER),
            ("stocked", Type::List(Kind::LENGTH)),
        ],
        may_lack: &[],
        gives: &[
            ("length", LENGTH),
            ("number", NUMBER),
            ("body", LENGTH),
            ("root", LENGTH),
            ("lead", LENGTH),
            ("drill", Type::Word),
        ],
        work: Work::Screw,
    },
    Native {
        name: "places",
        takes: &[("side", LENGTH), ("first", LENGTH), ("pitch", LENGTH), ("short", LENGTH)],
        may_lack: &[],
        gives: &[("count", NUMBER), ("apart", LENGTH), ("list", Type::List(Kind::LENGTH))],
        work: Work::Places,
    },
    Native {
        name: "moisture",
        takes: &[("temperature", Type::Quantity(Kind::TEMPERATURE)), ("humidity", NUMBER)],
        may_lack: &[],
        gives: &[("content", Type::Share)],
        work: Work::Moisture,
    },
    Native {
        name: "swelling",
        takes: &[("face", LENGTH), ("sides", NUMBER), ("strain", NUMBER)],
        may_lack: &[],
        gives: &[("gap", LENGTH), ("side", Type::Word)],
        work: Work::Swelling,
    },
    Native {
        name: "seat",
        takes: &[
            ("top", LENGTH),
            ("right", LENGTH),
            ("bottom", LENGTH),
            ("left", LENGTH),
            ("first diagonal", LENGTH),
            ("second diagonal", LENGTH),
            ("width at the middle", LENGTH),
            ("height at the middle", LENGTH),
            ("gap at the top", LENGTH),
            ("gap at the right", LENGTH),
            ("gap at the bottom", LENGTH),
            ("gap at the left", LENGTH),
            ("bulk", LENGTH),
        ],
        may_lack: &["first diagonal", "second diagonal", "width at the middle", "height at the middle"],
        gives: &[
            ("width", LENGTH),
            ("height", LENGTH),
            ("turn", ANGLE),
            ("misfit", LENGTH),
            ("uneven", LENGTH),
            ("corners", Type::List(Kind::LENGTH)),
            ("middles", Type::List(Kind::LENGTH)),
            ("widest", LENGTH),
        ],
        work: Work::Seat,
    },
    Native {
        name: "oval",
        takes: &[("width", LENGTH), ("height", LENGTH), ("face", LENGTH), ("boards", NUMBER)],
        may_lack: &[],
        gives: &[
            ("inner", LENGTH),
            ("outer", LENGTH),
            ("area", Type::Quantity(Kind::AREA)),
            ("wide", LENGTH),
            ("long", LENGTH),
            ("short", LENGTH),
            ("mitre", ANGLE),
            ("fills", NUMBER),
        ],
        work: Work::Oval,
    },
    Native {
        name: "brad",
        takes: &[
            ("face", LENGTH),
            ("mitre", ANGLE),
            ("length", LENGTH),
            ("at", LENGTH),
            ("cover", LENGTH),
            ("skew", ANGLE),
        ],
        may_lack: &[],
        gives: &[("bite", LENGTH), ("inner", LENGTH), ("outer", LENGTH), ("cover", LENGTH)],
        work: Work::Brad,
    },
    Native {
        name: "key",
        takes: &[("face", LENGTH), ("mitre", ANGLE), ("depth", LENGTH)],
        may_lack: &[],
        gives: &[("mitre", LENGTH), ("left", LENGTH), ("long", LENGTH), ("glue", Type::Quantity(Kind::AREA))],
        work: Work::Key,
    },
    Native {
        name: "mitres",
        takes: &[("width", LENGTH), ("height", LENGTH), ("face", LENGTH), ("error", ANGLE)],
        may_lack: &[],
        gives: &[("last", LENGTH), ("faces", ANGLE), ("gap", LENGTH)],
        work: Work::Mitres,
    },
    Native {
        name: "racked",
        takes: &[("width", LENGTH), ("height", LENGTH), ("first", LENGTH), ("second", LENGTH)],
        may_lack: &[],
        gives: &[("angle", ANGLE), ("lean", LENGTH), ("square", LENGTH), ("misfit", LENGTH)],
        work: Work::Racked,
    },
    Native {
        name: "unlike",
        takes: &[("side", LENGTH), ("face", LENGTH), ("difference", LENGTH)],
        may_lack: &[],
        gives: &[("angle", ANGLE), ("gap", LENGTH), ("step", LENGTH)],
        work: Work::Unlike,
    },
];

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
                part.map_or(Type::Nothing, |(_, of)| *of)
            }
            _ => Type::Nothing,
        }
    }
}
