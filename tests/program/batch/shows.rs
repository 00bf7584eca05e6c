//! The show in `scripts/shows`: its results are beside it, and come again. `BLESS=1` writes it anew; the difference
//! is then read like code.

use std::collections::BTreeSet;
use std::path::Path;

use super::contents;
use crate::program::Home;

const SHOW: &str = "low-water";
const TABLES: &[&str] = &["summary.csv", "plan.txt", "buy.csv"];

#[test]
fn the_show_comes_out_as_it_stands() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scripts/shows");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap_or_default();
    let home = Home::new();
    home.file("stock.csv", read("shop/stock.csv"));
    let jobs = home.file("low-water.csv", read("low-water.csv"));
    let out = home.path().join("out");
    let ran = home.run(&["batch", jobs.to_str().unwrap(), "--plan", "--out", out.to_str().unwrap()]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    let made = contents(&out);
    for name in TABLES {
        let text = String::from_utf8(made[*name].clone()).unwrap();
        let file = folder.join(SHOW).join(name);
        if std::env::var_os("BLESS").is_some() {
            std::fs::create_dir_all(file.parent().unwrap()).unwrap();
            std::fs::write(&file, &text).unwrap();
        }
        assert_eq!(text, read(&format!("{SHOW}/{name}")), "{name}; BLESS=1 writes it anew");
    }
    // Twenty-four works at least, in four styles or more, and a sheet and JSON of each.
    let summary = String::from_utf8(made["summary.csv"].clone()).unwrap();
    let rows: Vec<Vec<&str>> = summary.lines().skip(1).map(|line| line.split(',').collect()).collect();
    let styles: BTreeSet<&str> = rows.iter().map(|cells| cells[2]).collect();
    assert!(rows.len() >= 24 && styles.len() >= 4, "{} works in {styles:?}", rows.len());
    assert_eq!(made.keys().filter(|name| name.starts_with("works/")).count(), 2 * rows.len());
    assert!(!String::from_utf8(made["plan.txt"].clone()).unwrap().contains("Not planned"));
}
