//! The rules as a whole: values, changes, explanations, slopes, faulty files.

use super::*;
use crate::measure::write::Manner;

mod added;
mod changes;
mod checks;
mod cuts;
mod faulty;
mod figures;
mod misread;
mod pieces;
mod random;
mod reasons;
mod refusals;
mod slopes;
mod tolerances;

fn bench() -> Design {
    Design::new(shipped(), Manner::default())
}

/// Reads a value for a field and sets it; what is refused, in words.
fn try_set(design: &mut Design, name: &str, text: &str) -> Result<(), String> {
    let no_formulas = |text: &str| Err(crate::diag::Diagnostic::new(format!("no expressions here: {text}")));
    let input = design.read_input(name, text, &mut { no_formulas }).map_err(|found| found.message())?;
    design.set(name, input).map_err(|refusal| crate::diag::Diagnostic::from(refusal).message())
}

#[track_caller]
fn set(design: &mut Design, name: &str, text: &str) {
    if let Err(message) = try_set(design, name, text) {
        panic!("{name} {text}: {message}");
    }
}

/// A design of the shipped rules with these fields set.
#[track_caller]
pub fn designed(lines: &[(&str, &str)]) -> Design {
    let mut design = bench();
    lines.iter().for_each(|(name, text)| set(&mut design, name, text));
    design
}

#[track_caller]
fn check(design: &Design, name: &str, drawn: &str, cut: &str) {
    match design.answer(name) {
        Ok(Answer::Quantity(is_drawn, is_cut)) => {
            let made = is_cut.unwrap_or(is_drawn.clone());
            assert_eq!((is_drawn.amount.to_text(), made.amount.to_text()), (drawn.into(), cut.into()), "{name}");
        }
        other => panic!("{name}: {other:?}"),
    }
}

#[test]
fn the_worked_example_of_the_design_notes() {
    let mut design = bench();
    set(&mut design, "art", "16 1/64 x 20 x 1 1/4");
    set(&mut design, "reveal", "3/8");
    set(&mut design, "face", "13/16");
    check(&design, "opening.width", "1073/64", "269/16");
    check(&design, "outside.width", "1177/64", "295/16");
    check(&design, "outside.height", "179/8", "179/8");
    check(&design, "mitre", "45", "45");
    check(&design, "tilt", "0", "0");
}

#[test]
fn depth_and_recess_follow_one_another() {
    let mut design = bench();
    set(&mut design, "art", "16 x 20 x 1 1/4");
    check(&design, "gauge", "11/8", "11/8");
    check(&design, "depth", "17/8", "17/8");
    check(&design, "recess", "1/4", "1/4");
    set(&mut design, "recess", "1/2");
    check(&design, "depth", "19/8", "19/8");
    set(&mut design, "depth", "2");
    assert_eq!(design.findings()[0].name, "depth.disagrees");
    design.clear("recess").unwrap();
    check(&design, "recess", "1/8", "1/8");
    design.clear("depth").unwrap();
    check(&design, "depth", "17/8", "17/8");
}

#[test]
fn a_mat_package_adds_up() {
    let mut design = bench();
    set(&mut design, "build", "rabbeted");
    set(&mut design, "art", "11 x 14 x 1/64");
    set(&mut design, "art.kind", "paper");
    set(&mut design, "mat", "2");
    set(&mut design, "glazing.kind", "glass");
    // last window 11 − 2 × 1/8 = 10 3/4; front window 10 3/4 + 2 × 1/4 = 11 1/4; outer 11 1/4 + 2 × 2 1/2 = 16 1/4
    check(&design, "mat.2.window.width", "43/4", "43/4");
    check(&design, "mat.1.window.width", "45/4", "45/4");
    check(&design, "mat.outer.width", "65/4", "65/4");
    check(&design, "inside.width", "131/8", "131/8");
    check(&design, "sight.width", "127/8", "127/8");
    // 2 mm + 2 × 1/16 + 1/64
    check(&design, "package.depth", "1783/8128", "1783/8128");
    assert!(matches!(design.answer("mat.3.window.width"), Err(Refusal::Idle { .. })));
    assert!(matches!(design.answer("mat.2.border"), Err(Refusal::Unknown { .. })));
}

#[test]
fn what_is_missing_is_named() {
    let design = bench();
    let refusal = design.answer("outside.width").unwrap_err();
    assert_eq!(
        crate::diag::Diagnostic::from(refusal).message(),
        "outside.width is not known yet: art.width is not set"
    );
}

#[test]
fn changes_are_told_and_incremental_equals_full() {
    let mut design = bench();
    set(&mut design, "art", "16 x 20 x 1 1/4");
    let before = design.clone();
    set(&mut design, "reveal", "3/8");
    let names: Vec<String> =
        design.changes(&before, None).iter().map(|(slot, _)| design.book().name(*slot).text.clone()).collect();
    assert!(names.contains(&"outside.width".to_string()) && !names.contains(&"depth".to_string()), "{names:?}");
    assert!(names.contains(&"strip.width".to_string()));
}

#[test]
fn explanations_go_down_to_the_fields() {
    let mut design = bench();
    set(&mut design, "art", "16 1/64 x 20 x 1 1/4");
    let steps = design.explain(design.slot("outside.width").unwrap()).unwrap();
    let shown: Vec<String> = steps
        .iter()
        .map(|step| {
            format!(
                "{} = {:?} = {:?}",
                design.book().name(step.slot).text,
                step.formula.as_deref(),
                step.with.as_deref()
            )
        })
        .collect();
    assert_eq!(
        shown[..3],
        [
            r#"outside.width = Some("opening.width + 2 * face.plan") = Some("16 9/16\" + 2 * 3/4\"")"#,
            r#"opening.width = Some("art.width + 2 * art.bulk + reveal.left + reveal.right") = Some("(16\" + 1/64\") + 2 * 0\" + 1/4\" + 1/4\"")"#,
            r#"art.width = None = None"#,
        ]
    );
    assert_eq!(steps[1].rounded, Some(crate::measure::Toward::Up));
}

#[test]
fn a_shops_own_rules_stand_on_top_of_those_that_ship() {
    let own = "for float
instead field reveal.top, reveal.right, reveal.bottom, reveal.left length = 3/8in at least 0in -- our gap
instead note reveal.wide if reveal.widest > 7/16in says wider than ours
for all
rail.cost = perimeter / 12in * $3                        -- what the rails cost by the foot
";
    let book = read_book(&[SHIPPED, &[("own.rules", own)]].concat()).unwrap();
    let mut design = Design::new(book.into(), Manner::default());
    set(&mut design, "art", "16 x 20 x 1");
    check(&design, "opening.width", "67/4", "67/4");
    // 2 × (16 3/4 + 1 1/2 + 20 3/4 + 1 1/2) = 81 in, 6 3/4 ft, $20.25
    check(&design, "rail.cost", "81/4", "81/4");
    set(&mut design, "reveal", "1/2");
    assert_eq!(design.findings()[0].says, crate::diag::Says::from("wider than ours"));
    set(&mut design, "build", "shadowbox");
    design.clear("reveal").unwrap();
    check(&design, "opening.width", "18", "18");
}
