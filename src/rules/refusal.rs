//! Why a field is not set or a name not read.

use crate::diag::codes::{field, figure};
use crate::diag::{Code, Fault, Fix, Says, list, says};

/// More words than these are listed by `help` alone.
const MOST_CHOICES: usize = 24;

/// Why a design refuses.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Refusal {
    /// No build knows the name.
    Unknown { name: String, near: Vec<String> },
    /// Other builds have it.
    NotHere { name: String, build: String, others: Vec<String> },
    /// It is worked out from others.
    Figure { name: String, reads: Vec<String> },
    /// Another kind of value; the same number with the unit that is missing.
    Kind { name: String, wants: String, got: String, value: Option<String> },
    /// Outside its range; the bound as text.
    Range { name: String, value: String, bound: String },
    /// Longer than a mile.
    Absurd { name: String, value: String },
    /// Not one of the words.
    Word { name: String, word: String, near: Vec<String>, words: Vec<String> },
    /// Not a whole number.
    Whole { name: String, value: String },
    /// It may be set, and is not.
    Unset { name: String },
    /// It does not apply to this design.
    Idle { name: String, build: String },
    /// Others must be set first.
    Missing { name: String, fields: Vec<String> },
    /// Fields under one name that are not alike.
    Differ { name: String, fields: Vec<(String, String)> },
    /// The arithmetic failed.
    Broken { name: String, why: String },
    /// More or fewer values than it stands for.
    Count { name: String, most: usize },
    /// A text that is too long.
    Long { name: String },
    /// Others are worked out from it.
    Read { name: String, readers: Vec<String> },
}

impl Fault for Refusal {
    fn code(&self) -> &'static Code {
        match self {
            Self::Unknown { .. } => &field::UNKNOWN,
            Self::NotHere { .. } => &field::OTHER_BUILD,
            Self::Figure { .. } => &figure::NOT_SET,
            Self::Kind { .. } => &field::KIND,
            Self::Range { .. } | Self::Absurd { .. } => &field::RANGE,
            Self::Word { .. } => &field::WORD_UNKNOWN,
            Self::Whole { .. } => &field::NOT_WHOLE,
            Self::Unset { .. } => &field::NOT_SET,
            Self::Idle { .. } => &field::IDLE,
            Self::Missing { .. } => &figure::NOT_KNOWN,
            Self::Differ { .. } => &field::DIFFER,
            Self::Broken { .. } => &figure::BROKEN,
            Self::Count { .. } => &field::COUNT,
            Self::Long { .. } => &field::TOO_LONG,
            Self::Read { .. } => &figure::IN_USE,
        }
    }

    fn says(&self) -> Says {
        match self {
            Self::Unknown { name, .. } => says!("there is no field or figure called {}", name),
            Self::NotHere { name, build, others } => {
                let has = if others.len() == 1 { "has" } else { "have" };
                says!("{} does not apply to a {} frame; {} {} it", name, build, list(others, "and"), has)
            }
            Self::Figure { name, reads } if reads.is_empty() => says!("{} is worked out and cannot be set", name),
            Self::Figure { name, reads } => {
                says!("{} is worked out from {} and cannot be set", name, list(reads, "and"))
            }
            Self::Kind { name, wants, got, .. } => says!("{} is {}, not {}", name, wants, got),
            Self::Range { name, value, bound } => says!("{} must be {}, not {}", name, bound, value),
            Self::Absurd { name, value } => says!("{} cannot be {}: that is longer than a mile", name, value),
            Self::Word { name, word, .. } => match name.strip_suffix(".kind") {
                Some(of) => says!("there is no kind of {} called {}", of, word),
                None => says!("there is no {} called {}", name, word),
            },
            Self::Whole { name, value } => says!("{} must be a whole number, not {}", name, value),
            Self::Unset { name } => says!("{} is not set", name),
            Self::Idle { name, build } => says!("{} does not apply to this {} frame", name, build),
            Self::Missing { name, fields } => {
                let verb = if fields.len() == 1 { "is" } else { "are" };
                says!("{} is not known yet: {} {} not set", name, list(fields, "and"), verb)
            }
            Self::Differ { name, fields } => {
                let each: Vec<String> = fields.iter().map(|(name, value)| format!("{name} {value}")).collect();
                says!("{} has several values: {}", name, each.join(", "))
            }
            Self::Broken { name, why } => says!("{} cannot be worked out: {}", name, why),
            Self::Count { name, most } => says!("{} takes one to {} values", name, most),
            Self::Long { name } => says!("the text for {} is too long", name),
            Self::Read { name, readers } => {
                let verb = if readers.len() == 1 { "uses" } else { "use" };
                says!("{} cannot be cleared: {} {} it", name, list(readers, "and"), verb)
            }
        }
    }

    fn name(&self) -> Option<&str> {
        match self {
            Self::Unknown { name, .. }
            | Self::NotHere { name, .. }
            | Self::Figure { name, .. }
            | Self::Kind { name, .. }
            | Self::Range { name, .. }
            | Self::Absurd { name, .. }
            | Self::Word { name, .. }
            | Self::Whole { name, .. }
            | Self::Unset { name }
            | Self::Idle { name, .. }
            | Self::Missing { name, .. }
            | Self::Differ { name, .. }
            | Self::Broken { name, .. }
            | Self::Count { name, .. }
            | Self::Long { name }
            | Self::Read { name, .. } => Some(name),
        }
    }

    fn fixes(&self) -> Vec<Fix> {
        let help = |name: &str| vec![Fix::Line(format!("help {name}"))];
        match self {
            Self::Kind { value: Some(value), name, .. } => vec![Fix::Setting(name.clone(), value.clone())],
            Self::Kind { name, .. }
            | Self::Unset { name }
            | Self::NotHere { name, .. }
            | Self::Figure { name, .. }
            | Self::Range { name, .. }
            | Self::Absurd { name, .. }
            | Self::Whole { name, .. }
            | Self::Idle { name, .. }
            | Self::Broken { name, .. }
            | Self::Count { name, .. }
            | Self::Long { name } => help(name),
            Self::Unknown { near, .. } => near.iter().cloned().map(Fix::Value).collect(),
            Self::Word { name, near, words, .. } => one_of(name, near, words),
            Self::Missing { fields, .. } => fields.first().map_or_else(Vec::new, |field| help(field)),
            Self::Differ { fields, .. } => {
                fields.first().map(|(name, _)| Fix::Line(name.clone())).into_iter().collect()
            }
            Self::Read { readers, .. } => {
                readers.first().map(|reader| Fix::Line(format!("clear {reader}"))).into_iter().collect()
            }
        }
    }
}

/// The nearest word of a table; where none is near, every word, or the page that lists them.
fn one_of(name: &str, near: &[String], words: &[String]) -> Vec<Fix> {
    match near.first() {
        Some(word) => vec![Fix::Setting(name.into(), word.clone())],
        None if words.len() > MOST_CHOICES => vec![Fix::Line(format!("help {name}"))],
        None => vec![Fix::Choices(words.to_vec())],
    }
}
