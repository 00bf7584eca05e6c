//! Small plans of sheets against a search of all cuts, written without a look at the solver.

use std::collections::HashMap;

use benchrule::cut::Limits;
use benchrule::cut::sheet::{Instance, Piece, Sheet, solve, verify};

use crate::long::sample;
use crate::random::Dice;

/// Every piece by itself, and whether a set of them comes out of a rectangle.
struct Cuts<'a> {
    instance: &'a Instance,
    pieces: Vec<&'a Piece>,
    known: HashMap<(usize, u32, u32), bool>,
}

impl<'a> Cuts<'a> {
    fn new(instance: &'a Instance) -> Self {
        let each = |piece: &'a Piece| std::iter::repeat_n(piece, usize::try_from(piece.quantity).unwrap());
        Self { instance, pieces: instance.pieces.iter().flat_map(each).collect(), known: HashMap::new() }
    }

    fn is_in(&self, piece: usize, width: u32, height: u32) -> bool {
        let own = self.pieces[piece];
        let fits = |wide: u32, high: u32| wide <= width && high <= height;
        fits(own.width, own.height) || (own.turns && fits(own.height, own.width))
    }

    /// By every first cut, at every place, and every way of sharing the set out on its two sides.
    fn holds(&mut self, set: usize, width: u32, height: u32) -> bool {
        if set == 0 {
            return true;
        }
        let each: Vec<usize> = (0..self.pieces.len()).filter(|piece| set & (1 << piece) != 0).collect();
        if !each.iter().all(|piece| self.is_in(*piece, width, height)) {
            return false;
        }
        if each.len() == 1 {
            return true;
        }
        if let Some(known) = self.known.get(&(set, width, height)) {
            return *known;
        }
        let holds = self.cut(set, width, height);
        self.known.insert((set, width, height), holds);
        holds
    }

    fn cut(&mut self, set: usize, width: u32, height: u32) -> bool {
        let kerf = self.instance.kerf;
        let mut part = (set - 1) & set;
        while part > 0 {
            for at in 1..width.saturating_sub(kerf) {
                if self.holds(part, at, height) && self.holds(set ^ part, width - at - kerf, height) {
                    return true;
                }
            }
            for at in 1..height.saturating_sub(kerf) {
                if self.holds(part, width, at) && self.holds(set ^ part, width, height - at - kerf) {
                    return true;
                }
            }
            part = (part - 1) & set;
        }
        false
    }

    /// The least that sheets for a set cost, over every way to share it out; none if they do not hold it.
    fn cost(&mut self, left: usize, used: &mut Vec<u32>) -> Option<u64> {
        if left == 0 {
            return Some(0);
        }
        let first = 1 << left.trailing_zeros();
        let rest = left ^ first;
        let mut best = None;
        for (row, sheet) in self.instance.sheets.iter().enumerate() {
            if sheet.count.is_some_and(|count| used[row] >= count) {
                continue;
            }
            let (width, height) = self.instance.usable(sheet);
            used[row] += 1;
            let mut others = rest;
            loop {
                let set = first | others;
                if self.holds(set, width, height) {
                    let cost = self.cost(left ^ set, used).map(|cost| cost + u64::from(sheet.cost));
                    best = best.into_iter().chain(cost).min();
                }
                if others == 0 {
                    break;
                }
                others = (others - 1) & rest;
            }
            used[row] -= 1;
        }
        best
    }
}

fn small(dice: &mut Dice, turns: bool) -> Instance {
    let mut pieces = Vec::new();
    let mut left = dice.roll(2, 7);
    while left > 0 {
        let quantity = dice.roll(1, 3).min(left);
        left -= quantity;
        pieces.push(Piece { width: dice.roll(1, 7), height: dice.roll(1, 7), quantity, turns });
    }
    let sheets = (0..dice.roll(1, 4)).map(|_| Sheet {
        width: dice.roll(5, 11),
        height: dice.roll(5, 11),
        count: (dice.roll(0, 3) == 0).then(|| dice.roll(0, 3)),
        cost: dice.roll(0, 30),
    });
    let sheets = sheets.collect();
    Instance { kerf: dice.roll(0, 2), trim: dice.roll(0, 6) / 5, pieces, sheets }
}

#[test]
fn small_sheets_are_the_cheapest_of_all() {
    let (mut whole, mut short) = (0, 0);
    for seed in 0..sample("plans of sheets against an exhaustive search", 300) {
        let instance = small(&mut Dice::new(seed), seed % 2 == 0);
        let mut cuts = Cuts::new(&instance);
        let all = (1 << cuts.pieces.len()) - 1;
        let known = cuts.cost(all, &mut vec![0; instance.sheets.len()]);
        // Where pieces stay over, which of them is not proven, and the search goes on to its end.
        let steps = if known.is_some() { 1_000_000_000 } else { 1_000_000 };
        let plan = solve(&instance, &Limits::steps(steps));
        assert_eq!(verify(&instance, &plan), Ok(()), "{seed}: {instance:?}");
        match known {
            Some(cost) => {
                assert_eq!((plan.cost, plan.bound), (cost, cost), "{seed}: {instance:?}");
                assert!(plan.left.iter().all(|left| *left == 0), "{seed}: {instance:?}");
                whole += 1;
            }
            None => {
                assert!(plan.left.iter().any(|left| *left > 0), "{seed}: {instance:?}");
                short += 1;
            }
        }
    }
    // Both are tried in earnest.
    assert!(whole > 150 && short > 30, "{whole} {short}");
}
