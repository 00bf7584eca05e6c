//! Worked frames, each computed by hand in its comment: common practice, no source.

use benchrule::diag::{Diagnostic, Fault};
use benchrule::measure::write::Manner;
use benchrule::measure::{Graduation, Quantity, Real, Unit, read};
use benchrule::rules::{Answer, Design, shipped};

/// A design with these fields set, in this order.
#[track_caller]
fn design(graduation: Graduation, fields: &[(&str, &str)]) -> Design {
    let mut design = Design::new(shipped(), Manner { graduation });
    for (name, text) in fields {
        set(&mut design, name, text);
    }
    design
}

/// Sets a field as it is typed at the bench.
#[track_caller]
pub fn set(design: &mut Design, name: &str, text: &str) {
    let input = design
        .read_input(name, text, &mut |text| {
            Err(Diagnostic::of(&benchrule::diag::codes::value::NOTATION, format!("no formulas here: {text}")))
        })
        .unwrap_or_else(|found| panic!("{name} {text}: {found:?}"));
    if let Err(refusal) = design.set(name, input) {
        panic!("{name} {text}: {refusal:?}");
    }
}

#[track_caller]
fn both(design: &Design, name: &str) -> (Quantity, Quantity) {
    match design.answer(name) {
        Ok(Answer::Quantity(drawn, cut)) => (drawn.clone(), cut.unwrap_or(drawn)),
        other => panic!("{name}: {other:?}"),
    }
}

/// `~` before an expected value: approximate, as near as the six places written; otherwise it must be the very value.
#[track_caller]
fn meets(name: &str, is: &Quantity, expected: &str) {
    let (rough, text) = expected.strip_prefix('~').map_or((false, expected), |text| (true, text));
    let wanted = read::quantity(text, Unit::named("in")).unwrap_or_else(|found| panic!("{text}: {found:?}"));
    assert_eq!(is.kind, wanted.kind, "{name}");
    let met = if rough {
        is.amount.is_approximate() && (is.amount.clone() - wanted.amount).abs() < Real::ratio(1, 1_000_000)
    } else {
        is.amount.same(&wanted.amount)
    };
    assert!(met, "{name} is {}, not {expected}", is.amount.to_text());
}

/// Figures with their drawn and cut values; one value where both are the same.
#[track_caller]
fn figures(design: &Design, rows: &[(&str, &str)]) {
    for (name, expected) in rows {
        let (drawn, cut) = both(design, name);
        let (wanted_drawn, wanted_cut) = expected.split_once(" cut ").unwrap_or((expected, expected));
        meets(name, &drawn, wanted_drawn);
        meets(name, &cut, wanted_cut);
    }
}

#[track_caller]
fn findings(design: &Design, expected: &[&str]) {
    let names: Vec<String> = design.findings().into_iter().map(|finding| finding.name).collect();
    assert_eq!(names, expected);
}

/// A stretched canvas in a rabbet: lip 3/8, allowance 1/4, face 1 1/4.
///
/// inside 24 1/4 × 30 1/4; sight less 2 × 3/8: 23 1/2 × 29 1/2; outside plus 2 1/2: 26 × 32;
/// rabbet 1 1/2 + 1/8 = 1 5/8, depth 1 5/8 + 1/4 = 1 7/8; cover 3/8 − 1/8 = 1/4, at the least 3/8 − 1/4 = 1/8.
/// Sight's diagonal √(23.5² + 29.5²) = √1422.5 = 37.716045. United 24 + 30 = 54, perimeter 2 × 58 = 116.
#[test]
fn a_rabbeted_canvas() {
    let design = design(Graduation::sixteenths(), &[("build", "rabbeted"), ("art", "24 x 30 x 1 1/2")]);
    figures(
        &design,
        &[
            ("package.width", "24"),
            ("package.height", "30"),
            ("package.depth", "1 1/2"),
            ("inside.width", "24 1/4"),
            ("inside.height", "30 1/4"),
            ("sight.width", "23 1/2"),
            ("sight.height", "29 1/2"),
            ("sight.diagonal", "~37.716045"),
            ("outside.width", "26"),
            ("outside.height", "32"),
            ("rail.top.short", "23 1/2"),
            ("rail.top.long", "26"),
            ("rail.left.short", "29 1/2"),
            ("rail.left.long", "32"),
            ("rabbet", "1 5/8"),
            ("room", "1/8"),
            ("depth", "1 7/8"),
            ("front", "1/4"),
            ("cover", "1/4"),
            ("cover.least", "1/8"),
            ("play", "1/4"),
            ("united", "54"),
            ("perimeter", "116"),
        ],
    );
    findings(&design, &[]);
}

/// A print under glass, two mats, the bottom border weighted.
///
/// Back window 11 − 2 × 1/8 = 10 3/4 and 13 3/4; front window plus 2 × 1/4: 11 1/4 and 14 1/4; outer 11 1/4 + 5 = 16 1/4
/// and 14 1/4 + 2 1/2 + 3 1/4 = 20; inside 16 3/8 × 20 1/8; sight less 2 × 1/4: 15 7/8 × 19 5/8; outside 18 3/8 × 22 1/8.
/// Package 2 mm + 2 × 1/16 + 1/64 + 1/8 = 10/127 + 17/64 = 2799/8128; rabbet + 1/8 = 3815/8128 = 7.51/16, made 1/2;
/// room 1/8, made 1/2 − 2799/8128 = 2.49/16, downward 1/8; depth + 1/4 = 5847/8128, made 3/4.
/// Border seen 2 1/2 − 1/4 + 1/16 = 2 5/16. Pane and backing 16 3/8 − 1/8 = 16 1/4 by 20.
#[test]
fn a_print_with_two_mats() {
    let fields = [
        ("build", "rabbeted"),
        ("art", "11 x 14 x 1/64"),
        ("art.kind", "paper"),
        ("mat", "2"),
        ("mat.1.border", "2 1/2, 2 1/2, 3 1/4"),
        ("glazing", "glass"),
        ("backing", "1/8"),
    ];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("mat.2.window.width", "10 3/4"),
            ("mat.2.window.height", "13 3/4"),
            ("mat.1.window.width", "11 1/4"),
            ("mat.1.window.height", "14 1/4"),
            ("mat.hold", "1/8"),
            ("mat.outer.width", "16 1/4"),
            ("mat.outer.height", "20"),
            ("mat.seen", "2 5/16"),
            ("package.width", "16 1/4"),
            ("package.height", "20"),
            ("package.depth", "2799/8128"),
            ("inside.width", "16 3/8"),
            ("inside.height", "20 1/8"),
            ("sight.width", "15 7/8"),
            ("sight.height", "19 5/8"),
            ("outside.width", "18 3/8"),
            ("outside.height", "22 1/8"),
            ("rabbet", "3815/8128 cut 1/2"),
            ("room", "1/8"),
            ("depth", "5847/8128 cut 3/4"),
            ("cover", "3/16"),
            ("cover.least", "1/8"),
            ("glazing.thickness", "2mm"),
            ("glazing.width", "16 1/4"),
            ("glazing.height", "20"),
            ("backing.width", "16 1/4"),
            ("backing.height", "20"),
            ("united", "36 1/4"),
        ],
    );
    findings(&design, &[]);
}

/// A rabbet as built: the pane follows, and the play grows with it.
///
/// inside set out 8 1/8 × 10 1/8; measured 8 3/16 across: pane 8 3/16 − 1/8 = 8 1/16 by 10; play 8 3/16 − 8 = 3/16.
#[test]
fn a_rabbet_as_built() {
    let fields = [
        ("build", "rabbeted"),
        ("art", "8 x 10 x 1/8"),
        ("art.kind", "panel"),
        ("glazing", "acrylic 1/8"),
        ("spacer", "1/4"),
        ("built.width", "8 3/16"),
    ];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("inside.width", "8 1/8"),
            ("glazing.width", "8 1/16"),
            ("glazing.height", "10"),
            ("play", "3/16"),
            ("package.depth", "1/2"),
        ],
    );
    findings(&design, &["cover.thin"]);
}

/// An object two inches deep behind acrylic.
///
/// Spacer 2 + 1/4 = 2 1/4; package 1/8 + 2 1/4 + 1/4 = 2 5/8; rabbet 2 3/4; depth 3. Inside 6 1/8 × 8 1/8,
/// sight 5 5/8 × 7 5/8, outside 8 1/8 × 10 1/8.
#[test]
fn a_box() {
    let fields = [
        ("build", "box"),
        ("art", "6 x 8 x 2"),
        ("art.kind", "object"),
        ("art.weight", "2lb"),
        ("glazing", "acrylic"),
        ("mount", "1/4"),
    ];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("spacer", "2 1/4"),
            ("package.depth", "2 5/8"),
            ("rabbet", "2 3/4"),
            ("depth", "3"),
            ("inside.width", "6 1/8"),
            ("sight.width", "5 5/8"),
            ("sight.height", "7 5/8"),
            ("outside.width", "8 1/8"),
            ("outside.height", "10 1/8"),
        ],
    );
    findings(&design, &[]);
}

/// A name that stands for four unlike values names each of them.
#[test]
fn a_gap_of_four_values() {
    let design = design(Graduation::sixteenths(), &[("art", "12 x 9 x 3/4"), ("reveal", "1/4, 1/2, 1/4, 1/8")]);
    let refusal = benchrule::show::spoken(&design.answer("reveal").unwrap_err().says());
    assert_eq!(
        refusal,
        "reveal has several values: reveal.top 1/4\", reveal.right 1/2\", reveal.bottom 1/4\", reveal.left 1/8\""
    );
}
