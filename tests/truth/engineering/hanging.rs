//! Wires and beams against published problems and formulas.

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

/// 5 w L⁴ / (384 E I), Wood Handbook ch. 9 Eq. 9-2 (formula read on several pages; the numbers computed apart from this
/// program, since no handbook has a worked one): wood, face and depth (the face stands upright), span, load, bend.
const BEAMS: &[(&str, &str, &str, &str, f64, f64)] =
    &[("red oak", "3/4", "1 1/2", "30", 15.0, 0.054_945_1), ("white pine", "1 1/2", "3/4", "36", 6.0, 0.013_935_5)];

#[test]
fn rails_bend_as_beams_do() {
    for (wood, face, depth, span, load, bend) in BEAMS {
        let frame = design(&[
            ("art", "16 x 20 x 1/16"),
            ("setback", "1/16"),
            ("wood", wood),
            ("face", face),
            ("depth", depth),
            ("rail.span", span),
        ]);
        near(value(&frame, "rail.bends") / value(&frame, "pull") * load, *bend, 5e-8);
        // The span at which it would bend by the limit under the same load for each inch.
        let brace = value(&frame, "brace.span");
        let bends = value(&frame, "rail.bends") * (brace / value(&frame, "rail.span")).powi(4);
        near(bends, value(&frame, "bend.limit"), 1e-9);
    }
}
