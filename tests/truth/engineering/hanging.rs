//! Wires against published problems and formulas.

use super::{design, near, set, value};

/// A work whose wire rises by so many degrees: the hangers stand `cos` of it apart for each inch of wire.
fn wired(degrees: f64) -> f64 {
    let mut frame = design(&[("art", "16 x 20 x 3/4"), ("hanger", "wire"), ("hook.count", "1"), ("hanger.span", "10")]);
    set(&mut frame, "wire", &format!("{:.12}", 10.0 / degrees.to_radians().cos()));
    near(value(&frame, "wire.angle"), degrees, 1e-6);
    near(value(&frame, "wire.inward") / value(&frame, "pull"), 0.5 / degrees.to_radians().tan(), 1e-6);
    value(&frame, "wire.tension") / value(&frame, "pull")
}

/// University Physics, problem 5.3: a person of 90.0 kg at the middle of a rope, each half 10.0° below level, g = 9.80:
/// 2.54e3 N (coursehero.com/file/6893, read). A second problem: 70 kg, 3°, g = 9.8: 6553.8 N to the rounding of its sine
/// (qammunity.org/9095786, read). OpenStax College Physics, tightrope: 70.0 kg, 5.0°, 3.90e3 N (memory; exact 3935.5).
#[test]
fn ropes_pull_as_published() {
    assert_eq!(format!("{:.2e}", wired(10.0) * 90.0 * 9.80), "2.54e3");
    near(wired(3.0) * 70.0 * 9.8, 6553.8, 0.05);
    near(wired(5.0) * 70.0 * 9.8, 3.90e3, 50.0);
}
