//! Plans of sheets over the public instances in the folder named by `BENCHRULE_CUTTING` ('absent' without it): how many
//! sheets, the best known, the bound, and the time. Two-stage values of others are for three stages and no turning.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use std::fs;
use std::path::Path;
use std::time::Instant;

use benchrule::cut::Limits;
use benchrule::cut::sheet::{Instance, Piece, Sheet, solve, verify};

/// Rows of a table, its head left out.
fn rows(path: &Path) -> Vec<Vec<String>> {
    let text = fs::read_to_string(path).unwrap();
    text.lines().skip(1).map(|line| line.split(',').map(|cell| cell.trim().to_string()).collect()).collect()
}

fn instance(folder: &Path, name: &str) -> Instance {
    let number = |cell: &String| cell.parse::<u32>().unwrap();
    let items = rows(&folder.join(format!("{name}_items.csv")));
    let bins = rows(&folder.join(format!("{name}_bins.csv")));
    let pieces = items.iter().map(|row| Piece {
        width: number(&row[1]),
        height: number(&row[2]),
        quantity: row.get(3).map_or(1, number),
        turns: false,
    });
    let sheet = |row: &Vec<String>| Sheet { width: number(&row[1]), height: number(&row[2]), count: None, cost: 1 };
    Instance { kerf: 0, trim: 0, pieces: pieces.collect(), sheets: bins.iter().take(1).map(sheet).collect() }
}

fn run(folder: &Path, name: &str, known: &str, limit: f64) -> bool {
    let instance = instance(folder, name);
    let start = Instant::now();
    let over = || start.elapsed().as_secs_f64() >= limit;
    let plan = solve(&instance, &Limits { steps: u64::MAX, stop: &over });
    let seconds = start.elapsed().as_secs_f64();
    verify(&instance, &plan).unwrap();
    let good = plan.left.iter().all(|left| *left == 0) && known.parse::<u64>().is_ok_and(|known| plan.cost <= known);
    let mark = if good { "" } else { "  above" };
    println!("{name:<20} {:>4} sheets, known {known:>3}, bound {:>3}, {seconds:.3} s{mark}", plan.cost, plan.bound);
    good
}

fn main() {
    let Some(folder) = std::env::var_os("BENCHRULE_CUTTING") else {
        println!("sheets: the instances are absent; BENCHRULE_CUTTING names their folder");
        return;
    };
    let two = Path::new(&folder).join("2d");
    let (mut good, mut all) = (0, 0);
    for row in rows(&two.join("binpacking/best_known_3stage.csv")) {
        good += u32::from(run(&two.join("binpacking"), &row[0], &row[1], 0.5));
        all += 1;
    }
    println!("bin packing at or under the best known: {good} of {all}");
    for name in ["t1a", "t1c", "t2a", "t2c", "t3a", "t3c", "t4a", "t4c"] {
        run(&two.join("hopper_t"), name, "1", 5.0);
    }
}
