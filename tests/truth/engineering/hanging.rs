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

/// 1 / (2 sin θ), computed apart from this program.
const TENSIONS: &[(f64, &str)] = &[
    (5.0, "5.73686"),
    (10.0, "2.87939"),
    (15.0, "1.93185"),
    (20.0, "1.46190"),
    (30.0, "1.00000"),
    (45.0, "0.70711"),
    (60.0, "0.57735"),
];

#[test]
fn wires_pull_as_the_table_has_it() {
    for (degrees, times) in TENSIONS {
        assert_eq!(format!("{:.5}", wired(*degrees)), *times);
    }
}

/// Hanger to hanger, wire, times the weight; computed apart from this program by Pythagoras: half a span of 8 and a rise of
/// 3 pull with √73 / 6 times the weight, 10 and 2 with √104 / 4.
#[test]
fn wires_pull_as_the_triangle_has_it() {
    let mut frame = design(&[("art", "24 x 30 x 3/4"), ("hanger", "wire"), ("hook.count", "1")]);
    for (span, wire, times, sag) in [("16", "17.08800749", 1.424001, 3.0), ("20", "20.39607805", 2.54951, 2.0)] {
        set(&mut frame, "hanger.span", span);
        set(&mut frame, "wire", wire);
        near(value(&frame, "wire.tension") / value(&frame, "pull"), times, 1e-6);
        near(value(&frame, "wire.sag"), sag, 1e-6);
    }
}

/// Two hooks: each outer leg still lifts half the weight. Legs of 5 over a run of 4 rise by 3.
#[test]
fn two_hooks_shorten_the_legs() {
    let frame = design(&[
        ("art", "24 x 30 x 3/4"),
        ("hanger", "wire"),
        ("hook.count", "2"),
        ("hanger.span", "18"),
        ("hook.span", "10"),
        ("wire", "20"),
    ]);
    near(value(&frame, "wire.sag"), 3.0, 1e-12);
    near(value(&frame, "wire.tension") / value(&frame, "pull"), 5.0 / 6.0, 1e-12);
}
