//! Screws, nails and drills against published sizes and holds.

use super::{design, drawn, near, set, value};
use benchrule::rules::{Datum, shipped};

/// Pounds for each inch that a 6d common nail holds in side grain: E. Wengert, Strength and density predictors, FDMC
/// magazine, quoting the Wood Handbook (woodworkingnetwork.com, read).
const NAILS: &[(&str, &str)] = &[
    ("sugar maple", "279"),
    ("silver maple", "134"),
    ("yellow birch", "268"),
    ("paper birch", "199"),
    ("american beech", "291"),
    ("white ash", "247"),
    ("red oak", "279"),
    ("white oak", "338"),
    ("hickory", "390"),
];

#[test]
fn nails_hold_as_published() {
    let mut frame = design(&[("art", "16 x 20 x 3/4"), ("face", "1 1/2"), ("brad", "6d common"), ("brad.length", "2")]);
    for (wood, pounds) in NAILS {
        set(&mut frame, "wood", wood);
        let an_inch = value(&frame, "brad.pull") / value(&frame, "brad.holds");
        assert_eq!(format!("{an_inch:.0}"), *pounds, "{wood}");
    }
}

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

/// Lead holes of no. 8, 6 and 4: 90 % of the root in hardwoods, 70 % in softwoods; NDS Commentary 11.1.2 (read). The strip
/// reaches so that the number is the thickest it allows.
const LEADS: &[(&str, &str, f64, f64)] =
    &[("1/2", "8", 0.0984, 0.0765), ("0.42", "6", 0.0828, 0.0644), ("0.34", "4", 0.0672, 0.0523)];

#[test]
fn lead_holes_are_those_of_the_commentary() {
    for (bearing, number, hard, soft) in LEADS {
        for (wood, hole) in [("birch", hard), ("spruce", soft)] {
            let frame = design(&[("art", "16 x 20 x 3/4"), ("strip.bearing", bearing), ("art.wood", wood)]);
            near(value(&frame, "screw.number"), number.parse().unwrap(), 0.0);
            near(value(&frame, "screw.lead"), *hole, 6e-5);
        }
    }
}

/// The drill is never thicker than the lead hole, and the next one is.
#[test]
fn the_drill_is_the_largest_that_the_hole_takes() {
    let book = shipped();
    let drills = book.table("drills").unwrap();
    for wood in ["birch", "spruce", "white oak", "red cedar"] {
        let frame = design(&[("art", "16 x 20 x 3/4"), ("art.wood", wood)]);
        let Datum::Word(drill) = drawn(&frame, "screw.drill") else { panic!("no word") };
        let hole = value(&frame, "screw.lead");
        let sizes = (0..drills.words.len()).map(|at| (super::rows::amount(drills, "size", at).unwrap(), at));
        let fits = sizes.filter(|(size, _)| *size <= hole).max_by(|one, other| one.0.total_cmp(&other.0)).unwrap();
        assert_eq!(drills.words[fits.1], *drill, "{wood}");
    }
}
