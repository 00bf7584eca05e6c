//! The storage of every quantity: an exact fraction while it can be, and marked when it is not.

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Rem, Sub};
use std::sync::Arc;

use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{FromPrimitive, Num, One, Signed, ToPrimitive, Zero};

/// A number as the bench uses it: an exact fraction, an approximation, or the reason why there is none.
///
/// A fraction whose parts fit 64 bits is kept in place; a longer one spills to a big fraction and comes back when
/// it can. A root or a sine gives an approximation, and what is computed with one stays one (times an exact zero
/// excepted). Nothing wraps and nothing panics: what goes wrong is carried along and asked for with [`Real::check`].
#[derive(Clone, Debug)]
pub struct Real(Repr);

#[derive(Clone, Debug)]
enum Repr {
    /// Numerator and denominator in lowest terms, denominator above 0.
    Small(i64, i64),
    /// In lowest terms, and not of a size for `Small`.
    Big(Arc<BigRational>),
    /// Finite.
    Approximate(f64),
    Broken(Broken),
}

/// Why there is no number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Broken {
    /// More than 4096 bits, or past what an approximation can hold.
    TooLarge,
    /// Divided by zero.
    ByZero,
    /// The root of a negative, the angle of an impossible sine.
    NotReal,
}

impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TooLarge => "the number is too large",
            Self::ByZero => "this divides by zero",
            Self::NotReal => "there is no such number",
        })
    }
}

impl crate::diag::Fault for Broken {}

/// The most bits that a numerator or a denominator may have.
pub const MOST_BITS: u64 = 4096;

impl Real {
    /// Nought.
    pub const ZERO: Self = Self(Repr::Small(0, 1));
    /// One.
    pub const ONE: Self = Self(Repr::Small(1, 1));

    /// The whole number `value`.
    pub const fn whole(value: i64) -> Self {
        Self(Repr::Small(value, 1))
    }

    /// The fraction `numerator / denominator`, in lowest terms.
    pub fn ratio(numerator: i64, denominator: i64) -> Self {
        Self::from_wide(i128::from(numerator), i128::from(denominator))
    }

    /// An approximate number; not finite means broken.
    pub fn approximate(value: f64) -> Self {
        if value.is_finite() {
            Self(Repr::Approximate(value))
        } else if value.is_nan() {
            Self::broken(Broken::NotReal)
        } else {
            Self::broken(Broken::TooLarge)
        }
    }

    /// No number, and why.
    pub const fn broken(why: Broken) -> Self {
        Self(Repr::Broken(why))
    }

    /// The number itself, or why there is none.
    ///
    /// # Errors
    /// The first thing that went wrong on the way here.
    pub fn check(self) -> Result<Self, Broken> {
        match self.0 {
            Repr::Broken(why) => Err(why),
            Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) => Ok(self),
        }
    }

    /// Whether a root or a sine was in it.
    pub fn is_approximate(&self) -> bool {
        matches!(self.0, Repr::Approximate(_))
    }

    /// Whether it is the exact zero.
    pub fn is_exact_zero(&self) -> bool {
        matches!(self.0, Repr::Small(0, _))
    }

    /// Equal in value and in its mark: nothing about it changed.
    pub fn same(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Repr::Small(a, b), Repr::Small(c, d)) => a == c && b == d,
            (Repr::Big(a), Repr::Big(b)) => a == b,
            (Repr::Approximate(a), Repr::Approximate(b)) => a.total_cmp(b) == Ordering::Equal,
            (Repr::Broken(a), Repr::Broken(b)) => a == b,
            _ => false,
        }
    }

    fn from_wide(mut numerator: i128, mut denominator: i128) -> Self {
        if denominator == 0 {
            return Self::broken(Broken::ByZero);
        }
        let shared = numerator.gcd(&denominator);
        if shared != 1 {
            numerator /= shared;
            denominator /= shared;
        }
        if denominator < 0 {
            numerator = -numerator;
            denominator = -denominator;
        }
        Self::from_lowest(numerator, denominator)
    }

    fn from_lowest(numerator: i128, denominator: i128) -> Self {
        match (i64::try_from(numerator), i64::try_from(denominator)) {
            (Ok(n), Ok(d)) => Self(Repr::Small(n, d)),
            _ => Self(Repr::Big(Arc::new(BigRational::new_raw(numerator.into(), denominator.into())))),
        }
    }

    /// The fraction itself, in lowest terms whatever its size.
    pub fn from_big(value: BigRational) -> Self {
        if value.numer().bits() > MOST_BITS || value.denom().bits() > MOST_BITS {
            return Self::broken(Broken::TooLarge);
        }
        match (value.numer().to_i64(), value.denom().to_i64()) {
            (Some(n), Some(d)) => Self(Repr::Small(n, d)),
            _ => Self(Repr::Big(Arc::new(value))),
        }
    }

    /// The exact fraction, where there is one.
    pub fn to_big(&self) -> Option<BigRational> {
        match &self.0 {
            Repr::Small(n, d) => Some(BigRational::new_raw((*n).into(), (*d).into())),
            Repr::Big(value) => Some(BigRational::clone(value)),
            Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// Numerator and denominator where both fit 64 bits.
    pub fn to_parts(&self) -> Option<(i64, i64)> {
        match self.0 {
            Repr::Small(n, d) => Some((n, d)),
            Repr::Big(_) | Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// The whole number it is, where it is one of 64 bits.
    pub fn to_whole(&self) -> Option<i64> {
        match self.0 {
            Repr::Small(n, 1) => Some(n),
            Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// The nearest floating-point number; for drawing, roots and sines only, never for a length on its way to the saw.
    pub fn to_f64(&self) -> f64 {
        match &self.0 {
            Repr::Small(n, d) => match (n.to_f64(), d.to_f64()) {
                (Some(n), Some(d)) => n / d,
                _ => f64::NAN,
            },
            Repr::Big(value) => value.to_f64().unwrap_or(f64::NAN),
            Repr::Approximate(value) => *value,
            Repr::Broken(_) => f64::NAN,
        }
    }

    /// The fraction nearest to an approximate number that a person would write, or the number itself.
    fn exactly(&self) -> Option<BigRational> {
        match &self.0 {
            Repr::Approximate(value) => BigRational::from_f64(*value),
            Repr::Small(..) | Repr::Big(_) | Repr::Broken(_) => self.to_big(),
        }
    }

    /// The greatest whole number at or below it.
    pub fn floor(&self) -> Self {
        match &self.0 {
            Repr::Small(n, d) => Self::whole(Integer::div_floor(n, d)),
            Repr::Big(value) => Self::from_big(value.floor()),
            Repr::Approximate(value) => {
                BigRational::from_f64(value.floor()).map_or(Self::broken(Broken::NotReal), Self::from_big)
            }
            Repr::Broken(why) => Self::broken(*why),
        }
    }

    /// The least whole number at or above it.
    pub fn ceil(&self) -> Self {
        -(-self.clone()).floor()
    }

    /// Without its sign.
    pub fn abs(&self) -> Self {
        if self.is_negative() { -self.clone() } else { self.clone() }
    }

    /// Below zero.
    pub fn is_negative(&self) -> bool {
        match &self.0 {
            Repr::Small(n, _) => *n < 0,
            Repr::Big(value) => value.is_negative(),
            Repr::Approximate(value) => *value < 0.0,
            Repr::Broken(_) => false,
        }
    }

    /// Above zero.
    pub fn is_positive(&self) -> bool {
        !self.is_negative() && !self.is_zero() && !matches!(self.0, Repr::Broken(_))
    }

    /// The square root: exact where the number is the square of a fraction, approximate otherwise.
    pub fn sqrt(&self) -> Self {
        if self.is_negative() {
            return Self::broken(Broken::NotReal);
        }
        if let Some(value) = self.to_big() {
            let (n, d) = (value.numer().sqrt(), value.denom().sqrt());
            if &(&n * &n) == value.numer() && &(&d * &d) == value.denom() {
                return Self::from_big(BigRational::new_raw(n, d));
            }
        }
        self.roughly(f64::sqrt)
    }

    /// `function` of the nearest floating-point number, approximate.
    pub fn roughly(&self, function: impl Fn(f64) -> f64) -> Self {
        match self.0 {
            Repr::Broken(why) => Self::broken(why),
            Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) => Self::approximate(function(self.to_f64())),
        }
    }

    /// To the power of a whole number, negative ones as well.
    pub fn power(&self, exponent: i64) -> Self {
        let mut left = exponent.unsigned_abs();
        let mut square = if exponent < 0 { Self::ONE / self.clone() } else { self.clone() };
        let mut result = Self::ONE;
        while left > 0 {
            if left % 2 == 1 {
                result = result * square.clone();
            }
            left /= 2;
            if left > 0 {
                square = square.clone() * square;
                if matches!(square.0, Repr::Broken(_)) {
                    return square;
                }
            }
        }
        result
    }

    /// Reads a decimal exactly: `12`, `0.4`, `1e3`, `1.5e-2`, underscores between digits.
    pub fn from_decimal(text: &str) -> Option<Self> {
        let text = text.replace('_', "");
        let (mantissa, exponent) = match text.split_once(['e', 'E']) {
            Some((mantissa, exponent)) => (mantissa, exponent.parse::<i64>().ok()?),
            None => (text.as_str(), 0),
        };
        let (before, after) = mantissa.split_once('.').unwrap_or((mantissa, ""));
        let digits: BigInt = format!("{before}{after}").parse().ok()?;
        // Past this many places no number stays within the bits allowed, so the power is not worth forming.
        let places = i64::try_from(after.len()).ok()?.checked_sub(exponent)?;
        if places.abs() > 1300 {
            return Some(if digits.is_zero() { Self::ZERO } else { Self::broken(Broken::TooLarge) });
        }
        let scale = BigInt::from(10).pow(u32::try_from(places.abs()).ok()?);
        let value =
            if places >= 0 { BigRational::new(digits, scale) } else { BigRational::from_integer(digits * scale) };
        Some(Self::from_big(value))
    }

    /// The exact value as text: `91/8`, `-3`; of an approximate one its shortest decimal.
    pub fn to_text(&self) -> String {
        match &self.0 {
            Repr::Small(n, 1) => n.to_string(),
            Repr::Small(n, d) => format!("{n}/{d}"),
            Repr::Big(value) => value.to_string(),
            Repr::Approximate(value) => value.to_string(),
            Repr::Broken(why) => why.to_string(),
        }
    }

    /// As a decimal with at most `places` digits after the point, halves away from zero, trailing zeros kept.
    pub fn to_fixed(&self, places: u32) -> String {
        let Some(value) = self.exactly() else {
            return self.to_text();
        };
        let scale = BigInt::from(10).pow(places);
        let scaled = (value.abs() * BigRational::from_integer(scale.clone()) + BigRational::new(1.into(), 2.into()))
            .floor()
            .to_integer();
        let sign = if value.is_negative() && !scaled.is_zero() { "-" } else { "" };
        let (before, after) = scaled.div_rem(&scale);
        if places == 0 {
            return format!("{sign}{before}");
        }
        let after = after.to_string();
        let width = usize::try_from(places).unwrap_or(after.len());
        format!("{sign}{before}.{after:0>width$}")
    }

    /// As a decimal with at most `places` digits after the point, trailing zeros dropped.
    pub fn to_decimal(&self, places: u32) -> String {
        let text = self.to_fixed(places);
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
    }

    /// Whether its decimal form ends within `places` digits.
    pub fn ends_within(&self, places: u32) -> bool {
        self.to_big()
            .is_some_and(|value| (value * BigRational::from_integer(BigInt::from(10).pow(places))).is_integer())
    }
}

/// The greatest common divisor of two positive numbers; on a tape both are mostly powers of two.
fn shared(left: i64, right: i64) -> i64 {
    if left == right {
        return left;
    }
    if left & (left - 1) == 0 && right & (right - 1) == 0 {
        return left.min(right);
    }
    left.gcd(&right)
}

impl Add for Real {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        match (&self.0, &other.0) {
            (Repr::Small(a, 1), Repr::Small(c, 1)) => Self::from_lowest(i128::from(*a) + i128::from(*c), 1),
            (Repr::Small(a, b), Repr::Small(c, d)) => {
                let g = shared(*b, *d);
                let sum = i128::from(*a) * i128::from(d / g) + i128::from(*c) * i128::from(b / g);
                // What is left to cancel divides g alone.
                let rest = i64::try_from(sum % i128::from(g)).unwrap_or(0);
                let cancel = if rest == 0 { g } else { rest.gcd(&g) };
                Self::from_lowest(sum / i128::from(cancel), i128::from(b / g) * i128::from(d / cancel))
            }
            _ => self.spill(&other, |a, b| Ok(a + b), |a, b| a + b),
        }
    }
}

impl Neg for Real {
    type Output = Self;
    fn neg(self) -> Self {
        match self.0 {
            Repr::Small(n, d) => Self::from_lowest(-i128::from(n), i128::from(d)),
            Repr::Big(value) => Self::from_big(-BigRational::clone(&value)),
            Repr::Approximate(value) => Self(Repr::Approximate(-value)),
            Repr::Broken(_) => self,
        }
    }
}

impl Sub for Real {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Mul for Real {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        match (&self.0, &other.0) {
            (Repr::Small(i64::MIN, b), Repr::Small(c, d)) | (Repr::Small(c, d), Repr::Small(i64::MIN, b)) => {
                Self::from_wide(i128::from(i64::MIN) * i128::from(*c), i128::from(*b) * i128::from(*d))
            }
            (Repr::Small(a, b), Repr::Small(c, d)) => {
                let left = if *a == 0 { *d } else { shared(a.abs(), *d) };
                let right = if *c == 0 { *b } else { shared(c.abs(), *b) };
                Self::from_lowest(
                    i128::from(a / left) * i128::from(c / right),
                    i128::from(b / right) * i128::from(d / left),
                )
            }
            _ if self.is_exact_zero() && !matches!(other.0, Repr::Broken(_)) => Self::ZERO,
            _ if other.is_exact_zero() && !matches!(self.0, Repr::Broken(_)) => Self::ZERO,
            _ => self.spill(&other, |a, b| Ok(a * b), |a, b| a * b),
        }
    }
}

impl Div for Real {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        if other.is_zero() {
            return match self.0 {
                Repr::Broken(_) => self,
                Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) => Self::broken(Broken::ByZero),
            };
        }
        match (&self.0, &other.0) {
            (Repr::Small(a, b), Repr::Small(i64::MIN, d)) => {
                Self::from_wide(i128::from(*a) * i128::from(*d), i128::from(*b) * i128::from(i64::MIN))
            }
            (Repr::Small(..), Repr::Small(c, d)) => self * Self(Repr::Small(d * c.signum(), c.abs())),
            _ if self.is_exact_zero() && !matches!(other.0, Repr::Broken(_)) => Self::ZERO,
            _ => self.spill(&other, |a, b| Ok(a / b), |a, b| a / b),
        }
    }
}

/// What is left after taking away whole multiples, with the sign of the divisor's multiple rounded toward zero.
impl Rem for Real {
    type Output = Self;
    fn rem(self, other: Self) -> Self {
        if other.is_zero() {
            return Self::broken(Broken::ByZero);
        }
        let ratio = self.clone() / other.clone();
        let whole = if ratio.is_negative() { ratio.ceil() } else { ratio.floor() };
        self - whole * other
    }
}

impl Real {
    /// The slow road: big fractions while both are exact, floating point once one is not.
    fn spill(
        &self,
        other: &Self,
        exact: impl Fn(BigRational, BigRational) -> Result<BigRational, Broken>,
        rough: impl Fn(f64, f64) -> f64,
    ) -> Self {
        if let Repr::Broken(why) = self.0 {
            return Self::broken(why);
        }
        if let Repr::Broken(why) = other.0 {
            return Self::broken(why);
        }
        match (self.to_big(), other.to_big()) {
            (Some(a), Some(b)) => exact(a, b).map_or_else(Self::broken, Self::from_big),
            _ => Self::approximate(rough(self.to_f64(), other.to_f64())),
        }
    }
}

/// Equal in value, whatever the mark; [`Real::same`] looks at the mark too.
impl PartialEq for Real {
    fn eq(&self, other: &Self) -> bool {
        self.partial_cmp(other) == Some(Ordering::Equal)
    }
}

impl PartialOrd for Real {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        match (&self.0, &other.0) {
            (Repr::Small(a, b), Repr::Small(c, d)) if b == d => Some(a.cmp(c)),
            (Repr::Small(a, b), Repr::Small(c, d)) => {
                Some((i128::from(*a) * i128::from(*d)).cmp(&(i128::from(*c) * i128::from(*b))))
            }
            (Repr::Broken(_), _) | (_, Repr::Broken(_)) => None,
            _ => match (self.to_big(), other.to_big()) {
                (Some(a), Some(b)) => Some(a.cmp(&b)),
                _ => self.to_f64().partial_cmp(&other.to_f64()),
            },
        }
    }
}

impl Zero for Real {
    fn zero() -> Self {
        Self::ZERO
    }
    fn is_zero(&self) -> bool {
        match self.0 {
            Repr::Small(n, _) => n == 0,
            Repr::Approximate(value) => value == 0.0,
            Repr::Big(_) | Repr::Broken(_) => false,
        }
    }
}

impl One for Real {
    fn one() -> Self {
        Self::ONE
    }
}

/// Required by the quantity library of its storage; whole numbers in any base, decimals in base ten.
impl Num for Real {
    type FromStrRadixErr = Broken;
    fn from_str_radix(text: &str, radix: u32) -> Result<Self, Broken> {
        if radix == 10 {
            return Self::from_decimal(text).ok_or(Broken::NotReal)?.check();
        }
        let digits = BigInt::from_str_radix(text, radix).map_err(|_| Broken::NotReal)?;
        Self::from_big(BigRational::from_integer(digits)).check()
    }
}

impl uom::Conversion<Real> for Real {
    type T = Self;
    fn conversion(&self) -> Self {
        self.clone()
    }
}

impl uom::ConversionFactor<Real> for Real {
    fn powi(self, exponent: i32) -> Self {
        self.power(i64::from(exponent))
    }
    fn value(self) -> Self {
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: Real, expected: &str) {
        assert_eq!(value.to_text(), expected);
    }

    #[test]
    fn fractions_stay_in_lowest_terms() {
        check(Real::ratio(1, 3) + Real::ratio(1, 6), "1/2");
        check(Real::ratio(3, 8) + Real::ratio(5, 8), "1");
        check(Real::ratio(3, 4) * Real::ratio(8, 9), "2/3");
        check(Real::ratio(3, 4) / Real::ratio(-9, 8), "-2/3");
        check(Real::ratio(7, 16) - Real::ratio(1, 2), "-1/16");
        check(Real::ratio(7, 2) % Real::whole(1), "1/2");
    }

    #[test]
    fn a_long_sum_spills_and_comes_back() {
        // 1/2 + 1/3 + 1/5 + … over the primes: a 64-bit ratio goes wrong without a word at 1/43.
        let primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61];
        let sum = primes.iter().fold(Real::ZERO, |sum, &p| sum + Real::ratio(1, p));
        let back = primes.iter().fold(sum.clone(), |sum, &p| sum - Real::ratio(1, p));
        assert!(sum.to_parts().is_none());
        check(back, "0");
    }

    #[test]
    fn nothing_wraps() {
        let top = Real::whole(i64::MAX);
        check(top.clone() + Real::ONE, "9223372036854775808");
        check(-Real::whole(i64::MIN), "9223372036854775808");
        check(Real::whole(i64::MIN) * Real::ratio(1, 2), "-4611686018427387904");
        check(Real::ratio(i64::MIN, i64::MIN), "1");
        let mut product = top;
        for _ in 0..10 {
            product = product.clone() * product;
        }
        assert_eq!(product.check().unwrap_err(), Broken::TooLarge);
        assert_eq!(Real::whole(10).power(4_000_000).check().unwrap_err(), Broken::TooLarge);
    }

    #[test]
    fn by_zero_is_said() {
        assert_eq!((Real::ONE / Real::ZERO).check().unwrap_err(), Broken::ByZero);
        assert_eq!((Real::ONE % Real::ZERO).check().unwrap_err(), Broken::ByZero);
        assert_eq!((Real::ZERO * (Real::ONE / Real::ZERO)).check().unwrap_err(), Broken::ByZero);
    }

    #[test]
    fn roots_are_exact_where_they_can_be() {
        check(Real::ratio(9, 16).sqrt(), "3/4");
        assert!(!Real::ratio(9, 16).sqrt().is_approximate());
        assert!(Real::whole(2).sqrt().is_approximate());
        assert_eq!((-Real::ONE).sqrt().check().unwrap_err(), Broken::NotReal);
        let rough = Real::whole(2).sqrt();
        assert!((rough.clone() + Real::ONE).is_approximate());
        check(rough * Real::ZERO, "0");
    }

    #[test]
    fn decimals_are_read_and_written_exactly() {
        check(Real::from_decimal("40.5").unwrap(), "81/2");
        check(Real::from_decimal("1e3").unwrap(), "1000");
        check(Real::from_decimal("1_000.25").unwrap(), "4001/4");
        assert!(Real::from_decimal("1e999999999").unwrap().check().is_err());
        assert_eq!(Real::ratio(381, 20).to_fixed(1), "19.1");
        assert_eq!(Real::ratio(-381, 20).to_fixed(1), "-19.1");
        assert_eq!(Real::ratio(-1, 100).to_fixed(1), "0.0");
        assert_eq!(Real::ratio(1, 8).to_decimal(6), "0.125");
        assert_eq!(Real::whole(100).to_decimal(0), "100");
    }

    #[test]
    fn order_holds_across_the_forms() {
        assert!(Real::ratio(1, 3) < Real::ratio(3, 8));
        assert!(Real::whole(2).sqrt() < Real::ratio(3, 2));
        assert!(Real::whole(i64::MAX) < Real::whole(i64::MAX) + Real::ONE);
        assert!(Real::ratio(1, 2) == Real::approximate(0.5));
        assert!(!Real::ratio(1, 2).same(&Real::approximate(0.5)));
    }
}
