//! Whether a mix that its relaxation allows can be cut at all: by the few sticks that come into question.
//!
//! A cut leaves a mix some room, and all sticks together waste no more worth than that: so no single one does, and
//! what remains is often a list short enough to be searched whole. The search branches on how many sticks hold two
//! items together. It gives up a branch only by whole-number prices under which the sticks cannot hold what is asked.
//!
//! Source: the list by reduced costs as in Belov and Scheithauer, A branch-and-cut-and-price algorithm for
//! one-dimensional stock cutting, European Journal of Operational Research 171 (2006); pairs as in Ryan and Foster,
//! An integer programming approach to scheduling, 1981.

use std::collections::BTreeMap;

use super::bound::Cut;
use super::certificate::{Counted, Prices, Split, Tree};
use super::dive::Found;
use super::instance::Stick;
use super::knapsack::{Goods, Lots, Table};
use super::limits::Meter;
use super::number::{real, signed, whole};
use super::problem::{Pattern, Problem, index};
use super::simplex::Simplex;

/// The most sticks that a list may have, the most items they may be of, and the most rules on a branch: what keeps the
/// relaxations of a branch within some hundred megabytes.
const MOST_STICKS: usize = 8000;
const MOST_ITEMS: usize = 400;
const MOST_RULES: usize = 64;
/// An amount this near to a whole number is one.
const NEAR: f64 = 1e-4;
/// A relaxation that is short by less than this may be so by rounding.
const HARDLY: f64 = 1e-2;
/// What decides between equal amounts, in parts missing.
const HAIR: f64 = 1e-6;
/// The greatest whole-number price.
const SCALE: f64 = 1e9;

/// What a mix can do.
#[derive(Debug)]
pub(super) enum Closed {
    /// This.
    Found(Found),
    /// Not hold all parts, as the tree shows.
    Impossible(Tree),
    /// Not known within the steps there are.
    Unknown,
}

/// Searches all plans with the sticks of `mix`, given a cut that leaves them little room.
pub(super) fn close(
    problem: &Problem,
    table: &mut Table,
    cut: &Cut,
    mix: &[u32],
    seed: usize,
    meter: &Meter,
) -> Closed {
    let Some(list) = candidates(problem, table, cut, mix, meter) else { return Closed::Unknown };
    let items =
        (0..problem.items.len()).filter(|item| cut.worth[*item] > 0 && problem.items[*item].demand > 0).collect();
    let mut search = Search { problem, meter, mix, list, items, rules: Vec::new(), seed };
    let program = search.program();
    search.branch(program)
}

/// Every pattern that a plan with this mix may use, of the items that the cut prices; none if they are too many.
fn candidates(problem: &Problem, table: &mut Table, cut: &Cut, mix: &[u32], meter: &Meter) -> Option<Vec<Pattern>> {
    if problem.items.len() > MOST_ITEMS {
        return None;
    }
    let room = cut.given(mix) - cut.need;
    let values: Vec<i32> = cut.worth.iter().map(|worth| i32::try_from(*worth).unwrap_or(0)).collect();
    let demand = problem.demand();
    let mut found = Vec::new();
    for (family, rooms) in problem.families.iter().zip(&problem.room) {
        let Some(widest) = (0..rooms.len()).filter(|bar| mix[*bar] > 0).map(|bar| rooms[bar]).max() else { continue };
        let goods = Goods { items: &family.items, demand: &demand, values: &values, lots: Lots::Single };
        if !table.fill(problem, goods, widest, meter) {
            return None;
        }
        for bar in (0..rooms.len()).filter(|bar| mix[*bar] > 0) {
            let least = i32::try_from((cut.gives[bar] - room).max(1)).ok()?;
            let sticks = table.all(rooms[bar], least, MOST_STICKS)?;
            found.extend(sticks.into_iter().map(|pieces| Pattern { bar, pieces }));
        }
    }
    found.sort_unstable();
    found.dedup();
    (found.len() <= MOST_STICKS).then_some(found)
}

/// Sticks of the list that a rule counts.
#[derive(Clone, Copy, Debug)]
enum Kind {
    /// Those that hold both items.
    Pair(usize, usize),
    /// One pattern alone.
    Only(usize),
}

/// How many sticks of a kind there are: at least or at most so many.
#[derive(Clone, Copy, Debug)]
struct Rule {
    kind: Kind,
    least: bool,
    count: u32,
}

struct Search<'a> {
    problem: &'a Problem,
    meter: &'a Meter<'a>,
    mix: &'a [u32],
    list: Vec<Pattern>,
    /// The items that are priced: all that the list is made of.
    items: Vec<usize>,
    rules: Vec<Rule>,
    /// Of equal amounts others for another seed.
    seed: usize,
}

impl Search<'_> {
    /// What can be done under the rules; `program` is their relaxation.
    fn branch(&mut self, mut program: Simplex) -> Closed {
        if self.meter.is_over() || self.rules.len() > MOST_RULES || !program.run(self.meter) {
            return Closed::Unknown;
        }
        if let Some(prices) = self.impossible(program.prices()) {
            return Closed::Impossible(Tree::Leaf(prices));
        }
        // What is missing by a hair may be so by rounding alone: the branch goes on.
        if program.short() > HARDLY {
            return Closed::Unknown;
        }
        let first = self.first_column();
        let mut amounts = vec![0.0; self.list.len()];
        for (column, amount) in program.moved() {
            if let Some(own) = column.checked_sub(first).and_then(|at| amounts.get_mut(at)) {
                *own = amount;
            }
        }
        let Some(kind) = self.split(&amounts) else {
            return self.whole(&amounts).map_or(Closed::Unknown, Closed::Found);
        };
        let of: Vec<usize> = (0..self.list.len()).filter(|at| self.is_of(*at, kind)).collect();
        let below = whole(of.iter().map(|at| amounts[*at]).sum());
        let mut case = |least: bool, count: u32| {
            let mut program = program.clone();
            program.add_row(of.iter().map(|at| at + first), least, real(count));
            self.rules.push(Rule { kind, least, count });
            let closed = self.branch(program);
            self.rules.pop();
            closed
        };
        // A plan in the second case is welcome even if the first is not known to have none.
        let more = case(true, below.saturating_add(1));
        if matches!(more, Closed::Found(_)) {
            return more;
        }
        match (more, case(false, below)) {
            (Closed::Impossible(more), Closed::Impossible(fewer)) => {
                let counted = self.counted(kind);
                Closed::Impossible(Tree::Split(Box::new(Split { counted, most: below, fewer, more })))
            }
            (_, found @ Closed::Found(_)) => found,
            _ => Closed::Unknown,
        }
    }

    /// A kind of sticks by rows of the instance.
    fn counted(&self, kind: Kind) -> Counted {
        let row = |item: usize| self.problem.items[item].parts[0];
        match kind {
            Kind::Pair(one, other) => Counted::Pair(row(one), row(other)),
            Kind::Only(at) => {
                let Pattern { bar, pieces } = &self.list[at];
                let parts = pieces.iter().flat_map(|(item, count)| std::iter::repeat_n(row(*item), index(*count)));
                Counted::Only(Stick { stock: self.problem.bars[*bar].rows[0], parts: parts.collect() })
            }
        }
    }

    /// The column of the first pattern.
    fn first_column(&self) -> usize {
        2 * self.items.len() + self.mix.len()
    }

    fn is_of(&self, at: usize, kind: Kind) -> bool {
        let pieces = &self.list[at].pieces;
        let has = |item: usize| pieces.iter().any(|piece| piece.0 == item);
        match kind {
            Kind::Pair(one, other) => has(one) && has(other),
            Kind::Only(only) => at == only,
        }
    }

    /// What the pattern at `at` has in each row: of items, of sticks, and under the rules.
    fn entries(&self, at: usize) -> Vec<(usize, u32)> {
        let pattern = &self.list[at];
        let row = |(item, count): &(usize, u32)| self.items.binary_search(item).ok().map(|row| (row, *count));
        let mut entries: Vec<(usize, u32)> = pattern.pieces.iter().filter_map(row).collect();
        entries.push((self.items.len() + pattern.bar, 1));
        let first = self.items.len() + self.mix.len();
        let rules = self.rules.iter().enumerate().filter(|(_, rule)| self.is_of(at, rule.kind));
        entries.extend(rules.map(|(nth, _)| (first + nth, 1)));
        entries
    }

    fn demand(&self) -> impl Iterator<Item = u32> {
        self.items.iter().map(|item| self.problem.items[*item].demand)
    }

    /// The relaxation without rules, for the least that is missing.
    fn program(&self) -> Simplex {
        let least: Vec<f64> = self.demand().map(real).collect();
        let most: Vec<f64> = self.mix.iter().map(|count| real(*count)).collect();
        let mut simplex = Simplex::new(&least, &vec![1.0; least.len()], &most, least.len());
        for at in 0..self.list.len() {
            let hair = HAIR * real((at + 1) * (2 * self.seed + 1) * 7919 % 10_007) / 10_007.0;
            simplex.push(hair, self.entries(at).into_iter().map(|(row, count)| (row, real(count))).collect());
        }
        simplex
    }

    /// Prices in whole numbers, if they show that the sticks cannot hold what is asked: what a plan is worth by its parts
    /// and rules is more than its sticks can be worth.
    fn impossible(&self, prices: &[f64]) -> Option<Prices> {
        let greatest = prices.iter().map(|price| price.abs()).fold(f64::MIN_POSITIVE, f64::max);
        let mut worth: Vec<i64> = prices.iter().map(|price| signed(price * SCALE / greatest)).collect();
        let (items, sticks) = (self.items.len(), self.mix.len());
        // What a stick may be worth is looked up, and a rule is worth what keeps to its side.
        worth[items..items + sticks].fill(0);
        for (own, rule) in worth[items + sticks..].iter_mut().zip(&self.rules) {
            *own = if rule.least { (*own).max(0) } else { (*own).min(0) };
        }
        let product = |count: u32, worth: &i64| i128::from(count) * i128::from(*worth);
        let parts: i128 = self.demand().zip(&worth).map(|(count, worth)| product(count, worth)).sum();
        let rules = self.rules.iter().zip(&worth[items + sticks..]);
        let rules: i128 = rules.map(|(rule, worth)| product(rule.count, worth)).sum();
        let mut most = vec![0_i64; sticks];
        for (at, pattern) in self.list.iter().enumerate() {
            let own: i64 = self.entries(at).iter().map(|(row, count)| worth[*row] * i64::from(*count)).sum();
            most[pattern.bar] = most[pattern.bar].max(own);
        }
        let held: i128 = self.mix.iter().zip(&most).map(|(count, worth)| product(*count, worth)).sum();
        let price = |worth: &i64| i32::try_from(*worth).ok();
        let rows = self.items.iter().map(|item| self.problem.items[*item].parts[0]);
        let priced = rows.zip(&worth).map(|(row, worth)| Some((row, price(worth)?)));
        let splits = worth[items + sticks..].iter().map(price).collect::<Option<_>>();
        (parts + rules > held).then_some(Prices { parts: priced.collect::<Option<_>>()?, splits: splits? })
    }

    /// What to branch on: the pair of items whose sticks are farthest from a whole number, or else the pattern.
    fn split(&self, amounts: &[f64]) -> Option<Kind> {
        let mut pairs = BTreeMap::new();
        for (pattern, amount) in self.list.iter().zip(amounts).filter(|(_, amount)| **amount > NEAR) {
            for (nth, one) in pattern.pieces.iter().enumerate() {
                for other in &pattern.pieces[nth + 1..] {
                    *pairs.entry((one.0, other.0)).or_insert(0.0) += amount;
                }
            }
        }
        let pairs = pairs.into_iter().map(|((one, other), amount)| (Kind::Pair(one, other), amount));
        farthest(pairs).or_else(|| farthest(amounts.iter().enumerate().map(|(at, amount)| (Kind::Only(at), *amount))))
    }

    /// The plan of whole amounts, with the items that have no price put where there is room.
    fn whole(&self, amounts: &[f64]) -> Option<Found> {
        let mut left = self.problem.demand();
        let mut free = self.mix.to_vec();
        let mut sticks: Vec<Pattern> = Vec::new();
        for (pattern, amount) in self.list.iter().zip(amounts) {
            let count = whole(amount.round());
            for (item, pieces) in &pattern.pieces {
                left[*item] = left[*item].checked_sub(pieces.checked_mul(count)?)?;
            }
            free[pattern.bar] = free[pattern.bar].checked_sub(count)?;
            sticks.extend((0..count).map(|_| pattern.clone()));
        }
        for (bar, count) in free.iter().enumerate() {
            sticks.extend((0..*count).map(|_| Pattern { bar, pieces: Vec::new() }));
        }
        for item in (0..left.len()).filter(|item| left[*item] > 0).collect::<Vec<_>>() {
            for stick in &mut sticks {
                while left[item] > 0 {
                    let mut pieces = stick.pieces.clone();
                    match pieces.binary_search_by_key(&item, |piece| piece.0) {
                        Ok(at) => pieces[at].1 += 1,
                        Err(at) => pieces.insert(at, (item, 1)),
                    }
                    if !self.problem.holds(stick.bar, &pieces) {
                        break;
                    }
                    stick.pieces = pieces;
                    left[item] -= 1;
                }
            }
        }
        if left.iter().any(|left| *left > 0) {
            return None;
        }
        Some(sticks.into_iter().filter(|stick| !stick.pieces.is_empty()).map(|stick| (stick, 1)).collect())
    }
}

/// The kind whose amount is farthest from a whole number, if any is far; of equals the first.
fn farthest(kinds: impl Iterator<Item = (Kind, f64)>) -> Option<Kind> {
    let mut best: Option<(f64, Kind)> = None;
    for (kind, amount) in kinds {
        let off = (amount - amount.round()).abs();
        if off > best.map_or(NEAR, |best| best.0 + NEAR) {
            best = Some((off, kind));
        }
    }
    best.map(|best| best.1)
}
