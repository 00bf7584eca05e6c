//! Numbers as text: exact fractions, decimals, and the stored form.

use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{Signed, Zero};

use super::{Broken, Real, Repr};

impl Real {
    /// Reads a decimal exactly: `12`, `0.4`, `1e3`, `1.5e-2`, underscores between digits.
    pub fn from_decimal(text: &str) -> Option<Self> {
        let text = joined(text)?;
        let (mantissa, exponent) = match text.split_once(['e', 'E']) {
            Some((mantissa, exponent)) => (mantissa, exponent.parse::<i64>().ok()?),
            None => (text.as_str(), 0),
        };
        let (before, after) = mantissa.split_once('.').unwrap_or((mantissa, ""));
        if !after.bytes().all(|digit| digit.is_ascii_digit()) {
            return None;
        }
        let digits: BigInt = format!("{before}{after}").parse().ok()?;
        // With more places no number stays within the bits allowed, so the power is not formed.
        let places = i64::try_from(after.len()).ok()?.checked_sub(exponent)?;
        if places.abs() > 1300 {
            return Some(if digits.is_zero() { Self::ZERO } else { Self::broken(Broken::TooLarge) });
        }
        let scale = BigInt::from(10).pow(u32::try_from(places.abs()).ok()?);
        let value =
            if places >= 0 { BigRational::new(digits, scale) } else { BigRational::from_integer(digits * scale) };
        Some(Self::from_big(value))
    }

    /// Reads an exact number as [`Real::to_text`] writes it.
    pub fn from_text(text: &str) -> Option<Self> {
        let (n, d) = text.split_once('/').unwrap_or((text, "1"));
        if let (Ok(n), Ok(d)) = (n.parse::<i64>(), d.parse::<i64>()) {
            return Some(Self::ratio(n, d)).filter(|_| d != 0);
        }
        let (n, d): (BigInt, BigInt) = (n.parse().ok()?, d.parse().ok()?);
        (!d.is_zero()).then(|| Self::from_big(BigRational::new(n, d)))
    }

    /// The exact value as text: `91/8`, `-3`; for an approximate one its shortest decimal.
    pub fn to_text(&self) -> String {
        match &self.0 {
            Repr::Small(n, 1) => n.to_string(),
            Repr::Small(n, d) => format!("{n}/{d}"),
            Repr::Big(value) => value.to_string(),
            Repr::Approximate(value) => value.to_string(),
            Repr::Broken(why) => why.to_string(),
        }
    }

    /// As a decimal with `places` digits after the point, halves away from zero.
    pub fn to_fixed(&self, places: u32) -> String {
        if let Some(text) = self.to_fixed_small(places) {
            return text;
        }
        let Some(value) = self.exactly() else {
            return self.to_text();
        };
        let scale = BigInt::from(10).pow(places);
        let (n, d) = (value.numer().abs(), value.denom());
        let scaled: BigInt = (n * &scale * 2 + d) / (d * 2);
        let sign = if value.is_negative() && !scaled.is_zero() { "-" } else { "" };
        let (before, after) = scaled.div_rem(&scale);
        if places == 0 {
            return format!("{sign}{before}");
        }
        let after = after.to_string();
        let width = usize::try_from(places).unwrap_or(after.len());
        format!("{sign}{before}.{after:0>width$}")
    }

    /// The fast path of [`Real::to_fixed`], for values that fit wide integers.
    fn to_fixed_small(&self, places: u32) -> Option<String> {
        if let Repr::Approximate(value) = self.0 {
            let text = format!("{value:.*}", usize::try_from(places).ok()?);
            let is_nought = text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.'));
            return Some(if is_nought { text.trim_start_matches('-').to_string() } else { text });
        }
        let (n, d) = self.to_parts()?;
        let (n, d) = (i128::from(n), i128::from(d));
        let scale = 10_i128.checked_pow(places)?;
        let scaled = (n.abs().checked_mul(scale)?.checked_mul(2)? + d) / (2 * d);
        let sign = if n < 0 && scaled != 0 { "-" } else { "" };
        let width = usize::try_from(places).ok()?;
        Some(match places {
            0 => format!("{sign}{scaled}"),
            _ => format!("{sign}{}.{:0>width$}", scaled / scale, scaled % scale),
        })
    }

    /// As a decimal with at most `places` digits after the point, trailing zeros dropped.
    pub fn to_decimal(&self, places: u32) -> String {
        let text = self.to_fixed(places);
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
    }

    /// Whether its decimal form ends within `places` digits.
    pub fn ends_within(&self, places: u32) -> bool {
        match &self.0 {
            // In lowest terms it ends if the denominator divides a power of ten.
            Repr::Small(_, d) => match 10_i64.checked_pow(places) {
                Some(power) => power % d == 0,
                None => (BigInt::from(10).pow(places) % d).is_zero(),
            },
            Repr::Big(value) => (BigInt::from(10).pow(places) % value.denom()).is_zero(),
            Repr::Approximate(_) | Repr::Broken(_) => false,
        }
    }
}

/// The text without underscores between digits; none if one is elsewhere.
fn joined(text: &str) -> Option<String> {
    let parts: Vec<&str> = text.split('_').collect();
    let digit = |letter: char| letter.is_ascii_digit();
    let between =
        parts.iter().zip(parts.iter().skip(1)).all(|(left, right)| left.ends_with(digit) && right.starts_with(digit));
    between.then(|| parts.concat())
}

/// Stored as its exact text.
impl serde::Serialize for Real {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.to_text())
    }
}

impl<'de> serde::Deserialize<'de> for Real {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = <&str>::deserialize(deserializer)?;
        Self::from_text(text).ok_or_else(|| serde::de::Error::custom("not a fraction"))
    }
}
