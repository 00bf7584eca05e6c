//! What costs nothing and still matters: frames out of one stick, offcuts first, short parts before long ones.

use benchrule::cut::{Fit, Instance, Limits, Part, Stock, solve, verify};

use crate::instances::part;
use crate::long::sample;
use crate::random::{Dice, large, small};

fn stick(usable: u32, cost: u32, count: Option<u32>) -> Stock {
    Stock { usable, count, cost, offcut: false }
}

fn rails(group: u32, length: u32) -> Part {
    Part { group: Some(group), ..part(length, 8, 2) }
}

#[test]
fn the_rails_of_a_frame_come_out_of_one_stick() {
    // Six frames of one size: whatever stick they come from costs the same.
    let parts = (0..6).flat_map(|group| [rails(group, 1000), rails(group, 1500)]).collect();
    let instance = Instance { parts, stock: vec![stick(5024, 1, None)], keep: 0 };
    let plan = solve(&instance, &Limits::steps(100_000_000));
    assert!(plan.is_proven() && plan.cost == 6);
    for stick in &plan.sticks {
        let groups: Vec<_> = stick.parts.iter().map(|part| instance.parts[*part].group).collect();
        assert!(groups.iter().all(|group| *group == groups[0]), "{groups:?}");
    }
}

#[test]
fn parts_are_exchanged_between_sticks_where_both_hold_them() {
    // Parts of two frames that differ by a tick, in sticks with room for either.
    let parts = vec![rails(0, 1000), rails(0, 1001), rails(1, 1002), rails(1, 1003)];
    let instance = Instance { parts, stock: vec![stick(4100, 1, None)], keep: 0 };
    let plan = solve(&instance, &Limits::steps(100_000_000));
    assert_eq!(verify(&instance, &plan), Ok(()));
    assert_eq!(plan.sticks.len(), 2);
    for stick in &plan.sticks {
        let group = |part: usize| instance.parts[part].group;
        assert!(stick.parts.iter().all(|part| group(*part) == group(stick.parts[0])), "{:?}", plan.sticks);
    }
}

/// No stick holds a whole frame: each takes two, whatever the lengths of the others are.
#[test]
fn the_rails_of_a_frame_come_out_of_as_few_sticks_as_hold_them() {
    let frame = |group: u32| [rails(group, 1000 + group), rails(group, 1500 + group)];
    let instance = Instance { parts: (0..7).flat_map(frame).collect(), stock: vec![stick(2600, 1, None)], keep: 0 };
    let plan = solve(&instance, &Limits::steps(100_000_000));
    assert_eq!(verify(&instance, &plan), Ok(()));
    assert_eq!((plan.cost, plan.bound), (14, 14));
    for group in 0..7 {
        let has =
            |stick: &&benchrule::cut::Stick| stick.parts.iter().any(|part| instance.parts[*part].group == Some(group));
        assert_eq!(plan.sticks.iter().filter(has).count(), 2, "frame {group}: {:?}", plan.sticks);
    }
}

/// What frames parts belong to, and which are short, changes neither cost nor proof.
#[test]
fn frames_and_short_parts_cost_nothing() {
    for seed in 0..sample("plans with frames kept together", 20) {
        let mut dice = Dice::new(seed);
        let mut instance = if seed % 2 == 0 { small(&mut dice) } else { large(&mut dice, 8) };
        instance.parts.iter_mut().for_each(|part| {
            part.group = None;
            part.short = false;
        });
        let plain = solve(&instance, &Limits::steps(30_000_000));
        instance.parts.iter_mut().for_each(|part| {
            part.group = Some(dice.roll(0, 5));
            part.short = dice.roll(0, 3) == 0;
        });
        let grouped = solve(&instance, &Limits::steps(30_000_000));
        assert_eq!(verify(&instance, &grouped), Ok(()), "{seed}");
        assert_eq!((plain.cost, plain.bound, plain.left), (grouped.cost, grouped.bound, grouped.left), "{seed}");
    }
}

#[test]
fn of_plans_that_cost_the_same_the_one_with_offcuts_is_taken() {
    let offcut = Stock { offcut: true, ..stick(2000, 50, Some(1)) };
    let instance = Instance { parts: vec![part(900, 8, 2)], stock: vec![stick(4000, 50, None), offcut], keep: 0 };
    let plan = solve(&instance, &Limits::steps(100_000_000));
    assert!(plan.is_proven());
    assert_eq!(plan.sticks.iter().map(|stick| stick.stock).collect::<Vec<_>>(), [1]);
}

#[test]
fn shorter_parts_are_cut_first() {
    let mut dice = Dice::new(5);
    let instance = large(&mut dice, 30);
    let plan = solve(&instance, &Limits::steps(10_000_000));
    for stick in &plan.sticks {
        assert!(stick.parts.is_sorted_by_key(|part| instance.parts[*part].length));
    }
}

/// A frame of four out of a reversible strip: each pair of neighbours shares the mitre's depth.
#[test]
fn turned_parts_take_less_than_their_long_points() {
    let turned = |setting| Fit::Turned { overlap: 100, setting };
    let four = |setting| Part { fit: turned(setting), ..part(1000, 8, 4) };
    // 4 · 1000 − 3 · 100 + 3 · 8 by hand (frame maths §4).
    for (usable, sticks) in [(3724, 1), (3723, 2)] {
        let instance = Instance { parts: vec![four(0)], stock: vec![stick(usable, 1, None)], keep: 0 };
        assert_eq!(solve(&instance, &Limits::steps(1_000_000)).sticks.len(), sticks);
    }
    let instance = Instance { parts: vec![four(0), four(1)], stock: vec![stick(100_000, 1, None)], keep: 0 };
    assert_eq!(solve(&instance, &Limits::steps(1_000_000)).sticks.len(), 2, "one setting a stick");
}
