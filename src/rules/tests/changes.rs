//! What was worked out before a change is as good as what is worked out afresh.

use super::random::{Dice, change};
use super::{bench, try_set};
use crate::rules::{Absent, Design, Known};

fn same(one: &Result<Known, Absent>, other: &Result<Known, Absent>) -> bool {
    match (one, other) {
        (Ok(one), Ok(other)) => one.same(other),
        (Err(one), Err(other)) => one == other,
        _ => false,
    }
}

/// The same givens, nothing worked out yet.
fn afresh(design: &Design) -> Design {
    let mut fresh = design.clone();
    fresh.set_manner(design.manner().clone());
    fresh
}

#[track_caller]
fn equal(design: &Design, fresh: &Design) {
    for slot in &design.book().builds[usize::from(design.build())].order {
        let (kept, new) = (design.known(*slot), fresh.known(*slot));
        assert!(same(&kept, &new), "{}: {kept:?}, afresh {new:?}", design.book().name(*slot).text);
    }
    assert_eq!(design.findings(), fresh.findings());
}

#[test]
fn what_is_kept_equals_what_is_worked_out_afresh() {
    let mut changes = 0;
    for seed in 0..12 {
        let mut dice = Dice::new(seed);
        let mut design = bench();
        try_set(&mut design, "art", "16 x 20 x 1").unwrap();
        for turn in 0..250 {
            change(&mut dice, &mut design);
            changes += 1;
            // Reading a few leaves some names worked out and some not: every mixture must come out right.
            let order = design.book().builds[usize::from(design.build())].order.clone();
            for _ in 0..dice.below(6) {
                let _ = design.known(dice.pick(&order));
            }
            if turn % 5 == 4 {
                equal(&design, &afresh(&design));
            }
        }
    }
    assert_eq!(changes, 3000);
}

#[test]
fn a_refused_value_leaves_the_design_as_it_was() {
    let mut refused = 0;
    let mut dice = Dice::new(77);
    let mut design = super::random::design(&mut dice);
    for _ in 0..2000 {
        let slot = dice.pick(&super::random::fields(&design));
        let name = design.book().name(slot).text.clone();
        let text = super::random::value(&mut dice, &design, slot);
        let before = design.clone();
        if try_set(&mut design, &name, &text).is_err() {
            refused += 1;
            for slot in &design.book().builds[usize::from(design.build())].order {
                assert_eq!(design.given_text(*slot), before.given_text(*slot), "{name} {text}");
            }
            assert!(design.changes(&before, None).is_empty(), "{name} {text}");
        }
    }
    assert!(refused > 100, "{refused}");
}
