//! Plans of sheets over the public instances in the folder named by `BENCHRULE_CUTTING` ('absent' without it): how many
//! sheets, the best known (of others, for three stages and no turning), the bound, and the time; and the fullest sheets.

#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use std::fs;
use std::path::Path;
use std::time::Instant;

use benchrule::cut::Limits;
use benchrule::cut::sheet::{Instance, Piece, Sheet, fullest, solve, verify};

/// Rows of a table, its head left out.
fn rows(path: &Path) -> Vec<Vec<String>> {
    let text = fs::read_to_string(path).unwrap();
    text.lines().skip(1).map(|line| line.split(',').map(|cell| cell.trim().to_string()).collect()).collect()
}

/// Which column has a name.
fn column(path: &Path, name: &str) -> Option<usize> {
    fs::read_to_string(path).unwrap().lines().next()?.split(',').position(|cell| cell.trim() == name)
}

fn instance(folder: &Path, name: &str) -> Instance {
    let number = |cell: &String| cell.parse::<u32>().unwrap();
    let items = folder.join(format!("{name}_items.csv"));
    let copies = column(&items, "COPIES");
    let items = rows(&items);
    let bins = rows(&folder.join(format!("{name}_bins.csv")));
    let pieces = items.iter().map(|row| Piece {
        width: number(&row[1]),
        height: number(&row[2]),
        quantity: copies.and_then(|at| row.get(at)).map_or(1, number),
        turns: false,
    });
    let sheet = |row: &Vec<String>| Sheet { width: number(&row[1]), height: number(&row[2]), count: None, cost: 1 };
    Instance { kerf: 0, trim: 0, pieces: pieces.collect(), sheets: bins.iter().take(1).map(sheet).collect() }
}

/// How many sheets a plan takes, the best known and the bound; whether it is at or under the best known, and proven.
fn run(folder: &Path, name: &str, known: &str, limit: f64) -> (bool, bool) {
    let instance = instance(folder, name);
    let start = Instant::now();
    let over = || start.elapsed().as_secs_f64() >= limit;
    let plan = solve(&instance, &Limits { steps: u64::MAX, stop: &over });
    let seconds = start.elapsed().as_secs_f64();
    verify(&instance, &plan).unwrap();
    let good = plan.left.iter().all(|left| *left == 0) && known.parse::<u64>().is_ok_and(|known| plan.cost <= known);
    let mark = if good { "" } else { "  above" };
    println!("{name:<20} {:>4} sheets, known {known:>3}, bound {:>3}, {seconds:.3} s{mark}", plan.cost, plan.bound);
    (good, plan.is_proven())
}

/// The fullest sheet, pieces as they lie or turned, and its published worth.
fn fill(folder: &Path, name: &str, turns: bool, known: &str) -> bool {
    let mut instance = instance(folder, name);
    instance.pieces.iter_mut().for_each(|piece| piece.turns = turns);
    let worth: Vec<u64> =
        instance.pieces.iter().map(|piece| u64::from(piece.width) * u64::from(piece.height)).collect();
    let start = Instant::now();
    let found = fullest(&instance, &instance.sheets[0], &worth, &Limits::steps(u64::MAX));
    let seconds = start.elapsed().as_secs_f64();
    let worth = found.map_or(0, |found| found.worth);
    let way = if turns { "turned" } else { "as it lies" };
    println!("{name:<20} {way:<10} worth {worth:>7}, known {known:>7}, {seconds:.3} s");
    known.parse() == Ok(worth)
}

fn main() {
    let Some(folder) = std::env::var_os("BENCHRULE_CUTTING") else {
        println!("sheets: the instances are absent; BENCHRULE_CUTTING names their folder");
        return;
    };
    let two = Path::new(&folder).join("2d");
    let (mut good, mut proven, mut all) = (0, 0, 0);
    for row in rows(&two.join("binpacking/best_known_3stage.csv")) {
        let (is_good, is_proven) = run(&two.join("binpacking"), &row[0], &row[1], 0.5);
        good += u32::from(is_good);
        proven += u32::from(is_proven);
        all += 1;
    }
    println!("bin packing at or under the best known: {good} of {all}, proven {proven}");
    // They fill one sheet, and no cut from edge to edge goes through it: what is to be known is the proof of two.
    for name in ["t1a", "t1c", "t2a", "t2c", "t3a", "t3c", "t4a", "t4c"] {
        run(&two.join("hopper_t"), name, "2", 5.0);
    }
    let (mut exact, mut all) = (0, 0);
    for row in rows(&two.join("gcut/gcut_unconstrained.csv")) {
        exact += u32::from(fill(&two.join("gcut"), &row[0], row[1] == "rot", &row[2]));
        all += 1;
    }
    println!("gcut exact: {exact} of {all}");
}
