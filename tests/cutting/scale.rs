//! Plans of a size for which there is no other answer: they are checked, and their bound is.

use benchrule::cut::{Instance, Limits, Stock, certified, solve, verify};

use crate::instances::part;
use crate::long::sample;
use crate::random::{Dice, large};

#[test]
fn large_plans_pass_the_check() {
    for (seed, kinds) in (0..sample("large plans", 8)).zip([5, 20, 60, 150].into_iter().cycle()) {
        let instance = large(&mut Dice::new(seed), kinds);
        let plan = solve(&instance, &Limits::steps(20_000_000));
        assert_eq!(verify(&instance, &plan), Ok(()), "{seed}");
        assert!(plan.bound <= plan.cost, "{seed}");
    }
}

/// No plan can cost less than the wood in its parts does in the stick that is cheapest by length.
#[test]
fn a_bound_is_at_least_that_of_the_wood() {
    for seed in 0..sample("bounds against the wood", 4) {
        let mut instance = large(&mut Dice::new(seed), 30);
        instance.stock.iter_mut().for_each(|stock| stock.count = None);
        let plan = solve(&instance, &Limits::steps(100_000_000));
        let wood: u64 = instance.parts.iter().map(|part| u64::from(part.length) * u64::from(part.quantity)).sum();
        let least = instance.stock.iter().map(|stock| wood * u64::from(stock.cost) / u64::from(stock.usable)).min();
        assert!(plan.bound >= least.unwrap() && plan.left.iter().all(|left| *left == 0), "{seed}");
    }
}

#[test]
fn a_hundred_thousand_parts_are_planned() {
    let mut dice = Dice::new(7);
    let parts = (0..100_000).map(|_| part(dice.roll(100, 6000), 8, 1)).collect();
    let stock = large(&mut Dice::new(1), 1).stock.into_iter();
    let stock = stock.map(|stock| Stock { usable: stock.usable + 4000, count: None, ..stock }).collect();
    let instance = Instance { parts, stock, keep: 0 };
    let plan = solve(&instance, &Limits::steps(1_000_000));
    assert_eq!(verify(&instance, &plan), Ok(()));
    assert!(plan.left.iter().all(|left| *left == 0));
    // By the wood alone it is within a hundredth of the best there can be.
    assert!(plan.cost - plan.bound < plan.cost / 100, "{} {}", plan.cost, plan.bound);
}

/// So many sticks of one length that their counts cannot be gone through one by one: the search goes from the cheapest mix
/// outwards, and needs no more steps than for few.
#[test]
fn half_a_million_parts_of_few_lengths_are_proven() {
    let sized = |inches: u32, count: Option<u32>, cost: u32| Stock { usable: inches * 64, count, cost, offcut: false };
    let stock = vec![sized(95, None, 1000), sized(119, None, 1300), sized(143, Some(50), 1500), sized(32, Some(20), 0)];
    let parts = [8, 55, 9, 8, 15].map(|inches| part(inches * 64, 8, 100_000)).to_vec();
    let instance = Instance { parts, stock, keep: 0 };
    let plan = solve(&instance, &Limits::steps(20_000_000));
    assert_eq!(verify(&instance, &plan), Ok(()));
    assert!(plan.is_proven(), "{} {}", plan.cost, plan.bound);
    // The check does not go through the counts one by one either.
    assert_eq!(certified(&instance, &plan, 1_000_000_000), plan.cost);
}
