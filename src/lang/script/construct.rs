//! The calls that the notation pass writes in place of dimensions: `__len(91,8)` for `11 3/8"`.

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::Zero;
use std::fmt;

use rhai::Dynamic;

use super::builtin::{Builtin, Call, HIDDEN, Param, Want, param};
use super::caught::{CAUGHT, caught};
use super::guard::{GUARD, plain};
use super::trouble::Trouble;
use super::value::{to_dynamic, to_text};
use crate::diag::Fault;
use crate::measure::{Kind, Quantity, Real, Size};

const PART: Want = Want::Either(&[Want::Whole, Want::Text]);
const FRACTION: &[Param] = &[param("above", PART, ""), param("below", PART, "")];

/// Functions that only the notation pass calls.
pub const CONSTRUCTORS: &[Builtin] = &[
    Builtin { name: "__num", params: FRACTION, run: |call| of_kind(call, 0, Kind::NUMBER), ..HIDDEN },
    Builtin { name: "__len", params: FRACTION, run: |call| of_kind(call, 0, Kind::LENGTH), ..HIDDEN },
    Builtin { name: "__mass", params: FRACTION, run: |call| of_kind(call, 0, Kind::MASS), ..HIDDEN },
    Builtin { name: "__ang", params: FRACTION, run: |call| of_kind(call, 0, Kind::ANGLE), ..HIDDEN },
    Builtin { name: "__time", params: FRACTION, run: |call| of_kind(call, 0, Kind::TIME), ..HIDDEN },
    Builtin {
        name: "__qty",
        params: &[param("kind", Want::Text, ""), param("above", PART, ""), param("below", PART, "")],
        run: |call| {
            let name = call.text(0)?;
            let kind = Kind::named(&name).ok_or_else(|| Unreadable(name.to_string()))?;
            of_kind(call, 1, kind)
        },
        ..HIDDEN
    },
    Builtin {
        name: "__size",
        params: &[
            param("width", Want::Quantity, ""),
            param("height", Want::Quantity, ""),
            param("depth", Want::Quantity, ""),
        ],
        least: 2,
        run: |call| {
            let depth = if call.count() > 2 { Some(call.quantity(2)?) } else { None };
            Ok(Dynamic::from(Size { width: call.quantity(0)?, height: call.quantity(1)?, depth }))
        },
        ..HIDDEN
    },
    Builtin { name: GUARD, params: &[param("value", Want::Anything, "")], run: plain, ..HIDDEN },
    Builtin { name: CAUGHT, params: &[param("value", Want::Anything, "")], run: caught, ..HIDDEN },
];

/// A part that is not a number.
#[derive(Debug)]
struct Unreadable(String);

impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` cannot be read", self.0)
    }
}

impl Fault for Unreadable {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::SYNTAX
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

/// The quantity with the fraction in arguments `first` and `first + 1`, in storage units of `kind`.
fn of_kind(call: &mut Call<'_, '_, '_>, first: usize, kind: Kind) -> Result<Dynamic, Trouble> {
    let (above, below) = (call.value(first)?, call.value(first + 1)?);
    let amount = match (above.as_int(), below.as_int()) {
        (Ok(above), Ok(below)) => Real::ratio(above, below),
        _ => long(above, below)?,
    };
    Ok(to_dynamic(Quantity::new(amount.check()?, kind)))
}

fn long(above: &Dynamic, below: &Dynamic) -> Result<Real, Trouble> {
    let (above, below) = (digits(above)?, digits(below)?);
    if below.is_zero() {
        return Ok(Real::broken(crate::measure::Broken::ByZero));
    }
    Ok(Real::from_big(BigRational::new(above, below)))
}

/// A whole number, given as a number or as its digits.
fn digits(part: &Dynamic) -> Result<BigInt, Trouble> {
    if let Ok(whole) = part.as_int() {
        return Ok(whole.into());
    }
    let text = to_text(part).unwrap_or_default();
    // A longer number exceeds the bits allowed, so it is not read.
    if text.len() > 2000 {
        return Err(crate::measure::Broken::TooLarge.into());
    }
    Ok(text.parse().map_err(|_| Unreadable(text.to_string()))?)
}
