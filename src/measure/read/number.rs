//! A number as written: whole, decimal, fraction, or mixed.

use num_rational::BigRational;
use num_traits::Zero;
use pest::Parser;
use pest_derive::Parser;

use super::misread::Misread;
use crate::diag::{Span, says};
use crate::measure::{Broken, Real};

/// The parser of notation at the start of a text.
#[derive(Parser)]
#[grammar = "../grammar/notation.pest"]
pub(super) struct Notation;

/// One node of a parsed text.
pub(super) type Pair<'i> = pest::iterators::Pair<'i, Rule>;

/// A number without its unit.
#[derive(Clone, Debug)]
pub(super) struct Number<'i> {
    pub(super) value: Real,
    pub(super) form: Form,
    pub(super) span: Span,
    pub(super) text: &'i str,
}

/// The form of a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// `12`
    Whole,
    /// `1.5`, `.5`, `1e3`
    Decimal,
    /// `3/4`
    Fraction,
    /// `½`
    Vulgar,
    /// `11 3/8`, `11⅜`
    Mixed,
    /// `11-3/8`: mixed before a unit; a difference without one, and plainly so if the fraction is not a proper one.
    Dashed { proper: bool },
}

/// The most digits that a number may have: 4096 bits hold 1233.
const MOST_DIGITS: usize = 1240;

/// What may join feet and inches, or a whole number and its fraction.
pub(super) const HYPHENS: [char; 3] = ['-', '\u{2011}', '–'];

/// The signs for fractions, with their values.
const VULGAR: &[(&str, i64, i64)] = &[
    ("½", 1, 2),
    ("¼", 1, 4),
    ("¾", 3, 4),
    ("⅛", 1, 8),
    ("⅜", 3, 8),
    ("⅝", 5, 8),
    ("⅞", 7, 8),
    ("⅓", 1, 3),
    ("⅔", 2, 3),
    ("⅕", 1, 5),
    ("⅖", 2, 5),
    ("⅗", 3, 5),
    ("⅘", 4, 5),
    ("⅙", 1, 6),
    ("⅚", 5, 6),
];

impl<'i> Number<'i> {
    /// The number of a `value` node.
    pub(super) fn of(pair: &Pair<'i>) -> Result<Self, Misread> {
        let span = pair.as_span().start()..pair.as_span().end();
        let Some(inner) = pair.clone().into_inner().next() else {
            return Err(unreadable(span, pair.as_str()));
        };
        let (value, form) = if inner.as_rule() == Rule::mixed { mixed(&inner)? } else { simple(&inner)? };
        Ok(Self { value: sound(value, &span, pair.as_str())?, form, span, text: pair.as_str() })
    }
}

/// The number at the start of a text, and the rest.
pub(super) fn leading(text: &str) -> Option<(Real, &str)> {
    let value = Notation::parse(Rule::value, text).ok()?.next()?;
    let number = Number::of(&value).ok()?;
    Some((number.value, text.get(number.span.end..)?))
}

fn unreadable(span: Span, text: &str) -> Misread {
    Misread::new(span, format!("{text} is not a number"))
}

fn sound(value: Real, span: &Span, text: &str) -> Result<Real, Misread> {
    value.check().map_err(|why| match why {
        Broken::TooLarge => too_large(span.clone(), text),
        Broken::ByZero => Misread::new(span.clone(), format!("{text} has 0 below the line")),
        Broken::NotReal => unreadable(span.clone(), text),
    })
}

/// The fault of a number that is too large, shortened if it is long.
pub(super) fn too_large(span: Span, text: &str) -> Misread {
    let shown: String = text.chars().take(24).collect();
    let dots = if shown.len() < text.len() { "…" } else { "" };
    Misread::new(span, format!("{shown}{dots} is too large"))
}

fn vulgar(sign: &str) -> Real {
    VULGAR.iter().find(|row| row.0 == sign).map_or(Real::broken(Broken::NotReal), |(_, n, d)| Real::ratio(*n, *d))
}

/// A number in one piece.
fn simple(pair: &Pair) -> Result<(Real, Form), Misread> {
    Ok(if pair.as_rule() == Rule::vulgar {
        (vulgar(pair.as_str()), Form::Vulgar)
    } else if pair.as_rule() == Rule::frac {
        (fraction(pair)?, Form::Fraction)
    } else {
        decimal(pair.as_str())
    })
}

fn mixed(pair: &Pair) -> Result<(Real, Form), Misread> {
    let span = pair.as_span().start()..pair.as_span().end();
    let (mut whole, mut part, mut dashed) = (Real::ZERO, Real::ZERO, false);
    for inner in pair.clone().into_inner() {
        if inner.as_rule() == Rule::dash {
            dashed = true;
        } else if inner.as_rule() == Rule::whole {
            whole = simple(&inner)?.0;
        } else {
            part = simple(&inner)?.0;
        }
    }
    let proper = part < Real::ONE;
    let sum = whole + part;
    match (dashed, proper) {
        (true, proper) => Ok((sum, Form::Dashed { proper })),
        (false, true) => Ok((sum, Form::Mixed)),
        (false, false) => Err(improper(span, pair.as_str())),
    }
}

/// The fault of `15 4/2`.
pub(super) fn improper(span: Span, text: &str) -> Misread {
    let part = text.rsplit(|c: char| c.is_whitespace() || HYPHENS.contains(&c)).next().unwrap_or(text);
    Misread::new(span, says!("{} after a whole number is not a proper fraction", part))
}

fn fraction(pair: &Pair) -> Result<Real, Misread> {
    let span = pair.as_span().start()..pair.as_span().end();
    let mut parts = pair.clone().into_inner();
    let (Some(over), Some(under)) = (parts.next(), parts.next()) else {
        return Err(unreadable(span, pair.as_str()));
    };
    let (over, under) = (decimal(over.as_str()).0, decimal(under.as_str()).0);
    if under.is_zero() {
        return Err(Misread::new(span, format!("{} has 0 below the line", pair.as_str())));
    }
    Ok(match (over.to_whole(), under.to_whole()) {
        (Some(n), Some(d)) => Real::ratio(n, d),
        _ => match (over.to_big(), under.to_big()) {
            (Some(n), Some(d)) => Real::from_big(BigRational::new(n.to_integer(), d.to_integer())),
            _ => Real::broken(Broken::TooLarge),
        },
    })
}

/// A whole number or decimal; short ones, which are the usual case, need no big integer.
fn decimal(text: &str) -> (Real, Form) {
    let form = if text.contains(['.', 'e', 'E']) { Form::Decimal } else { Form::Whole };
    if text.len() > MOST_DIGITS && digits(text) > MOST_DIGITS {
        return (Real::broken(Broken::TooLarge), form);
    }
    (short(text).or_else(|| Real::from_decimal(text)).unwrap_or(Real::broken(Broken::TooLarge)), form)
}

fn digits(text: &str) -> usize {
    text.trim_start_matches(['0', '_']).bytes().filter(u8::is_ascii_digit).count()
}

fn short(text: &str) -> Option<Real> {
    if text.len() > 18 {
        return None;
    }
    let (mut value, mut scale, mut behind) = (0_i64, 1_i64, false);
    for byte in text.bytes() {
        match byte {
            b'0'..=b'9' => {
                value = value * 10 + i64::from(byte - b'0');
                scale *= if behind { 10 } else { 1 };
            }
            b'.' => behind = true,
            b'_' => {}
            _ => return None,
        }
    }
    Some(if behind { Real::ratio(value, scale) } else { Real::whole(value) })
}
