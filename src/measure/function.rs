//! The functions of the bench on quantities: rounding, units, absolute values.

use std::fmt;

use super::write::exactly;
use super::{Kind, Quantity, Real, Toward, Unit, Unlike, to_step};
use crate::diag::Fault;

/// The fault of a function of the bench.
#[derive(Clone, Debug)]
pub enum FunctionFault {
    /// A quantity with a unit was to be rounded without a step: the function, the quantity.
    NoStep(&'static str, Quantity),
    /// The step is of another kind: the function, the quantity, the step.
    OtherStep(&'static str, Quantity, Quantity),
    /// The step is zero or below.
    EmptyStep(Quantity),
    /// The quantity is of another kind than the unit: the function, the kind of the unit, the quantity.
    OtherUnit(&'static str, Kind, Quantity),
    /// The arithmetic itself.
    Unlike(Unlike),
}

impl fmt::Display for FunctionFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoStep(name, value) => {
                write!(f, "{name} takes a plain number; {} is rounded to a step", value.kind.with_article())
            }
            Self::OtherStep(name, value, step) => {
                write!(f, "{name} cannot round {} to {}", value.kind.with_article(), step.kind.with_article())
            }
            Self::EmptyStep(step) => write!(f, "a step is above zero, and {} is not", exactly(step)),
            Self::OtherUnit(name, kind, value) if value.kind == Kind::NUMBER => {
                write!(f, "{name} takes {}, and {} has no unit", kind.with_article(), exactly(value))
            }
            Self::OtherUnit(name, kind, value) => {
                write!(f, "{name} takes {}, not {}", kind.with_article(), value.kind.with_article())
            }
            Self::Unlike(why) => why.fmt(f),
        }
    }
}

impl Fault for FunctionFault {
    fn code(&self) -> &'static crate::diag::Code {
        match self {
            Self::Unlike(why) => why.code(),
            Self::NoStep(..) | Self::OtherStep(..) | Self::EmptyStep(_) | Self::OtherUnit(..) => {
                &crate::diag::codes::value::KIND
            }
        }
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        match self {
            Self::NoStep(name, value) if value.kind == Kind::LENGTH => {
                Some(format!("{}({}, 1/16in)", to_a_step(name), exactly(value)))
            }
            Self::OtherStep(name, value, step) if step.kind == Kind::NUMBER => {
                let step = Quantity::new(step.amount.clone(), value.kind);
                Some(format!("{name}({}, {})", exactly(value), exactly(&step)))
            }
            Self::OtherUnit(name, kind, value) if value.kind == Kind::NUMBER => {
                Some(format!("{name}({})", exactly(&Quantity::new(value.amount.clone(), *kind))))
            }
            Self::NoStep(..) | Self::OtherStep(..) | Self::EmptyStep(_) | Self::OtherUnit(..) | Self::Unlike(_) => None,
        }
    }

    fn argument(&self) -> Option<usize> {
        match self {
            Self::OtherStep(..) | Self::EmptyStep(_) => Some(1),
            Self::NoStep(..) | Self::OtherUnit(..) => Some(0),
            Self::Unlike(_) => None,
        }
    }
}

/// The function that rounds to a step as `name` rounds to whole numbers.
fn to_a_step(name: &str) -> &str {
    match name {
        "floor" => "down",
        "ceil" => "up",
        other => other,
    }
}

impl From<Unlike> for FunctionFault {
    fn from(why: Unlike) -> Self {
        Self::Unlike(why)
    }
}

impl Quantity {
    /// The absolute value.
    ///
    /// # Errors
    /// A temperature has no absolute value.
    pub fn absolute(&self) -> Result<Self, Unlike> {
        if self.kind == Kind::TEMPERATURE {
            return Err(Unlike::Reading("take the size of", self.kind));
        }
        Ok(Self::new(self.amount.abs(), self.kind))
    }

    /// The nearest multiple of `step` in the direction given; without a step, the whole number. Faults quote `name`,
    /// the function.
    ///
    /// # Errors
    /// There is no step and the quantity is not a plain number; the step is of another kind, or not above zero.
    pub fn stepped(&self, step: Option<&Self>, toward: Toward, name: &'static str) -> Result<Self, FunctionFault> {
        let one = Self::number(Real::ONE);
        let step = match step {
            Some(step) => step,
            None if self.kind == Kind::NUMBER => &one,
            None => return Err(FunctionFault::NoStep(name, self.clone())),
        };
        if step.kind != self.kind {
            return Err(FunctionFault::OtherStep(name, self.clone(), step.clone()));
        }
        if !step.amount.is_positive() {
            return Err(FunctionFault::EmptyStep(step.clone()));
        }
        let amount = to_step(&self.amount, &step.amount, toward).0;
        Ok(Self::new(amount.check().map_err(Unlike::from)?, self.kind))
    }

    /// The quantity counted in `unit`, a plain number. Faults quote `name`, the function.
    ///
    /// # Errors
    /// The unit is of another kind.
    pub fn in_unit(&self, unit: &Unit, name: &'static str) -> Result<Self, FunctionFault> {
        if self.kind != unit.kind {
            return Err(FunctionFault::OtherUnit(name, unit.kind, self.clone()));
        }
        Ok(Self::number(unit.in_units(self.amount.clone()).check().map_err(Unlike::from)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(n: i64, d: i64) -> Quantity {
        Quantity::inches(Real::ratio(n, d))
    }

    #[test]
    fn rounding_wants_a_step_of_its_kind() {
        let sixteenth = inches(1, 16);
        let rounded = inches(1073, 64).stepped(Some(&sixteenth), Toward::Up, "up").unwrap();
        assert_eq!(rounded.amount.to_text(), "269/16");
        let number = Quantity::number(Real::ratio(7, 2));
        assert_eq!(number.stepped(None, Toward::Nearest, "round").unwrap().amount.to_text(), "4");
        let bare = inches(91, 8).stepped(None, Toward::Down, "floor").unwrap_err();
        assert_eq!(bare.hint().unwrap(), r#"down(11 3/8", 1/16in)"#);
        let other = inches(91, 8).stepped(Some(&number), Toward::Down, "down").unwrap_err();
        assert_eq!(other.to_string(), "down cannot round a length to a number");
        assert_eq!(other.hint().unwrap(), r#"down(11 3/8", 3 1/2")"#);
        let empty = inches(91, 8).stepped(Some(&inches(0, 1)), Toward::Down, "down").unwrap_err();
        assert_eq!(empty.to_string(), "a step is above zero, and 0\" is not");
    }

    #[test]
    fn a_unit_counts_what_is_of_its_kind() {
        let mm = Unit::named("mm").unwrap();
        assert_eq!(inches(91, 8).in_unit(mm, "mm").unwrap().amount.to_decimal(3), "288.925");
        let bare = Quantity::number(Real::whole(12)).in_unit(mm, "mm").unwrap_err();
        assert_eq!(bare.to_string(), "mm takes a length, and 12 has no unit");
        assert_eq!(bare.hint().unwrap(), "mm(12\")");
    }
}
