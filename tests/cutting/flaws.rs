//! The check finds what is wrong with a plan, whatever it is.

use benchrule::cut::{Fit, Flaw, Instance, Limits, Part, Plan, Stock, solve, verify};

use crate::instances::part;

fn instance() -> Instance {
    let turned = Part { fit: Fit::Turned { overlap: 5, setting: 0 }, ..part(300, 8, 1) };
    let stock = Stock { usable: 1000, count: Some(3), cost: 7, offcut: false };
    Instance { parts: vec![part(300, 8, 2), part(500, 8, 1), turned], stock: vec![stock], keep: 0 }
}

#[track_caller]
fn flawed(change: impl Fn(&mut Plan), flaw: Flaw) {
    let instance = instance();
    let mut plan = solve(&instance, &Limits::steps(1_000_000));
    assert_eq!(verify(&instance, &plan), Ok(()));
    // The sticks are two of the parts that lie apart, and the turned one alone.
    plan.sticks.sort_by_key(|stick| stick.parts.contains(&2));
    change(&mut plan);
    assert_eq!(verify(&instance, &plan), Err(flaw));
}

#[test]
fn every_flaw_is_found() {
    flawed(|plan| plan.sticks[0].stock = 4, Flaw::NoStock { stick: 0 });
    flawed(|plan| plan.sticks[0].parts.push(9), Flaw::NoPart { stick: 0 });
    flawed(|plan| plan.sticks[0].parts = vec![0, 2], Flaw::Unlike { stick: 0 });
    let full = Flaw::TooFull { stick: 0, taken: 300 + 8 + 300 + 8 + 500, usable: 1000 };
    flawed(|plan| plan.sticks[0].parts = vec![0, 0, 1], full);
    flawed(|plan| plan.left[1] = 1, Flaw::Count { part: 1, cut: 1, left: 1, wanted: 1 });
    flawed(
        |plan| {
            let empty = benchrule::cut::Stick { stock: 0, parts: Vec::new() };
            plan.sticks.push(empty);
        },
        Flaw::TooMany { stock: 0, used: 4, count: 3 },
    );
    flawed(|plan| plan.cost = 20, Flaw::Cost { claimed: 20, found: 21 });
    flawed(|plan| plan.bound = 22, Flaw::Bound { bound: 22, cost: 21 });
}

#[test]
fn a_flaw_says_what_it_is() {
    let flaw = Flaw::TooFull { stick: 3, taken: 1001, usable: 1000 };
    assert_eq!(flaw.to_string(), "stick 3 has 1001 ticks in 1000");
}
