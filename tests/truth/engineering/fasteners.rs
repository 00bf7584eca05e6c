//! What screws are allowed, against a published example.

use super::{design, near, value};

/// Civil Engineering Formulas Eq. 6.37; worked example no. d_1815 of a general engineering reference page (read): gravity
/// 0.45 (here: mahogany), number 10, body 0.190 in, 109 lb for each inch, cut off from 109.65.
#[test]
fn screws_are_allowed_what_is_published() {
    let frame = design(&[("art", "16 x 20 x 3/4"), ("art.wood", "mahogany")]);
    let an_inch = value(&frame, "screw.allowed") / value(&frame, "screw.count") / value(&frame, "screw.holds");
    let number_ten = an_inch * 0.190 / value(&frame, "screw.body");
    assert_eq!(format!("{:.0}", number_ten.floor()), "109");
    // The two formulas: 15700 / 2850 is the divisor of the working load, 5.51 (the same page).
    near(value(&frame, "screw.pull") / value(&frame, "screw.allowed"), 5.51, 0.005);
}
