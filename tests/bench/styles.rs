//! House styles: what the shipped ones frame, worked by hand from the formulas; what they ask, judge and refuse.

use crate::bench::Bench;
use benchrule::rules::Level;
use benchrule::session::Reply;
use benchrule::session::style::SHIPPED;

/// A bench with a work on it, framed.
fn framed(kind: &str, art: &str, style: &str) -> Bench {
    let mut bench = Bench::new();
    for line in [&format!("art.kind {kind}"), &format!("art {art}"), &format!("style {style}")] {
        let shown = bench.line(line);
        assert!(!shown.failed(), "{line}: {}", shown.text);
    }
    assert!(!bench.0.design().is_stopped());
    bench
}

/// Sizes as made, in inches, are these.
#[track_caller]
fn sizes(bench: &Bench, wanted: &[(&str, &str)]) {
    let design = bench.0.design();
    for (name, size) in wanted {
        assert_eq!(design.made(name).unwrap().amount.to_text(), *size, "{name}");
    }
}

/// opening = art + 2 reveal, outside = opening + 2 face, gauge = setback + art.depth, depth = gauge + strip + recess,
/// strip.width = reveal + bearing. The gap: 1/4, and 1/16 more for every whole 24 in of the longer side.
#[test]
fn a_narrow_float_by_hand() {
    let small = framed("canvas", "16 x 20 x 3/4", "narrow-float");
    let outside = [("outside.width", "18"), ("outside.height", "22"), ("opening.width", "33/2")];
    sizes(&small, &outside);
    sizes(&small, &[("gauge", "7/8"), ("depth", "13/8"), ("strip.width", "3/4")]);
    let long = framed("canvas", "48 x 18 x 1 1/2", "narrow-float");
    sizes(
        &long,
        &[("reveal", "3/8"), ("opening.width", "195/4"), ("outside.width", "101/2"), ("outside.height", "41/2")],
    );
}

/// As above; the gap is a sixteenth of the shorter side, 10 / 16 = 5/8.
#[test]
fn a_deep_well_by_hand() {
    let well = framed("panel", "10 x 10 x 2", "deep-well");
    sizes(&well, &[("reveal", "5/8"), ("opening.width", "45/4"), ("outside.width", "53/4")]);
    sizes(&well, &[("gauge", "5/2"), ("depth", "29/8"), ("strip.width", "9/8")]);
}

/// mat.2.window = art - 2/8, mat.1.window = that + 2/4, outer = that + 2 * 2 1/2, and 5/16 more below; inside = outer +
/// 1/8, sight = inside - 2/4, outside = sight + 2 * 1 1/4. Package: 2 mm + 2/16 + 1/64 + 3/16 = 0.4069 in, and 1/8 more is
/// 0.5319, up to 9/16; depth = 9/16 + 1/4.
#[test]
fn a_slim_moulding_with_two_mats_by_hand() {
    let sheet = framed("paper", "11 x 14 x 1/64", "slim-moulding");
    sizes(&sheet, &[("mat.2.window.width", "43/4"), ("mat.1.window.width", "45/4"), ("mat.1.window.height", "57/4")]);
    sizes(&sheet, &[("mat.outer.width", "65/4"), ("mat.outer.height", "313/16"), ("inside.width", "131/8")]);
    sizes(&sheet, &[("outside.width", "147/8"), ("outside.height", "347/16"), ("rabbet", "9/16"), ("depth", "13/16")]);
}

/// The ground: outer = object + 2 * 1 1/2, inside = outer + 1/8, sight = inside - 2 * 3/8, outside = sight + 2 * 1 1/4.
/// spacer = depth + 1/4; package = 1/8 + 1/16 + 2 1/4 + 1/4 + 1/8 = 2 13/16, rabbet 1/8 more, depth 1/4 more.
#[test]
fn an_object_box_by_hand() {
    let boxed = framed("object", "6 x 8 x 2", "object-box");
    sizes(&boxed, &[("mat.outer.width", "9"), ("inside.width", "73/8"), ("outside.width", "87/8")]);
    sizes(&boxed, &[("outside.height", "103/8"), ("spacer", "9/4"), ("package.depth", "45/16"), ("depth", "51/16")]);
}

/// inside = panel + 1/8, sight = inside - 2/4, outside = sight + 2 * 1 1/4. Package: 2 mm + 3/8 + 1/16 + 1/4 + 5/32 =
/// 0.9225 in, and 1/8 more is 1.0475, up to 1 1/16; depth = 1 1/16 + 1/4.
#[test]
fn a_textile_on_its_panel_by_hand() {
    let sewn = framed("textile", "20 x 24 x 1/16", "textile-panel");
    sizes(&sewn, &[("inside.width", "161/8"), ("outside.width", "177/8"), ("outside.height", "209/8")]);
    sizes(&sewn, &[("rabbet", "17/16"), ("depth", "21/16")]);
}

/// plan width = face cos 15° + depth sin 15° = 1.75 * 0.965926 + 1.75 * 0.258819 = 2.143304, outside = opening + twice
/// that; tan mitre = cos 15°, mitre = 44.007°; sin tilt = sin 15° sin 45° = 0.183013, tilt = 10.545°.
#[test]
fn a_canted_tray_by_hand() {
    let tray = framed("canvas", "20 x 24 x 3/4", "canted-tray");
    sizes(&tray, &[("opening.width", "83/4"), ("gauge", "1"), ("depth", "7/4")]);
    let design = tray.0.design();
    for (name, wanted) in [("outside.width", 25.036_607), ("mitre", 44.007), ("tilt", 10.545)] {
        let made = design.made(name).unwrap().amount.to_f64();
        assert!((made - wanted).abs() < 0.0006, "{name}: {made}");
    }
}

/// Glazing goes by size, hardware by size and weight.
#[test]
fn the_house_steps_with_the_work() {
    let word = |bench: &Bench, name: &str| bench.0.design().answer(name).map(|answer| format!("{answer:?}")).unwrap();
    for (art, glazing) in [("8 x 10 x 1/64", "glass"), ("30 x 40 x 1/64", "acrylic")] {
        assert!(word(&framed("paper", art, "slim-moulding"), "glazing.kind").contains(glazing), "{art}");
    }
    for (art, hanger) in [("16 x 20 x 3/4", "wire"), ("72 x 24 x 3/4", "hooks"), ("96 x 96 x 1 1/2", "cleat")] {
        assert!(word(&framed("canvas", art, "narrow-float"), "hanger").contains(hanger), "{art}");
    }
}

/// From 4 in to 8 ft both ways, every kind and depth, and every question at its ends.
#[test]
fn every_shipped_style_is_without_fault() {
    assert_eq!(SHIPPED.len(), 6);
    for (name, _) in SHIPPED {
        let mut bench = Bench::new();
        // Steps end what takes too long, however slow the machine is.
        bench.line("shop script.seconds 600");
        let shown = bench.line(&format!("style check {name}"));
        let Ok(Reply::Checked(checked)) = &shown.outcome.reply else { panic!("{name}: {}", shown.text) };
        // Fourteen sides both ways at least, and as the questions have ends.
        assert!(checked.designs > 14 * 14, "{name}: {}", checked.designs);
    }
}

#[test]
fn the_house_judges_until_the_design_pleases_it() {
    let mut bench = framed("canvas", "16 x 20 x 1", "narrow-float gap=1/2 face=3/8");
    let found = |bench: &Bench| bench.0.design().findings().into_iter().find(|one| one.name == "narrow-float.gap");
    let gap = found(&bench).expect("a finding of the house");
    assert_eq!((gap.level, gap.mend.as_deref()), (Level::Warn, Some("face 1/2\"")));
    assert!(bench.line("face 7/16").text.contains("gap 1/2\", face 7/16\""));
    assert!(!bench.line("face 1/2").failed());
    assert!(found(&bench).is_none());
    // Back again, the judgement is there again.
    bench.line("undo");
    assert!(found(&bench).is_some());
}

/// A `stop` of the house counts as one of the rules.
#[test]
fn a_house_may_stop_a_design() {
    let style = "fn about() { \"A.\" }\nfn build_for(art, asks) { new_design() }\n\
                 fn check(design) { [#{ level: \"stop\", says: \"not in this house\", mend: \"fac 1in\" }] }\n";
    let mut bench = Bench::with(&[("/home/styles/strict.rhai", style)]);
    bench.line("art 16 x 20 x 3/4");
    let shown = bench.line("style strict");
    assert!(shown.outcome.stopped && shown.text.contains("stop: not in this house"), "{}", shown.text);
    // A mend that would set nothing is not offered.
    assert!(!shown.text.contains("fac 1in"), "{}", shown.text);
    let printed = bench.line("let d = new_design(); d.art = 8 x 10 x 1; print(sheet(styled(d, \"strict\")));");
    assert!(printed.outcome.stopped && printed.text.contains("not in this house"), "{}", printed.text);
}

#[test]
fn answers_are_held_to_their_limits() {
    let mut bench = framed("canvas", "16 x 20 x 1", "narrow-float");
    for (line, said) in [
        ("style narrow-float gap=5/8", "gap must be from 1/8\" to 1/2\", not 5/8\""),
        ("style narrow-float gap=2lb", "gap is a length, not a mass"),
        ("style narrow-float flush=perhaps", "flush is yes or no, not perhaps"),
        ("style narrow-float gpa=1/4", "gpa is not a field, and the style narrow-float does not ask for it"),
        ("style canted-tray lean=3", "lean is an angle, not a number"),
        ("style canted-tray lean=50°", "lean must be from 5° to 40°, not 50°"),
        ("style object-box", "the style object-box frames object, not canvas"),
        ("styled(design, \"narrow-float\", #{ gap: 1in })", "gap must be from 1/8\" to 1/2\", not 1\""),
    ] {
        let shown = bench.line(line);
        assert!(shown.text.starts_with(&format!("error: {said}\n")), "{line}: {}", shown.text);
    }
    assert!(bench.line("style narrow-float gpa=1/4").text.ends_with("try: style narrow-float gap=1/4\n"));
    assert!(bench.line("style narrow-float gap=5/8").text.ends_with("try: style narrow-float gap=1/2\"\n"));
}

/// A style that frames by another one has its own work again afterwards.
#[test]
fn a_style_may_build_on_another() {
    let style = "fn build_for(art, asks) { let d = styled(new_design(), \"deep-well\"); let e = new_design(); \
                 e.build = \"shadowbox\"; e.reveal = d.reveal; e }";
    let mut bench = Bench::with(&[("/home/styles/after.rhai", style)]);
    bench.line("art 10 x 10 x 2");
    let shown = bench.line("style after");
    assert!(!shown.failed(), "{}", shown.text);
    sizes(&bench, &[("art.width", "10"), ("reveal", "5/8")]);
}

/// A style reaches no book: what a stranger wrote keeps nothing there.
#[test]
fn a_style_reaches_no_book() {
    for reach in ["keep(new_design(), \"mine\")", "book()", "open_design(\"moth\")"] {
        let style = format!("fn build_for(art, asks) {{ {reach}; new_design() }}");
        let mut bench = Bench::with(&[("/home/styles/reaching.rhai", &style)]);
        bench.line("art 12 x 12 x 2");
        let shown = bench.line("style reaching");
        assert!(shown.text.starts_with("error: the design book is not available here\n"), "{}", shown.text);
    }
}
