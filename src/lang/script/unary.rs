//! Operators of one value, and those that work on bits elsewhere.

use std::fmt;

use rhai::Dynamic;

use super::sort::Sort;
use super::trouble::Trouble;
use super::value::{to_dynamic, to_quantity};
use crate::diag::Fault;
use crate::measure::{Quantity, Unlike};

/// An operator that does not take what it was given.
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
            Self::One(deed, sort) => write!(f, "cannot {deed} {}", sort.with_article()),
            Self::NotTruth(name, sort) => write!(f, "`{name}` wants yes or no, not {}", sort.with_article()),
            Self::Bits(name @ ("^" | "^=")) => write!(f, "`{name}` is no power here: that is written `**`"),
            Self::Bits(name) => write!(f, "`{name}` means nothing between these values"),
        }
    }
}

impl Fault for Misused {}

/// With the other sign.
pub fn negate(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    one("negate", values, Quantity::negate)
}

/// With its own sign.
pub fn keep(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    one("put a sign to", values, |quantity| Ok(quantity.clone()))
}

fn one(
    deed: &'static str,
    values: &mut [&mut Dynamic],
    run: fn(&Quantity) -> Result<Quantity, Unlike>,
) -> Result<Dynamic, Trouble> {
    let [value] = values else {
        return Ok(Dynamic::UNIT);
    };
    let quantity = to_quantity(value).ok_or_else(|| Misused::One(deed, Sort::of(value)))?;
    Ok(to_dynamic(run(&quantity)?))
}

/// No of yes, yes of no.
pub fn not(values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    let [value] = values else {
        return Ok(Dynamic::UNIT);
    };
    let truth = value.as_bool().map_err(|_| Misused::NotTruth("!", Sort::of(value)))?;
    Ok((!truth).into())
}

/// `&` and `|` of two truths, each looked at whatever the other is; anything else is refused.
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
