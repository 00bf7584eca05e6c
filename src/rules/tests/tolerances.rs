//! Tolerances by a second method: every error put on its size itself, all combinations of them, and the figure worked out
//! anew; no slope is in it. Nothing is published to compare with.

use super::super::book::Means;
use super::super::evaluate::{Cell, Evaluator};
use super::*;
use crate::measure::{Kind, Real};

/// Half a mark of a tape in sixteenths; what a saw and a planer repeat: the shop's usual values, common practice, no source.
const OFF: [(Means, (i64, i64)); 3] = [(Means::Tape, (1, 32)), (Means::Saw, (1, 64)), (Means::Planer, (1, 128))];

/// How far a size by itself may be off; nothing for what is only wanted or follows.
fn off(design: &Design, slot: Slot) -> Option<Real> {
    let by = design.rule(slot)?.by?;
    design.known(slot).ok()?;
    let measured = by != Means::Tape || design.given(slot).is_some();
    let (_, (above, below)) = OFF.iter().find(|(means, _)| *means == by)?;
    measured.then(|| Real::ratio(*above, *below))
}

/// A figure with these sizes off by so much, each on top of what it comes to by the errors before it.
fn with_errors(design: &Design, figure: Slot, errors: &[(Slot, Real)]) -> f64 {
    let slots = 0..u16::try_from(design.book().names.len()).unwrap();
    let given: Vec<Option<Datum>> = slots.map(|slot| design.given(slot).cloned()).collect();
    let mut cells = vec![Cell::Unknown; given.len()];
    let mut evaluator = Evaluator {
        book: design.book(),
        build: design.build(),
        given: &given,
        cells: &mut cells,
        manner: design.manner(),
    };
    let mut seen = vec![false; given.len()];
    visit(&mut evaluator, figure, errors, &mut seen);
    drawn(&mut evaluator, figure).to_f64()
}

fn drawn(evaluator: &mut Evaluator, slot: Slot) -> Real {
    evaluator.known(slot).clone().unwrap().drawn.amount().unwrap().clone()
}

/// What a size reads comes first, then its own error.
fn visit(evaluator: &mut Evaluator, slot: Slot, errors: &[(Slot, Real)], seen: &mut [bool]) {
    if std::mem::replace(&mut seen[usize::from(slot)], true) {
        return;
    }
    if let Some(rule) = evaluator.book.rule(evaluator.build, slot) {
        rule.reads.iter().for_each(|read| visit(evaluator, *read, errors, seen));
    }
    if let Some((_, error)) = errors.iter().find(|(source, _)| *source == slot) {
        let off = Datum::Amount(drawn(evaluator, slot) + error.clone());
        evaluator.cells[usize::from(slot)] = Cell::Done(Ok(Known { drawn: off, cut: None }));
    }
}

/// How much more than its first order a figure may move: the bend of a rail goes with the cube of its face and with a
/// depth that a thirty-second of the work moves by 4 %.
const CURVED: f64 = 0.05;

/// Less of a figure than this is what roots and sines leave.
const DUST: f64 = 1e-12;

/// So many sizes at most move one figure; all combinations of more would take long.
const MOST: usize = 10;

#[track_caller]
fn agrees(name: &str, is: &Real, expected: f64, within: f64) {
    let is = is.to_f64();
    assert!((is - expected).abs() <= 1e-9 + CURVED * within, "{name}: {is}, by every corner {expected}");
}

/// A figure against all corners of the errors in it, and each of its shares against that error alone.
fn compare(design: &Design, figure: Slot, sources: &[(Slot, Real)]) -> bool {
    let Ok(tolerance) = design.tolerance(figure) else { return false };
    let name = &design.book().name(figure).text;
    let at = with_errors(design, figure, &[]);
    let moved = |errors: &[(Slot, Real)]| (with_errors(design, figure, errors) - at).abs();
    let alone = |slot: Slot, off: &Real| moved(&[(slot, off.clone())]).max(moved(&[(slot, -off.clone())]));
    let moving: Vec<&(Slot, Real)> = sources.iter().filter(|(slot, off)| alone(*slot, off) > at.abs() * DUST).collect();
    assert!(moving.len() <= MOST, "{name} is moved by {}", moving.len());
    let corner = |corner: u32| -> Vec<(Slot, Real)> {
        let sign = |place: usize, off: &Real| if corner >> place & 1 == 1 { off.clone() } else { -off.clone() };
        moving.iter().enumerate().map(|(place, (slot, off))| (*slot, sign(place, off))).collect()
    };
    let worst = (0..1_u32 << moving.len()).map(|at| moved(&corner(at))).fold(0.0, f64::max);
    agrees(name, &tolerance.worst, worst, worst);
    // Of two sides of a `max` that tie, one is named.
    let mut squares = 0.0;
    for (slot, share) in &tolerance.shares {
        let (_, off) = moving.iter().find(|(one, _)| one == slot).unwrap_or_else(|| panic!("{name}: {share:?}"));
        agrees(name, share, alone(*slot, off), worst);
        squares += alone(*slot, off).powi(2);
    }
    agrees(name, &tolerance.likely, squares.sqrt(), worst);
    !moving.is_empty()
}

/// Compares all figures of a design; how many of them may be off.
fn compared(fields: &[(&str, &str)]) -> usize {
    let mut design = bench();
    fields.iter().for_each(|(name, text)| set(&mut design, name, text));
    let order = &design.book().builds[usize::from(design.build())].order;
    let sources: Vec<(Slot, Real)> = order.iter().filter_map(|slot| Some((*slot, off(&design, *slot)?))).collect();
    // A count goes by steps and has no slope; everything else does.
    let sloped = |slot: &Slot| matches!(design.book().name(*slot).of, Type::Quantity(kind) if kind != Kind::NUMBER);
    order.iter().copied().filter(sloped).filter(|slot| compare(&design, *slot, &sources)).count()
}

#[test]
fn open_frames() {
    for build in ["float", "shadowbox"] {
        for more in [
            &[("art", "16 x 20 x 3/4"), ("reveal", "3/8")][..],
            &[("art", "48 x 18 x 1 1/2"), ("art.kind", "panel"), ("face", "1"), ("slope", "20°")],
            &[("sides", "6"), ("art.across", "14"), ("art.depth", "3/4")],
        ] {
            let fields: Vec<_> = [("build", build)].into_iter().chain(more.iter().copied()).collect();
            assert!(compared(&fields) > 15, "{fields:?}");
        }
    }
}

#[test]
fn captured_frames() {
    for build in ["rabbeted", "box"] {
        for more in [
            &[("art", "11 x 14 x 1/4"), ("art.kind", "paper"), ("glazing", "acrylic"), ("backing", "foam board")][..],
            &[("art", "9 x 12 x 1/2"), ("art.kind", "panel"), ("lip", "3/8"), ("rabbet", "1 1/4"), ("depth", "2")],
            &[("sides", "8"), ("art.across", "14"), ("art.depth", "1/2")],
        ] {
            let fields: Vec<_> = [("build", build)].into_iter().chain(more.iter().copied()).collect();
            assert!(compared(&fields) > 15, "{fields:?}");
        }
    }
}

/// Four edges and a diagonal, each read off the tape, through the search for the most even gaps.
#[test]
fn measured_art() {
    assert!(
        compared(&[("art.depth", "3/4"), ("art.edges", "16, 20 1/8, 16 1/16, 20"), ("art.diagonals", "25 3/4")]) > 10
    );
}
