//! Numbers out of range, and numbers in messages.

use std::fmt;

use crate::diag::Fault;

/// A number outside its range.
#[derive(Clone, Debug, PartialEq)]
pub struct OutOfRange {
    /// The name of the number with its article: `the face`.
    pub what: &'static str,
    /// The number, in `unit`.
    pub value: f64,
    /// The unit as written after a number.
    pub unit: &'static str,
    /// The allowed range: `above 0 in`.
    pub must: String,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is {}{}, and must be {}", self.what, shown(self.value), self.unit, self.must)
    }
}

impl Fault for OutOfRange {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::figure::BROKEN
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

/// A length above zero.
pub(super) fn above_zero(what: &'static str, value: f64) -> Result<(), OutOfRange> {
    let fits = value > 0.0 && value.is_finite();
    if fits { Ok(()) } else { Err(OutOfRange { what, value, unit: " in", must: "above 0 in".into() }) }
}

/// A length of zero or more.
pub(super) fn not_below_zero(what: &'static str, value: f64) -> Result<(), OutOfRange> {
    let fits = value >= 0.0 && value.is_finite();
    if fits { Ok(()) } else { Err(OutOfRange { what, value, unit: " in", must: "0 in or more".into() }) }
}

/// A number from `least` to `most`, both allowed.
pub(super) fn within(
    what: &'static str,
    value: f64,
    unit: &'static str,
    [least, most]: [f64; 2],
) -> Result<(), OutOfRange> {
    if (least..=most).contains(&value) {
        return Ok(());
    }
    Err(OutOfRange { what, value, unit, must: format!("from {} to {}{unit}", shown(least), shown(most)) })
}

/// A number for a message, to three places.
pub(super) fn shown(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    // A number that rounds to zero has no sign.
    if text == "-0" { "0".into() } else { text.into() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        let all = [2.0, 0.0625, 100.0, -0.0001, -1.5].map(shown);
        assert_eq!(all, ["2", "0.062", "100", "0", "-1.5"]);
    }

    #[test]
    fn what_is_no_number_is_out_of_any_range() {
        for value in [f64::NAN, f64::INFINITY, -1.0] {
            assert!(above_zero("the face", value).is_err());
            assert!(not_below_zero("the face", value).is_err());
            assert!(within("humidity", value, "", [0.0, 1.0]).is_err());
        }
        assert!(above_zero("the face", 0.0).is_err() && not_below_zero("the face", 0.0).is_ok());
        let said = above_zero("the face", -1.0).unwrap_err().to_string();
        assert_eq!(said, "the face is -1 in, and must be above 0 in");
    }
}
