//! The units that can be written, each with its exact factor.

use super::{Kind, Real};

/// A unit: its names, its kind, and its factor.
#[derive(Debug)]
pub struct Unit {
    /// The names after a number, the usual one first. Words may follow a blank, marks may not.
    pub names: &'static [&'static str],
    /// The kind that it measures.
    pub kind: Kind,
    /// Storage units in one of it, as a fraction: inches for lengths, pounds for masses.
    pub factor: (i64, i64),
    /// The offset added before the factor; only units of temperature have one.
    pub zero: (i64, i64),
    /// A few words for help.
    pub brief: &'static str,
}

const fn unit(names: &'static [&'static str], kind: Kind, factor: (i64, i64), brief: &'static str) -> Unit {
    Unit { names, kind, factor, zero: (0, 1), brief }
}

/// All units. Factors follow the definitions of NIST Special Publication 811, Appendix B.8, and NIST Handbook 44,
/// Appendix C: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, 1 lbf = 4.448 221 615 260 5 N, 1 US gal = 231 in³.
pub const UNITS: &[Unit] = &[
    unit(&["in", "\"", "″", "”", "inch", "inches"], Kind::LENGTH, (1, 1), "inch"),
    unit(&["ft", "'", "′", "’", "foot", "feet"], Kind::LENGTH, (12, 1), "foot, 12 in"),
    unit(&["yd"], Kind::LENGTH, (36, 1), "yard, 3 ft"),
    unit(&["mil"], Kind::LENGTH, (1, 1000), "a thousandth of an inch, as board and film are measured"),
    unit(&["mm"], Kind::LENGTH, (5, 127), "millimeter"),
    unit(&["cm"], Kind::LENGTH, (50, 127), "centimeter"),
    unit(&["m"], Kind::LENGTH, (5000, 127), "meter"),
    unit(&["lb", "lbs"], Kind::MASS, (1, 1), "pound"),
    unit(&["oz"], Kind::MASS, (1, 16), "ounce, 1/16 lb"),
    unit(&["gr"], Kind::MASS, (1, 7000), "grain, 1/7000 lb"),
    unit(&["kg"], Kind::MASS, (100_000_000, 45_359_237), "kilogram"),
    unit(&["g"], Kind::MASS, (100_000, 45_359_237), "gram"),
    unit(&["lbf"], Kind::FORCE, (1, 1), "pound-force"),
    unit(&["kgf"], Kind::FORCE, (100_000_000, 45_359_237), "kilogram-force"),
    unit(&["N"], Kind::FORCE, (2_000_000_000_000, 8_896_443_230_521), "newton"),
    unit(&["psi"], Kind::PRESSURE, (1, 1), "pound-force per square inch"),
    unit(&["kPa"], Kind::PRESSURE, (1_290_320_000_000, 8_896_443_230_521), "kilopascal"),
    unit(&["deg", "°"], Kind::ANGLE, (1, 1), "degree of angle"),
    unit(&["arcmin"], Kind::ANGLE, (1, 60), "sixtieth of a degree"),
    unit(&["min"], Kind::TIME, (1, 1), "minute"),
    unit(&["h", "hr"], Kind::TIME, (60, 1), "hour"),
    unit(&["degF", "°F"], Kind::TEMPERATURE, (1, 1), "reading in degrees Fahrenheit"),
    Unit {
        names: &["degC", "°C"],
        kind: Kind::TEMPERATURE,
        factor: (9, 5),
        zero: (160, 9),
        brief: "reading in degrees Celsius",
    },
    unit(&["in2"], Kind::AREA, (1, 1), "square inch"),
    unit(&["ft2"], Kind::AREA, (144, 1), "square foot"),
    unit(&["yd2"], Kind::AREA, (1296, 1), "square yard"),
    unit(&["mm2"], Kind::AREA, (25, 16_129), "square millimeter"),
    unit(&["cm2"], Kind::AREA, (2500, 16_129), "square centimeter"),
    unit(&["m2"], Kind::AREA, (25_000_000, 16_129), "square meter"),
    unit(&["in3"], Kind::VOLUME, (1, 1), "cubic inch"),
    unit(&["ft3"], Kind::VOLUME, (1728, 1), "cubic foot"),
    unit(&["bdft"], Kind::VOLUME, (144, 1), "board foot, 144 in3"),
    unit(&["gal"], Kind::VOLUME, (231, 1), "US gallon, 231 in3"),
    unit(&["qt"], Kind::VOLUME, (231, 4), "US quart"),
    unit(&["pt"], Kind::VOLUME, (231, 8), "US pint"),
    unit(&["cup"], Kind::VOLUME, (231, 16), "US cup, 8 floz"),
    unit(&["floz"], Kind::VOLUME, (231, 128), "US fluid ounce"),
    unit(&["tbsp"], Kind::VOLUME, (231, 256), "US tablespoon"),
    unit(&["tsp"], Kind::VOLUME, (77, 256), "US teaspoon"),
    unit(&["impgal"], Kind::VOLUME, (568_261_250, 2_048_383), "imperial gallon, 4.546 09 l"),
    unit(&["l", "L"], Kind::VOLUME, (125_000_000, 2_048_383), "liter"),
    unit(&["ml", "mL"], Kind::VOLUME, (125_000, 2_048_383), "milliliter"),
    unit(&["m3"], Kind::VOLUME, (125_000_000_000, 2_048_383), "cubic meter"),
    unit(&["lb/ft3"], Kind::DENSITY, (1, 1728), "pound per cubic foot"),
    unit(&["lb/in3"], Kind::DENSITY, (1, 1), "pound per cubic inch"),
    unit(&["kg/m3"], Kind::DENSITY, (2_048_383, 56_699_046_250), "kilogram per cubic meter"),
    unit(&["lb/ft2"], Kind::GRAMMAGE, (1, 144), "pound per square foot of sheet"),
    unit(&["oz/yd2"], Kind::GRAMMAGE, (1, 20_736), "ounce per square yard of sheet"),
    unit(&["g/m2"], Kind::GRAMMAGE, (16_129, 11_339_809_250), "gram per square meter of sheet"),
    unit(&["kg/m2"], Kind::GRAMMAGE, (64_516, 45_359_237), "kilogram per square meter of sheet"),
    unit(&["ft2/gal"], Kind::SPREAD, (144, 231), "square feet covered by a US gallon"),
    unit(&["m2/l", "m2/L"], Kind::SPREAD, (127, 5), "square meters covered by a liter"),
];

impl Unit {
    /// The unit written `name`.
    pub fn named(name: &str) -> Option<&'static Self> {
        UNITS.iter().find(|unit| unit.names.contains(&name))
    }

    /// `value` of this unit, in storage units.
    pub fn to_storage(&self, value: Real) -> Real {
        (value + Real::ratio(self.zero.0, self.zero.1)) * Real::ratio(self.factor.0, self.factor.1)
    }

    /// An amount in storage units, converted to this unit.
    pub fn in_units(&self, value: Real) -> Real {
        value / Real::ratio(self.factor.0, self.factor.1) - Real::ratio(self.zero.0, self.zero.1)
    }
}
