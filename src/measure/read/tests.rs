use num_bigint::BigInt;
use num_rational::BigRational;
use proptest::prelude::*;

use super::*;
use crate::measure::write::exactly;
use crate::measure::{KINDS, Real};

/// The unit that a number without one takes: `inch`, `mm`, or none.
fn bench(name: &str) -> Option<&'static Unit> {
    Unit::named(name)
}

fn spelled(reading: &Reading) -> String {
    let one = |quantity: &Quantity| format!("{}{}", quantity.amount.to_text(), quantity.kind.unit());
    match reading {
        Reading::Quantity(quantity) => one(quantity),
        Reading::Size(size) => size.extents().map(one).collect::<Vec<_>>().join(" x "),
    }
}

#[track_caller]
fn check(text: &str, expected: &str) {
    check_on("", text, expected);
}

#[track_caller]
fn check_on(unit: &str, text: &str, expected: &str) {
    match read(text, bench(unit)) {
        Ok(reading) => assert_eq!(spelled(&reading), expected, "{text}"),
        Err(diagnostic) => panic!("{text}: {diagnostic:?}"),
    }
}

#[track_caller]
fn refuse(text: &str, message: &str, hint: &str) {
    refuse_on("", text, message, hint);
}

#[track_caller]
fn refuse_on(unit: &str, text: &str, message: &str, hint: &str) {
    match read(text, bench(unit)) {
        Ok(reading) => panic!("{text} was read as {}", spelled(&reading)),
        Err(diagnostic) => {
            assert!(diagnostic.message().contains(message), "{text}: {diagnostic:?}");
            assert_eq!(diagnostic.offered(text).unwrap_or_default(), hint, "{text}");
        }
    }
}

#[test]
fn lengths() {
    check("11 3/8\"", "91/8in");
    check(" 11-3/8\" ", "91/8in");
    check("11⅜″", "91/8in");
    check("11 ⅜”", "91/8in");
    check("½\"", "1/2in");
    check("3/4in", "3/4in");
    check(".5\"", "1/2in");
    check("5' 3 3/4\"", "255/4in");
    check("5'-3 3/4\"", "255/4in");
    check("5' 3-3/4\"", "255/4in");
    check("5′3″", "63in");
    check("5’ 3”", "63in");
    check("5ft 3in", "63in");
    check("5 feet 3 inches", "63in");
    check("5ft3in", "63in");
    check("5'–3\"", "63in");
    check("11\u{a0}3⁄8\u{202f}in", "91/8in");
    check("400mm", "2000/127in");
    check("40.5 cm", "2025/127in");
    check("1.2 m", "6000/127in");
    check("1_000 mm", "5000/127in");
    check("-1/8\"", "-1/8in");
    check("−1/8\"", "-1/8in");
    check("- 11 3/8 in", "-91/8in");
}

#[test]
fn other_kinds() {
    check("12lb 4oz", "49/4lb");
    check("12lb4oz", "49/4lb");
    check("5ft3", "8640in3");
    check("2.5kg", "250000000/45359237lb");
    check("3lbf", "3lbf");
    check("45°", "45deg");
    check("45 deg", "45deg");
    check("70degF", "70degF");
    check("21 °C", "349/5degF");
    check("-5degC", "23degF");
    check("-40°C", "-40degF");
    check("2h 30min", "150min");
    check("30%", "3/10");
    check("25lb/ft3", "25/1728lb/in3");
    check("9/10lb/ft2", "1/160lb/in2");
    check("10 m2/l", "254in2/in3");
    check("2 bdft", "288in3");
    check("$4.20", "21/5$");
    check("-$4.20", "-21/5$");
    check("12", "12");
    check("1/3", "1/3");
    check("-0.125", "-1/8");
}

#[test]
fn sizes() {
    check("18 x 24", "18 x 24");
    check("18X24", "18 x 24");
    check("18×24×1½", "18 x 24 x 3/2");
    check("18\" x 24\" x 1 1/2\"", "18in x 24in x 3/2in");
    check("5'2\"x3'", "62in x 36in");
    check("31 1/2inx12in", "63/2in x 12in");
    check("19-3/8 x 24", "155/8 x 24");
    check_on("in", "18 x 24", "18in x 24in");
    check_on("in", "18 x 24\"", "18in x 24in");
    check_on("mm", "450 x 600mm", "2250/127in x 3000/127in");
    check_on("mm", "18in x 450mm", "18in x 2250/127in");
}

#[test]
fn a_bare_number_takes_the_unit_asked_for() {
    check_on("in", "3/4", "3/4in");
    check_on("mm", "400", "2000/127in");
    check_on("mm", "3/4\"", "3/4in");
    check_on("in", "30%", "3/10");
    check_on("degC", "-5", "23degF");
}

#[test]
fn two_readings_are_refused_with_both() {
    refuse("19-3/8", "two ways", "19 3/8  or  19 - 3/8");
    refuse_on("in", "19-3/8", "two ways", "19 3/8  or  19 - 3/8");
    refuse("2h 30m", "two ways", "2h 30min");
    refuse_on("in", "450 x 600mm", "two ways", "450mm x 600mm  or  450in x 600mm");
    refuse_on("in", "5' x 3", "two ways", "5' x 3'  or  5' x 3in");
    refuse("18 x 24\"", "no unit", "18\" x 24\"");
}

#[test]
fn faults_say_what_would_do() {
    refuse("15 4/2\"", "proper", "");
    refuse("15-4/2\"", "proper", "");
    refuse("3/0in", "0 below", "");
    refuse("5' 3", "3 needs its mark \"", "5' 3\"");
    refuse("12lb 4", "4 needs its unit oz", "12lb 4oz");
    refuse("12 13", "operator is missing between", "12 + 13");
    refuse("5' 3\" 2\"", "operator is missing between", "5' + 3\" + 2\"");
    refuse("5\" 3\"", "operator is missing between", "5\" + 3\"");
    refuse("19.5 1/2", "operator is missing between", "19.5 + 1/2");
    refuse("19 1/2.5", "operator is missing between", "19 + 1/2.5");
    refuse("1x2x3x4", "two or three", "");
    refuse("18 x", "both sides", "18 *");
    refuse("5lb x 3lb", "5lb is a mass", "");
    refuse("-18 x 24", "below zero", "18 x 24");
    refuse("5''", "two marks", "5\"");
    refuse("5 inchs", "no unit called inchs", "5 inch  or  5 inches");
    refuse("5 MM", "no unit called MM", "5 mm");
    refuse("5 furlong", "no unit called furlong", "");
    refuse("11 \"", "touch", "11\"");
    refuse("30 %", "touch", "30%");
    refuse("99999999999999999999in", "too large", "");
    refuse("1e9999", "too large", "");
    refuse("1e99999999999999999999", "too large", "");
    refuse(&"9".repeat(100_000), "too large", "");
    refuse("", "missing", "");
    refuse("  ", "missing", "");
    refuse("abc", "not a number", "");
    refuse("0x18", "not a number", "");
    refuse("5 + 3", "cannot be read", "");
    refuse("5in list", "operator is missing between", "");
    assert!(quantity("18 x 24", None).unwrap_err().message().contains("is a size"));
}

#[test]
fn ranges_point_into_the_text_given() {
    let found = read("  -19-3/8", None).unwrap_err();
    assert_eq!(found.span, Some(3..9));
    assert_eq!(found.offered("  -19-3/8").as_deref(), Some("-19 3/8  or  -19 - 3/8"));
}

#[test]
fn the_grammar_knows_every_unit_of_the_table_and_no_other() {
    for unit in UNITS {
        for name in unit.names {
            let reading = read(&format!("3{name}"), None).unwrap_or_else(|found| panic!("{name}: {found:?}"));
            let stored = unit.to_storage(Real::whole(3)).to_text();
            assert_eq!(spelled(&reading), format!("{stored}{}", unit.kind.unit()), "{name}");
        }
    }
    let grammar = include_str!("../../../grammar/notation.pest");
    let from = grammar.find("\nword = {").unwrap();
    let words = grammar[from..].split('}').next().unwrap();
    for word in words.split('"').skip(1).step_by(2) {
        assert!(Unit::named(word).is_some(), "{word} is not a unit");
    }
}

fn any_real() -> impl Strategy<Value = Real> {
    let small = (-4000_i64..4000, 0_u32..8).prop_map(|(n, d)| Real::ratio(n, 1 << d));
    let decimal = (any::<i32>(), 0_u32..9).prop_map(|(n, d)| Real::ratio(n.into(), 10_i64.pow(d)));
    let wide = (any::<i64>(), 1..=i64::MAX).prop_map(|(n, d)| Real::ratio(n, d));
    let edge = prop_oneof![Just(i64::MIN), Just(i64::MAX), Just(0)].prop_map(Real::whole);
    let big = (any::<bool>(), prop::collection::vec(any::<u32>(), 1..60), prop::collection::vec(1_u32.., 1..60))
        .prop_map(|(negative, n, d)| {
            let n = BigInt::new(if negative { num_bigint::Sign::Minus } else { num_bigint::Sign::Plus }, n);
            Real::from_big(BigRational::new(n, BigInt::new(num_bigint::Sign::Plus, d)))
        });
    let whole = any::<i128>().prop_map(|n| Real::from_big(BigRational::from_integer(n.into())));
    prop_oneof![small, decimal, wide, edge, big, whole]
}

fn any_kind() -> impl Strategy<Value = Kind> {
    let named = (0..KINDS.len()).prop_map(|at| KINDS[at].kind);
    let powers = prop::array::uniform7(-12_i8..13);
    prop_oneof![3 => named, 1 => powers.prop_map(Kind::of_powers)]
}

/// Pieces that notation is made of, and some that it is not.
fn any_pieces() -> impl Strategy<Value = String> {
    const PIECES: &[&str] = &[
        "1",
        "23",
        "3/4",
        "-",
        " ",
        "\t",
        "½",
        "\"",
        "'",
        "″",
        "’",
        "x",
        "×",
        " x ",
        "in",
        " in ",
        "ft",
        "mm",
        "m",
        "lb",
        "oz",
        "h",
        "min",
        "%",
        "°",
        "degC",
        "/",
        ".",
        "e",
        "_",
        "$",
        "0x",
        "1e",
        "\n",
        "lb/ft3",
        "in2",
        "é",
        "0",
        "99999999999999999999",
        "*",
    ];
    prop::collection::vec((0..PIECES.len()).prop_map(|at| PIECES[at]), 0..12).prop_map(|pieces| pieces.concat())
}

fn read_everywhere(text: &str) {
    for unit in ["", "in", "mm", "degC"] {
        if let Err(found) = read(text, bench(unit)) {
            let span = found.span.expect("a fault has a place");
            assert!(text.get(span.clone()).is_some(), "{text:?} {span:?}");
        }
    }
}

proptest! {
    #[test]
    fn what_is_written_reads_back(amount in any_real(), kind in any_kind()) {
        let written = exactly(&Quantity::new(amount.clone(), kind));
        let back = quantity(&written, None).unwrap_or_else(|found| panic!("{written}: {found:?}"));
        prop_assert!(back.same(&Quantity::new(amount, kind)), "{written}");
    }

    #[test]
    fn any_text_is_read_or_refused(text in any::<String>()) {
        read_everywhere(&text);
    }

    #[test]
    fn any_notation_is_read_or_refused(text in any_pieces()) {
        read_everywhere(&text);
    }
}
