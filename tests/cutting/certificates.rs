//! Certificates against a second reading of them, which knows every set of parts instead of a knapsack.

use benchrule::cut::{
    Certificate, ClosedMix, Counted, Instance, Limits, Part, Plan, Prices, Stock, Tree, certified, solve, verify,
};

use crate::exhaustive::stretches;
use crate::instances::part;
use crate::long::sample;
use crate::random::{Dice, small};

/// As many steps as any certificate here takes.
pub const STEPS: u64 = 1_000_000_000;

/// The planned parts one by one, and the sets of them that each row of stock holds.
struct Reading<'a> {
    instance: &'a Instance,
    /// The row of each part.
    rows: Vec<usize>,
    held: Vec<Vec<usize>>,
}

/// What a case asks: of the sets that it counts at least, or at most, so many.
type Case<'a> = (&'a Counted, bool, u32);

impl<'a> Reading<'a> {
    fn new(instance: &'a Instance, plan: &Plan) -> Self {
        let count = |row: usize| usize::try_from(instance.parts[row].quantity - plan.left[row]).unwrap();
        let rows: Vec<usize> = (0..instance.parts.len()).flat_map(|row| std::iter::repeat_n(row, count(row))).collect();
        let parts: Vec<&Part> = rows.iter().map(|row| &instance.parts[*row]).collect();
        let taken = stretches(&parts);
        let fits = |stock: &Stock| {
            let holds = |set: &usize| taken[*set].is_some_and(|taken| taken <= stock.usable);
            std::iter::once(0).chain((1..taken.len()).filter(holds)).collect()
        };
        Self { instance, rows, held: instance.stock.iter().map(fits).collect() }
    }

    fn is_like(&self, one: usize, other: usize) -> bool {
        let key =
            |row: usize| (self.instance.parts[row].length, self.instance.parts[row].kerf, self.instance.parts[row].fit);
        key(one) == key(other)
    }

    fn sum(&self, set: usize, each: impl Fn(usize) -> i128) -> i128 {
        (0..self.rows.len()).filter(|at| set & (1 << at) != 0).map(|at| each(self.rows[at])).sum()
    }

    fn all(&self) -> usize {
        (1 << self.rows.len()) - 1
    }

    /// The most worth that a stick of each row holds.
    fn gives(&self, worth: &[u32]) -> Vec<i128> {
        let most =
            |sets: &Vec<usize>| sets.iter().map(|set| self.sum(*set, |row| i128::from(worth[row]))).max().unwrap();
        self.held.iter().map(most).collect()
    }

    fn spare(&self, worth: &[u32], mix: &[u32]) -> i128 {
        let given: i128 = self.gives(worth).iter().zip(mix).map(|(gives, count)| gives * i128::from(*count)).sum();
        given - self.sum(self.all(), |row| i128::from(worth[row]))
    }

    /// Every count of every row of stock that costs less than `bound`.
    fn mixes(&self, bound: u64) -> Vec<Vec<u32>> {
        let parts = u32::try_from(self.rows.len()).unwrap();
        let mut mixes = vec![(Vec::new(), 0)];
        for stock in &self.instance.stock {
            let more = |(mix, cost): &(Vec<u32>, u64)| {
                let each = 0..=stock.count.map_or(parts, |count| count.min(parts));
                let (mix, cost) = (mix.clone(), *cost);
                let with = move |count: u32| {
                    let mix: Vec<u32> = mix.iter().copied().chain([count]).collect();
                    (mix, cost + u64::from(count) * u64::from(stock.cost))
                };
                each.map(with).filter(|(_, cost)| *cost < bound).collect::<Vec<_>>()
            };
            mixes = mixes.iter().flat_map(more).collect();
        }
        mixes.into_iter().map(|(mix, _)| mix).collect()
    }

    /// Whether the certificate shows the bound: each cheaper mix fails a cut, or has more than one that does, or is closed.
    fn is_proof(&self, certificate: &Certificate, bound: u64) -> bool {
        let is_short = |mix: &[u32]| certificate.cuts.iter().any(|worth| self.spare(worth, mix) < 0);
        let mixes = self.mixes(bound);
        let is_closed = |mix: &[u32]| {
            let closed = certificate.closed.iter().filter(|closed| self.is_same(&closed.mix, mix));
            is_short(mix) || closed.into_iter().any(|closed| self.closes(closed, mix))
        };
        // What more sticks cannot do, fewer cannot.
        let within = |mix: &[u32], other: &[u32]| mix.iter().zip(other).all(|(one, other)| one <= other);
        let impossible: Vec<bool> = mixes.iter().map(|mix| is_closed(mix)).collect();
        mixes
            .iter()
            .all(|mix| mixes.iter().zip(&impossible).any(|(other, impossible)| *impossible && within(mix, other)))
    }

    /// Whether two mixes have the same sticks of each length and cost.
    fn is_same(&self, one: &[u32], other: &[u32]) -> bool {
        let key = |stock: &Stock| (stock.usable, stock.cost, stock.offcut);
        let sum = |mix: &[u32], own: &Stock| -> u32 {
            let like = self.instance.stock.iter().zip(mix).filter(|(stock, _)| key(stock) == key(own));
            like.map(|(_, count)| count).sum()
        };
        self.instance.stock.iter().all(|own| sum(one, own) == sum(other, own))
    }

    fn closes(&self, closed: &ClosedMix, mix: &[u32]) -> bool {
        let spare = self.spare(&closed.worth, mix);
        let gives = self.gives(&closed.worth);
        let useful = |row: usize| {
            let of = |set: &&usize| self.sum(**set, |part| i128::from(closed.worth[part])) >= gives[row] - spare;
            // Of parts without worth nothing is known: the rest of each set counts.
            let rest = |set: &usize| {
                (0..self.rows.len())
                    .filter(|at| set & (1 << at) != 0 && closed.worth[self.rows[*at]] > 0)
                    .fold(0, |set, at| set | 1 << at)
            };
            let mut sets: Vec<usize> = self.held[row].iter().filter(of).map(rest).collect();
            sets.push(0);
            sets
        };
        let sets: Vec<Vec<usize>> = (0..mix.len()).map(useful).collect();
        self.is_closed(closed, mix, &sets, &closed.tree, &mut Vec::new())
    }

    fn is_closed<'c>(
        &self,
        closed: &ClosedMix,
        mix: &[u32],
        sets: &[Vec<usize>],
        tree: &'c Tree,
        cases: &mut Vec<Case<'c>>,
    ) -> bool {
        let split = match tree {
            Tree::Leaf(prices) => return self.is_leaf(closed, mix, sets, prices, cases),
            Tree::Split(split) => split,
        };
        let cases_of = [
            (&split.fewer, (&split.counted, false, split.most)),
            (&split.more, (&split.counted, true, split.most + 1)),
        ];
        cases_of.into_iter().all(|(tree, case)| {
            cases.push(case);
            let is_closed = self.is_closed(closed, mix, sets, tree, cases);
            cases.pop();
            is_closed
        })
    }

    fn is_leaf(&self, closed: &ClosedMix, mix: &[u32], sets: &[Vec<usize>], prices: &Prices, cases: &[Case]) -> bool {
        let price = |row: usize| {
            let own = prices.parts.iter().rev().find(|(other, _)| self.is_like(row, *other));
            own.map_or(0, |(_, price)| i128::from(*price))
        };
        let is_known = prices.parts.iter().all(|(row, _)| closed.worth[*row] > 0);
        let sound = |((_, least, _), price): (&Case, &i32)| if *least { *price >= 0 } else { *price <= 0 };
        if !is_known || cases.len() != prices.splits.len() || !cases.iter().zip(&prices.splits).all(sound) {
            return false;
        }
        let asked =
            cases.iter().zip(&prices.splits).map(|((_, _, count), price)| i128::from(*count) * i128::from(*price));
        let asked = self.sum(self.all(), price) + asked.sum::<i128>();
        let worth = |row: usize, set: usize| {
            let counted = cases.iter().zip(&prices.splits).filter(|((counted, ..), _)| self.counts(counted, row, set));
            self.sum(set, price) + counted.map(|(_, price)| i128::from(*price)).sum::<i128>()
        };
        let most = |row: usize| sets[row].iter().map(|set| worth(row, *set)).max().unwrap();
        let held: i128 = mix.iter().enumerate().map(|(row, count)| i128::from(*count) * most(row)).sum();
        asked > held
    }

    fn counts(&self, counted: &Counted, row: usize, set: usize) -> bool {
        let parts: Vec<usize> =
            (0..self.rows.len()).filter(|at| set & (1 << at) != 0).map(|at| self.rows[at]).collect();
        match counted {
            Counted::Pair(one, other) => {
                [one, other].into_iter().all(|own| parts.iter().any(|part| self.is_like(*part, *own)))
            }
            Counted::Only(stick) => {
                let key = |row: usize| {
                    let stock = &self.instance.stock[row];
                    (stock.usable, stock.cost, stock.offcut)
                };
                let count = |own: usize, of: &[usize]| of.iter().filter(|part| self.is_like(**part, own)).count();
                key(row) == key(stick.stock)
                    && parts.len() == stick.parts.len()
                    && parts.iter().all(|part| count(*part, &parts) == count(*part, &stick.parts))
            }
        }
    }
}

/// Every certificate with one number changed, up or down.
fn changed(certificate: &Certificate) -> Vec<Certificate> {
    let mut all = Vec::new();
    let mut number = 0;
    loop {
        let mut reached = false;
        for by in [1, -1, 1000, -1000] {
            let mut one = certificate.clone();
            let mut left = number;
            change(&mut one, &mut |value: &mut i64| {
                reached |= left == 0;
                *value += if left == 0 { by } else { 0 };
                left -= 1;
            });
            if one != *certificate {
                all.push(one);
            }
        }
        if !reached {
            return all;
        }
        number += 1;
    }
}

/// Shows each number of a certificate to `each`.
fn change(certificate: &mut Certificate, each: &mut dyn FnMut(&mut i64)) {
    let mut whole = |number: &mut u32| {
        let mut value = i64::from(*number);
        each(&mut value);
        *number = u32::try_from(value).unwrap_or(*number);
    };
    certificate.cuts.iter_mut().flatten().for_each(&mut whole);
    for closed in &mut certificate.closed {
        closed.mix.iter_mut().chain(&mut closed.worth).for_each(&mut whole);
    }
    certificate.closed.iter_mut().for_each(|closed| change_tree(&mut closed.tree, each));
}

fn change_tree(tree: &mut Tree, each: &mut dyn FnMut(&mut i64)) {
    match tree {
        Tree::Leaf(prices) => {
            for price in prices.parts.iter_mut().map(|(_, price)| price).chain(&mut prices.splits) {
                let mut value = i64::from(*price);
                each(&mut value);
                *price = i32::try_from(value).unwrap_or(*price);
            }
        }
        Tree::Split(split) => {
            let mut value = i64::from(split.most);
            each(&mut value);
            split.most = u32::try_from(value).unwrap_or(split.most);
            change_tree(&mut split.fewer, each);
            change_tree(&mut split.more, each);
        }
    }
}

/// How many changed certificates fail. Each that passes is a proof by the second reading too.
fn refused(instance: &Instance) -> usize {
    let plan = solve(instance, &Limits::steps(STEPS));
    assert_eq!(verify(instance, &plan), Ok(()), "{instance:?}");
    assert_eq!((certified(instance, &plan, STEPS), plan.bound), (plan.cost, plan.cost), "{instance:?}");
    let reading = Reading::new(instance, &plan);
    assert!(reading.is_proof(&plan.certificate, plan.bound), "{instance:?} {:?}", plan.certificate);
    let mut refused = 0;
    for certificate in changed(&plan.certificate) {
        let other = Plan { certificate, ..plan.clone() };
        if certified(instance, &other, STEPS) < plan.bound {
            refused += 1;
        } else {
            assert!(reading.is_proof(&other.certificate, plan.bound), "{instance:?} {:?}", other.certificate);
        }
    }
    refused
}

#[test]
fn no_changed_number_passes_unless_it_proves_as_much() {
    let mut all = 0;
    for seed in 0..sample("certificates with each number changed", 300) {
        all += refused(&small(&mut Dice::new(5000 + seed)));
    }
    assert!(all > 300, "{all}");
}

/// Without its certificate a plan is not proven, whatever bound it claims.
#[test]
fn a_claim_without_a_certificate_shows_nothing() {
    let stock = vec![Stock { usable: 100, count: None, cost: 7, offcut: false }];
    let instance = Instance { parts: vec![part(60, 0, 3), part(45, 0, 2)], stock, keep: 0 };
    let plan = solve(&instance, &Limits::steps(STEPS));
    assert_eq!((plan.cost, certified(&instance, &plan, STEPS)), (28, 28));
    let bare = Plan { certificate: Certificate::default(), ..plan.clone() };
    assert_eq!(certified(&instance, &bare, STEPS), 0);
    // A check that is cut short shows what the sizes alone do, or less.
    assert!(certified(&instance, &plan, 0) <= 21);
}

/// Two sticks that hold two parts: with the gap between unlike kerfs the lesser of both they would be one.
#[test]
fn the_gap_between_unlike_kerfs_is_the_greater() {
    let stock = |usable: u32| vec![Stock { usable, count: None, cost: 1, offcut: false }];
    for (usable, sticks) in [(1000, 2), (1002, 2), (1003, 1)] {
        let instance = Instance { parts: vec![part(500, 8, 1), part(495, 2, 1)], stock: stock(usable), keep: 0 };
        let plan = solve(&instance, &Limits::steps(STEPS));
        assert_eq!(verify(&instance, &plan), Ok(()));
        assert_eq!((plan.cost, certified(&instance, &plan, STEPS)), (sticks, sticks), "{usable}");
        // Both parts in one stick, whatever the search says.
        let one = Plan {
            sticks: vec![benchrule::cut::Stick { stock: 0, parts: vec![1, 0] }],
            cost: 1,
            bound: 0,
            left: vec![0, 0],
            certificate: Certificate::default(),
        };
        assert_eq!(verify(&instance, &one).is_ok(), usable >= 1003, "{usable}");
    }
}

/// Two lists of parts that come out of five sticks, one of which just fits. Found by exhaustive search.
#[test]
fn parts_that_leave_a_stick_just_full_are_not_counted_twice() {
    let lists: [(u32, &[u32]); 2] =
        [(36, &[20, 20, 19, 18, 18, 18, 13, 13, 11, 7, 7, 6, 5]), (41, &[27, 25, 23, 22, 20, 19, 19, 11, 11, 8, 8, 6])];
    for (usable, lengths) in lists {
        let parts = lengths.iter().map(|length| part(*length, 0, 1)).collect();
        let stock = vec![Stock { usable, count: None, cost: 1, offcut: false }];
        let instance = Instance { parts, stock, keep: 0 };
        let plan = solve(&instance, &Limits::steps(STEPS));
        assert_eq!(verify(&instance, &plan), Ok(()));
        assert_eq!((plan.cost, certified(&instance, &plan, STEPS)), (5, 5), "{usable}");
    }
}
