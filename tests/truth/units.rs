//! Units against their published definitions. Nothing here is computed by the program and then expected of it.

use crate::rows::{fraction, rows};
use benchrule::measure::{Kind, Quantity, Real, Turn, UNITS, Unit};

const UNITS_TABLE: &str = include_str!("../table/units.tsv");

fn unit(name: &str) -> &'static Unit {
    Unit::named(name).unwrap_or_else(|| panic!("no unit {name}"))
}

/// `value` of one unit, counted in another.
fn convert(value: Real, from: &str, to: &str) -> Real {
    assert_eq!(unit(from).kind, unit(to).kind, "{from} and {to}");
    unit(to).in_units(unit(from).to_storage(value))
}

/// The SI size of the unit that a kind is stored in, from the three definitions that tie the trade's units to it:
/// 1 in = 127/5000 m, 1 lb = 45359237/100000000 kg, 1 lbf = 8896443230521/2000000000000 N.
/// NIST SP 811 App. B, as carried by the unit tables of GNU Units 2.22 (read).
fn storage_in_si(kind: Kind) -> (Real, &'static str) {
    let inch = |power| Real::ratio(127, 5000).power(power);
    let pound = Real::ratio(45_359_237, 100_000_000);
    let force = Real::ratio(8_896_443_230_521, 2_000_000_000_000);
    match kind {
        Kind::LENGTH => (inch(1), "m"),
        Kind::AREA => (inch(2), "m2"),
        Kind::VOLUME => (inch(3), "m3"),
        Kind::SPREAD => (inch(-1), "m-1"),
        Kind::MASS => (pound, "kg"),
        Kind::DENSITY => (pound * inch(-3), "kg/m3"),
        Kind::GRAMMAGE => (pound * inch(-2), "kg/m2"),
        Kind::FORCE => (force, "N"),
        Kind::PRESSURE => (force * inch(-2), "Pa"),
        Kind::ANGLE => (Real::ONE, "deg"),
        Kind::TIME => (Real::whole(60), "s"),
        other => panic!("no SI unit noted for {other}"),
    }
}

/// What the table's `ours` stands for, in SI: `ft`, `1/72 in`, `lbf / lb`.
fn in_si(ours: &str) -> (Real, String) {
    if let Some((above, below)) = ours.split_once(" / ") {
        let ((above, _), (below, _)) = (in_si(above), in_si(below));
        return (above / below, "m/s2".into());
    }
    let (count, name) = match ours.split_once(' ') {
        Some((count, name)) => (fraction(count), name),
        None => (Real::ONE, ours),
    };
    let (size, si) = storage_in_si(unit(name).kind);
    (unit(name).to_storage(count) * size, si.into())
}

#[test]
fn every_definition_is_met_exactly() {
    let rows = rows(UNITS_TABLE, 8);
    assert!(rows.iter().filter(|row| row[7] == "read" || row[7] == "derived").count() >= 32);
    for row in rows {
        let (value, si) = in_si(row[1]);
        assert_eq!(si, row[3], "{}", row[0]);
        assert!(value.same(&fraction(row[2])), "{}: {} is not {}", row[0], value.to_text(), row[2]);
    }
}

#[test]
fn every_printed_decimal_is_met() {
    for row in rows(UNITS_TABLE, 8).into_iter().filter(|row| row[4] != "-") {
        let (value, printed) = (in_si(row[1]).0, Real::from_decimal(row[4]).unwrap());
        let places = row[4].split_once('.').map_or(0, |(_, after)| after.len());
        // A decimal that does not end was cut or rounded at its last place.
        let last = Real::whole(10).power(-i64::try_from(places).unwrap());
        let allowed = if value.ends_within(40) { Real::ZERO } else { last };
        assert!((value - printed).abs() <= allowed, "{}", row[0]);
    }
}

#[test]
fn every_unit_that_can_be_written_has_a_definition() {
    let table = rows(UNITS_TABLE, 8);
    for unit in UNITS.iter().filter(|unit| unit.kind != Kind::TEMPERATURE) {
        assert!(table.iter().any(|row| row[1] == unit.names[0]), "{} is not in the table", unit.names[0]);
    }
}

#[test]
fn a_name_means_one_unit() {
    let mut names: Vec<&str> = UNITS.iter().flat_map(|unit| unit.names).copied().collect();
    names.sort_unstable();
    let before = names.len();
    names.dedup();
    assert_eq!(names.len(), before);
}

/// One of the first unit is so many of the second: exactly, from the definitions of the table, and as NIST Handbook 44
/// App. C prints it to three places (read), where that was noted.
const RELATIONS: &[(&str, &str, &str, &str)] = &[
    ("bdft", "ft3", "1/12", ""),
    ("gal", "l", "3.785411784", ""),
    ("floz", "ml", "29.5735295625", ""),
    ("qt", "l", "0.946352946", ""),
    ("oz", "g", "28.349523125", ""),
    ("lb", "g", "453.59237", ""),
    ("in", "mm", "25.4", ""),
    ("ft3", "gal", "576/77", "7.481"),
    ("in3", "floz", "128/231", "0.554"),
    ("in3", "ml", "16.387064", "16.387"),
    ("ft3", "l", "28.316846592", "28.316"),
];

#[test]
fn relations_between_units_hold() {
    for (from, to, exact, printed) in RELATIONS {
        let value = convert(Real::ONE, from, to);
        assert!(value.same(&fraction(exact)), "1 {from} is {} {to}", value.to_text());
        // The cubic foot in litres is printed cut off; to three places it is 28.317.
        let cut = ((value.clone() * Real::whole(1000)).floor() / Real::whole(1000)).to_fixed(3);
        let met = if (*from, *to) == ("ft3", "l") { cut } else { value.to_fixed(3) };
        assert!(printed.is_empty() || met == *printed, "1 {from} is {met} {to}");
    }
    // 6.894757293168… in NIST SP 811 App. B, as carried by SciPy 1.11.4 (read); it does not end.
    let kilopascal = convert(Real::ONE, "psi", "kPa");
    assert_eq!(kilopascal.to_fixed(12), "6.894757293168");
}

/// Fahrenheit and Celsius of one temperature. 23, 60 and 93 °C are flash-point limits printed in both scales in
/// 29 CFR 1910.106 (read); the others are the scales' fixed points and −40, from the formula in SciPy 1.11.4 (read).
const TEMPERATURES: &[(&str, &str)] = &[
    ("32.0", "0.0"),
    ("68.0", "20.0"),
    ("73.4", "23.0"),
    ("140.0", "60.0"),
    ("199.4", "93.0"),
    ("212.0", "100.0"),
    ("-40.0", "-40.0"),
];

#[test]
fn both_thermometers_agree() {
    for (fahrenheit, celsius) in TEMPERATURES {
        let (f, c) = (fraction(fahrenheit), fraction(celsius));
        assert!(convert(c.clone(), "degC", "degF").same(&f), "{celsius} °C");
        assert!(convert(f, "degF", "degC").same(&c), "{fahrenheit} °F");
    }
    // A difference of 1 °F is 5/9 of a kelvin: SciPy 1.11.4 (read).
    let celsius = |f: i64| convert(Real::whole(f), "degF", "degC");
    assert!((celsius(71) - celsius(70)).same(&Real::ratio(5, 9)));
}

/// 1 ft²/gal is 240/9779 m²/l (0.09290304 / 3.785411784, from the definitions). Wood Handbook (GTR-190) p. 16-17 prints
/// 200 to 400 ft²/gal as 4.9 to 9.8 m²/l, and 100 to 200 as 2.4 to 4.9 (read). Its 2.4 is 2.4542 cut to a place, its 4.9
/// and 9.8 are 4.9085 and 9.8170; to one place 2.4542 rounds to 2.5.
#[test]
fn spread_rates_agree_with_the_wood_handbook() {
    assert!(convert(Real::ONE, "ft2/gal", "m2/l").same(&Real::ratio(240, 9779)));
    let metric = |rate: i64, places| convert(Real::whole(rate), "ft2/gal", "m2/l").to_fixed(places);
    assert_eq!([metric(200, 1), metric(400, 1)], ["4.9", "9.8"]);
    assert_eq!([metric(100, 4), metric(200, 4), metric(400, 4)], ["2.4542", "4.9085", "9.8170"]);
}

/// Thickness and width in inches, length in feet, board feet, and where it was worked out so.
const BOARD_FEET: &[(&str, &str, &str, &str, &str)] = &[
    ("1", "3", "8", "2", "furnituremaking.us, ordering lumber by the board foot (read)"),
    ("2", "6", "10", "10", "bobvila.com, calculating board feet (read)"),
    ("4", "6", "10", "20", "elmwoodreclaimedtimber.com, useful math (read)"),
    ("1", "10", "2", "5/3", "ehow.com, calculate board feet (read; it prints 1.66, cut off)"),
    ("5/4", "8", "6", "5", "computed in the reference dossier: thickness × width × length / 12"),
];

#[test]
fn board_feet_come_out_as_worked_elsewhere() {
    for (thick, wide, long, expected, source) in BOARD_FEET {
        let length = |figure: &str, name: &str| Quantity::inches(unit(name).to_storage(fraction(figure)));
        let section = length(thick, "in").multiply(&length(wide, "in")).unwrap();
        let volume = section.multiply(&length(long, "ft")).unwrap();
        assert_eq!(volume.kind, unit("bdft").kind);
        let feet = unit("bdft").in_units(volume.amount);
        assert!(feet.same(&fraction(expected)), "{thick} × {wide} × {long}: {} ({source})", feet.to_text());
    }
}

/// 1 in 12 is 4.763641690726 degrees: atan(1/12) · 180/π, computed in the reference dossier.
#[test]
fn a_slope_of_one_in_twelve() {
    assert_eq!(Turn::Tangent.back_to_degrees(&Real::ratio(1, 12)).to_fixed(12), "4.763641690726");
}
