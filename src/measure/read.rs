//! Text as values: the trade's notation, exactly.
//!
//! A value is read where a field, a word or a table's column holds one; the stretches of notation inside a script
//! are found by [`stretch`]. Nothing here rounds, and what could be read two ways is refused.

mod extent;
mod misread;
mod number;
mod size;
mod stretch;

#[cfg(test)]
mod tests;

pub use extent::unknown_unit;
pub use misread::Misread;
pub use size::Size;
pub use stretch::{Stretch, stretch};

use super::{Kind, Quantity, UNITS, Unit};
use crate::diag::{Diagnostic, Span, codes, says};

/// What a piece of notation says.
#[derive(Clone, Debug)]
pub enum Reading {
    /// One value.
    Quantity(Quantity),
    /// Two or three lengths.
    Size(Size),
}

/// One value, nothing else around it but blanks, with an optional minus.
///
/// `bare` is the unit that a number without one takes; without it the number stays a number.
///
/// # Errors
/// Anything else, and what could be read two ways, with the readings offered.
pub fn read(text: &str, bare: Option<&Unit>) -> Result<Reading, Diagnostic> {
    value(text, bare).map_err(|misread| misread.found())
}

/// One value that is no size.
///
/// # Errors
/// As [`read`]; a size is refused as well.
pub fn quantity(text: &str, bare: Option<&Unit>) -> Result<Quantity, Diagnostic> {
    match read(text, bare)? {
        Reading::Quantity(quantity) => Ok(quantity),
        Reading::Size(_) => {
            let text = text.trim();
            Err(Diagnostic::of(&codes::value::SIZE, says!("{} is a size; one value is needed", text)).at(0..text.len()))
        }
    }
}

/// As [`read`], with a fault that can be told of the longer text that `text` was a part of.
///
/// # Errors
/// As [`read`].
pub fn value(text: &str, bare: Option<&Unit>) -> Result<Reading, Misread> {
    let start = text.len() - text.trim_start().len();
    let rest = text.trim();
    let unsigned = rest.strip_prefix(['-', '−']).map(str::trim_start);
    let body = unsigned.unwrap_or(rest);
    let offset = start + rest.len() - body.len();
    let reading = whole(body, bare).map_err(|misread| misread.shifted(offset))?;
    match (reading, unsigned) {
        (reading, None) => Ok(reading),
        (Reading::Quantity(quantity), Some(_)) => Ok(Reading::Quantity(below_zero(quantity, body, bare))),
        (Reading::Size(_), Some(_)) => {
            Err(Misread::new(start..start + rest.len(), "a size cannot be below zero").or(body))
        }
    }
}

/// The whole of `text`, which has no blanks around it and no sign.
fn whole(text: &str, bare: Option<&Unit>) -> Result<Reading, Misread> {
    if text.is_empty() {
        return Err(Misread::new(0..0, "a value is missing here"));
    }
    let Some(found) = stretch(text, bare) else {
        return Err(Misread::new(0..text.len(), format!("{} is not a number or a dimension", shortened(text))));
    };
    if found.len == text.len() {
        return found.reading;
    }
    kept(text).map_or_else(|| Err(remainder(text, &found)), Ok)
}

/// A quantity in the unit of storage of its kind, as [`super::write::exactly`] spells one that has no unit of its own.
fn kept(text: &str) -> Option<Reading> {
    let (amount, unit) = number::leading(text)?;
    let kind = Kind::of_unit(unit.trim())?;
    Some(Reading::Quantity(Quantity::new(amount, kind)))
}

/// The reading that `text` has with a minus before it, where without one it reads as `quantity`.
///
/// A thermometer's degrees count from their own zero: -5 °C is not the negative of 5 °C in the degrees of storage.
pub fn below_zero(quantity: Quantity, text: &str, bare: Option<&Unit>) -> Quantity {
    let shifted = UNITS.iter().filter(|unit| unit.zero.0 != 0);
    let written = shifted.clone().find(|unit| unit.names.iter().any(|name| text.trim_end().ends_with(name)));
    let taken = bare.filter(|unit| unit.zero.0 != 0 && text.ends_with(|last: char| last.is_ascii_digit()));
    match written.or(taken) {
        Some(unit) if unit.kind == quantity.kind => {
            let value = unit.in_units(quantity.amount);
            Quantity::new(unit.to_storage(-value), quantity.kind)
        }
        _ => Quantity::new(-quantity.amount, quantity.kind),
    }
}

/// What is said of a text that goes on behind its value.
fn remainder(text: &str, found: &Stretch) -> Misread {
    if let Err(misread) = &found.reading {
        return misread.clone();
    }
    let first = text.get(..found.len).unwrap_or(text).trim_end();
    let rest = text.get(found.len..).unwrap_or_default().trim_start();
    let span = text.len() - rest.len()..text.len();
    let number = matches!(&found.reading, Ok(Reading::Quantity(quantity)) if quantity.kind == Kind::NUMBER);
    if number && Unit::named(rest).is_some() || rest == "%" {
        return Misread::new(first.len()..text.len(), format!("{rest} must touch its number")).or(rest);
    }
    if number && rest.starts_with(|first: char| first.is_alphabetic() || first == '°') {
        let word = rest.split(|c: char| !(c.is_alphanumeric() || "°/_".contains(c))).next().unwrap_or(rest);
        return extent::unknown_unit(span.start..span.start + word.len(), word);
    }
    if rest.starts_with(|first: char| first.is_alphanumeric() || first == '$') {
        return beside(0..text.len(), first, &shortened(rest));
    }
    Misread::new(span, format!("{} behind {} cannot be read", shortened(rest), shortened(first)))
}

/// A value with something behind it and nothing between the two. A sum is offered where both are of one kind.
pub fn beside(span: Span, first: &str, second: &str) -> Misread {
    let kind = |text: &str| quantity(text, None).ok().map(|quantity| quantity.kind);
    let found = extent::beside(span, first, second);
    let alike = kind(first).is_some() && kind(first) == kind(second);
    if alike { found.or(format!("{first} + {second}")) } else { found }
}

/// A text short enough for a message.
fn shortened(text: &str) -> String {
    const MOST: usize = 32;
    if text.chars().count() <= MOST { text.to_string() } else { text.chars().take(MOST).chain(['…']).collect() }
}
