//! Pieces: sizes worked by hand, and weights by a second method.

use super::*;
use crate::measure::write::Manner;
use crate::rules::shipped;
use crate::rules::tests::designed;

#[test]
fn an_empty_bench_has_no_parts() {
    assert!(parts(&Design::new(shipped(), Manner::default())).is_empty());
}

/// An amount as a fraction, or to four places where a sine was on the way.
fn fraction(amount: &Real) -> String {
    if amount.is_approximate() { format!("{:.4}", amount.to_f64()) } else { amount.to_text() }
}

/// A piece by its name: how many, and its sizes as fractions of an inch.
fn sizes(design: &Design, name: &str) -> Option<(i64, String)> {
    let part = parts(design).into_iter().find(|part| part.name == name)?;
    let sizes: Vec<String> =
        part.sizes().iter().map(|(name, size)| format!("{name} {}", fraction(&size.amount))).collect();
    let section = match &part.shape {
        Shape::Stick(Stick { section: Some((width, thickness)), .. }) => {
            format!(", {} x {}", width.amount.to_text(), thickness.amount.to_text())
        }
        Shape::Stick(_) | Shape::Sheet(_) => String::new(),
    };
    Some((part.quantity, format!("{}: {}{section}", part.material, sizes.join(", "))))
}

const BOX: &[(&str, &str)] =
    &[("build", "box"), ("art", "6 x 8 x 2"), ("art.kind", "object"), ("glazing", "glass"), ("art.weight", "1lb")];

/// Worked by hand: an object 2 in deep with 1/4 in of air has spacers 2 1/4 in deep. The boards are 6 x 8 in, as the
/// object. A lip of 1/4 in less 1/8 in of play leaves 1/8 in for their thickness; the sides fit between top and bottom.
#[test]
fn spacers_of_a_box() {
    let boxed = designed(BOX);
    let short = "short 6, long 6, mitre 0, tilt 0, 1/8 x 9/4";
    assert_eq!(sizes(&boxed, "spacer top, bottom"), Some((2, format!("poplar: {short}"))));
    let side = "poplar: short 31/4, long 31/4, mitre 0, tilt 0, 1/8 x 9/4";
    assert_eq!(sizes(&boxed, "spacer left, right"), Some((2, side.into())));
    let board = designed(&[BOX, &[("spacer.board", "foam board")]].concat());
    // 3/16 in of foam board; 8 - 2 x 3/16.
    let side = "foam board: width 61/8, height 9/4, thickness 3/16";
    assert_eq!(sizes(&board, "spacer of board left, right"), Some((2, side.into())));
    assert_eq!(sizes(&board, "spacer left, right"), None);
    assert_eq!(sizes(&designed(&[("build", "box"), ("art", "6 x 8 x 2")]), "spacer top, bottom"), None);
}

/// The same weight by another way: the ring between two rectangles, (6 x 8 - 5 3/4 x 7 3/4) x 2 1/4 in, of poplar.
#[test]
fn spacers_weigh_as_much_as_the_ring_that_they_make() {
    let boxed = designed(BOX);
    let given = designed(&[BOX, &[("spacer.thickness", "1/8")]].concat());
    let weight = |design: &Design| design.made("weight").unwrap().amount;
    let others = ["weight.rails", "weight.glazing", "art.weight"];
    let others = others.iter().fold(Real::ZERO, |sum, name| sum + boxed.made(name).unwrap().amount);
    let ring = Real::ratio(6 * 8 * 16 - 23 * 31, 16) * Real::ratio(9, 4);
    // 29.35 lb/ft3, Wood Handbook (memory).
    let poplar = Real::ratio(2935, 100 * 1728);
    assert_eq!(weight(&boxed).to_text(), (others + ring * poplar).to_text());
    assert_eq!(weight(&boxed).to_text(), weight(&given).to_text());
}

/// Worked by hand: two bars of 18 x 1 1/2 x 3/4 in are 40 1/2 in3 of poplar at 29.35 lb/ft3.
#[test]
fn a_piece_of_the_house_reaches_parts_weight_plan_and_table() {
    let own = "for float
piece \"cross bar\" stick  count 2  material \"poplar\"  width 1 1/2in  thickness 3/4in  long outside.width
";
    let book = crate::rules::read_book(&[crate::rules::SHIPPED, &[("own.rules", own)]].concat()).unwrap();
    let plain = designed(&[("art", "16 x 20 x 1")]);
    let own = plain.by(book.into());
    assert_eq!(sizes(&own, "cross bar"), Some((2, "poplar: short 18, long 18, mitre 0, tilt 0, 3/2 x 3/4".into())));
    let weight = |design: &Design| design.made("weight").unwrap().amount;
    let bars = Real::ratio(81, 2) * Real::ratio(2935, 100 * 1728);
    assert_eq!(weight(&own).to_text(), (weight(&plain) + bars).to_text());
}

/// Close enough for sizes that were rounded to sixteenths: within one part in a hundred.
#[track_caller]
fn near(one: f64, other: f64) {
    assert!((one - other).abs() <= other.abs() / 100.0, "{one} is not {other}");
}

/// Worked by hand: in an octagon 12 in across, sides of 12 x tan 22.5 = 4.971 in, down to 4 15/16 in; a spacer 1/8 in thick
/// is shorter inside by 2 x 1/8 x tan 22.5 = 0.104 in, 4.834 in, down to 4 13/16 in. The ring between two octagons has
/// 2 (sqrt 2 - 1) of the difference of their squares.
#[test]
fn spacers_of_an_octagon() {
    let fields: &[(&str, &str)] = &[
        ("build", "box"),
        ("sides", "8"),
        ("art.across", "12"),
        ("art.depth", "2"),
        ("art.kind", "object"),
        ("glazing", "glass"),
    ];
    let octagon = designed(fields);
    let one = "poplar: short 77/16, long 79/16, mitre 45/2, tilt 0, 1/8 x 9/4";
    assert_eq!(sizes(&octagon, "spacer"), Some((8, one.into())));
    assert_eq!(sizes(&octagon, "spacer top, bottom"), None);
    let ring = 2.0 * (2.0_f64.sqrt() - 1.0) * (12.0 * 12.0 - 11.75 * 11.75) * 2.25;
    near(octagon.made("weight.spacers").unwrap().amount.to_f64(), ring * 29.35 / 1728.0);
}

/// Worked by hand: foam board of 3/16 in takes 12 rings for 2 1/4 in. A ring is all but the difference of two ellipses.
#[test]
fn a_spacer_of_an_oval_is_cut_as_rings() {
    let fields: &[(&str, &str)] =
        &[("build", "box"), ("shape", "oval"), ("art", "16 x 20 x 2"), ("art.kind", "object"), ("glazing", "glass")];
    let oval = designed(fields);
    let spacers = |design: &Design| parts(design).iter().filter(|part| part.name.starts_with("spacer")).count();
    assert_eq!(spacers(&oval), 0);
    let stop = oval.findings().into_iter().find(|finding| finding.name == "spacer.straight").unwrap();
    assert_eq!(stop.mend.as_deref(), Some("spacer.board foam board"));
    let board = designed(&[fields, &[("spacer.board", "foam board")]].concat());
    assert_eq!(spacers(&board), 1);
    let ring = "foam board: width 16, height 20, thickness 3/16";
    assert_eq!(sizes(&board, "spacer ring"), Some((12, ring.into())));
    assert!(board.findings().iter().all(|finding| !finding.name.starts_with("spacer")));
    let ring = std::f64::consts::PI / 4.0 * (16.0 * 20.0 - 15.75 * 19.75) * 2.25;
    // 146 kg/m3: common practice, no source.
    near(board.made("weight.spacers").unwrap().amount.to_f64(), ring * 146.0 * 2.204_622_6 / 61_023.744);
    // 13 rings of 3/16 in are 2 7/16 in.
    let deep = designed(&[fields, &[("spacer.board", "foam board"), ("spacer", "2 5/16")]].concat());
    let found = deep.findings().into_iter().find(|finding| finding.name == "spacer.stack").unwrap();
    assert_eq!(found.mend.as_deref(), Some("spacer 2 7/16\""));
}

/// Worked by hand for a circle: in an opening of 16 1/2 in a strip of 3/4 in leaves a circle of 15 in. Each of eight boards
/// reaches from the chord of the inner circle to the outer one, 8 1/4 - 7 1/2 x cos 22.5 = 1.321 in, up to 1 3/8 in; its
/// ends are 2 x 7 1/2 x sin 22.5 = 5.740 in apart inside, up to 5 3/4 in, and 2 x 8 1/4 x tan 22.5 = 6.834 in outside, up
/// to 6 7/8 in.
#[test]
fn strips_of_a_circle() {
    let circle = designed(&[("shape", "oval"), ("art", "16 x 16 x 1")]);
    let board = "poplar: short 23/4, long 55/8, mitre 22.5000, tilt 0, 11/8 x 1/2";
    assert_eq!(sizes(&circle, "strip board"), Some((8, board.into())));
    // The ring between two circles of 16 1/2 and 15 in.
    let ring = std::f64::consts::PI / 4.0 * (16.5 * 16.5 - 15.0 * 15.0) * 0.5;
    near(circle.made("weight.strip").unwrap().amount.to_f64(), ring * 29.35 / 1728.0);
}
