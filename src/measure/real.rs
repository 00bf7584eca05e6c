//! The storage of all quantities: an exact fraction where possible, and marked where not.

mod format;

#[cfg(test)]
mod tests;

use std::cmp::Ordering;
use std::fmt;
use std::ops::{Add, Div, Mul, Neg, Rem, Sub};
use std::sync::Arc;

use num_bigint::{BigInt, Sign};
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{CheckedAdd, CheckedMul, FromPrimitive, Num, One, Signed, ToPrimitive, Zero};

/// A number of the bench: an exact fraction, an approximation, or the reason why there is no number.
///
/// A fraction whose parts fit 64 bits is stored in place; a longer one spills to a big fraction, and returns when it
/// fits again. A root or a sine gives an approximation, and so does arithmetic with one (except times an exact zero).
/// Nothing wraps and nothing panics: faults are carried along, and [`Real::check`] reports them.
#[derive(Clone, Debug)]
pub struct Real(Repr);

// With a tag of one byte, copies move odd bits; whole words are twice as fast.
#[derive(Clone, Debug)]
#[repr(u64)]
enum Repr {
    /// Numerator and denominator in lowest terms, denominator above 0.
    Small(i64, i64),
    /// In lowest terms, and too large for `Small`.
    Big(Arc<BigRational>),
    /// Finite.
    Approximate(f64),
    Broken(Broken),
}

/// Why there is no number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Broken {
    /// More than 4096 bits, or beyond the range of an approximation.
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

impl crate::diag::Fault for Broken {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::value::ARITHMETIC
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

/// The most bits that a numerator or a denominator may have.
pub const MOST_BITS: u64 = 4096;

/// Every whole number up to here is exact as a float.
const WHOLE_IN_F64: u64 = 1 << 53;

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

    /// The reason why there is no number.
    pub const fn broken(why: Broken) -> Self {
        Self(Repr::Broken(why))
    }

    /// The number, or why it does not exist.
    ///
    /// # Errors
    /// The first fault of the arithmetic.
    pub fn check(self) -> Result<Self, Broken> {
        match self.0 {
            Repr::Broken(why) => Err(why),
            Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) => Ok(self),
        }
    }

    /// Whether the number comes from a root or a sine.
    pub fn is_approximate(&self) -> bool {
        matches!(self.0, Repr::Approximate(_))
    }

    /// Whether it is the exact zero.
    pub fn is_exact_zero(&self) -> bool {
        matches!(self.0, Repr::Small(0, _))
    }

    /// Whether both value and mark are equal.
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

    /// The exact fraction, if there is one.
    pub fn to_big(&self) -> Option<BigRational> {
        match &self.0 {
            Repr::Small(n, d) => Some(BigRational::new_raw((*n).into(), (*d).into())),
            Repr::Big(value) => Some(BigRational::clone(value)),
            Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// Numerator and denominator, if both fit 128 bits: enough for weights, and much faster than big fractions.
    fn wide(&self) -> Option<(i128, i128)> {
        match &self.0 {
            Repr::Small(n, d) => Some((i128::from(*n), i128::from(*d))),
            Repr::Big(value) => value.numer().to_i128().zip(value.denom().to_i128()),
            Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// Numerator and denominator, if both fit 64 bits.
    pub fn to_parts(&self) -> Option<(i64, i64)> {
        match self.0 {
            Repr::Small(n, d) => Some((n, d)),
            Repr::Big(_) | Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// Two words that no other number has, for a table of numbers; nothing for a long fraction or a fault.
    pub fn identity(&self) -> Option<(i64, i64)> {
        match self.0 {
            Repr::Small(n, d) => Some((n, d)),
            // No fraction has a denominator of 0.
            Repr::Approximate(value) => Some((i64::from_ne_bytes(value.to_ne_bytes()), 0)),
            Repr::Big(_) | Repr::Broken(_) => None,
        }
    }

    /// The whole number, if it is one and fits 64 bits.
    pub fn to_whole(&self) -> Option<i64> {
        match self.0 {
            Repr::Small(n, 1) => Some(n),
            Repr::Small(..) | Repr::Big(_) | Repr::Approximate(_) | Repr::Broken(_) => None,
        }
    }

    /// The nearest floating-point number; for drawing, roots and sines only, never for a length on its way to the saw.
    pub fn to_f64(&self) -> f64 {
        match &self.0 {
            // Within these bounds both parts are exact as floats, so the division rounds once.
            Repr::Small(n, d) if n.unsigned_abs() <= WHOLE_IN_F64 && d.unsigned_abs() <= WHOLE_IN_F64 => {
                n.to_f64().zip(d.to_f64()).map_or(f64::NAN, |(n, d)| n / d)
            }
            Repr::Small(n, d) => BigRational::new_raw((*n).into(), (*d).into()).to_f64().unwrap_or(f64::NAN),
            Repr::Big(value) => value.to_f64().unwrap_or(f64::NAN),
            Repr::Approximate(value) => *value,
            Repr::Broken(_) => f64::NAN,
        }
    }

    /// The decimal that a person would write for an approximate number, or the exact number.
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
            Repr::Approximate(value) => match value.floor().to_i64() {
                Some(whole) => Self::whole(whole),
                None => BigRational::from_f64(value.floor()).map_or(Self::broken(Broken::NotReal), Self::from_big),
            },
            Repr::Broken(why) => Self::broken(*why),
        }
    }

    /// The least whole number at or above it.
    pub fn ceil(&self) -> Self {
        -(-self.clone()).floor()
    }

    /// The absolute value.
    pub fn abs(&self) -> Self {
        if self.is_negative() { -self.clone() } else { self.clone() }
    }

    /// Whether the number is below zero.
    pub fn is_negative(&self) -> bool {
        match &self.0 {
            Repr::Small(n, _) => *n < 0,
            Repr::Big(value) => value.is_negative(),
            Repr::Approximate(value) => *value < 0.0,
            Repr::Broken(_) => false,
        }
    }

    /// Whether the number is above zero.
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

    /// The number to a whole power, which may be negative.
    pub fn power(&self, exponent: i64) -> Self {
        if matches!(self.0, Repr::Broken(_)) {
            return self.clone();
        }
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
}

/// Integers of a fixed width, for fractions whose sums and products fit.
trait Width: Copy + Integer + CheckedAdd + CheckedMul {
    /// The greatest common divisor of a number and a positive one.
    fn shared(self, other: Self) -> Self;
}

impl Width for i64 {
    fn shared(self, other: Self) -> Self {
        // On a tape, both are mostly powers of two.
        if other & (other - 1) == 0 {
            return if self == 0 { other } else { other.min(1 << self.trailing_zeros().min(62)) };
        }
        self.gcd(&other)
    }
}

impl Width for i128 {
    fn shared(self, other: Self) -> Self {
        match (i64::try_from(self), i64::try_from(other)) {
            (Ok(short), Ok(other)) => short.shared(other).into(),
            _ => self.gcd(&other),
        }
    }
}

/// The sum of two fractions, all in lowest terms, if it fits.
fn sum<W: Width>((a, b): (W, W), (c, d): (W, W)) -> Option<(W, W)> {
    if b == d {
        let sum = a.checked_add(&c)?;
        let cancel = sum.shared(b);
        return Some((sum / cancel, b / cancel));
    }
    let g = b.shared(d);
    let sum = a.checked_mul(&(d / g))?.checked_add(&c.checked_mul(&(b / g))?)?;
    // What remains to cancel divides g.
    let cancel = sum.shared(g);
    Some((sum / cancel, (b / g).checked_mul(&(d / cancel))?))
}

/// The product of two fractions, all in lowest terms, if it fits.
fn product<W: Width>((a, b): (W, W), (c, d): (W, W)) -> Option<(W, W)> {
    let (left, right) = (a.shared(d), c.shared(b));
    Some(((a / left).checked_mul(&(c / right))?, (b / right).checked_mul(&(d / left))?))
}

impl Add for Real {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        if let (Repr::Small(a, b), Repr::Small(c, d)) = (&self.0, &other.0)
            && let Some((n, d)) = sum((*a, *b), (*c, *d))
        {
            return Self(Repr::Small(n, d));
        }
        match self.wide().zip(other.wide()).and_then(|(left, right)| sum(left, right)) {
            Some((n, d)) => Self::from_lowest(n, d),
            None => self.spill(&other, |a, b| Ok(a + b), |a, b| a + b),
        }
    }
}

impl Neg for Real {
    type Output = Self;
    fn neg(self) -> Self {
        match self.0 {
            Repr::Small(n, d) => match n.checked_neg() {
                Some(n) => Self(Repr::Small(n, d)),
                None => Self::from_lowest(-i128::from(n), i128::from(d)),
            },
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
            (Repr::Small(a, b), Repr::Small(c, d)) => {
                if let Some((n, d)) = product((*a, *b), (*c, *d)) {
                    return Self(Repr::Small(n, d));
                }
            }
            (Repr::Broken(_), _) | (_, Repr::Broken(_)) => {}
            (Repr::Small(0, _), _) | (_, Repr::Small(0, _)) => return Self::ZERO,
            _ => {}
        }
        match self.wide().zip(other.wide()).and_then(|(left, right)| product(left, right)) {
            Some((n, d)) => Self::from_lowest(n, d),
            None => self.spill(&other, |a, b| Ok(a * b), |a, b| a * b),
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
            (Repr::Small(..), Repr::Small(c, d)) if *c > i64::MIN => self * Self(Repr::Small(d * c.signum(), c.abs())),
            _ if self.is_exact_zero() && !matches!(other.0, Repr::Broken(_)) => Self::ZERO,
            _ => {
                let over = |(n, d): (i128, i128)| Some((d * n.signum(), n.checked_abs()?));
                let wide = self.wide().zip(other.wide().and_then(over)).and_then(|(left, right)| product(left, right));
                match wide {
                    Some((n, d)) => Self::from_lowest(n, d),
                    None => self.spill(&other, |a, b| Ok(a / b), |a, b| a / b),
                }
            }
        }
    }
}

/// The remainder after whole multiples, with the sign of the dividend.
impl Rem for Real {
    type Output = Self;
    fn rem(self, other: Self) -> Self {
        let ratio = self.clone() / other.clone();
        let whole = if ratio.is_negative() { ratio.ceil() } else { ratio.floor() };
        self - whole * other
    }
}

impl Real {
    /// The slow path: big fractions while both are exact, floating point otherwise.
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
        let is_rough = self.is_approximate() || other.is_approximate();
        match if is_rough { None } else { self.to_big().zip(other.to_big()) } {
            Some((a, b)) => exact(a, b).map_or_else(Self::broken, Self::from_big),
            None => Self::approximate(rough(self.to_f64(), other.to_f64())),
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
            (Repr::Approximate(_), _) | (_, Repr::Approximate(_)) => self.to_f64().partial_cmp(&other.to_f64()),
            // Most comparisons of long fractions are with zero, so the signs decide.
            (Repr::Big(a), Repr::Small(0, _)) => Some(a.numer().sign().cmp(&Sign::NoSign)),
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

/// The quantity library requires this of its storage; whole numbers in any base, decimals in base ten.
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
