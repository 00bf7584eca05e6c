//! Rounding to a step, in the direction that keeps the work fitting.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{Length, Real, inches};

/// The direction in which a made size is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Toward {
    /// To the next greater mark: an opening must not be too small.
    Up,
    /// To the next smaller mark: a strip must not be too long.
    Down,
    /// To the nearest mark, a tie up.
    Nearest,
}

impl fmt::Display for Toward {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Up => "up",
            Self::Down => "down",
            Self::Nearest => "nearest",
        })
    }
}

/// An approximate value this near to a mark, in steps, is on it: the last digits of a root do not move a cut.
const ON_THE_MARK: f64 = 1e-9;

/// The multiple of `step` for `value` in the direction given, and whether the value was on it.
///
/// The result is within one step of `value`, on the right side, and exact: a mark is a mark, whatever led to it.
pub fn to_step(value: &Real, step: &Real, toward: Toward) -> (Real, bool) {
    let steps = value.clone() / step.clone();
    let nearest = (steps.clone() + Real::ratio(1, 2)).floor();
    if steps.is_approximate() && (steps.to_f64() - nearest.to_f64()).abs() < ON_THE_MARK {
        return (nearest * step.clone(), true);
    }
    let whole = match toward {
        Toward::Up => steps.ceil(),
        Toward::Down => steps.floor(),
        Toward::Nearest => nearest,
    };
    let exact = whole == steps;
    (whole * step.clone(), exact)
}

/// The graduation of the bench: the distance between the marks of its tape.
#[derive(Clone, Debug, PartialEq)]
pub struct Graduation {
    /// The name in settings: `1/16 in`, `0.5 mm`.
    pub name: &'static str,
    /// The distance between two marks.
    pub step: Length,
    /// Whether the marks are in millimeters.
    pub metric: bool,
}

/// Name, step in inches, metric.
const GRADUATIONS: &[(&str, (i64, i64), bool)] = &[
    ("1/8 in", (1, 8), false),
    ("1/16 in", (1, 16), false),
    ("1/32 in", (1, 32), false),
    ("1/64 in", (1, 64), false),
    ("0.5 mm", (5, 254), true),
    ("1 mm", (5, 127), true),
];

impl Graduation {
    /// All graduations of tapes.
    pub fn all() -> impl Iterator<Item = Self> {
        GRADUATIONS.iter().map(|(name, (n, d), metric)| Self {
            name,
            step: inches(Real::ratio(*n, *d)),
            metric: *metric,
        })
    }

    /// Sixteenths of an inch.
    pub fn sixteenths() -> Self {
        Self { name: "1/16 in", step: inches(Real::ratio(1, 16)), metric: false }
    }

    /// Whole millimeters.
    pub fn millimetres() -> Self {
        Self { name: "1 mm", step: inches(Real::ratio(5, 127)), metric: true }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: Real, toward: Toward, expected: &str) {
        assert_eq!(to_step(&value, &Real::ratio(1, 16), toward).0.to_text(), expected);
    }

    #[test]
    fn each_direction_keeps_its_side() {
        check(Real::ratio(1073, 64), Toward::Up, "269/16");
        check(Real::ratio(1073, 64), Toward::Down, "67/4");
        check(Real::ratio(-1, 64), Toward::Up, "0");
        check(Real::ratio(-1, 64), Toward::Down, "-1/16");
        check(Real::ratio(1, 32), Toward::Nearest, "1/16");
        check(Real::ratio(3, 16), Toward::Up, "3/16");
    }

    #[test]
    fn a_root_on_a_mark_stays_on_it() {
        let almost = Real::approximate(13.312_500_000_000_002);
        assert_eq!(to_step(&almost, &Real::ratio(1, 16), Toward::Up).0.to_text(), "213/16");
        assert!(!to_step(&almost, &Real::ratio(1, 16), Toward::Up).0.is_approximate());
        assert_eq!(to_step(&Real::approximate(13.32), &Real::ratio(1, 16), Toward::Up).0.to_text(), "107/8");
    }
}
