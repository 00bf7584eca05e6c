//! Wood and the air against the Wood Handbook's tables and published examples.

use crate::rows::{fraction, rows};
use benchrule::frame::moisture::{FIBER_SATURATION, change, coefficient, emc, swollen_mitre};
use benchrule::frame::wedge::Opens;

const TABLE: &str = include_str!("../table/moisture.tsv");
const POINTS: &str = include_str!("../table/moisture_points.tsv");
const SHRINKAGE: &str = include_str!("../table/shrinkage.tsv");

fn number(text: &str) -> f64 {
    fraction(text).to_f64()
}

/// As a source prints it: `places` decimals.
fn printed(value: f64, places: usize) -> String {
    format!("{value:.places$}")
}

#[test]
fn every_cell_of_the_table_is_met() {
    let mut cells = 0;
    for row in rows(TABLE, 22) {
        let temperature = number(row[0]);
        for (at, cell) in row[1..20].iter().enumerate() {
            let humidity = f64::from(u8::try_from(5 * (at + 1)).unwrap()) / 100.0;
            let found = emc(temperature, humidity).unwrap();
            // The table is the equation rounded to a tenth, with slips of up to another sixtieth.
            assert!((found - number(cell)).abs() < 0.07, "{found}, {cell} at {temperature} °F, {humidity}");
            cells += 1;
        }
    }
    assert_eq!(cells, 342);
}

#[test]
fn the_equation_is_met_to_four_places() {
    let rows = rows(POINTS, 6);
    assert_eq!(rows.len(), 33);
    for row in rows {
        let found = emc(number(row[0]), number(row[1]) / 100.0).unwrap();
        assert_eq!(printed(found, 4), row[3], "{row:?}");
    }
}

#[test]
fn air_that_cannot_be_is_refused() {
    let said = |temperature, humidity| emc(temperature, humidity).unwrap_err().to_string();
    assert_eq!(said(70.0, 1.05), "the relative humidity is 105 %, and must be from 0 to 100 %");
    assert_eq!(said(70.0, -0.1), "the relative humidity is -10 %, and must be from 0 to 100 %");
    assert_eq!(said(20.0, 0.5), "the temperature is 20 °F, and must be from 30 to 200 °F");
    assert!(emc(f64::NAN, 0.5).is_err() && emc(70.0, f64::NAN).is_err());
    assert_eq!(emc(70.0, 0.0), Ok(0.0));
    assert!(emc(70.0, 1.0).unwrap() > 24.0);
}

#[test]
fn coefficients_follow_from_shrinkage() {
    let rows = rows(SHRINKAGE, 8);
    assert_eq!(rows.len(), 54);
    for row in rows {
        let found = coefficient(number(row[2]), number(row[3])).unwrap();
        assert!((found - number(row[4])).abs() < 1e-5, "{found}: {row:?}");
    }
    assert!(coefficient(-1.0, FIBER_SATURATION).is_err() && coefficient(7.0, 0.0).is_err());
}

/// Size, coefficient, moisture contents, and the change with as many places as it is printed.
///
/// 1: Sullivan Hardwood Flooring, Wood flooring stability, white oak (read). 2: the wood flooring trade association's
/// example, on a flooring page (read). 3: Wood magazine, September 2021, red alder, a change of six points (read; from
/// 6 to 12 is ours). 4: Wood Handbook ch. 13, white fir (memory). 5: a university course page, a structural member
/// (read; printed without the sign).
const CHANGES: &[(f64, f64, [f64; 2], &str)] = &[
    (5.0, 0.00365, [6.0, 9.0], "0.055"),
    (5.0, 0.00129, [6.0, 9.0], "0.019"),
    (8.0, 0.0026, [6.0, 12.0], "0.1248"),
    (9.15, 0.00245, [8.0, 11.0], "0.06725"),
    (13.25, 0.002, [19.0, 10.0], "-0.2385"),
];

#[test]
fn published_changes_are_met_to_the_printed_digit() {
    for (size, coefficient, contents, expected) in CHANGES {
        let places = expected.split_once('.').map_or(0, |(_, places)| places.len());
        assert_eq!(printed(change(*size, *coefficient, *contents), places), *expected);
    }
}

/// Face, coefficient, change of moisture content, angle between the outer edge and the cut, corner error in degrees,
/// gap.
///
/// Computed apart from this program by the same rule of the tangent; no numbers were found published. The second check
/// of them is the one by points in `src/frame/tests/mitres.rs`. Walnut, beech, cherry (radial), basswood.
const MITRES: &[(f64, f64, f64, &str, &str, &str, Opens)] = &[
    (3.0, 0.00274, 4.0, "45.31227", "0.62453", "0.046245", Opens::Outside),
    (2.0, 0.00431, 4.0, "45.48966", "0.97931", "0.048344", Opens::Outside),
    (2.5, 0.00126, 4.0, "45.14402", "0.28804", "0.017774", Opens::Outside),
    (2.0, 0.00330, -5.0, "44.52339", "-0.95322", "0.047056", Opens::Inside),
];

#[test]
fn mitres_open_as_the_table_has_it() {
    for (face, coefficient, points, toe, error, gap, opens) in MITRES {
        let wedge = swollen_mitre(*face, 4, coefficient * points).unwrap();
        let blunter = wedge.angle.to_degrees() * points.signum();
        assert_eq!(printed(blunter, 5), *error);
        assert_eq!(printed(45.0 + blunter / 2.0, 5), *toe);
        assert_eq!(printed(wedge.gap, 6), *gap);
        assert_eq!(wedge.opens, *opens);
        // The rule of thumb, face · strain · √2, is as near as it is said to be.
        assert!((wedge.gap - (face * coefficient * points).abs() * 2.0_f64.sqrt()).abs() < 0.0005);
    }
    assert_eq!(swollen_mitre(2.0, 4, 0.0).unwrap().opens, Opens::Nowhere);
    assert!(swollen_mitre(2.0, 2, 0.01).is_err() && swollen_mitre(0.0, 4, 0.01).is_err());
}
