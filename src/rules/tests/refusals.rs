//! What a field does not take: the words of the refusal, and a design left as it was.

use super::{bench, set, try_set};
use crate::rules::Design;

/// Build, field, value, refusal.
const ROWS: &[(&str, &str, &str, &str)] = &[
    ("float", "art.width", "0", r#"art.width must be above 0", not 0""#),
    ("float", "art.width", "-16", r#"art.width must be above 0", not -16""#),
    ("float", "art", "16 x 0 x 1", r#"art.height must be above 0", not 0""#),
    ("float", "art", "16", "art is a size, not a length"),
    ("float", "art", "16 x 64000", r#"art.height cannot be 64000": that is longer than a mile"#),
    ("float", "art.width", "5281ft", r#"art.width cannot be 63372": that is longer than a mile"#),
    ("float", "setback", "-63361", r#"setback cannot be -63361": that is longer than a mile"#),
    ("float", "reveal", "-1/8", r#"reveal.top must be at least 0", not -1/8""#),
    ("float", "reveal", "1/4, 1/4, -1/8, 1/4", r#"reveal.bottom must be at least 0", not -1/8""#),
    ("float", "reveal", "1, 1, 1, 1, 1", "reveal takes one to 4 values"),
    ("float", "reveal", "3lb", "reveal is a length, not a mass"),
    ("float", "reveal.left", "30°", "reveal.left is a length, not an angle"),
    ("float", "recess", "-1/4", r#"recess must be at least 0", not -1/4""#),
    ("float", "strip.width", "0", r#"strip.width must be above 0", not 0""#),
    ("float", "face", "0", r#"face must be above 0", not 0""#),
    ("float", "face", "wide", "no expressions here: wide"),
    ("float", "face", "3/4 x 2", "face is a length, not a size"),
    ("float", "sides", "2", "sides must be at least 3, not 2"),
    ("float", "sides", "13", "sides must be at most 12, not 13"),
    ("float", "sides", "4.5", "sides must be a whole number, not 4 1/2"),
    ("float", "sides", "4in", "sides is a whole number, not a length"),
    ("float", "sides", "none", "sides is a whole number, not text"),
    ("float", "quantity", "0", "quantity must be at least 1, not 0"),
    ("float", "slope", "91°", "slope must be at most 90°, not 91°"),
    ("float", "slope", "-1°", "slope must be at least 0°, not -1°"),
    ("float", "slope", "45", "slope is an angle, not a number"),
    ("float", "art.kind", "canvass", "there is no kind of art called canvass"),
    ("float", "moulding", "plain", "there is no moulding called plain"),
    ("float", "face", "none", "face is a length, not text"),
    ("float", "outside.width", "18", "outside.width is worked out from opening.width and face.plan and cannot be set"),
    ("float", "gauge", "1", "gauge is worked out from setback, art.depth and art.bulk_back and cannot be set"),
    ("float", "clearance", "1/4", "clearance does not apply to a float frame; box has it"),
    ("float", "revael", "1/4", "there is no field or figure called revael"),
    ("float", "zebra", "1/4", "there is no field or figure called zebra"),
    ("float", "build", "flote", "there is no build called flote"),
    ("rabbeted", "clearance", "1/4", "clearance does not apply to a rabbeted frame; box has it"),
    ("rabbeted", "lip", "0", r#"lip must be above 0", not 0""#),
    ("rabbeted", "front", "0", r#"front must be above 0", not 0""#),
    ("rabbeted", "mat", "4", "mat must be at most 3, not 4"),
    ("rabbeted", "mat", "-1", "mat must be at least 0, not -1"),
    ("rabbeted", "mat", "1in", "mat is a whole number, not a length"),
    ("rabbeted", "glazing", "glas", "there is no kind of glazing called glas"),
    ("rabbeted", "glazing", "glass -2mm", r#"glazing.thickness must be above 0", not -1/16" - 0.0162""#),
    ("rabbeted", "backing", "0", r#"backing.thickness must be above 0", not 0""#),
    (
        "rabbeted",
        "package.depth",
        "1",
        "package.depth is worked out from \
        glazing.thickness, mat.1.thickness, mat.2.thickness, mat.3.thickness, spacer, art.depth, art.bulk_back, \
        mount.thickness and backing.thickness and cannot be set",
    ),
];

fn design(build: &str) -> Design {
    let mut design = bench();
    set(&mut design, "build", build);
    set(&mut design, "art", "16 x 20 x 1");
    design
}

#[test]
fn values_out_of_range_or_kind_are_refused_in_words() {
    for (build, field, value, says) in ROWS {
        let mut design = design(build);
        let before = design.clone();
        let refused = try_set(&mut design, field, value).expect_err("a value that is refused");
        assert_eq!(refused, *says, "{build}: {field} {value}");
        assert!(design.changes(&before, None).is_empty() && design.build() == before.build(), "{field} {value}");
    }
}

#[test]
fn a_refusal_offers_a_line_that_runs() {
    let rows = [
        ("float", "art.kind", "canvass", "art.kind canvas"),
        ("float", "slope", "45", "slope 45deg"),
        ("float", "build", "shadow", "build shadowbox"),
        ("rabbeted", "glazing", "glas", "glazing.kind glass"),
    ];
    for (build, field, value, hint) in rows {
        let mut design = design(build);
        let no_formulas = |text: &str| Err(crate::diag::Diagnostic::new(text));
        let input = design.read_input(field, value, &mut { no_formulas }).unwrap();
        let found = crate::diag::Diagnostic::from(design.set(field, input).unwrap_err());
        assert_eq!(found.line().as_deref(), Some(hint));
        let (field, value) = hint.split_once(' ').unwrap();
        set(&mut design, field, value);
    }
}

#[test]
fn nought_and_nothing_are_told_apart() {
    let mut design = design("rabbeted");
    set(&mut design, "mat", "2");
    set(&mut design, "mat", "none");
    super::check(&design, "mat", "0", "0");
    set(&mut design, "backing", "1/8");
    set(&mut design, "backing", "none");
    assert!(design.answer("backing.thickness").is_err());
    set(&mut design, "glazing", "acrylic 3mm");
    set(&mut design, "glazing", "none");
    assert!(design.answer("glazing.thickness").is_err());
    set(&mut design, "glazing", "acrylic");
    super::check(&design, "glazing.thickness", "1/8", "1/8");
}

#[test]
fn clearing_takes_back_what_was_given() {
    let mut design = design("float");
    set(&mut design, "reveal", "1/4, 1/2, 1/4, 1/8");
    design.clear("reveal.left").unwrap();
    super::check(&design, "reveal.left", "1/4", "1/4");
    design.clear("reveal").unwrap();
    super::check(&design, "reveal", "1/4", "1/4");
    let refused = design.clear("outside.width").map_err(crate::diag::Diagnostic::from).unwrap_err().message();
    assert_eq!(refused, "outside.width is worked out from opening.width and face.plan and cannot be set");
    assert!(!design.is_empty());
    design.clear("art").unwrap();
    // Its build alone makes no design.
    assert!(design.is_empty());
    design.clear("build").unwrap();
}
