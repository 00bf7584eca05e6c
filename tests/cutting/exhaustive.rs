//! Small plans against a search of all plans, written without a look at the solver.

use std::collections::HashMap;

use benchrule::cut::{Fit, Instance, Limits, Part, certified, solve, verify};

use crate::certificates::STEPS;
use crate::long::sample;
use crate::random::{Dice, SORTS, of_sort};

/// The least cost of all parts, over every way to share them out; none if the stock does not hold them.
struct Exhaustive<'a> {
    instance: &'a Instance,
    /// What each set of parts takes in its best order.
    taken: Vec<Option<u32>>,
    known: HashMap<(usize, Vec<u32>), Option<u64>>,
}

fn gap(before: &Part, after: &Part) -> Option<i64> {
    match (before.fit, after.fit) {
        (Fit::Apart, Fit::Apart) => Some(i64::from(before.kerf.max(after.kerf))),
        (Fit::Turned { overlap, .. }, other) if other == before.fit && before.kerf == after.kerf => {
            Some(i64::from(before.kerf) - i64::from(overlap))
        }
        _ => None,
    }
}

/// The shortest stretch that holds each set of parts, over all orders, by the part that comes last.
pub fn stretches(parts: &[&Part]) -> Vec<Option<u32>> {
    let mut best: Vec<Vec<Option<i64>>> = vec![vec![None; parts.len()]; 1 << parts.len()];
    for (at, part) in parts.iter().enumerate() {
        best[1 << at][at] = Some(i64::from(part.length));
    }
    for set in 1..best.len() {
        for last in 0..parts.len() {
            let Some(taken) = best[set][last] else { continue };
            for next in (0..parts.len()).filter(|next| set & (1 << next) == 0) {
                let Some(gap) = gap(parts[last], parts[next]) else { continue };
                let more = taken + gap + i64::from(parts[next].length);
                let old = &mut best[set | 1 << next][next];
                *old = Some(old.map_or(more, |old| old.min(more)));
            }
        }
    }
    let least = |ways: &Vec<Option<i64>>| ways.iter().flatten().min().map(|taken| u32::try_from(*taken).unwrap());
    best.iter().map(least).collect()
}

impl<'a> Exhaustive<'a> {
    fn new(instance: &'a Instance) -> (Self, usize) {
        let each = |part: &'a Part| std::iter::repeat_n(part, usize::try_from(part.quantity).unwrap());
        let parts: Vec<&Part> = instance.parts.iter().flat_map(each).collect();
        (Self { instance, taken: stretches(&parts), known: HashMap::new() }, (1 << parts.len()) - 1)
    }

    fn cost(&mut self, left: usize, used: &[u32]) -> Option<u64> {
        if left == 0 {
            return Some(0);
        }
        if let Some(known) = self.known.get(&(left, used.to_vec())) {
            return *known;
        }
        let first = 1 << left.trailing_zeros();
        let mut best = None;
        for (row, stock) in self.instance.stock.iter().enumerate() {
            if stock.count.is_some_and(|count| used[row] >= count) {
                continue;
            }
            let mut more = used.to_vec();
            // What is without limit is not worth counting.
            more[row] += u32::from(stock.count.is_some());
            let rest = left ^ first;
            let mut others = rest;
            loop {
                let set = first | others;
                if self.taken[set].is_some_and(|taken| taken <= stock.usable) {
                    let cost = self.cost(left ^ set, &more).map(|cost| cost + u64::from(stock.cost));
                    best = best.into_iter().chain(cost).min();
                }
                if others == 0 {
                    break;
                }
                others = (others - 1) & rest;
            }
        }
        self.known.insert((left, used.to_vec()), best);
        best
    }
}

#[test]
fn small_plans_are_the_cheapest_of_all() {
    let (mut whole, mut short) = (vec![0; usize::try_from(SORTS).unwrap()], 0);
    for seed in 0..sample("plans of sticks against an exhaustive search", SMALL) {
        let sort = seed % SORTS;
        let instance = of_sort(sort, &mut Dice::new(seed));
        let plan = solve(&instance, &Limits::steps(1_000_000_000));
        assert_eq!(verify(&instance, &plan), Ok(()), "{seed}: {instance:?}");
        assert_eq!(certified(&instance, &plan, STEPS), plan.bound, "{seed}: {instance:?}");
        let (mut exhaustive, all) = Exhaustive::new(&instance);
        match exhaustive.cost(all, &vec![0; instance.stock.len()]) {
            Some(cost) => {
                assert_eq!((plan.cost, plan.bound), (cost, cost), "{seed}: {instance:?}");
                assert!(plan.left.iter().all(|left| *left == 0), "{seed}: {instance:?}");
                whole[usize::try_from(sort).unwrap()] += 1;
            }
            None => {
                assert!(plan.left.iter().any(|left| *left > 0), "{seed}: {instance:?}");
                short += 1;
            }
        }
    }
    // Each sort is tried in earnest.
    assert!(whole.iter().all(|whole| *whole > 200) && short > 200, "{whole:?} {short}");
}

/// With those of sheets in `sheets.rs`, ten thousand small instances.
const SMALL: u64 = 9_400;
