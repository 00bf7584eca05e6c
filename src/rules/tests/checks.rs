//! Every check fires on some design, every mend that is offered mends, and none fires on a plain one.

use std::collections::BTreeSet;

use super::{bench, try_set};
use crate::rules::{Design, Finding};

/// Fields with their values, parted by semicolons; the build is the first word of a row that has one.
#[track_caller]
fn with(fields: &str) -> Design {
    let mut design = bench();
    for field in fields.split(';').map(str::trim) {
        let (name, value) = field.split_once(' ').unwrap();
        if let Err(message) = try_set(&mut design, name, value) {
            panic!("{field}: {message}");
        }
    }
    design
}

/// Check, design that fires it, what it says, what mends it (empty: nothing can be offered).
fn rows() -> impl Iterator<Item = [&'static str; 4]> {
    let lines = include_str!("../../../tests/table/checks.tsv").lines().filter(|line| !line.starts_with('#'));
    lines.map(|line| {
        let mut cells = line.split('\t');
        std::array::from_fn(|_| cells.next().unwrap_or_default())
    })
}

fn named(design: &Design, name: &str) -> Option<Finding> {
    design.findings().into_iter().find(|finding| finding.name == name)
}

#[test]
fn every_check_fires_says_by_how_much_and_is_mended() {
    for [name, fields, says, mend] in rows() {
        let mut design = with(fields);
        let Some(finding) = named(&design, name) else {
            panic!("{name} does not fire: {fields}: {:?}", design.findings());
        };
        assert_eq!(crate::diag::Diagnostic::new(finding.says.clone()).message(), says, "{name}");
        assert_eq!(finding.mend.as_deref().unwrap_or_default(), mend, "{name}: {fields}");
        if let Some((field, value)) = finding.mend.as_ref().and_then(|mend| mend.split_once(' ')) {
            let stopped = design.is_stopped();
            super::set(&mut design, field, value);
            assert!(named(&design, name).is_none(), "{name} fires after its mend");
            assert!(stopped || !design.is_stopped(), "{name} mended by a stop");
        }
    }
}

#[test]
fn the_rows_leave_no_check_out() {
    let fired: BTreeSet<(String, u8)> =
        rows().map(|[name, fields, ..]| (name.to_string(), with(fields).build())).collect();
    for check in &bench().book().checks {
        let met = check.builds.iter().any(|build| fired.contains(&(check.name.clone(), *build)));
        assert!(met, "{} has no row", check.name);
    }
}

#[test]
fn plain_designs_have_no_findings() {
    for fields in [
        "art 16 x 20 x 1 1/4",
        "art 400mm x 500mm x 20mm; reveal 6mm; depth 38mm",
        "sides 6; art.across 10; art.depth 3/4",
        "art 10 x 8 x 1; slope 45°",
        "build shadowbox; art 11 x 14 x 1; setback 1/2",
        "build shadowbox; sides 8; art.across 11; art.depth 1",
        "build rabbeted; art 24 x 30 x 1 1/2",
        "build rabbeted; sides 6; art.across 12; art.depth 1/4; art.kind panel",
        "build rabbeted; art 11 x 14 x 1/64; art.kind paper; mat 2; glazing glass; backing 1/8",
        "build rabbeted; art 11 x 14 x 1/64; art.kind paper; mat 1; image.width 9; image.height 12; glazing acrylic",
        "build rabbeted; art 11 1/64 x 14 x 1/64; art.kind paper; mat 3; mount 1/16; glazing glass; backing 1/8",
        "build box; art 6 x 8 x 2; art.kind object; glazing acrylic; mount 1/4; backing 1/8; art.weight 1lb",
    ] {
        assert_eq!(with(fields).findings(), [], "{fields}");
    }
    // Nothing is known yet, so nothing is wrong yet.
    for build in ["float", "shadowbox", "rabbeted", "box"] {
        assert_eq!(with(&format!("build {build}")).findings(), [], "{build}");
    }
}

#[test]
fn the_worst_comes_first() {
    let design = with("art 16 x 20 x 1; reveal 5/8; setback -1/4; strip.width 1/2");
    let found: Vec<(String, String)> =
        design.findings().into_iter().map(|finding| (finding.level.to_string(), finding.name)).collect();
    let found: Vec<(&str, &str)> = found.iter().map(|(level, name)| (level.as_str(), name.as_str())).collect();
    assert_eq!(found, [("stop", "strip.misses"), ("warn", "art.proud"), ("note", "reveal.wide")]);
}
