//! Every number of the tables lies where such numbers lie. The bounds are wide: they catch a slipped point or unit, not
//! a doubtful third digit. Common practice, no source.

use benchrule::rules::book::Table;
use benchrule::rules::shipped;

use super::rows::amount;

/// Table, column, least, most; in storage units: inch, pound, pound-force, lb/in³, lb/in², psi.
const RANGES: &[(&str, &str, f64, f64)] = &[
    ("woods", "gravity", 0.30, 0.80),
    // 20 to 60 lb/ft³.
    ("woods", "density", 20.0 / 1728.0, 60.0 / 1728.0),
    ("woods", "lead", 0.7, 0.9),
    ("woods", "radial", 0.0005, 0.0030),
    ("woods", "tangential", 0.0012, 0.0050),
    ("woods", "elasticity", 0.8e6, 2.5e6),
    ("woods", "rupture", 5_000.0, 22_000.0),
    // 1000 to 2600 kg/m³.
    ("glazings", "density", 0.036, 0.094),
    ("glazings", "thickness", 0.06, 0.25),
    ("glazings", "growth", 0.000_004, 0.000_05),
    ("glazings", "thin", 24.0, 72.0),
    ("glazings", "thick", 60.0, 144.0),
    // 100 to 1100 kg/m³.
    ("boards", "density", 0.0036, 0.040),
    ("boards", "thickness", 0.05, 0.5),
    // 50 to 1500 g/m².
    ("kinds", "grammage", 0.000_07, 0.0022),
    ("kinds", "density", 0.014, 0.036),
    ("screws", "number", 0.0, 24.0),
    ("screws", "body", 0.06, 0.38),
    ("screws", "root", 0.04, 0.25),
    ("screws", "design", 0.11, 0.30),
    ("screws", "head", 0.11, 0.77),
    ("screws", "shortest", 0.5, 3.0),
    ("screws", "longest", 0.5, 3.0),
    ("lengths", "length", 0.25, 4.0),
    ("drills", "size", 0.0135, 0.5),
    ("brads", "diameter", 0.02, 0.17),
    ("brads", "longest", 1.0, 3.5),
    ("wires", "breaking", 20.0, 1_000.0),
    ("hangers", "rated", 5.0, 250.0),
    ("hangers", "screws", 1.0, 6.0),
    ("hangers", "number", 4.0, 10.0),
    ("hooks", "rated", 5.0, 120.0),
    ("roughs", "thickness", 1.0, 4.0),
    ("roughs", "yields", 0.75, 3.875),
    ("clips", "offset", 0.125, 1.0),
];

#[test]
fn every_number_lies_in_its_range() {
    let book = shipped();
    for table in book.tables.iter().filter(|table| !table.columns.is_empty()) {
        for column in &table.columns {
            let range = RANGES.iter().find(|(of, name, ..)| *of == table.name && *name == column.name);
            for (row, word) in table.words.iter().enumerate() {
                let Some(value) = amount(table, &column.name, row) else { continue };
                let (_, _, least, most) = range.unwrap_or_else(|| panic!("{} {}: no range", table.name, column.name));
                assert!((*least..=*most).contains(&value), "{} of {word}: {value}", column.name);
            }
        }
    }
}

/// Holds for every row that has both cells.
#[track_caller]
fn ordered(table: &str, least: &str, most: &str, strictly: bool) {
    let book = shipped();
    let table: &Table = book.table(table).unwrap();
    for (row, word) in table.words.iter().enumerate() {
        let (Some(least), Some(most)) = (amount(table, least, row), amount(table, most, row)) else { continue };
        assert!(least < most || !strictly && least <= most, "{word}: {least}, {most}");
    }
}

/// Wood moves at least as far along the growth rings as across them (Wood Handbook ch. 4); a root is thinner than the body,
/// the body than the head; a thick pane may be larger than a thin one; planing takes wood away.
#[test]
fn what_must_be_less_is_less() {
    ordered("woods", "radial", "tangential", false);
    ordered("screws", "root", "body", true);
    ordered("screws", "design", "body", true);
    ordered("screws", "root", "design", true);
    ordered("screws", "body", "head", true);
    ordered("screws", "shortest", "longest", false);
    ordered("glazings", "thin", "thick", true);
    ordered("roughs", "yields", "thickness", true);
}

/// Tables from which the smallest that does is taken are in the order of what they do, no two alike.
#[test]
fn what_is_chosen_from_is_in_order() {
    for (table, column) in [
        ("wires", "breaking"),
        ("hangers", "rated"),
        ("hooks", "rated"),
        ("lengths", "length"),
        ("screws", "number"),
        ("screws", "body"),
        ("roughs", "yields"),
        ("clips", "offset"),
    ] {
        let book = shipped();
        let table = book.table(table).unwrap();
        let values: Vec<f64> = (0..table.words.len()).filter_map(|row| amount(table, column, row)).collect();
        assert!(values.windows(2).all(|pair| pair[0] < pair[1]), "{} {column}: {values:?}", table.name);
    }
}
