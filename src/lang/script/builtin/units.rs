//! Quantities counted in a unit: `mm(11 3/8")`, or `(11 3/8").mm()`.

use std::fmt;

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, param};
use super::want::Want;
use crate::diag::Fault;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::to_dynamic;
use crate::measure::{Kind, Unit};

/// A row of this file. A macro, because a closure in a const table cannot capture the name.
macro_rules! unit {
    ($name:literal, $unit:literal, $kind:ident, $brief:literal, $example:literal, $answer:literal) => {
        Builtin {
            name: $name,
            params: &[param("x", Want::Of(Kind::$kind), "")],
            returns: Want::NUMBER,
            brief: $brief,
            examples: &[($example, $answer)],
            counts: $unit,
            run: |call| count(call, $unit, $name),
            ..PLAIN
        }
    };
}

pub(super) const ROWS: &[Builtin] = &[
    unit!("inches", "in", LENGTH, "The number of inches in a length.", "inches(127mm)", "5"),
    unit!("feet", "ft", LENGTH, "The number of feet in a length.", "feet(18\")", "1 1/2"),
    unit!("yards", "yd", LENGTH, "The number of yards in a length.", "yards(6ft)", "2"),
    unit!("mm", "mm", LENGTH, "The number of millimeters in a length.", "mm(5\")", "127"),
    unit!("cm", "cm", LENGTH, "The number of centimeters in a length.", "cm(50\")", "127"),
    unit!("m", "m", LENGTH, "The number of meters in a length.", "m(2500mm)", "2 1/2"),
    unit!("square_inches", "in2", AREA, "The number of square inches in an area.", "square_inches(1ft2)", "144"),
    unit!("square_feet", "ft2", AREA, "The number of square feet in an area.", "square_feet(288in2)", "2"),
    unit!("square_metres", "m2", AREA, "The number of square meters in an area.", "square_metres(10000cm2)", "1"),
    unit!("cubic_inches", "in3", VOLUME, "The number of cubic inches in a volume.", "cubic_inches(1ft3)", "1728"),
    unit!("cubic_feet", "ft3", VOLUME, "The number of cubic feet in a volume.", "cubic_feet(864in3)", "1/2"),
    unit!("gallons", "gal", VOLUME, "The number of US gallons in a volume.", "gallons(2qt)", "1/2"),
    unit!("quarts", "qt", VOLUME, "The number of US quarts in a volume.", "quarts(1gal)", "4"),
    unit!("fluid_ounces", "floz", VOLUME, "The number of US fluid ounces in a volume.", "fluid_ounces(1cup)", "8"),
    unit!("litres", "l", VOLUME, "The number of litres in a volume.", "litres(1500ml)", "1 1/2"),
    unit!("pounds", "lb", MASS, "The number of pounds in a mass.", "pounds(12lb 4oz)", "12 1/4"),
    unit!("ounces", "oz", MASS, "The number of ounces in a mass.", "ounces(1/2lb)", "8"),
    unit!("grams", "g", MASS, "The number of grams in a mass.", "grams(1.5kg)", "1500"),
    unit!("kilograms", "kg", MASS, "The number of kilograms in a mass.", "kilograms(250g)", "1/4"),
    unit!("degrees", "deg", ANGLE, "The number of degrees in an angle.", "degrees(45deg)", "45"),
    unit!("minutes", "min", TIME, "The number of minutes in a time.", "minutes(2h 30min)", "150"),
    unit!("hours", "h", TIME, "The number of hours in a time.", "hours(90min)", "1 1/2"),
    unit!("pounds_force", "lbf", FORCE, "The number of pounds-force in a force.", "pounds_force(3lbf)", "3"),
    unit!("newtons", "N", FORCE, "The number of newtons in a force.", "newtons(10N)", "10"),
    unit!(
        "psi",
        "psi",
        PRESSURE,
        "The number of pounds-force per square inch in a pressure.",
        "psi(12lbf / 4in2)",
        "3"
    ),
    unit!("fahrenheit", "degF", TEMPERATURE, "A temperature in degrees Fahrenheit.", "fahrenheit(20degC)", "68"),
    unit!("celsius", "degC", TEMPERATURE, "A temperature in degrees Celsius.", "celsius(68degF)", "20"),
];

/// A bug: a row whose unit is not in the table of units.
#[derive(Debug)]
struct NoUnit(&'static str);

impl fmt::Display for NoUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "there is no unit `{}`", self.0)
    }
}

impl Fault for NoUnit {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

fn count(call: &mut Call<'_, '_, '_>, unit: &'static str, name: &'static str) -> Result<Dynamic, Trouble> {
    let unit = Unit::named(unit).ok_or(NoUnit(unit))?;
    Ok(to_dynamic(call.quantity(0)?.in_unit(unit, name)?))
}
