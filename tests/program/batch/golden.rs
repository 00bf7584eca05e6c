//! Twelve works in three styles, a whole run: the same bytes each time, on however many threads, from however written a
//! table. `BLESS=1` writes what is expected anew; the difference is then read like code.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::{contents, shop};
use crate::program::{Home, Ran};

const JOBS: &str = include_str!("jobs.csv");

/// What is compared byte by byte; the rest is the same on every run, and is covered by other tests.
const TABLES: &[&str] = &["summary.csv", "parts.csv", "weights.csv", "buy.csv", "plan.txt", "works/0004-Kite.txt"];

fn run(home: &Home, table: &str, text: &str, out: &str, more: &[&str]) -> Ran {
    home.file(table, text);
    home.run(&[&["batch", table, "--style", "thin-edge", "--plan", "--out", out], more].concat())
}

fn golden(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/program/batch/golden").join(name.replace('/', "-"))
}

#[test]
fn a_run_gives_all_that_is_needed() {
    let home = shop();
    let ran = run(&home, "jobs.csv", JOBS, "out", &[]);
    assert_eq!(ran.err, "");
    assert_eq!(ran.status, 0);
    assert!(ran.out.starts_with("12 rows; "), "{}", ran.out);
    let made = contents(&home.path().join("out"));
    for name in TABLES {
        let text = String::from_utf8(made[*name].clone()).unwrap();
        let file = golden(name);
        if std::env::var_os("BLESS").is_some() {
            std::fs::write(&file, &text).unwrap();
        }
        let expected = std::fs::read_to_string(&file).unwrap_or_default();
        assert_eq!(text, expected, "{name}");
    }
    // Sheets and plans have the whole text of each caution, JSON its one line as well.
    for (name, text) in &made {
        let text = String::from_utf8_lossy(text);
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        if name == "plan.txt" || name == "plan.json" || name.starts_with("works/") {
            assert!(flat.contains("Wood dust of any species can cause cancer of the nose"), "{name}");
        }
        if name.ends_with(".json") {
            assert!(flat.contains("\"short\":\"Wood dust causes cancer: collect it at the machine"), "{name}");
        }
    }
    let names: Vec<&str> = made.keys().map(String::as_str).filter(|name| name.starts_with("works/")).collect();
    assert_eq!(names.len(), 24);
    assert!(names.contains(&"works/0008-1-2.json") && names.contains(&"works/0002-Low-tide--evening.txt"), "{names:?}");
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let home = shop();
    let first = run(&home, "jobs.csv", JOBS, "one", &["--threads", "1"]);
    let made = contents(&home.path().join("one"));
    for threads in ["2", "7"] {
        let again = run(&home, "jobs.csv", JOBS, threads, &["--threads", threads]);
        assert_eq!(again.out.replace(threads, "one"), first.out.replace(threads, "one"));
        assert_eq!(contents(&home.path().join(threads)), made, "{threads} threads");
    }
}

/// The table, its cells parted by another mark, lines ended by another end, a byte-order mark before it.
#[test]
fn however_a_table_is_written_it_says_the_same() {
    let home = shop();
    run(&home, "jobs.csv", JOBS, "out", &[]);
    let made = contents(&home.path().join("out"));
    let mut reader = csv::ReaderBuilder::new().has_headers(false).comment(Some(b'#')).from_reader(JOBS.as_bytes());
    let records: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let written = |mark: u8, end: csv::Terminator| {
        let mut writer = csv::WriterBuilder::new().delimiter(mark).terminator(end).from_writer(Vec::new());
        records.iter().for_each(|record| writer.write_record(record).unwrap());
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    };
    let mut objects = String::new();
    for record in &records[1..] {
        let pairs = records[0].iter().zip(record).filter(|(_, cell)| !cell.is_empty());
        let object: serde_json::Map<String, serde_json::Value> =
            pairs.map(|(name, cell)| (name.to_string(), cell.into())).collect();
        objects += &format!("{}\n", serde_json::Value::from(object));
    }
    let tables = [
        ("semicolons", format!("\u{feff}{}", written(b';', csv::Terminator::Any(b'\n')))),
        ("tabs", written(b'\t', csv::Terminator::CRLF)),
        ("objects", objects),
    ];
    for (name, text) in tables {
        let ran = run(&home, name, &text, &format!("{name}.out"), &[]);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{name}");
        assert_eq!(contents(&home.path().join(format!("{name}.out"))), made, "{name}");
    }
    let piped = home.pipe(&["batch", "-", "--style", "thin-edge", "--plan", "--out", "piped"], JOBS);
    assert_eq!((piped.err.as_str(), piped.status), ("", 0));
    assert_eq!(contents(&home.path().join("piped")), made);
}

/// The sheet and the object of a row are those of the bench, where the same is typed.
#[test]
fn a_row_is_what_the_bench_says() {
    let home = shop();
    home.file("jobs.csv", "name,art,face,reveal,wood\nheron,16 x 20 x 3/4,7/8,3/8,cherry\n");
    let rows = home.run(&["batch", "jobs.csv", "--json"]).objects();
    let typed = home.run(&[
        "--json",
        "-e",
        "name heron",
        "-e",
        "art 16 x 20 x 3/4",
        "-e",
        "face 7/8",
        "-e",
        "reveal 3/8",
        "-e",
        "wood cherry",
        "-e",
        "sheet",
    ]);
    assert_eq!(rows[0]["design"], typed.objects()[5]["design"]);
    let styled = home.file("styled.csv", "name,art,style,border\nkite,11 x 14 x 1/16,paper-lip,3\n");
    let rows = home.run(&["batch", styled.to_str().unwrap(), "--json"]).objects();
    let typed = home.run(&["--json", "-e", "name kite", "-e", "art 11 x 14 x 1/16", "-e", "style paper-lip border=3"]);
    assert_eq!(rows[0]["design"], typed.objects()[2]["design"]);
}

/// A table as maps from the names of its columns.
fn table(home: &Home, name: &str) -> Vec<BTreeMap<String, String>> {
    let text = home.read(name);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

/// What is in several tables is the same in all of them, added up by other ways.
#[test]
fn tables_agree_with_one_another() {
    let home = shop();
    run(&home, "jobs.csv", JOBS, "out", &[]);
    let (parts, plan, buy) = (table(&home, "out/parts.csv"), table(&home, "out/plan.csv"), table(&home, "out/buy.csv"));
    let count = |rows: &[BTreeMap<String, String>], is: &dyn Fn(&BTreeMap<String, String>) -> bool| -> u64 {
        rows.iter().filter(|row| is(row)).map(|row| row["quantity"].parse::<u64>().unwrap()).sum()
    };
    for part in parts.iter().filter(|part| part["cut_from"] == "stick") {
        let cut = plan.iter().filter(|row| row["name"] == part["name"] && row["cut.length"] == part["long"]).count();
        assert_eq!(cut.to_string(), part["quantity"], "{}", part["name"]);
    }
    let cut: Vec<_> = plan.iter().filter(|row| !row["stick"].is_empty()).collect();
    assert_eq!(u64::try_from(cut.len()).unwrap(), count(&parts, &|part| part["cut_from"] == "stick"));
    let bought = |what: &str| -> u64 {
        buy.iter().filter(|row| row["what"] == what).map(|row| row["count"].parse::<u64>().unwrap()).sum()
    };
    assert_eq!(bought("piece"), count(&parts, &|part| part["cut_from"] == "sheet"));
    let sticks = cut.iter().map(|row| row["stick"].parse::<u64>().unwrap()).max().unwrap();
    assert_eq!(bought("stick"), sticks);
    // Weights in thousandths of a pound, each rounded by itself.
    let weights = table(&home, "out/weights.csv");
    let (rows, last) = (&weights[..weights.len() - 1], &weights[weights.len() - 1]);
    let pounds = |row: &BTreeMap<String, String>, column: &str| row[column].parse::<f64>().unwrap();
    for (one, all) in [("weight_lb", "all_lb"), ("packed_lb", "all_packed_lb")] {
        let sum: f64 = rows.iter().map(|row| pounds(row, one) * pounds(row, "quantity")).sum();
        assert!((sum - pounds(last, all)).abs() < 0.02, "{sum} {last:?}");
    }
}

/// Mats of some 16 x 19 inches for three works: no more than two have room on one sheet of 32 x 20, by area alone.
#[test]
fn what_no_sheet_gives_is_to_be_bought_and_counts_as_failed() {
    let home = shop();
    home.file(
        "stock.csv",
        "what,length,width,count,wood,section\nstick,10ft,,,,\nsheet,32in,20in,1,mat board,1/16in\n",
    );
    home.file("jobs.csv", "name,art,style,quantity\nkite,11 x 14 x 1/16,paper-lip,3\n");
    let ran = home.run(&["batch", "jobs.csv", "--plan", "--out", "out"]);
    assert_eq!((ran.status, ran.err.as_str()), (1, ""), "{}", ran.out);
    let reported = home.read("out/plan.txt");
    let line = reported.lines().find_map(|line| line.strip_prefix("stop: this plan leaves out ")).unwrap_or_default();
    let lacking: u64 = line.split(' ').next().unwrap().parse().unwrap();
    let buy = table(&home, "out/buy.csv");
    let is_mat = |row: &&BTreeMap<String, String>| row["what"] == "piece" && row["wood"] == "mat board";
    let bought: u64 = buy.iter().filter(is_mat).map(|row| row["count"].parse::<u64>().unwrap()).sum();
    assert!(lacking > 0, "{reported}");
    assert_eq!(bought, lacking, "{buy:?}");
}
