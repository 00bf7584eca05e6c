//! The sort of a value, in the framer's words.

use std::fmt;

use rhai::{Dynamic, FnPtr};

use super::design::Design;
use super::trouble::Raised;
use crate::measure::{Kind, Quantity, Size};

/// The sort of a value: the kind of a quantity, or something else that a script handles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A quantity, which may be a plain number.
    Kind(Kind),
    /// Two or three lengths.
    Size,
    /// Text.
    Text,
    /// Yes or no.
    Truth,
    /// A list.
    List,
    /// A map.
    Map,
    /// A function.
    Function,
    /// A range of whole numbers.
    Range,
    /// A design.
    Design,
    /// An error that a script has caught.
    Error,
    /// The absence of a value.
    Nothing,
}

impl Sort {
    /// The sort of `value`.
    pub fn of(value: &Dynamic) -> Self {
        if value.is_int() {
            Self::Kind(Kind::NUMBER)
        } else if let Some(quantity) = value.read_lock::<Quantity>() {
            Self::Kind(quantity.kind)
        } else if value.is_string() || value.is_char() {
            Self::Text
        } else if value.is_bool() {
            Self::Truth
        } else if value.is_array() {
            Self::List
        } else if value.is_map() {
            Self::Map
        } else if value.is::<Size>() {
            Self::Size
        } else if value.is::<FnPtr>() {
            Self::Function
        } else if value.is::<Design>() {
            Self::Design
        } else if value.is::<Raised>() {
            Self::Error
        } else if value.is_unit() {
            Self::Nothing
        } else {
            Self::Range
        }
    }

    /// The sort with its article, if it takes one: `a length`, `an area`, `text`.
    pub fn with_article(self) -> String {
        match self {
            Self::Kind(kind) => kind.with_article(),
            Self::Text | Self::Truth | Self::Nothing => self.to_string(),
            Self::Error => format!("an {self}"),
            Self::Size | Self::List | Self::Map | Self::Function | Self::Range | Self::Design => format!("a {self}"),
        }
    }

    /// The sort for the engine's name of a type.
    pub fn of_type_name(name: &str) -> Option<Self> {
        Some(match name {
            "i64" => Self::Kind(Kind::NUMBER),
            "string" | "char" => Self::Text,
            "bool" => Self::Truth,
            "array" => Self::List,
            "map" => Self::Map,
            "Fn" => Self::Function,
            "()" => Self::Nothing,
            name if name.contains("Range") || name.contains("range") => Self::Range,
            name if name.ends_with("FnPtr") => Self::Function,
            name if name.ends_with("Design") => Self::Design,
            name if name.ends_with("Raised") => Self::Error,
            name if name.ends_with("Size") => Self::Size,
            _ => return None,
        })
    }
}

impl fmt::Display for Sort {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Kind(kind) => kind.fmt(f),
            Self::Size => f.write_str("size"),
            Self::Text => f.write_str("text"),
            Self::Truth => f.write_str("yes/no"),
            Self::List => f.write_str("list"),
            Self::Map => f.write_str("map"),
            Self::Function => f.write_str("function"),
            Self::Range => f.write_str("range"),
            Self::Design => f.write_str("design"),
            Self::Error => f.write_str("error"),
            Self::Nothing => f.write_str("nothing"),
        }
    }
}
