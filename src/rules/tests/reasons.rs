//! Every explanation goes down to fields, and its numbers give its value.

use super::random::{Dice, design};
use super::{bench, set};
use crate::measure::Real;
use crate::rules::{Cause, Design, Slot, Step, Type, read_book};

/// The value of a formula with numbers in it, by the rules' own reader.
fn value(with: &str) -> Real {
    let text = format!("build float\nfor all\nx = {}\n", with.replace('~', "").replace("under 0.0001", "0.0001"));
    let book = read_book(&[("with", &text)]).unwrap_or_else(|found| panic!("{with}: {}", found.message()));
    let design = Design::new(book.into(), bench().manner().clone());
    let known = design.known(design.slot("x").unwrap()).unwrap();
    known.drawn.amount().unwrap().clone()
}

/// Whether a made value is what its numbers come to: to the last digit shown, which is a ten-thousandth of an inch and
/// grows with what multiplies it.
fn meets(design: &Design, step: &Step, with: &str) -> bool {
    let from_numbers = value(with);
    let made = step.is.made().amount().unwrap().clone();
    let mut off = (from_numbers - made.clone()).abs().to_f64();
    if step.rounded.is_some() {
        off -= design.manner().graduation.step.value.to_f64();
    }
    // Weights and forces are shown to three figures or four.
    off <= 0.005 + 0.002 * made.abs().to_f64()
}

#[track_caller]
fn goes_down(design: &Design, slot: Slot) -> usize {
    let book = design.book();
    let steps = design.explain(slot).unwrap_or_else(|why| panic!("{}: {why:?}", book.name(slot).text));
    let name = |slot: Slot| book.name(slot).text.as_str();
    assert_eq!(steps[0].slot, slot);
    for (place, step) in steps.iter().enumerate() {
        assert!(steps[..place].iter().all(|one| one.slot != step.slot), "{} twice", name(step.slot));
        match (&step.formula, &step.with) {
            (Some(formula), Some(with)) => {
                let is_amount = matches!(book.name(step.slot).of, Type::Quantity(_) | Type::Whole);
                let listed = design.rule(step.slot).unwrap().gather.is_some();
                // The reader has no unit for the fourth power of an inch.
                if is_amount && !listed && ![" in4", "floor("].iter().any(|what| with.contains(what)) {
                    assert!(meets(design, step, with), "{} = {formula} = {with}", name(step.slot));
                }
                assert!(!formula.contains(" if ") && !formula.contains("??"), "{formula} has a choice left in it");
                assert!(!with.contains('?'), "{formula}: {with}");
            }
            (None, None) => {
                let constant = design.rule(step.slot).unwrap();
                assert!(step.cause != Cause::Follows || constant.value.is_some(), "{}", name(step.slot));
            }
            _ => panic!("{} has half a formula", name(step.slot)),
        }
    }
    steps.len()
}

#[test]
fn every_explanation_goes_down_to_fields() {
    let mut explained = 0;
    for seed in 0..25 {
        let design = design(&mut Dice::new(5000 + seed));
        for slot in &design.book().builds[usize::from(design.build())].order {
            if design.known(*slot).is_ok() && design.book().name(*slot).of != Type::Size {
                explained += goes_down(&design, *slot);
            }
        }
    }
    assert!(explained > 5000, "{explained}");
}

#[test]
fn numbers_of_exact_designs_give_the_very_value() {
    let mut design = bench();
    for (name, text) in [("art", "16 1/64 x 20 x 1 15/64"), ("reveal", "1/4, 3/8, 1/4, 1/8"), ("face", "13/16")] {
        set(&mut design, name, text);
    }
    for name in ["opening.width", "outside.height", "depth", "gauge", "strip.width", "strip.top.short", "perimeter"] {
        let steps = design.explain(design.slot(name).unwrap()).unwrap();
        let step = &steps[0];
        let is = step.is.made().amount().unwrap().clone();
        let from_numbers = value(step.with.as_deref().unwrap());
        match step.rounded {
            None => assert!(from_numbers.same(&is), "{name}: {:?}", step.with),
            Some(_) => assert!((from_numbers - is).abs() < Real::ratio(1, 16), "{name}: {:?}", step.with),
        }
    }
}

#[test]
fn causes_are_told_apart() {
    let mut design = bench();
    set(&mut design, "build", "rabbeted");
    set(&mut design, "art", "8 x 10 x 1/2");
    let cause = |design: &Design, name: &str| design.explain(design.slot(name).unwrap()).unwrap()[0].cause;
    assert_eq!(cause(&design, "art.width"), Cause::Given);
    assert_eq!(cause(&design, "lip"), Cause::Usual);
    assert_eq!(cause(&design, "rabbet"), Cause::Usual);
    assert_eq!(cause(&design, "front"), Cause::Usual);
    assert_eq!(cause(&design, "depth"), Cause::Follows);
    set(&mut design, "depth", "1");
    assert_eq!(cause(&design, "depth"), Cause::Given);
    assert_eq!(cause(&design, "front"), Cause::Follows);
}
