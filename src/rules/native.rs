//! The functions of the program that a rule may call where a choice is more than a formula: what they take and give.
//! What they do stands in [`super::natives`].

use super::book::Type;
use crate::measure::Kind;

/// A function of the program: one call finds several values, with reasons.
#[derive(Debug)]
pub struct Native {
    /// As a rule calls it.
    pub name: &'static str,
    /// What it takes, in order; an argument that is idle is handed on as nothing.
    pub takes: &'static [(&'static str, Type)],
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
}

const LENGTH: Type = Type::Quantity(Kind::LENGTH);
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
        gives: &[("count", NUMBER), ("apart", LENGTH), ("list", Type::List(Kind::LENGTH))],
        work: Work::Places,
    },
    Native {
        name: "moisture",
        takes: &[("temperature", Type::Quantity(Kind::TEMPERATURE)), ("humidity", NUMBER)],
        gives: &[("content", Type::Share)],
        work: Work::Moisture,
    },
];

/// The place of the function of that name.
pub fn native(name: &str) -> Option<u8> {
    NATIVES.iter().position(|native| native.name == name).and_then(|place| u8::try_from(place).ok())
}
