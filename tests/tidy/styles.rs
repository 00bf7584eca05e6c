//! The scripts that ship: every one is built in, and frames what it is made for.

use benchrule::session::style::SHIPPED;

use crate::bench::Bench;
use crate::source::{below, files, root};

#[test]
fn every_style_is_built_in() {
    let folder = root().join("scripts/styles");
    let there: Vec<(String, String)> = files(&folder)
        .into_iter()
        .map(|path| (below(&path, &folder), std::fs::read_to_string(path).unwrap()))
        .collect();
    let shipped: Vec<(String, String)> =
        SHIPPED.iter().map(|(name, text)| (format!("{name}.rhai"), (*text).to_string())).collect();
    assert_eq!(there, shipped);
}

#[test]
fn the_demo_runs_and_can_be_made() {
    let demo = std::fs::read_to_string(root().join("scripts/demo.rhai")).unwrap();
    let mut bench = Bench::with(&[("demo.rhai", &demo)]);
    let shown = bench.line("run demo.rhai");
    assert!(!shown.failed() && !shown.outcome.stopped, "{}", shown.text);
    for (heading, sheets) in [("Parts", 6), ("Screws", 4), ("Points", 2), ("Hanging", 6), ("Wood", 6)] {
        assert_eq!(shown.text.matches(&format!("\n{heading}\n")).count(), sheets, "{heading}: {}", shown.text);
    }
    // It works on designs of its own and leaves the bench alone.
    assert!(bench.0.design().is_empty());
}
