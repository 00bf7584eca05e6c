//! Slopes against differences of the values themselves.

use super::random::{Dice, design, fields};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::{Design, Input, Role, Slot, Type};

fn quantity(design: &Design, slot: Slot) -> Option<Quantity> {
    let Type::Quantity(kind) = design.book().name(slot).of else {
        return None;
    };
    let known = design.known(slot).ok()?;
    Some(Quantity::new(known.drawn.amount()?.clone(), kind))
}

/// The design with a field moved by a step, if the field takes that value.
fn moved(design: &Design, field: Slot, from: &Quantity, by: Real) -> Option<Design> {
    let mut copy = design.clone();
    let name = design.book().name(field).text.clone();
    let to = Quantity::new(from.amount.clone() + by, from.kind);
    copy.set(&name, Input::Quantity(to)).ok()?;
    Some(copy)
}

/// The slope by the differences on both sides.
struct Sides {
    before: Real,
    after: Real,
}

fn sides(at: &Design, low: &Design, high: &Design, figure: Slot, step: &Real) -> Option<Sides> {
    let value = |design: &Design| design.known(figure).ok()?.drawn.amount().cloned();
    let (at, low, high) = (value(at)?, value(low)?, value(high)?);
    Some(Sides { before: (at.clone() - low) / step.clone(), after: (high - at) / step.clone() })
}

/// Whether the slope is the one that the differences show: exactly where the figure is a broken line, at a break the
/// steeper side; nearly where it is a curve.
fn fits(slope: &Real, sides: &Sides) -> bool {
    let exact = !sides.before.is_approximate() && !sides.after.is_approximate() && !slope.is_approximate();
    if exact && sides.before.same(&sides.after) {
        return slope.same(&sides.before);
    }
    let steeper = if sides.before.abs() > sides.after.abs() { &sides.before } else { &sides.after };
    // Counts and stocked sizes jump; beside a jump, and on it, they stand still.
    if slope.is_exact_zero() && (sides.before.is_exact_zero() || sides.after.is_exact_zero()) {
        return true;
    }
    if exact && slope.abs().same(&steeper.abs()) {
        return true;
    }
    let middle = (sides.before.to_f64() + sides.after.to_f64()) / 2.0;
    let near = |wanted: f64| (slope.to_f64() - wanted).abs() <= 1e-4 * (1.0 + wanted.abs());
    near(middle) || near(sides.before.to_f64()) || near(sides.after.to_f64())
}

const COUNTED: &[&str] = &["screw.safety", "screw.count", "point.count", "bumper.count", "blank.count"];

#[test]
fn slopes_are_those_of_the_values() {
    let mut compared = 0;
    for seed in 0..60 {
        let design = design(&mut Dice::new(1000 + seed));
        let order = design.book().builds[usize::from(design.build())].order.clone();
        for field in fields(&design) {
            let Some(from) = quantity(&design, field) else {
                continue;
            };
            let step = if from.kind == Kind::ANGLE { Real::ratio(1, 100) } else { Real::ratio(1, 16_384) };
            let low = moved(&design, field, &from, -step.clone());
            let high = moved(&design, field, &from, step.clone());
            let (Some(low), Some(high)) = (low, high) else {
                continue;
            };
            // Giving a field that was not given may turn others round: compare from where it is given.
            let at = moved(&design, field, &from, Real::ZERO).unwrap();
            for figure in &order {
                // A count follows by steps; its slope is nothing, whatever the step.
                if COUNTED.contains(&design.book().name(*figure).text.as_str()) {
                    continue;
                }
                if design.book().name(*figure).role == Role::Gather || quantity(&design, *figure).is_none() {
                    continue;
                }
                let Some(sides) = sides(&at, &low, &high, *figure, &step) else {
                    continue;
                };
                let slope = design.slope(*figure, field).unwrap();
                let names = (&design.book().name(*figure).text, &design.book().name(field).text);
                assert!(
                    fits(&slope, &sides),
                    "seed {seed}, {names:?}: {} but {} and {}",
                    slope.to_text(),
                    sides.before.to_text(),
                    sides.after.to_text()
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 20_000, "{compared}");
}

#[test]
fn at_a_tie_the_steeper_branch_counts() {
    let mut design = super::bench();
    super::set(&mut design, "art", "16 x 20 x 1");
    let slot = |name: &str| design.book().slot(name).unwrap();
    let slope = |figure: &str, field: &str| design.slope(slot(figure), slot(field)).unwrap().to_text();
    assert_eq!(slope("strip.width", "reveal.left"), "1");
    assert_eq!(slope("strip.top.short", "reveal.left"), "-1");
    assert_eq!(slope("strip.top.short", "reveal"), "0");
    assert_eq!(slope("opening.width", "reveal"), "2");
    assert_eq!(slope("recess", "depth"), "1");
    assert_eq!(slope("depth", "recess"), "1");
}
