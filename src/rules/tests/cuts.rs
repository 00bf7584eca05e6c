//! Drawn and cut: every made size on its mark, on its side, and sheets that add up; twice the art is twice the frame.

use super::random::{Dice, design, fields, value};
use super::{bench, set, try_set};
use crate::measure::{Graduation, Kind, Quantity, Real, Toward, write::Manner};
use crate::rules::book::Node;
use crate::rules::{Datum, Design, Input, Pass, Role, Slot, Type};

fn amount(design: &Design, name: &str) -> Option<Real> {
    let slot = design.slot(name).ok()?;
    design.known(slot).ok()?.made().amount().cloned()
}

#[track_caller]
fn on_its_mark(design: &Design, slot: Slot) -> bool {
    let name = &design.book().name(slot).text;
    let rule = design.rule(slot).unwrap();
    let (Ok(known), Some(formula)) = (design.known(slot), rule.value.as_ref()) else {
        return false;
    };
    let made = known.made().clone();
    if rule.given && design.given(slot).is_some() {
        assert!(known.cut.is_none(), "{name} was given");
        return false;
    }
    let before = design.evaluate(|evaluator| evaluator.value(formula, Pass::Cut)).unwrap();
    if matches!(made, Datum::List(_)) {
        // Marks to set off from a corner; each is looked at by itself elsewhere.
        return false;
    }
    let (Some(toward), Some(before), Some(made)) = (rule.toward, before.amount(), made.amount()) else {
        assert!(made.same(&before), "{name}");
        return false;
    };
    if let Node::Choice(ways) = formula
        && matches!(ways.0, Node::Given(switch) if design.given(switch).is_none())
    {
        // A default counts as a given value.
        assert!(made.same(before), "{name}");
        return false;
    }
    let step = design.manner().graduation.step.value.clone();
    assert!((made.clone() / step.clone()).to_whole().is_some(), "{name} {} is on no mark", made.to_text());
    let up = made.clone() - before.clone();
    let tiny = Real::approximate(1e-9);
    let fits = match toward {
        Toward::Up => up < step && (!up.is_negative() || up.abs() < tiny),
        Toward::Down => up.abs() < step && (!up.is_positive() || up.abs() < tiny),
        Toward::Nearest => up.abs() * Real::whole(2) <= step,
    };
    assert!(fits, "{name} {} from {} toward {toward}", made.to_text(), before.to_text());
    true
}

#[test]
fn every_made_size_is_on_its_mark_and_on_its_side() {
    let mut rounded = 0;
    for seed in 0..220 {
        let mut dice = Dice::new(2000 + seed);
        let mut design = design(&mut dice);
        let tapes: Vec<Graduation> = Graduation::all().collect();
        design.set_manner(Manner { graduation: dice.pick(&tapes) });
        for slot in &design.book().builds[usize::from(design.build())].order {
            if design.book().name(*slot).role != Role::Gather {
                rounded += usize::from(on_its_mark(&design, *slot));
            }
        }
    }
    assert!(rounded > 1500, "{rounded}");
}

/// What must add up on a sheet, by made sizes: left = right + times × third.
const SUMS: &[(&str, &str, i64, &str)] = &[
    ("outside.width", "opening.width", 2, "face.plan"),
    ("outside.height", "opening.height", 2, "face.plan"),
    ("outside.across", "opening.across", 2, "face.plan"),
    ("outside.width", "sight.width", 2, "face.plan"),
    ("outside.across", "sight.across", 2, "face.plan"),
    ("sight.width", "inside.width", -2, "lip"),
    ("sight.height", "inside.height", -2, "lip"),
    ("rail.top.short", "opening.width", 0, "face"),
    ("rail.top.short", "sight.width", 0, "face"),
    ("rail.top.long", "rail.top.short", 2, "mitre.run"),
    ("rail.right.long", "rail.right.short", 2, "mitre.run"),
    ("strip.reach", "strip.width", -1, "reveal.widest"),
    ("cover.least", "lip", -1, "play"),
];

#[test]
fn made_sizes_add_up() {
    let mut sums = 0;
    for seed in 0..150 {
        let design = design(&mut Dice::new(3000 + seed));
        for (whole, part, times, other) in SUMS {
            let values = (amount(&design, whole), amount(&design, part), amount(&design, other));
            let (Some(whole_is), Some(part), Some(other)) = values else {
                continue;
            };
            // A work out of square has less of the lip than its play alone would leave.
            if *whole == "cover.least" && design.slot("art.seat").is_ok_and(|seat| design.known(seat).is_ok()) {
                continue;
            }
            assert!(whole_is.same(&(part.clone() + Real::whole(*times) * other)), "seed {seed}: {whole}");
            sums += 1;
        }
        // On a tape that has the strip's own thickness the stack adds up as well.
        let stack = ["depth", "gauge", "strip.thickness", "recess"].map(|name| amount(&design, name));
        let given = |name: &str| design.given(design.book().slot(name).unwrap()).is_some();
        let free = !given("depth") && !given("recess") && !given("strip.thickness");
        if let [Some(depth), Some(gauge), Some(strip), Some(recess)] = stack
            && free
        {
            assert!(depth.same(&(gauge + strip + recess)), "seed {seed}: depth");
            sums += 1;
        }
    }
    assert!(sums > 600, "{sums}");
}

/// Every length field given, at one size and at another in proportion.
#[test]
fn a_design_scales() {
    let mut scaled = 0;
    for seed in 0..60 {
        let mut dice = Dice::new(4000 + seed);
        let one = design(&mut dice);
        let mut one = one;
        let turned = ["recess", "front"].map(|name| one.book().slot(name).unwrap());
        // Loads, customs and stocked sizes do not grow with a frame; the headings that are on other pages follow them.
        let scales = |design: &Design, slot| design.book().group(slot).is_some_and(|group| group.page.is_none());
        for slot in fields(&one).into_iter().filter(|slot| scales(&one.clone(), *slot)).collect::<Vec<_>>() {
            let name = one.book().name(slot).text.clone();
            let is_length = one.book().name(slot).of == Type::Quantity(Kind::LENGTH);
            if is_length && one.book().name(slot).role != Role::Gather {
                one.clear(&name).unwrap();
                while !turned.contains(&slot) && one.given(slot).is_none() {
                    let text = value(&mut dice, &one, slot);
                    let _ = try_set(&mut one, &name, &text);
                }
            }
        }
        let k = dice.pick(&[Real::whole(2), Real::ratio(1, 2), Real::ratio(5, 3), Real::ratio(7, 8)]);
        let mut other = one.clone();
        for slot in fields(&one).into_iter().filter(|slot| scales(&one, *slot)).collect::<Vec<_>>() {
            if let (Some(given), Type::Quantity(Kind::LENGTH)) = (one.given(slot), one.book().name(slot).of) {
                let amount = given.amount().unwrap().clone() * k.clone();
                other.set(&one.book().name(slot).text, Input::Quantity(Quantity::inches(amount))).unwrap();
            }
        }
        for slot in &one.book().builds[usize::from(one.build())].order {
            let name = one.book().name(*slot);
            // Rings are cut from boards of a stocked thickness.
            let stocked = name.text == "spacer.rings";
            if stocked || name.role == Role::Gather || !matches!(name.of, Type::Quantity(_)) || !scales(&one, *slot) {
                continue;
            }
            let by = if name.of == Type::Quantity(Kind::LENGTH) { k.clone() } else { Real::ONE };
            match (one.known(*slot), other.known(*slot)) {
                (Ok(one), Ok(other)) => {
                    let (one, other) = (one.drawn.amount().unwrap().clone(), other.drawn.amount().unwrap().clone());
                    let wanted = one * by;
                    let met = if wanted.is_approximate() {
                        (wanted.clone() - other.clone()).abs() < Real::ratio(1, 1_000_000)
                    } else {
                        wanted.same(&other)
                    };
                    assert!(met, "seed {seed}, {}: {} for {}", name.text, other.to_text(), wanted.to_text());
                    scaled += 1;
                }
                (one, other) => assert_eq!(one.is_ok(), other.is_ok(), "seed {seed}, {}", name.text),
            }
        }
    }
    assert!(scaled > 2500, "{scaled}");
}

#[test]
fn another_tape_moves_made_sizes_only() {
    let mut design = bench();
    set(&mut design, "art", "16 1/64 x 20 x 1");
    super::check(&design, "opening.width", "1057/64", "265/16");
    let eighths = Graduation::all().find(|one| one.name == "1/8 in").unwrap();
    design.set_manner(Manner { graduation: eighths });
    super::check(&design, "opening.width", "1057/64", "133/8");
}
