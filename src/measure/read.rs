//! Text to values: the notation of the trade, exactly.
//!
//! Fields, words and table cells hold one value; [`stretch`] finds the notation inside a script. Nothing here rounds,
//! and a text with two readings is refused.

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

/// The meaning of a piece of notation.
#[derive(Clone, Debug)]
pub enum Reading {
    /// One value.
    Quantity(Quantity),
    /// Two or three lengths.
    Size(Size),
}

/// Reads one value, with an optional minus and blanks around it.
///
/// `bare` is the unit of a number without one; without it, the number stays a plain number.
///
/// # Errors
/// The text is not a value, or has two readings, which the finding offers.
pub fn read(text: &str, bare: Option<&Unit>) -> Result<Reading, Diagnostic> {
    value(text, bare).map_err(|misread| misread.found())
}

/// Reads one value that is not a size.
///
/// # Errors
/// As [`read`]; also refuses a size.
pub fn quantity(text: &str, bare: Option<&Unit>) -> Result<Quantity, Diagnostic> {
    match read(text, bare)? {
        Reading::Quantity(quantity) => Ok(quantity),
        Reading::Size(_) => {
            let text = text.trim();
            Err(Diagnostic::of(&codes::value::SIZE, says!("{} is a size; one value is needed", text)).at(0..text.len()))
        }
    }
}

/// As [`read`], with a fault that can be placed in a longer text around `text`.
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

/// Reads all of `text`, which has no blanks around it and no sign.
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

/// Reads a quantity in the storage unit of its kind, as [`super::write::exactly`] writes a kind without a unit.
fn kept(text: &str) -> Option<Reading> {
    let (amount, unit) = number::leading(text)?;
    let kind = Kind::of_unit(unit.trim())?;
    Some(Reading::Quantity(Quantity::new(amount, kind)))
}

/// The value of `text` with a minus before it; without one it is `quantity`.
///
/// Degrees of temperature count from their own zero: -5 °C is not the negative of 5 °C in storage.
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

/// The fault of text after a value.
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

/// The fault of two values without an operator; it offers a sum if both are of one kind.
pub fn beside(span: Span, first: &str, second: &str) -> Misread {
    let kind = |text: &str| quantity(text, None).ok().map(|quantity| quantity.kind);
    let found = extent::beside(span, first, second);
    let alike = kind(first).is_some() && kind(first) == kind(second);
    if alike { found.or(format!("{first} + {second}")) } else { found }
}

/// The text, shortened for a message.
fn shortened(text: &str) -> String {
    const MOST: usize = 32;
    if text.chars().count() <= MOST { text.to_string() } else { text.chars().take(MOST).chain(['…']).collect() }
}
