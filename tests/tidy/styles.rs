//! The scripts that ship: every one is built in, and frames what it is made for.

use benchrule::session::Reply;
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

/// From 4 in to 8 ft, on the tape and off it.
const SIDES: &[&str] = &["4", "8 1/64", "297mm", "16 1/32", "24", "30 1/3", "1219mm", "72", "96"];

/// A kind of work with its depths.
const WORKS: &[(&str, &[&str])] =
    &[("canvas", &["3/4", "1 1/2", "41mm"]), ("panel", &["1/8", "1/4", "2"]), ("paper", &["1/64", "0.3mm"])];

/// Paper is never screwed to a strip, so open frames are for the works before it.
const PAPER: usize = 2;

/// Every work of the grid of these kinds, framed by one style.
fn frames_all(style: &str, works: &[(&str, &[&str])]) {
    let mut bench = Bench::new();
    let mut count = 0;
    for (kind, depths) in works {
        bench.line(&format!("art.kind {kind}"));
        for depth in *depths {
            bench.line(&format!("art.depth {depth}"));
            for width in SIDES {
                bench.line(&format!("art.width {width}"));
                for height in SIDES {
                    bench.line(&format!("art.height {height}"));
                    let shown = bench.line(&format!("style {style}"));
                    let Ok(Reply::Sheet(design, _)) = &shown.outcome.reply else {
                        panic!("{style}, {kind} {width} x {height} x {depth}: {}", shown.text);
                    };
                    assert!(!design.is_stopped(), "{style}, {kind} {width} x {height} x {depth}: {}", shown.text);
                    assert!(shown.text.contains("\nParts\n"), "{}", shown.text);
                    assert!(!shown.text.contains("Still to set"), "{}", shown.text);
                    count += 1;
                    bench.line("undo");
                }
            }
        }
    }
    let depths: usize = works.iter().map(|(_, depths)| depths.len()).sum();
    assert_eq!(count, depths * SIDES.len() * SIDES.len());
}

#[test]
fn a_narrow_float_frames_all_sizes() {
    frames_all("narrow-float", &WORKS[..PAPER]);
}

#[test]
fn a_deep_well_frames_all_sizes() {
    frames_all("deep-well", &WORKS[..PAPER]);
}

#[test]
fn a_slim_moulding_frames_all_sizes() {
    frames_all("slim-moulding", WORKS);
}

#[test]
fn every_style_is_tried() {
    let names: Vec<&str> = SHIPPED.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, ["deep-well", "narrow-float", "slim-moulding"]);
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
