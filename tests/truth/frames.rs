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

/// A float with nothing but its art given.
///
/// opening 16 + 2 × 1/4 = 16 1/2 and 20 + 2 × 1/4 = 20 1/2; outside 16 1/2 + 2 × 3/4 = 18 and 22;
/// gauge 1/8 + 1 1/4 = 1 3/8; depth 1 3/8 + 1/2 + 1/4 = 2 1/8; strip 1/4 + 1/2 = 3/4, reach 3/4 − 1/4 = 1/2;
/// strip 16 1/2 and 16 1/2 − 2 × 3/4 = 15; 20 1/2 and 19. Diagonals √(16.5² + 20.5²) = √692.5 = 26.315395 and
/// √(18² + 22²) = √808 = 28.425341. Perimeter 2 × (18 + 22) = 80, united 16 + 20 = 36.
#[test]
fn a_float() {
    let design = design(Graduation::sixteenths(), &[("art", "16 x 20 x 1 1/4")]);
    figures(
        &design,
        &[
            ("opening.width", "16 1/2"),
            ("opening.height", "20 1/2"),
            ("opening.diagonal", "~26.315395"),
            ("outside.width", "18"),
            ("outside.height", "22"),
            ("outside.diagonal", "~28.425341"),
            ("rail.top.short", "16 1/2"),
            ("rail.bottom.long", "18"),
            ("rail.left.short", "20 1/2"),
            ("rail.right.long", "22"),
            ("gauge", "1 3/8"),
            ("depth", "2 1/8"),
            ("recess", "1/4"),
            ("strip.width", "3/4"),
            ("strip.reach", "1/2"),
            ("strip.top.long", "16 1/2"),
            ("strip.top.short", "15"),
            ("strip.side.long", "20 1/2"),
            ("strip.side.short", "19"),
            ("mitre", "45°"),
            ("tilt", "0°"),
            ("perimeter", "80"),
            ("united", "36"),
        ],
    );
    findings(&design, &[]);
}

/// A float pushed to the left: gaps 1/4, 1/2, 1/4, 1/8 from the top clockwise, face 5/8.
///
/// opening 12 + 1/8 + 1/2 = 12 5/8 and 9 + 1/4 + 1/4 = 9 1/2; outside 12 5/8 + 1 1/4 = 13 7/8 and 10 3/4;
/// the strip must reach over the widest gap: 1/2 + 1/2 = 1, reach 1/2; its lengths 12 5/8 and 12 5/8 − 2 = 10 5/8,
/// 9 1/2 and 7 1/2. Gauge 1/8 + 3/4 = 7/8, depth 7/8 + 1/2 + 1/4 = 1 5/8. Perimeter 2 × (13 7/8 + 10 3/4) = 49 1/4.
#[test]
fn a_float_with_unequal_gaps() {
    let fields = [("art", "12 x 9 x 3/4"), ("reveal", "1/4, 1/2, 1/4, 1/8"), ("face", "5/8")];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("opening.width", "12 5/8"),
            ("opening.height", "9 1/2"),
            ("outside.width", "13 7/8"),
            ("outside.height", "10 3/4"),
            ("reveal.widest", "1/2"),
            ("reveal.least", "1/8"),
            ("strip.width", "1"),
            ("strip.reach", "1/2"),
            ("strip.top.long", "12 5/8"),
            ("strip.top.short", "10 5/8"),
            ("strip.side.long", "9 1/2"),
            ("strip.side.short", "7 1/2"),
            ("gauge", "7/8"),
            ("depth", "1 5/8"),
            ("perimeter", "49 1/4"),
        ],
    );
    findings(&design, &["reveal.uneven"]);
    let refusal = benchrule::show::spoken(&design.answer("reveal").unwrap_err().says());
    assert_eq!(
        refusal,
        "reveal has several values: reveal.top 1/4\", reveal.right 1/2\", reveal.bottom 1/4\", reveal.left 1/8\""
    );
}

/// Art off the marks, with folds of 3/64 on each side and 1/32 behind; gap 3/8, face 13/16.
///
/// opening 16 1/64 + 2 × 3/64 + 3/4 = 16 55/64, on the tape upward 16 14/16; 20 3/128 + 12/128 + 96/128 = 20 111/128,
/// upward 20 14/16. Outside adds 1 5/8: 18 31/64, made 18 1/2; 22 63/128, made 22 1/2.
/// gauge 1/8 + 1 15/64 + 1/32 = 1 25/64, nearest 1 6/16; depth 1 25/64 + 3/4 = 2 9/64, made 1 3/8 + 3/4 = 2 1/8.
/// strip 3/8 + 1/2 = 7/8; lengths 16 55/64 made 16 7/8, less 1 3/4: 15 7/64 made 15 1/8; 20 111/128 made 20 7/8,
/// less 1 3/4: 19 15/128 made 19 1/8.
#[test]
fn a_float_off_the_marks() {
    let fields = [
        ("art", "16 1/64 x 20 3/128 x 1 15/64"),
        ("art.bulk", "3/64"),
        ("art.bulk_back", "1/32"),
        ("reveal", "3/8"),
        ("face", "13/16"),
    ];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("opening.width", "16 55/64 cut 16 7/8"),
            ("opening.height", "20 111/128 cut 20 7/8"),
            ("outside.width", "18 31/64 cut 18 1/2"),
            ("outside.height", "22 63/128 cut 22 1/2"),
            ("rail.top.short", "16 55/64 cut 16 7/8"),
            ("rail.top.long", "18 31/64 cut 18 1/2"),
            ("rail.left.long", "22 63/128 cut 22 1/2"),
            ("gauge", "1 25/64 cut 1 3/8"),
            ("depth", "2 9/64 cut 2 1/8"),
            ("recess", "1/4"),
            ("strip.width", "7/8"),
            ("strip.top.long", "16 55/64 cut 16 7/8"),
            ("strip.top.short", "15 7/64 cut 15 1/8"),
            ("strip.side.long", "20 111/128 cut 20 7/8"),
            ("strip.side.short", "19 15/128 cut 19 1/8"),
        ],
    );
    findings(&design, &[]);
}

/// A shadowbox from stock 2 29/32 deep, the art an inch behind the front edge.
///
/// opening 8 + 2 × 1 = 10 and 12; outside 10 + 1 1/2 = 11 1/2 and 13 1/2; gauge 1 + 1 = 2;
/// recess 2 29/32 − 2 − 1/2 = 13/32, on the tape downward 6/16; strip 1 + 1/2 = 1 1/2; 10 and 7, 12 and 9.
#[test]
fn a_shadowbox_of_a_given_depth() {
    let fields = [("build", "shadowbox"), ("art", "8 x 10 x 1"), ("setback", "1"), ("depth", "2 29/32")];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("opening.width", "10"),
            ("opening.height", "12"),
            ("outside.width", "11 1/2"),
            ("outside.height", "13 1/2"),
            ("gauge", "2"),
            ("depth", "2 29/32"),
            ("recess", "13/32 cut 3/8"),
            ("strip.width", "1 1/2"),
            ("strip.reach", "1/2"),
            ("strip.top.long", "10"),
            ("strip.top.short", "7"),
            ("strip.side.long", "12"),
            ("strip.side.short", "9"),
        ],
    );
    findings(&design, &[]);
}

/// Butted strips of a given width, no recess.
///
/// opening 11 + 2 × 5/16 = 11 5/8 and 14 5/8; outside 13 1/8 and 16 1/8; gauge 1/8 + 7/8 = 1, depth 1 + 1/2 = 1 1/2;
/// reach 1 1/16 − 5/16 = 3/4; top and bottom run through, 11 5/8; the sides stand between, 14 5/8 − 2 × 1 1/16 = 12 1/2.
#[test]
fn a_float_with_butted_strips() {
    let fields = [
        ("art", "11 x 14 x 7/8"),
        ("reveal", "5/16"),
        ("strip.joint", "butted"),
        ("strip.width", "1 1/16"),
        ("recess", "0"),
    ];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("outside.width", "13 1/8"),
            ("outside.height", "16 1/8"),
            ("gauge", "1"),
            ("depth", "1 1/2"),
            ("strip.reach", "3/4"),
            ("strip.top.long", "11 5/8"),
            ("strip.top.short", "11 5/8"),
            ("strip.side.long", "12 1/2"),
            ("strip.side.short", "12 1/2"),
        ],
    );
    findings(&design, &[]);
}

/// A metric bench with the usual gap of 1/4 in = 6.35 mm.
///
/// opening 400 + 12.7 = 412.7, made 413, and 512.7, made 513; outside + 36: 448.7 made 449, 548.7 made 549.
/// gauge 3 + 20 = 23, depth 23 + 10 + 5 = 38. Strip 6.35 + 12 = 18.35, made 19; reach 12, made 19 − 6.35 = 12.65.
/// Lengths 412.7 made 413; 412.7 − 36.7 = 376, made 413 − 38 = 375; 512.7 made 513; 476 made 475.
#[test]
fn a_metric_float() {
    let fields = [
        ("art", "400 x 500 x 20"),
        ("face", "18"),
        ("setback", "3"),
        ("strip.thickness", "10"),
        ("strip.bearing", "12"),
        ("recess", "5"),
    ];
    let design = design(Graduation::millimetres(), &fields);
    figures(
        &design,
        &[
            ("opening.width", "412.7mm cut 413mm"),
            ("opening.height", "512.7mm cut 513mm"),
            ("outside.width", "448.7mm cut 449mm"),
            ("outside.height", "548.7mm cut 549mm"),
            ("gauge", "23mm"),
            ("depth", "38mm"),
            ("strip.width", "18.35mm cut 19mm"),
            ("strip.reach", "12mm cut 12.65mm"),
            ("strip.top.long", "412.7mm cut 413mm"),
            ("strip.top.short", "376mm cut 375mm"),
            ("strip.side.long", "512.7mm cut 513mm"),
            ("strip.side.short", "476mm cut 475mm"),
            ("perimeter", "1994.8mm cut 1996mm"),
        ],
    );
    findings(&design, &[]);
}

/// A hexagon, ten inches between facing sides.
///
/// opening 10 1/2 across, outside 12. Rail 10.5 tan 30° = 6.062178, upward 6 1/16; long + 2 × 0.75 tan 30° = 6.928203,
/// made 6.0625 + 0.866025 = 6.928525, upward 6 15/16. Strip 6.062178, downward 6; short 6.062178 − 0.866025 = 5.196152,
/// made 6 − 0.866025 = 5.133975, downward 5 1/8. Perimeter 6 × 6.928203 = 41.569219, made 6 × 6 15/16 = 41 5/8.
#[test]
fn a_hexagon() {
    let fields = [("sides", "6"), ("art.across", "10"), ("art.depth", "3/4")];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("opening.across", "10 1/2"),
            ("outside.across", "12"),
            ("rail.short", "~6.062178 cut 6 1/16"),
            ("rail.long", "~6.928203 cut 6 15/16"),
            ("strip.width", "3/4"),
            ("strip.long", "~6.062178 cut 6"),
            ("strip.short", "~5.196152 cut 5 1/8"),
            ("mitre", "30°"),
            ("tilt", "0°"),
            ("perimeter", "~41.569219 cut 41 5/8"),
            ("gauge", "7/8"),
            ("depth", "1 5/8"),
        ],
    );
    for name in ["opening.width", "rail.top.short", "strip.side.long", "united"] {
        assert!(design.answer(name).is_err(), "{name}");
    }
    findings(&design, &[]);
}

/// Rails that lean at 45°: face 1, depth 1/8 + 1 + 1/2 + 1/4 = 1 7/8.
///
/// In plan a rail is (1 + 1.875) × √½ = 2.032932 wide; outside 10.5 + 4.065864 = 14.565864 and 12.565864.
/// Mitre arctan √½ = 35.264390°, tilt arcsin ½ = 30°. Perimeter 2 × 27.131728 = 54.263456.
#[test]
fn a_frame_of_leaning_rails() {
    let fields = [("art", "10 x 8 x 1"), ("slope", "45°"), ("face", "1")];
    let design = design(Graduation::sixteenths(), &fields);
    figures(
        &design,
        &[
            ("depth", "1 7/8"),
            ("face.plan", "~2.032932"),
            ("opening.width", "10 1/2"),
            ("outside.width", "~14.565864"),
            ("outside.height", "~12.565864"),
            ("rail.top.long", "~14.565864"),
            ("mitre", "~35.264390°"),
            ("tilt", "~30°"),
            ("perimeter", "~54.263456"),
        ],
    );
    findings(&design, &[]);
}

/// Measured after glue-up: the width alone, then the height off the marks.
///
/// Strip to the opening as it is: 16 9/16 and 16 9/16 − 1 1/2 = 15 1/16; the sides as set out, 20 1/2, until they are
/// measured: 20 33/64, on the tape downward 20 1/2; short 20 33/64 − 1 1/2 = 19 1/64, made 19. Rails are cut already.
#[test]
fn a_float_as_built() {
    let mut design = design(Graduation::sixteenths(), &[("art", "16 x 20 x 1 1/4"), ("built.width", "16 9/16")]);
    figures(
        &design,
        &[
            ("opening.width", "16 1/2"),
            ("rail.top.long", "18"),
            ("strip.top.long", "16 9/16"),
            ("strip.top.short", "15 1/16"),
            ("strip.side.long", "20 1/2"),
            ("strip.side.short", "19"),
        ],
    );
    set(&mut design, "built.height", "20 33/64");
    figures(&design, &[("strip.side.long", "20 33/64 cut 20 1/2"), ("strip.side.short", "19 1/64 cut 19")]);
    findings(&design, &[]);
}
