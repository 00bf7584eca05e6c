//! What a field can hold.

#![expect(clippy::wildcard_enum_match_arm, reason = "most kinds hold a value directly")]

use std::fmt;

use super::shape::Shape;
use crate::measure;

/// What a field holds. Each kind has one form in JSON, in a script, in a cell and on a page.
#[derive(Clone, Copy)]
pub enum Kind {
    /// Yes or no.
    Truth,
    /// A whole number.
    Count,
    /// A number of seconds.
    Seconds,
    /// Any text.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A quantity of this kind.
    Of(measure::Kind),
    /// Two or three lengths.
    Size,
    /// A cost: money, or a number of pieces where nothing in the shop has a price.
    Cost,
    /// Any value of the bench language, which names its own kind.
    Value,
    /// Any value, or the names of the fields that it still needs.
    Known,
    /// Facts of one shape.
    One(&'static dyn Shape),
    /// A thing of this kind, or nothing.
    OrNothing(&'static Kind),
    /// A list.
    Each(&'static Kind),
    /// Things of one kind by their names; the names are not fixed.
    Named(&'static Kind),
}

impl Kind {
    /// A length.
    pub const LENGTH: Self = Self::Of(measure::Kind::LENGTH);
    /// An angle.
    pub const ANGLE: Self = Self::Of(measure::Kind::ANGLE);

    /// The kind of the entries of a list or a map.
    pub fn inner(&'static self) -> &'static Self {
        match self {
            Self::OrNothing(inner) | Self::Each(inner) | Self::Named(inner) => inner,
            other => other,
        }
    }

    /// The shape of the facts that it holds, directly or in a list.
    pub fn shape(self) -> Option<&'static dyn Shape> {
        match self {
            Self::One(shape) => Some(shape),
            Self::OrNothing(inner) | Self::Each(inner) | Self::Named(inner) => inner.shape(),
            Self::Truth
            | Self::Count
            | Self::Seconds
            | Self::Text
            | Self::Word(_)
            | Self::Of(_)
            | Self::Size
            | Self::Cost
            | Self::Value
            | Self::Known => None,
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Truth => f.write_str("yes/no"),
            Self::Count => f.write_str("whole number"),
            Self::Seconds => f.write_str("seconds"),
            Self::Text => f.write_str("text"),
            Self::Word(words) => f.write_str(&words.join(" | ")),
            Self::Of(kind) => write!(f, "{kind}"),
            Self::Size => f.write_str("size"),
            Self::Cost => f.write_str("money or a count"),
            Self::Value => f.write_str("any value"),
            Self::Known => f.write_str("any value, or what is still missing"),
            Self::One(shape) => f.write_str(shape.name()),
            Self::OrNothing(inner) => write!(f, "{inner} or nothing"),
            Self::Each(inner) => write!(f, "list of {inner}"),
            Self::Named(inner) => write!(f, "map of {inner}"),
        }
    }
}
