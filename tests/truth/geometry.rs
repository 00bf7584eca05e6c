//! Angles of flat frames with any number of sides, as saw manuals print them.

use benchrule::measure::{Real, Turn};

/// Sides, saw setting in degrees from square, to so many places.
///
/// 4 to 10 sides: the flat row of the compound angle chart printed in the owners' manuals of mitre and radial saws, two
/// places (read), and a second saw manual to one (read). 7 sides to seven places, 3 and 12 sides: computed as 180/n.
const SETTINGS: &[(i64, &str)] = &[
    (3, "60"),
    (4, "45.00"),
    (5, "36.00"),
    (6, "30.00"),
    (7, "25.71"),
    (7, "25.7"),
    (7, "25.7142857"),
    (8, "22.50"),
    (9, "20.00"),
    (10, "18.00"),
    (12, "15"),
];

fn places(figure: &str) -> u32 {
    figure.split_once('.').map_or(0, |(_, after)| after.bytes().fold(0, |places, _| places + 1))
}

#[test]
fn the_saw_is_set_to_half_the_turn_of_a_corner() {
    for (sides, printed) in SETTINGS {
        let setting = Real::ratio(180, *sides);
        assert_eq!(setting.to_fixed(places(printed)), *printed, "{sides} sides");
        // The flat row of the chart is the compound formula at no slope: tan M = cos 0° · tan(180°/n).
        let tangent = Turn::Cosine.of_degrees(&Real::ZERO) * Turn::Tangent.of_degrees(&setting);
        let back = Turn::Tangent.back_to_degrees(&tangent);
        assert_eq!(back.to_fixed(places(printed)), *printed, "{sides} sides");
    }
}

/// Sides, and how many widths of the rail its outside is longer than its inside: 2 · tan(180°/n), computed apart from
/// this program.
const LONGER: &[(i64, &str)] = &[(4, "2"), (6, "1.1547005"), (8, "0.8284271")];

#[test]
fn the_long_side_of_a_rail() {
    for (sides, expected) in LONGER {
        let factor = Real::whole(2) * Turn::Tangent.of_degrees(&Real::ratio(180, *sides));
        assert_eq!(factor.to_fixed(places(expected)), *expected, "{sides} sides");
    }
    // Four sides are exact, and no root or tangent is left in them.
    let four = Real::whole(2) * Turn::Tangent.of_degrees(&Real::ratio(180, 4));
    assert!(four.same(&Real::whole(2)));
}
