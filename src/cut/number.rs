//! From whole numbers to floating ones and back, for the parts of the search that only guide it.

use num_traits::ToPrimitive;

/// The nearest floating-point number.
pub(super) fn real(whole: impl ToPrimitive) -> f64 {
    whole.to_f64().unwrap_or(0.0)
}

/// The whole number below, not under 0.
pub(super) fn whole(real: f64) -> u32 {
    real.max(0.0).floor().to_u32().unwrap_or(u32::MAX)
}

/// The nearest whole number, of either sign.
pub(super) fn signed(real: f64) -> i64 {
    real.round().to_i64().unwrap_or(0)
}
