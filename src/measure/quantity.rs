//! A number with its kind, as the prompt, the rules and the scripts handle it.

use std::cmp::Ordering;
use std::fmt;

use super::{Broken, Kind, Real};
use crate::diag::Fault;

/// An amount in the storage unit of its kind: inches, square inches, pounds, degrees, minutes.
#[derive(Clone, Debug)]
pub struct Quantity {
    /// The amount, in the storage unit of the kind.
    pub amount: Real,
    /// The kind.
    pub kind: Kind,
}

/// The fault of arithmetic on quantities.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unlike {
    /// The kinds differ: the verb (`add`, `compare`), and both kinds in the order written.
    Kinds(&'static str, Kind, Kind),
    /// A temperature was to be added or multiplied.
    Reading(&'static str, Kind),
    /// A function takes another kind.
    Wants(&'static str, &'static str, Kind),
    /// The powers of the kind are out of range.
    Powers,
    /// The arithmetic itself failed.
    Broken(Broken),
}

impl fmt::Display for Unlike {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Kinds(verb, left, right) => {
                write!(f, "cannot {verb} {} and {}", left.with_article(), right.with_article())
            }
            Self::Reading(verb, kind) => {
                write!(f, "cannot {verb} {}: it is a reading, not an amount", kind.with_article())
            }
            Self::Wants(name, what, kind) => write!(f, "{name} takes {what}, not {}", kind.with_article()),
            Self::Powers => f.write_str("too many multiplications of kinds"),
            Self::Broken(why) => why.fmt(f),
        }
    }
}

impl Fault for Unlike {
    fn code(&self) -> &'static crate::diag::Code {
        match self {
            Self::Broken(_) => &crate::diag::codes::value::ARITHMETIC,
            Self::Kinds(..) | Self::Reading(..) | Self::Wants(..) | Self::Powers => &crate::diag::codes::value::KIND,
        }
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl From<Broken> for Unlike {
    fn from(why: Broken) -> Self {
        Self::Broken(why)
    }
}

impl Quantity {
    /// `amount` storage units of `kind`.
    pub const fn new(amount: Real, kind: Kind) -> Self {
        Self { amount, kind }
    }

    /// A plain number.
    pub const fn number(amount: Real) -> Self {
        Self::new(amount, Kind::NUMBER)
    }

    /// A length in inches.
    pub const fn inches(amount: Real) -> Self {
        Self::new(amount, Kind::LENGTH)
    }

    fn sound(amount: Real, kind: Kind) -> Result<Self, Unlike> {
        Ok(Self::new(amount.check()?, kind))
    }

    fn like(&self, other: &Self, verb: &'static str) -> Result<(), Unlike> {
        if self.kind == other.kind { Ok(()) } else { Err(Unlike::Kinds(verb, self.kind, other.kind)) }
    }

    fn amounts(&self, verb: &'static str) -> Result<(), Unlike> {
        if self.kind == Kind::TEMPERATURE { Err(Unlike::Reading(verb, self.kind)) } else { Ok(()) }
    }

    /// The sum of two like quantities.
    ///
    /// # Errors
    /// The kinds differ, one is a temperature, or the number is too large.
    pub fn add(&self, other: &Self) -> Result<Self, Unlike> {
        self.like(other, "add")?;
        self.amounts("add")?;
        Self::sound(self.amount.clone() + other.amount.clone(), self.kind)
    }

    /// The difference of two like quantities.
    ///
    /// # Errors
    /// The kinds differ, one is a temperature, or the number is too large.
    pub fn subtract(&self, other: &Self) -> Result<Self, Unlike> {
        self.like(other, "subtract")?;
        self.amounts("subtract")?;
        Self::sound(self.amount.clone() - other.amount.clone(), self.kind)
    }

    /// The product, whose kind is the product of the kinds.
    ///
    /// # Errors
    /// One is a temperature, the number is too large, or powers are out of range.
    pub fn multiply(&self, other: &Self) -> Result<Self, Unlike> {
        self.amounts("multiply")?;
        other.amounts("multiply")?;
        let kind = (self.kind * other.kind).ok_or(Unlike::Powers)?;
        Self::sound(self.amount.clone() * other.amount.clone(), kind)
    }

    /// The ratio, whose kind is the ratio of the kinds.
    ///
    /// # Errors
    /// The divisor is zero, one is a temperature, or the number is too large.
    pub fn divide(&self, other: &Self) -> Result<Self, Unlike> {
        self.amounts("divide")?;
        other.amounts("divide")?;
        let kind = (self.kind / other.kind).ok_or(Unlike::Powers)?;
        Self::sound(self.amount.clone() / other.amount.clone(), kind)
    }

    /// The remainder after whole multiples of a like quantity.
    ///
    /// # Errors
    /// The kinds differ, the divisor is zero, or one is a temperature.
    pub fn remainder(&self, other: &Self) -> Result<Self, Unlike> {
        self.like(other, "divide")?;
        self.amounts("divide")?;
        Self::sound(self.amount.clone() % other.amount.clone(), self.kind)
    }

    /// To a whole power.
    ///
    /// # Errors
    /// The number is too large, powers are out of range, or zero has a negative power.
    pub fn power(&self, exponent: i64) -> Result<Self, Unlike> {
        self.amounts("multiply")?;
        let kind = self.kind.power(exponent).ok_or(Unlike::Powers)?;
        Self::sound(self.amount.power(exponent), kind)
    }

    /// The quantity with the opposite sign.
    ///
    /// # Errors
    /// A temperature: the opposite sign in storage is another temperature (−5 °C is 23 °F, not −41 °F).
    pub fn negate(&self) -> Result<Self, Unlike> {
        self.amounts("negate")?;
        Self::sound(-self.amount.clone(), self.kind)
    }

    /// The order of two like quantities.
    ///
    /// # Errors
    /// The kinds differ.
    pub fn compare(&self, other: &Self) -> Result<Ordering, Unlike> {
        self.like(other, "compare")?;
        self.amount.partial_cmp(&other.amount).ok_or(Unlike::Broken(Broken::NotReal))
    }

    /// The square root.
    ///
    /// # Errors
    /// The quantity is negative, or its kind is not a square.
    pub fn root(&self) -> Result<Self, Unlike> {
        let kind = self.kind.root().ok_or(Unlike::Wants("sqrt", "a number or an area", self.kind))?;
        Self::sound(self.amount.sqrt(), kind)
    }

    /// Sine, cosine or tangent of an angle: exact at the tabled angles, approximate elsewhere.
    ///
    /// # Errors
    /// The quantity is not an angle, or the tangent is of a right angle.
    pub fn turn(&self, function: Turn) -> Result<Self, Unlike> {
        if self.kind != Kind::ANGLE {
            return Err(Unlike::Wants(function.name(), "an angle", self.kind));
        }
        Ok(Self::number(function.of_degrees(&self.amount).check()?))
    }

    /// The angle whose sine, cosine or tangent this number is.
    ///
    /// # Errors
    /// The quantity is not a plain number, or no angle has this value.
    pub fn turn_back(&self, function: Turn) -> Result<Self, Unlike> {
        if self.kind != Kind::NUMBER {
            return Err(Unlike::Wants(function.back_name(), "a number", self.kind));
        }
        Ok(Self::new(function.back_to_degrees(&self.amount).check()?, Kind::ANGLE))
    }

    /// Same kind, same value, same mark.
    pub fn same(&self, other: &Self) -> bool {
        self.kind == other.kind && self.amount.same(&other.amount)
    }
}

/// The three functions of an angle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Turn {
    Sine,
    Cosine,
    Tangent,
}

/// The whole degrees within a right angle at which a function is a fraction: degrees, function, value.
/// By Niven's theorem there are no others at a whole number of degrees.
const TABLED: &[(i64, Turn, (i64, i64))] = &[
    (0, Turn::Sine, (0, 1)),
    (30, Turn::Sine, (1, 2)),
    (90, Turn::Sine, (1, 1)),
    (0, Turn::Cosine, (1, 1)),
    (60, Turn::Cosine, (1, 2)),
    (90, Turn::Cosine, (0, 1)),
    (0, Turn::Tangent, (0, 1)),
    (45, Turn::Tangent, (1, 1)),
];

impl Turn {
    /// The name in a formula.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sine => "sin",
            Self::Cosine => "cos",
            Self::Tangent => "tan",
        }
    }

    /// The name of the inverse in a formula.
    pub const fn back_name(self) -> &'static str {
        match self {
            Self::Sine => "asin",
            Self::Cosine => "acos",
            Self::Tangent => "atan",
        }
    }

    /// The function at an angle in degrees.
    pub fn of_degrees(self, degrees: &Real) -> Real {
        let turn = degrees.clone() % Real::whole(360);
        let turn = if turn.is_negative() { turn + Real::whole(360) } else { turn };
        let past_half = turn > Real::whole(180);
        // Fold into the first quarter, with the sign of the function in its own quarter.
        let (within, sign) = match self {
            Self::Sine if past_half => (fold(turn.clone() - Real::whole(180)), -1),
            Self::Sine => (fold(turn.clone()), 1),
            Self::Cosine | Self::Tangent => {
                let half = if past_half { Real::whole(360) - turn.clone() } else { turn.clone() };
                let flipped = past_half && self == Self::Tangent;
                let obtuse = half > Real::whole(90);
                (fold(half), if obtuse != flipped { -1 } else { 1 })
            }
        };
        if let Some(whole) = within.to_whole() {
            if whole == 90 && self == Self::Tangent {
                return Real::broken(Broken::ByZero);
            }
            if let Some((_, _, (n, d))) = TABLED.iter().find(|row| row.0 == whole && row.1 == self) {
                return Real::ratio(sign * n, *d);
            }
        }
        // Take off whole turns while the angle is exact: a float lacks the digits for both.
        turn.roughly(|degrees| match self {
            Self::Sine => degrees.to_radians().sin(),
            Self::Cosine => degrees.to_radians().cos(),
            Self::Tangent => degrees.to_radians().tan(),
        })
    }

    /// The degrees at which the function is `value`: −90 to 90, for the cosine 0 to 180.
    pub fn back_to_degrees(self, value: &Real) -> Real {
        for (degrees, function, (n, d)) in TABLED {
            if *function == self && !value.is_approximate() {
                let tabled = Real::ratio(*n, *d);
                if *value == tabled {
                    return Real::whole(*degrees);
                }
                if *value == -tabled {
                    return Real::whole(if self == Self::Cosine { 180 - degrees } else { -degrees });
                }
            }
        }
        value.roughly(|value| match self {
            Self::Sine => value.asin().to_degrees(),
            Self::Cosine => value.acos().to_degrees(),
            Self::Tangent => value.atan().to_degrees(),
        })
    }
}

/// Half a turn folded onto its first quarter.
fn fold(turn: Real) -> Real {
    if turn > Real::whole(90) { Real::whole(180) - turn } else { turn }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(value: i64) -> Quantity {
        Quantity::inches(Real::whole(12 * value))
    }

    #[test]
    fn unlike_kinds_are_named() {
        let mass = Quantity::new(Real::ONE, Kind::MASS);
        assert_eq!(feet(1).add(&mass).unwrap_err().to_string(), "cannot add a length and a mass");
        let number = Quantity::number(Real::ONE);
        assert_eq!(feet(1).compare(&number).unwrap_err().to_string(), "cannot compare a length and a number");
        let warm = Quantity::new(Real::whole(70), Kind::TEMPERATURE);
        assert!(warm.add(&warm).unwrap_err().to_string().contains("a reading"));
        assert!(warm.negate().unwrap_err().to_string().contains("cannot negate a temperature"));
        assert_eq!(warm.compare(&warm), Ok(Ordering::Equal));
    }

    #[test]
    fn kinds_come_out_of_products() {
        let area = feet(1).multiply(&feet(2)).unwrap();
        assert_eq!((area.kind, area.amount.to_text()), (Kind::AREA, "288".to_string()));
        assert_eq!(area.root().unwrap().kind, Kind::LENGTH);
        assert_eq!(area.divide(&feet(1)).unwrap().kind, Kind::LENGTH);
        assert_eq!(feet(1).divide(&feet(2)).unwrap().amount.to_text(), "1/2");
    }

    #[test]
    fn tabled_angles_are_exact_and_others_are_marked() {
        for degrees in -720..=720 {
            for function in [Turn::Sine, Turn::Cosine, Turn::Tangent] {
                let value = function.of_degrees(&Real::whole(degrees));
                let radians = f64::from(i32::try_from(degrees).unwrap()).to_radians();
                let float = match function {
                    Turn::Sine => radians.sin(),
                    Turn::Cosine => radians.cos(),
                    Turn::Tangent => radians.tan(),
                };
                match value.check() {
                    Ok(value) => assert!((value.to_f64() - float).abs() < 1e-9, "{} {degrees}", function.name()),
                    Err(why) => {
                        assert_eq!((why, function, degrees.rem_euclid(180)), (Broken::ByZero, Turn::Tangent, 90))
                    }
                }
            }
        }
        assert!(!Turn::Sine.of_degrees(&Real::whole(210)).is_approximate());
        let far = Real::whole(360 * 1_000_000_000_000_000 + 10);
        assert_eq!(Turn::Sine.of_degrees(&far).to_fixed(12), Turn::Sine.of_degrees(&Real::whole(10)).to_fixed(12));
        assert!(Turn::Sine.of_degrees(&Real::whole(45)).is_approximate());
        assert_eq!(Turn::Cosine.back_to_degrees(&Real::ratio(-1, 2)).to_text(), "120");
        assert_eq!(Turn::Tangent.back_to_degrees(&Real::ONE).to_text(), "45");
        assert_eq!(Turn::Sine.back_to_degrees(&Real::whole(2)).check().unwrap_err(), Broken::NotReal);
    }
}
