//! Kinds of quantity: which may be added, and the kinds of products.

use std::fmt;
use std::ops::{Div, Mul};

use serde::{Deserialize, Serialize};

/// The kind of a quantity, as the powers of its base kinds: length, mass, angle, time, force, temperature, money.
///
/// Kinds multiply and divide as their quantities do; only equal kinds can be added or compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub struct Kind([i8; BASES]);

const BASES: usize = 7;

/// The name of each base in a kind without a name of its own.
const BASE_NAMES: [&str; BASES] = ["length", "mass", "angle", "time", "force", "temperature", "money"];

/// The storage unit of each base.
const BASE_UNITS: [&str; BASES] = ["in", "lb", "deg", "min", "lbf", "degF", "$"];

impl Kind {
    /// A plain number, or percent.
    pub const NUMBER: Self = Self([0; BASES]);
    /// Stored in inches.
    pub const LENGTH: Self = Self([1, 0, 0, 0, 0, 0, 0]);
    /// Stored in square inches.
    pub const AREA: Self = Self([2, 0, 0, 0, 0, 0, 0]);
    /// Stored in cubic inches.
    pub const VOLUME: Self = Self([3, 0, 0, 0, 0, 0, 0]);
    /// Stored in pounds.
    pub const MASS: Self = Self([0, 1, 0, 0, 0, 0, 0]);
    /// Mass by volume, stored in pounds per cubic inch.
    pub const DENSITY: Self = Self([-3, 1, 0, 0, 0, 0, 0]);
    /// Mass by area, stored in pounds per square inch of sheet.
    pub const GRAMMAGE: Self = Self([-2, 1, 0, 0, 0, 0, 0]);
    /// Stored in degrees.
    pub const ANGLE: Self = Self([0, 0, 1, 0, 0, 0, 0]);
    /// Stored in minutes.
    pub const TIME: Self = Self([0, 0, 0, 1, 0, 0, 0]);
    /// Stored in pounds-force.
    pub const FORCE: Self = Self([0, 0, 0, 0, 1, 0, 0]);
    /// Stored in pounds-force per square inch.
    pub const PRESSURE: Self = Self([-2, 0, 0, 0, 1, 0, 0]);
    /// Area covered by a volume, stored in one over inches.
    pub const SPREAD: Self = Self([-1, 0, 0, 0, 0, 0, 0]);
    /// A temperature, stored in degrees Fahrenheit.
    pub const TEMPERATURE: Self = Self([0, 0, 0, 0, 0, 1, 0]);
    /// Money, stored in whole units of the currency.
    pub const MONEY: Self = Self([0, 0, 0, 0, 0, 0, 1]);

    /// The kind of the square root, if the kind is a square.
    pub fn root(self) -> Option<Self> {
        self.0.iter().all(|power| power % 2 == 0).then(|| Self(self.0.map(|power| power / 2)))
    }

    /// The kind of the `exponent`-th power, if its powers stay in range.
    pub fn power(self, exponent: i64) -> Option<Self> {
        if self == Self::NUMBER {
            return Some(self);
        }
        let exponent = i8::try_from(exponent).ok()?;
        let mut powers = [0; BASES];
        for (power, base) in powers.iter_mut().zip(self.0) {
            *power = base.checked_mul(exponent)?;
        }
        Some(Self(powers))
    }

    /// The kind with these powers of length, mass, angle, time, force, temperature, money.
    pub(crate) const fn of_powers(powers: [i8; BASES]) -> Self {
        Self(powers)
    }

    /// The kind called `name`, if the table has one.
    pub fn named(name: &str) -> Option<Self> {
        KINDS.iter().find(|row| row.name == name).map(|row| row.kind)
    }

    /// The row of the table, if the kind has a name.
    pub fn row(self) -> Option<&'static KindRow> {
        KINDS.iter().find(|row| row.kind == self)
    }

    /// The storage unit in JSON: `in`, `in2`, `lb`, `deg`.
    pub fn unit(self) -> String {
        if let Some(row) = self.row() {
            return row.unit.to_string();
        }
        self.spell(&BASE_UNITS, "", "/")
    }

    /// The kind whose storage unit is written `text`, as [`Kind::unit`] writes it.
    pub fn of_unit(text: &str) -> Option<Self> {
        let (above, below) = text.split_once('/').unwrap_or((text, ""));
        let mut powers = [0; BASES];
        for (side, sign) in [(above, 1), (below, -1)] {
            for word in side.split('×').map(str::trim).filter(|word| !word.is_empty() && *word != "1") {
                let name = word.trim_end_matches(|last: char| last.is_ascii_digit());
                let power: i8 = if name == word { 1 } else { word.get(name.len()..)?.parse().ok()? };
                let base = BASE_UNITS.iter().position(|base| *base == name)?;
                let slot = powers.get_mut(base)?;
                *slot = i8::checked_add(*slot, power.checked_mul(sign)?)?;
            }
        }
        (powers != [0; BASES]).then_some(Self(powers))
    }

    fn spell(self, names: &[&str; BASES], times: &str, over: &str) -> String {
        let part = |wanted: i8| -> Vec<String> {
            names
                .iter()
                .zip(self.0)
                .filter(|(_, power)| power.signum() == wanted)
                .map(|(name, power)| match power.unsigned_abs() {
                    1 => (*name).to_string(),
                    more => format!("{name}{times}{more}"),
                })
                .collect()
        };
        let (above, below) = (part(1).join(" × "), part(-1).join(" × "));
        match (above.is_empty(), below.is_empty()) {
            (_, true) => above,
            (true, false) => format!("1{over}{below}"),
            (false, false) => format!("{above}{over}{below}"),
        }
    }

    /// The name with its article, for messages: `a length`, `an area`.
    pub fn with_article(self) -> String {
        let name = self.to_string();
        let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        format!("{article} {name}")
    }
}

/// A kind that has a name.
#[derive(Debug)]
pub struct KindRow {
    /// The name in messages, rules files and JSON.
    pub name: &'static str,
    /// The kind.
    pub kind: Kind,
    /// The storage unit in JSON.
    pub unit: &'static str,
}

/// All kinds with names.
pub const KINDS: &[KindRow] = &[
    KindRow { name: "number", kind: Kind::NUMBER, unit: "" },
    KindRow { name: "length", kind: Kind::LENGTH, unit: "in" },
    KindRow { name: "area", kind: Kind::AREA, unit: "in2" },
    KindRow { name: "volume", kind: Kind::VOLUME, unit: "in3" },
    KindRow { name: "mass", kind: Kind::MASS, unit: "lb" },
    KindRow { name: "density", kind: Kind::DENSITY, unit: "lb/in3" },
    KindRow { name: "grammage", kind: Kind::GRAMMAGE, unit: "lb/in2" },
    KindRow { name: "angle", kind: Kind::ANGLE, unit: "deg" },
    KindRow { name: "time", kind: Kind::TIME, unit: "min" },
    KindRow { name: "force", kind: Kind::FORCE, unit: "lbf" },
    KindRow { name: "pressure", kind: Kind::PRESSURE, unit: "psi" },
    KindRow { name: "spread", kind: Kind::SPREAD, unit: "in2/in3" },
    KindRow { name: "temperature", kind: Kind::TEMPERATURE, unit: "degF" },
    KindRow { name: "money", kind: Kind::MONEY, unit: "$" },
];

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.row() {
            Some(row) => f.write_str(row.name),
            None => f.write_str(&self.spell(&BASE_NAMES, "^", " / ")),
        }
    }
}

impl Mul for Kind {
    type Output = Option<Self>;
    fn mul(self, other: Self) -> Option<Self> {
        let mut powers = self.0;
        for (power, more) in powers.iter_mut().zip(other.0) {
            *power = power.checked_add(more)?;
        }
        Some(Self(powers))
    }
}

impl Div for Kind {
    type Output = Option<Self>;
    fn div(self, other: Self) -> Option<Self> {
        self * other.power(-1)?
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_multiply_as_their_quantities() {
        assert_eq!(Kind::LENGTH * Kind::AREA, Some(Kind::VOLUME));
        assert_eq!(Kind::DENSITY * Kind::VOLUME, Some(Kind::MASS));
        assert_eq!(Kind::FORCE / Kind::AREA, Some(Kind::PRESSURE));
        assert_eq!(Kind::AREA.root(), Some(Kind::LENGTH));
        assert_eq!(Kind::LENGTH.root(), None);
        assert_eq!(Kind::LENGTH.power(200), None);
        assert_eq!(Kind::NUMBER.power(200), Some(Kind::NUMBER));
    }

    #[test]
    fn a_kind_without_a_name_is_spelled_out() {
        let kind = (Kind::MASS * Kind::AREA).expect("small powers");
        assert_eq!(kind.to_string(), "length^2 × mass");
        assert_eq!(kind.unit(), "in2 × lb");
        assert_eq!((Kind::MASS / Kind::TIME).expect("small powers").unit(), "lb/min");
        assert_eq!(Kind::AREA.with_article(), "an area");
    }
}
