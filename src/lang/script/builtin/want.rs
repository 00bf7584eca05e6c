//! The sorts that an argument may have.

use std::fmt;

use rhai::{Array, Dynamic};

use crate::diag::list;
use crate::lang::script::sort::Sort;
use crate::lang::script::value::to_quantity;
use crate::measure::Kind;

/// The sort that a parameter accepts or a function returns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Want {
    /// Any value.
    Anything,
    /// No value: the function is called for its effect.
    Nothing,
    /// A quantity of any kind.
    Quantity,
    /// A quantity of this kind.
    Of(Kind),
    /// A plain whole number.
    Whole,
    /// Two or three lengths.
    Size,
    /// Text.
    Text,
    /// Yes or no.
    Truth,
    /// A list.
    List,
    /// A list of quantities of this kind.
    ListOf(Kind),
    /// A map.
    Map,
    /// A function, usually written `|x| …`.
    Function,
    /// A design.
    Design,
    /// A range of whole numbers.
    Range,
    /// One of these.
    Either(&'static [Want]),
}

impl Want {
    /// A plain number.
    pub const NUMBER: Self = Self::Of(Kind::NUMBER);
    /// An angle.
    pub const ANGLE: Self = Self::Of(Kind::ANGLE);
    /// A length.
    pub const LENGTH: Self = Self::Of(Kind::LENGTH);

    /// The article or the words before the names of entries.
    pub const fn of_each(self) -> &'static str {
        if matches!(self, Self::List) { "Returns a list, each with:" } else { "Returns:" }
    }

    /// Whether `value` is of this sort.
    pub fn takes(self, value: &Dynamic) -> bool {
        match self {
            Self::Anything => true,
            Self::Nothing => value.is_unit(),
            Self::Quantity => to_quantity(value).is_some(),
            Self::Of(kind) => Sort::of(value) == Sort::Kind(kind),
            Self::Whole => value.is_int(),
            Self::Size => Sort::of(value) == Sort::Size,
            Self::Text => Sort::of(value) == Sort::Text,
            Self::Truth => value.is_bool(),
            Self::List => value.is_array(),
            Self::ListOf(kind) => {
                let all = |list: &Array| list.iter().all(|one| Self::Of(kind).takes(one));
                value.as_array_ref().is_ok_and(|list| all(&list))
            }
            Self::Map => value.is_map(),
            Self::Function => Sort::of(value) == Sort::Function,
            Self::Design => Sort::of(value) == Sort::Design,
            Self::Range => Sort::of(value) == Sort::Range,
            Self::Either(wants) => wants.iter().any(|want| want.takes(value)),
        }
    }
}

impl fmt::Display for Want {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Anything => f.write_str("any value"),
            Self::Nothing => f.write_str("nothing"),
            Self::Quantity => f.write_str("a quantity"),
            Self::Of(kind) => f.write_str(&kind.with_article()),
            Self::Whole => f.write_str("a whole number"),
            Self::Size => f.write_str("a size"),
            Self::Text => f.write_str("text"),
            Self::Truth => f.write_str("yes/no"),
            Self::List => f.write_str("a list"),
            Self::ListOf(kind) => write!(f, "a list of {kind}s"),
            Self::Map => f.write_str("a map"),
            Self::Function => f.write_str("a function"),
            Self::Design => f.write_str("a design"),
            Self::Range => f.write_str("a range"),
            Self::Either(wants) => {
                let words: Vec<String> = wants.iter().map(ToString::to_string).collect();
                f.write_str(&list(&words, "or"))
            }
        }
    }
}
