//! Operators with one operand, and `&`, `|` and `^`, which work on bits elsewhere.

use std::fmt;

use rhai::Dynamic;

use super::sort::Sort;
use super::trouble::Trouble;
use super::value::{to_dynamic, to_quantity};
use crate::diag::Fault;
use crate::measure::{Quantity, Unlike};

/// The fault for an operand that an operator does not take.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Misused {
    /// `-"text"`.
    One(&'static str, Sort),
    /// `!5`.
    NotTruth(&'static str, Sort),
    /// An operator on bits.
    Bits(&'static str),
}

impl fmt::Display for Misused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(verb, sort) => write!(f, "cannot {verb} {}", sort.with_article()),
            Self::NotTruth(name, sort) => write!(f, "`{name}` needs yes or no, not {}", sort.with_article()),
            Self::Bits(name @ ("^" | "^=")) => write!(f, "`{name}` is not a power here; write `**`"),
            Self::Bits(name) => write!(f, "`{name}` means nothing between these values"),
        }
    }
}

impl Fault for Misused {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

/// The value with the opposite sign.
pub fn negate(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    one("negate", values, Quantity::negate)
}

/// The value itself, for a plus sign.
pub fn keep(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    one("put a sign to", values, |quantity| Ok(quantity.clone()))
}

fn one(
    verb: &'static str,
    values: &mut [&mut Dynamic],
    run: fn(&Quantity) -> Result<Quantity, Unlike>,
) -> Result<Dynamic, Trouble> {
    let [value] = values else {
        return Ok(Dynamic::UNIT);
    };
    let quantity = to_quantity(value).ok_or_else(|| Misused::One(verb, Sort::of(value)))?;
    Ok(to_dynamic(run(&quantity)?))
}

/// The opposite of a truth value.
pub fn not(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    let [value] = values else {
        return Ok(Dynamic::UNIT);
    };
    let truth = value.as_bool().map_err(|_| Misused::NotTruth("!", Sort::of(value)))?;
    Ok((!truth).into())
}

/// `&` and `|` of two truth values, both evaluated; refuses anything else.
pub fn bits(name: &'static str, values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    let [left, right] = values else {
        return Ok(Dynamic::UNIT);
    };
    match (name, left.as_bool(), right.as_bool()) {
        ("&", Ok(left), Ok(right)) => Ok((left & right).into()),
        ("|", Ok(left), Ok(right)) => Ok((left | right).into()),
        _ => Err(Misused::Bits(name).into()),
    }
}
