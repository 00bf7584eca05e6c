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
    Native {
        name: "swelling",
        takes: &[("face", LENGTH), ("sides", NUMBER), ("strain", NUMBER)],
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
        gives: &[
            ("width", LENGTH),
            ("height", LENGTH),
            ("turn", ANGLE),
            ("misfit", LENGTH),
            ("uneven", LENGTH),
            ("corners", Type::List(Kind::LENGTH)),
            ("middles", Type::List(Kind::LENGTH)),
        ],
        work: Work::Seat,
    },
    Native {
        name: "oval",
        takes: &[("width", LENGTH), ("height", LENGTH), ("face", LENGTH), ("boards", NUMBER)],
        gives: &[
            ("inner", LENGTH),
            ("outer", LENGTH),
            ("area", Type::Quantity(Kind::AREA)),
            ("wide", LENGTH),
            ("long", LENGTH),
            ("short", LENGTH),
            ("mitre", ANGLE),
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
        gives: &[("bite", LENGTH), ("inner", LENGTH), ("outer", LENGTH), ("cover", LENGTH)],
        work: Work::Brad,
    },
    Native {
        name: "key",
        takes: &[("face", LENGTH), ("mitre", ANGLE), ("depth", LENGTH)],
        gives: &[("mitre", LENGTH), ("left", LENGTH), ("long", LENGTH), ("glue", Type::Quantity(Kind::AREA))],
        work: Work::Key,
    },
    Native {
        name: "mitres",
        takes: &[("width", LENGTH), ("height", LENGTH), ("face", LENGTH), ("error", ANGLE)],
        gives: &[("last", LENGTH), ("faces", ANGLE), ("gap", LENGTH)],
        work: Work::Mitres,
    },
    Native {
        name: "racked",
        takes: &[("width", LENGTH), ("height", LENGTH), ("first", LENGTH), ("second", LENGTH)],
        gives: &[("angle", ANGLE), ("lean", LENGTH), ("square", LENGTH), ("misfit", LENGTH)],
        work: Work::Racked,
    },
    Native {
        name: "unlike",
        takes: &[("side", LENGTH), ("face", LENGTH), ("difference", LENGTH)],
        gives: &[("angle", ANGLE), ("gap", LENGTH), ("step", LENGTH)],
        work: Work::Unlike,
    },
];

/// The place of the function of that name.
pub fn native(name: &str) -> Option<u8> {
    NATIVES.iter().position(|native| native.name == name).and_then(|place| u8::try_from(place).ok())
}
