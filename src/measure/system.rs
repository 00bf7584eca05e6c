//! The system of quantities for `uom`, by which the compiler checks the formulas of the program.
//!
//! Base units are what the trade stores: inch, pound, degree, minute, pound-force. The stock units of the library
//! hold their factors as floating-point numbers, so that 12 in is not 1 ft; here only the base units are declared,
//! each with the factor one, and [`super::unit::UNITS`] has the exact factor of every other unit.

use uom::typenum::Integer;

use super::{Kind, Quantity, Real};

macro_rules! base {
    ($module:ident, $name:ident, $doc:literal, $unit:ident, $short:literal, $one:literal, $many:literal, $($power:ident),+) => {
        #[doc = $doc]
        #[allow(missing_docs)]
        #[macro_use]
        pub mod $module {
            quantity! {
                #[doc = $doc]
                quantity: $name; $one;
                #[doc = $doc]
                dimension: Q<$($power),+>;
                units { @$unit: 1.0; $short, $one, $many; }
            }
            impl uom::Conversion<crate::measure::Real> for $unit {
                type T = crate::measure::Real;
            }
        }
    };
}

/// The quantities and their base units.
#[allow(missing_docs, clippy::unwrap_used, clippy::as_conversions)]
mod bench {
    base!(length, Length, "Length, in inches.", inch, "in", "inch", "inches", P1, Z0, Z0, Z0, Z0);
    base!(mass, Mass, "Mass, in pounds.", pound, "lb", "pound", "pounds", Z0, P1, Z0, Z0, Z0);
    base!(angle, Angle, "Angle, in degrees.", degree, "deg", "degree", "degrees", Z0, Z0, P1, Z0, Z0);
    base!(time, Time, "Time, in minutes.", minute, "min", "minute", "minutes", Z0, Z0, Z0, P1, Z0);
    base!(
        force,
        Force,
        "Force, in pounds-force.",
        pound_force,
        "lbf",
        "pound-force",
        "pounds-force",
        Z0,
        Z0,
        Z0,
        Z0,
        P1
    );
    base!(
        area,
        Area,
        "Area, in square inches.",
        square_inch,
        "in2",
        "square inch",
        "square inches",
        P2,
        Z0,
        Z0,
        Z0,
        Z0
    );
    base!(
        volume,
        Volume,
        "Volume, in cubic inches.",
        cubic_inch,
        "in3",
        "cubic inch",
        "cubic inches",
        P3,
        Z0,
        Z0,
        Z0,
        Z0
    );

    system! {
        /// The bench's quantities.
        quantities: Q {
            length: inch, L;
            mass: pound, M;
            angle: degree, A;
            time: minute, T;
            force: pound_force, F;
        }
        /// The bench's units.
        units: U {
            mod length::Length,
            mod mass::Mass,
            mod angle::Angle,
            mod time::Time,
            mod force::Force,
            mod area::Area,
            mod volume::Volume,
        }
    }
}

pub use bench::{angle::degree, area::square_inch, force::pound_force, length::inch, mass::pound, time::minute};

type Units = bench::U<Real>;

/// An exact length.
pub type Length = bench::length::Length<Units, Real>;
/// An exact mass.
pub type Mass = bench::mass::Mass<Units, Real>;
/// An exact angle.
pub type Angle = bench::angle::Angle<Units, Real>;
/// An exact time.
pub type Time = bench::time::Time<Units, Real>;
/// An exact force.
pub type Force = bench::force::Force<Units, Real>;
/// An exact area.
pub type Area = bench::area::Area<Units, Real>;
/// An exact volume.
pub type Volume = bench::volume::Volume<Units, Real>;

/// `value` inches.
pub fn inches(value: Real) -> Length {
    Length::new::<inch>(value)
}

/// The kind of a quantity of the system, from the powers that the compiler knows.
fn kind_of<D: bench::Dimension + ?Sized>() -> Kind {
    Kind::of_powers([D::L::to_i8(), D::M::to_i8(), D::A::to_i8(), D::T::to_i8(), D::F::to_i8(), 0, 0])
}

/// A quantity checked by the compiler becomes one that is checked at run time.
impl<D: bench::Dimension + ?Sized> From<bench::Quantity<D, Units, Real>> for Quantity {
    fn from(typed: bench::Quantity<D, Units, Real>) -> Self {
        Self::new(typed.value, kind_of::<D>())
    }
}

impl Quantity {
    /// The length, if the quantity is one.
    pub fn to_length(&self) -> Option<Length> {
        (self.kind == kind_of::<bench::length::Dimension>()).then(|| inches(self.amount.clone()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_compiler_knows_what_a_product_is() {
        let side = inches(Real::ratio(25, 2));
        let area: Area = side.clone() * side.clone();
        let volume: Volume = area.clone() * inches(Real::ratio(3, 4));
        assert_eq!(area.value.to_text(), "625/4");
        assert_eq!(Quantity::from(volume).kind, Kind::VOLUME);
        assert_eq!(Quantity::from(area / side).kind, Kind::LENGTH);
        assert_eq!(Quantity::from(Mass::new::<pound>(Real::ONE)).kind, Kind::MASS);
        assert_eq!(Quantity::from(Angle::new::<degree>(Real::ONE)).kind, Kind::ANGLE);
        assert_eq!(Quantity::from(Time::new::<minute>(Real::ONE)).kind, Kind::TIME);
        assert_eq!(Quantity::from(Force::new::<pound_force>(Real::ONE)).kind, Kind::FORCE);
        assert_eq!(Quantity::from(Area::new::<square_inch>(Real::ONE)).kind, Kind::AREA);
    }

    #[test]
    fn storage_is_exact_all_the_way() {
        // Stock units of the library give 0.30000000000000004 and its like here.
        let tenth = inches(Real::ratio(1, 10));
        let sum = tenth.clone() + tenth.clone() + tenth;
        assert!(sum.value.same(&Real::ratio(3, 10)));
        assert!(sum.get::<inch>().same(&Real::ratio(3, 10)));
    }
}
