//! Moisture and movement through the fields of a design; what the functions behind them do is in `tests/moisture.rs`.

use super::{design, near, set, value};

const TABLE: &str = include_str!("../../table/moisture.tsv");

/// Wood Handbook FPL-GTR-190 Table 4-2 (read): 342 cells, within 0.07 of a percent.
#[test]
fn every_cell_of_the_table_is_met_at_the_bench() {
    let mut frame = design(&[]);
    let mut cells = 0;
    for row in TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        let columns: Vec<&str> = row.split('\t').collect();
        set(&mut frame, "climate.before.temperature", &format!("{}degF", columns[0]));
        for (at, cell) in columns[1..20].iter().enumerate() {
            set(&mut frame, "climate.before.humidity", &format!("{}%", 5 * (at + 1)));
            near(100.0 * value(&frame, "moisture.before"), cell.parse().unwrap(), 0.07);
            cells += 1;
        }
    }
    assert_eq!(cells, 342);
}

/// White oak, 5 in, 0.00365, three points: 0.055 in (Sullivan Hardwood Flooring, Wood flooring stability, read). The table has the same
/// coefficient; the air gives no whole points, so the change is brought to three.
#[test]
fn a_rail_moves_as_a_board_does() {
    let frame = design(&[("art", "16 x 20 x 3/4"), ("wood", "white oak"), ("face", "5")]);
    let points = 100.0 * value(&frame, "moisture.change");
    assert_eq!(format!("{:.3}", value(&frame, "rail.moves") / points * 3.0), "0.055");
}

/// 30 % is 6 %, 50 % is 9 %, 65 % is 12 %, 80 % is 16 % (E. Wengert, rules of thumb, FDMC
/// magazine, read), at room temperature to the half percent.
#[test]
fn the_rules_of_thumb_hold() {
    for (humidity, content) in [("30%", 6.0), ("50%", 9.0), ("65%", 12.0), ("80%", 16.0)] {
        let frame = design(&[("climate.after.temperature", "70degF"), ("climate.after.humidity", humidity)]);
        near(100.0 * value(&frame, "moisture.after"), content, 0.5);
    }
}
