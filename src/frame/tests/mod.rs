//! What holds of every function here, checked by other means than its own.

mod fits;
mod mitres;
mod ovals;
mod quadrilaterals;
mod saws;
mod shapes;
mod walls;

use proptest::prelude::ProptestConfig;

/// So many cases, and no files of failures.
fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig { failure_persistence: None, cases, ..ProptestConfig::default() }
}

/// Two numbers alike to within `tolerance`.
#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected}, off by {:e}", found - expected);
}
