//! Why a field is not set or a name not read.

use std::fmt;

use crate::diag::{Fault, list};

/// How many words a message lists.
const FEW: usize = 8;

/// Why a design refuses.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Refusal {
    /// No build knows the name.
    Unknown { name: String, near: Vec<String> },
    /// Other builds have it.
    NotHere { name: String, build: String, others: Vec<String> },
    /// It comes of others.
    Figure { name: String, reads: Vec<String> },
    /// Another kind of value.
    Kind { name: String, wants: String, got: String, hint: Option<String> },
    /// Past its range; the bound as text, how it is passed.
    Range { name: String, value: String, bound: String },
    /// Longer than a mile.
    Absurd { name: String, value: String },
    /// Not one of the words.
    Word { name: String, word: String, near: Vec<String>, words: Vec<String> },
    /// Not a whole number.
    Whole { name: String, value: String },
    /// No build of that name.
    Build { word: String, near: Vec<String>, words: Vec<String> },
    /// It may be given, and is not.
    Unset { name: String, example: String },
    /// It stands idle in this design.
    Idle { name: String, build: String },
    /// Others must be set first.
    Missing { name: String, fields: Vec<(String, String)> },
    /// Fields under one name that are not alike.
    Differ { name: String, fields: Vec<(String, String)> },
    /// The arithmetic failed.
    Broken { name: String, why: String },
    /// More or fewer values than it stands for.
    Count { name: String, most: usize },
    /// A text past all use.
    Long { name: String },
    /// Others are worked out from it.
    Read { name: String, readers: Vec<String> },
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown { name, near } if near.is_empty() => write!(f, "there is no field or figure {name}"),
            Self::Unknown { name, near } => {
                write!(f, "there is no field or figure {name}; did you mean {}?", list(near, "or"))
            }
            Self::NotHere { name, build, others } => {
                let has = if others.len() == 1 { "has" } else { "have" };
                write!(f, "a {build} frame has no {name}; {} {has} it", list(others, "and"))
            }
            Self::Figure { name, reads } if reads.is_empty() => write!(f, "{name} is worked out and cannot be set"),
            Self::Figure { name, reads } => {
                write!(f, "{name} is worked out from {} and cannot be set", list(reads, "and"))
            }
            Self::Kind { name, wants, got, .. } => write!(f, "{name} is {wants}, not {got}"),
            Self::Range { name, value, bound } => write!(f, "{name} must be {bound}, not {value}"),
            Self::Absurd { name, value } => write!(f, "{name} of {value} is longer than a mile"),
            Self::Word { name, word, words, .. } if words.len() > FEW => {
                write!(f, "{word} is no {name} of the tables; `help {name}` lists them")
            }
            Self::Word { name, word, words, .. } => write!(f, "{name} is {}, not {word}", list(words, "or")),
            Self::Whole { name, value } => write!(f, "{name} is a whole number, not {value}"),
            Self::Build { word, words, .. } => write!(f, "there is no build {word}; there are {}", list(words, "and")),
            Self::Unset { name, .. } => write!(f, "{name} is not set"),
            Self::Idle { name, build } => write!(f, "{name} does not apply to this {build} as it stands"),
            Self::Missing { name, fields } => {
                let names: Vec<&str> = fields.iter().map(|(name, _)| name.as_str()).collect();
                let verb = if names.len() == 1 { "is" } else { "are" };
                write!(f, "{name} is not known yet: {} {verb} not set", list(&names, "and"))
            }
            Self::Differ { name, fields } => {
                let each: Vec<String> = fields.iter().map(|(name, value)| format!("{name} {value}")).collect();
                write!(f, "{name} has no one value: {}", each.join(", "))
            }
            Self::Broken { name, why } => write!(f, "{name} cannot be worked out: {why}"),
            Self::Count { name, most } => write!(f, "{name} takes one to {most} values"),
            Self::Long { name } => write!(f, "{name} is too long a text"),
            Self::Read { name, readers } => write!(f, "{name} stays, since {} comes of it", list(readers, "and")),
        }
    }
}

impl Fault for Refusal {
    fn hint(&self) -> Option<String> {
        match self {
            Self::Kind { hint, .. } => hint.clone(),
            Self::Word { name, near, words, .. } => near.first().or(words.last()).map(|word| format!("{name} {word}")),
            Self::Build { near, words, .. } => near.first().or(words.first()).map(|word| format!("build {word}")),
            Self::NotHere { others, .. } => others.first().map(|build| format!("build {build}")),
            Self::Missing { fields, .. } => fields.first().map(|(_, example)| example.clone()),
            Self::Unset { example, .. } => Some(example.clone()),
            Self::Differ { fields, .. } => fields.first().map(|(name, _)| name.clone()),
            Self::Read { readers, .. } => readers.first().map(|reader| format!("clear {reader}")),
            Self::Unknown { .. }
            | Self::Figure { .. }
            | Self::Range { .. }
            | Self::Absurd { .. }
            | Self::Whole { .. }
            | Self::Idle { .. }
            | Self::Broken { .. }
            | Self::Count { .. }
            | Self::Long { .. } => None,
        }
    }
}
