//! Cutting plans over the public classes of instances, beside a general solver where it can follow.
//!
//! The instances are read from the folder that `BENCHRULE_CUTTING` names: `1d/CLASS/FILE` and `1d/optima.csv`. Some classes
//! are E. Falkenauer's, A. Scholl's and others', collected in BPPLIB (Delorme, Iori and Martello, Optimization Letters 12,
//! 2018) under terms that keep them out of this repository.

#![allow(missing_docs, clippy::unwrap_used)]

#[path = "../tests/cutting/instances.rs"]
mod instances;

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use benchrule::cut::{Instance, Limits, certified, solve, verify};
use microlp::{ComparisonOp, OptimizationDirection, Problem};

/// How long a plan may take.
const LIMIT: Duration = Duration::from_secs(10);
/// The most steps of a check.
const CHECK_STEPS: u64 = 4_000_000_000;
/// How long the general solver may.
const REFERENCE_LIMIT: Duration = Duration::from_secs(2);
/// Models of more variables than this are not given to the general solver.
const MOST_VARIABLES: u64 = 3000;

/// What a class is asked for: proven in so many seconds.
const ASKED: &[(&str, &str)] = &[
    ("W1", "0.5 s"),
    ("W2", "0.5 s"),
    ("W3", "0.5 s"),
    ("W4", "1 s"),
    ("W5", "10 s"),
    ("falkenauer u", "0.5 s"),
    ("falkenauer t60", "0.5 s"),
    ("falkenauer t120", "3 s"),
    ("falkenauer t249", "5 s"),
    ("falkenauer t501", "10 s, a stretch"),
    ("scholl1", "0.5 s"),
    ("scholl2", "3 s"),
    ("scholl3", "gap 1, a stretch"),
    ("schwerin", "0.5 s"),
    ("waescher", "3 s"),
    ("multilength", "3 s"),
    ("hard28", "10 s, a stretch"),
    ("ai201", "gap 1, a stretch"),
    ("ani201", "gap 1, a stretch"),
];

struct Case {
    class: String,
    instance: Instance,
    /// The best cost known, and whether it is known to be the least there is.
    best: u64,
    optimal: bool,
}

#[derive(Default)]
struct Row {
    count: u32,
    proven: u32,
    /// Above the best cost known, or with a bound above a known optimum: never wanted.
    wrong: u32,
    gap: u64,
    sum: f64,
    longest: f64,
    /// Plans whose certificate shows that they are proven.
    certified: u32,
    check_sum: f64,
    check_longest: f64,
    reference: [u32; 2],
    reference_sum: f64,
}

fn class(folder: &str, file: &str) -> String {
    match folder {
        "workshop" => file[..2].to_string(),
        "falkenauer" if file.contains("_u") => "falkenauer u".into(),
        "falkenauer" => format!("falkenauer {}", file.split('_').nth(1).unwrap()),
        other => other.to_string(),
    }
}

fn cases(folder: &Path) -> Vec<Case> {
    let folder = folder.join("1d");
    let optima = std::fs::read_to_string(folder.join("optima.csv")).unwrap();
    let case = |row: &str| {
        let cells: Vec<&str> = row.split(',').collect();
        let text = std::fs::read_to_string(folder.join(cells[0]).join(cells[1])).unwrap();
        Case {
            class: class(cells[0], cells[1]),
            instance: if cells[1].ends_with(".vs") { instances::sticks(&text) } else { instances::bins(&text) },
            best: cells[2].parse().unwrap(),
            optimal: cells[4] != "GAP",
        }
    };
    optima.lines().skip(1).map(case).collect()
}

/// The textbook model: a stick is used or not, so many of each part lie in each stick; none if it is too large or takes
/// too long. Source: Kantorovich, Mathematical methods of organizing and planning production, Management Science 6, 1960.
fn reference(case: &Case) -> Option<f64> {
    let (parts, stock) = (&case.instance.parts, &case.instance.stock);
    let least = stock.iter().map(|stock| u64::from(stock.cost)).min()?;
    let sticks = |count: Option<u32>| count.map_or(case.best / least + 1, u64::from);
    let variables: u64 =
        stock.iter().map(|stock| sticks(stock.count) * (1 + u64::try_from(parts.len()).unwrap())).sum();
    if variables > MOST_VARIABLES {
        return None;
    }
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    problem.set_time_limit(REFERENCE_LIMIT);
    let mut made = vec![Vec::new(); parts.len()];
    for stock in stock {
        for _ in 0..sticks(stock.count) {
            let used = problem.add_binary_var(f64::from(stock.cost));
            let mut held = vec![(used, -f64::from(stock.usable + parts[0].kerf))];
            for (part, made) in parts.iter().zip(&mut made) {
                let count = problem.add_integer_var(0.0, (0, i32::try_from(part.quantity).unwrap()));
                held.push((count, f64::from(part.length + part.kerf)));
                made.push((count, 1.0));
            }
            problem.add_constraint(held, ComparisonOp::Le, 0.0);
        }
    }
    for (part, made) in parts.iter().zip(made) {
        problem.add_constraint(made, ComparisonOp::Ge, f64::from(part.quantity));
    }
    let start = Instant::now();
    let outcome = problem.solve().ok()?;
    outcome.is_optimal().then(|| start.elapsed().as_secs_f64())
}

fn measure(case: &Case, row: &mut Row) {
    let start = Instant::now();
    let plan = solve(&case.instance, &Limits { steps: u64::MAX, stop: &|| start.elapsed() >= LIMIT });
    let seconds = start.elapsed().as_secs_f64();
    assert_eq!(verify(&case.instance, &plan), Ok(()));
    let start = Instant::now();
    row.certified += u32::from(certified(&case.instance, &plan, CHECK_STEPS) == plan.cost);
    let check = start.elapsed().as_secs_f64();
    row.check_sum += check;
    row.check_longest = row.check_longest.max(check);
    row.count += 1;
    row.proven += u32::from(plan.is_proven());
    row.wrong += u32::from(plan.cost > case.best || case.optimal && plan.bound > case.best);
    row.gap = row.gap.max(plan.cost - plan.bound);
    row.sum += seconds;
    row.longest = row.longest.max(seconds);
    row.reference[1] += 1;
    if let Some(seconds) = reference(case) {
        row.reference[0] += 1;
        row.reference_sum += seconds;
    }
}

/// The most memory that the process held, where the system reports it.
fn memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let kib: u64 =
        status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?.split_whitespace().next()?.parse().ok()?;
    Some(format!("{} MiB", kib >> 10))
}

fn main() -> io::Result<()> {
    let mut out = io::stdout();
    let Some(folder) = std::env::var_os("BENCHRULE_CUTTING").map(PathBuf::from).filter(|folder| folder.is_dir()) else {
        return writeln!(out, "cutting: absent (BENCHRULE_CUTTING names no folder of instances)");
    };
    let mut rows: BTreeMap<String, Row> = BTreeMap::new();
    for case in cases(&folder) {
        measure(&case, rows.entry(case.class.clone()).or_default());
    }
    writeln!(out, "| class | plans | proven | certified | gap | mean, most s | check | asked | general solver |")?;
    writeln!(out, "|---|---|---|---|---|---|---|---|---|")?;
    for (class, row) in &rows {
        let asked = ASKED.iter().find(|asked| asked.0 == class).map_or("", |asked| asked.1);
        let general = match row.reference {
            [0, _] => "none".to_string(),
            [done, all] => format!("{done} of {all}, {:.2} s", row.reference_sum / f64::from(done)),
        };
        let wrong = if row.wrong > 0 { format!(", {} above the best known", row.wrong) } else { String::new() };
        let mean = row.sum / f64::from(row.count);
        writeln!(
            out,
            "| {class} | {} | {}{wrong} | {} | {} | {mean:.3}, {:.3} | {:.3}, {:.3} | {asked} | {general} |",
            row.count,
            row.proven,
            row.certified,
            row.gap,
            row.longest,
            row.check_sum / f64::from(row.count),
            row.check_longest
        )?;
    }
    writeln!(out, "memory {}", memory().unwrap_or_else(|| "unknown".into()))
}
