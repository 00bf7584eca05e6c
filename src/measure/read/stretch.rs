//! The notation at the start of a longer text, as the notation pass finds it inside a script.

use pest::Parser;

use super::extent::{Extent, Mark};
use super::misread::Misread;
use super::number::{Form, HYPHENS, Notation, Number, Pair, Rule, too_large};
use super::{Reading, Size};
use crate::diag::Span;
use crate::measure::{Kind, Quantity, Unit};

/// One stretch of notation.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// The length in bytes.
    pub len: usize,
    /// The value or the fault; ranges count from the start of the stretch.
    pub reading: Result<Reading, Misread>,
    /// Whether the script language reads the same value: a whole number of 64 bits, or one divided by another.
    pub plain: bool,
    /// Whether it begins with a fraction such as `3/4` that has a unit or is the side of a size: behind a division
    /// it could be read two ways.
    pub fraction: bool,
}

/// The notation at the start of `text`, if there is any; `bare` is the unit of a number without one.
pub fn stretch(text: &str, bare: Option<&Unit>) -> Option<Stretch> {
    let written = Notation::parse(Rule::written, text).ok()?.next()?;
    let len = written.as_span().end();
    let inner = written.into_inner().next()?;
    Some(if inner.as_rule() == Rule::money {
        Stretch { len, reading: money(&inner), plain: false, fraction: false }
    } else {
        group(&inner, bare, len)
    })
}

fn money(pair: &Pair) -> Result<Reading, Misread> {
    let span = pair.as_span().start()..pair.as_span().end();
    let inner = pair.clone().into_inner().next().ok_or_else(|| Misread::new(span, "$ takes a number"))?;
    let number = Number::of(&inner)?;
    Ok(Reading::Quantity(Quantity::new(number.value, Kind::MONEY)))
}

fn group(pair: &Pair, bare: Option<&Unit>, len: usize) -> Stretch {
    let mut extents = Vec::with_capacity(1);
    let mut dangling = None;
    for inner in pair.clone().into_inner() {
        if inner.as_rule() == Rule::dangling {
            dangling = Some(inner.as_span().end() - inner.as_str().trim_start().len()..inner.as_span().end());
            continue;
        }
        match Extent::of(&inner, bare) {
            Ok(extent) => extents.push(extent),
            Err(misread) => return Stretch { len, reading: Err(misread), plain: false, fraction: false },
        }
    }
    match (extents.as_slice(), dangling) {
        (_, Some(cross)) => Stretch { len, reading: Err(no_side(cross)), plain: false, fraction: false },
        ([only], None) => alone(only, bare, len),
        (extents, None) => {
            let fraction = extents.first().is_some_and(|first| first.form == Form::Fraction);
            Stretch { len, reading: Size::of(extents, bare, 0..len).map(Reading::Size), plain: false, fraction }
        }
    }
}

fn no_side(cross: Span) -> Misread {
    Misread::new(cross, "a size needs a number on both sides of its x; to multiply, write *").or("*")
}

/// A single value, whose number without a unit may belong to the script.
fn alone(extent: &Extent, bare: Option<&Unit>, len: usize) -> Stretch {
    let reading = Ok(Reading::Quantity(extent.quantity.clone()));
    let stretch = Stretch { len, reading, plain: false, fraction: false };
    match (extent.mark, extent.form) {
        (Mark::Unit(..) | Mark::Percent, form) => Stretch { fraction: form == Form::Fraction, ..stretch },
        (Mark::Bare, Form::Whole | Form::Fraction) => Stretch { plain: fits(extent.text), ..stretch },
        (Mark::Bare, Form::Dashed { proper: true }) => {
            Stretch { reading: Err(two_ways(extent.span.clone(), extent.text)), ..stretch }
        }
        (Mark::Bare, Form::Dashed { proper: false }) => difference(extent, bare),
        (Mark::Bare, Form::Decimal | Form::Vulgar | Form::Mixed) => stretch,
    }
}

/// Whether an integer of the script language can hold the number.
fn fits(text: &str) -> bool {
    text.split('/').all(|number| number.replace('_', "").parse::<i64>().is_ok())
}

/// `10-4/2` is plain arithmetic: the number before the dash is a value of its own.
fn difference(extent: &Extent, bare: Option<&Unit>) -> Stretch {
    let first = extent.text.split(HYPHENS).next().unwrap_or(extent.text);
    stretch(first, bare).unwrap_or_else(|| {
        let reading = Err(too_large(extent.span.clone(), extent.text));
        Stretch { len: extent.text.len(), reading, plain: false, fraction: false }
    })
}

fn two_ways(span: Span, text: &str) -> Misread {
    let misread = Misread::new(span, format!("{text} can be read two ways: a mixed number or a difference"));
    let (whole, fraction) = text.split_once(HYPHENS).unwrap_or((text, ""));
    misread.or(format!("{whole} {fraction}")).or(format!("{whole} - {fraction}"))
}
