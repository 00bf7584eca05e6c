//! The relaxation: parts out of fractions of sticks. Column generation with prices in whole numbers.
//!
//! Source: Gilmore and Gomory, A linear programming approach to the cutting stock problem, Operations Research 9
//! (1961) and 11 (1963).

use std::collections::HashSet;

use super::bound::Cut;
use super::knapsack::{Goods, Lots, MOST_VALUE, Table};
use super::limits::Meter;
use super::number::{real, whole};
use super::problem::{Pattern, Problem};
use super::simplex::Simplex;

/// New sticks taken out of one table, for each length of stock: at least so many, and more of many items.
const HARVEST: usize = 24;
const ITEMS_A_STICK: usize = 6;
/// The relaxation counts parts as covered that are short by less than this.
pub(super) const HARDLY: f64 = 1e-4;
/// The relaxation of more items would take more memory and time than it is worth: there the bound by size is close.
const MOST_ITEMS: usize = 1500;
/// Beyond so many patterns those that were not used of late go.
const MOST_PATTERNS: usize = 12_000;

/// Every pattern met so far.
#[derive(Debug, Default)]
pub(super) struct Pool {
    patterns: Vec<Pattern>,
    known: HashSet<Pattern>,
    table: Table,
}

/// What is relaxed.
#[derive(Clone, Copy)]
pub(super) struct Ask<'a> {
    /// What is still wanted of each item.
    pub(super) demand: &'a [u32],
    /// How many sticks there are of each length.
    pub(super) counts: &'a [u32],
    /// Whether sticks cost nothing, and all that counts is what they cannot hold.
    pub(super) cover: bool,
    /// Of equally cheap amounts the relaxation takes others for another seed.
    pub(super) seed: usize,
}

/// What came of it.
#[derive(Debug)]
pub(super) struct Relaxed {
    /// The cost of the fractions of sticks.
    pub(super) cost: f64,
    /// Parts that no stick holds.
    pub(super) short: f64,
    /// Patterns and how much of each.
    pub(super) amounts: Vec<(Pattern, f64)>,
    /// What any plan for this demand must meet.
    pub(super) cut: Option<Cut>,
}

impl Pool {
    pub(super) fn add(&mut self, pattern: Pattern) -> bool {
        if self.known.insert(pattern.clone()) {
            self.patterns.push(pattern);
            return true;
        }
        false
    }

    /// Whether a problem is small enough to be relaxed.
    pub(super) fn takes(problem: &Problem) -> bool {
        problem.items.len() <= MOST_ITEMS
    }

    /// The table that sticks are looked up in; one for all, since it is large.
    pub(super) fn table(&mut self) -> &mut Table {
        &mut self.table
    }

    fn trim(&mut self) {
        if self.patterns.len() > MOST_PATTERNS {
            let old = self.patterns.drain(..MOST_PATTERNS / 3);
            old.for_each(|pattern| {
                self.known.remove(&pattern);
            });
        }
    }

    /// Relaxes.
    pub(super) fn relax(&mut self, problem: &Problem, ask: Ask, meter: &Meter) -> Relaxed {
        self.trim();
        let mut master = Master::new(problem, ask);
        for pattern in &self.patterns {
            master.push(pattern);
        }
        // With all sticks to choose from a cut is good for the cost that it asks, with some for the room that it
        // leaves.
        let open = ask.counts == problem.counts();
        let mut cut: Option<Cut> = None;
        while !meter.is_over() {
            if !master.simplex.run(meter) && meter.is_over() {
                break;
            }
            let short = master.simplex.short();
            if short < HARDLY && ask.cover {
                break;
            }
            let Some((found, new)) = self.price(&master, meter) else { break };
            let fails = ask.cover && !found.is_met(ask.counts);
            let better = cut.as_ref().is_none_or(|old| {
                if open { found.strength(problem) > old.strength(problem) } else { found.is_tighter(old, ask.counts) }
            });
            if fails || better {
                cut = Some(found);
            }
            if fails {
                break;
            }
            let before = self.patterns.len();
            for pattern in new {
                if self.add(pattern.clone()) {
                    master.push(&pattern);
                }
            }
            if self.patterns.len() == before {
                break;
            }
        }
        let (cost, short) = (master.simplex.cost(), master.simplex.short());
        Relaxed { cost, short, amounts: master.amounts(), cut }
    }

    /// Whole-number prices from those of the relaxation: the cut that follows, and sticks that are worth more than
    /// they cost. None if a table is too large to fill.
    fn price(&mut self, master: &Master, meter: &Meter) -> Option<(Cut, Vec<Pattern>)> {
        let problem = master.problem;
        let prices = master.simplex.prices();
        let price = |row: usize| prices[row].max(0.0);
        // The scale is as large as it can be while no stick's worth reaches the end of its type.
        let total: f64 =
            master.items.iter().enumerate().map(|(row, item)| price(row) * real(master.ask.demand[*item])).sum();
        let dense = master.items.iter().enumerate().map(|(row, item)| price(row) / real(problem.items[*item].size));
        let room = problem.room.iter().flatten().max().copied().unwrap_or(0);
        let most = total.min(dense.fold(0.0, f64::max) * real(room));
        if most <= 0.0 {
            return None;
        }
        let scale = real(MOST_VALUE - 1) / most;
        let mut values = vec![0; problem.items.len()];
        for (row, item) in master.items.iter().enumerate() {
            values[*item] = i32::try_from(whole(price(row) * scale)).unwrap_or(0);
        }
        let mut gives = vec![0_i64; problem.bars.len()];
        let mut new = Vec::new();
        for (family, rooms) in problem.families.iter().zip(&problem.room) {
            // A cut for all parts speaks of all lengths, closed ones too.
            let open = |bar: &usize| master.ask.counts[*bar] > 0 || master.entire;
            let Some(widest) = (0..rooms.len()).filter(open).map(|bar| rooms[bar]).max() else { continue };
            let goods = Goods { items: &family.items, demand: master.ask.demand, values: &values, lots: Lots::Doubled };
            if !self.table.fill(problem, goods, widest, meter) {
                return None;
            }
            for bar in (0..rooms.len()).filter(open) {
                gives[bar] = gives[bar].max(i64::from(self.table.best(rooms[bar])));
                if master.ask.counts[bar] == 0 {
                    continue;
                }
                let rent = master.rents[bar].map_or(0.0, |row| -prices[row]);
                let cost = (master.cost(bar) + rent.max(0.0)) * scale;
                // A stick counts as better from a hair on that whole numbers and roundings cannot account for.
                let least = i32::try_from(whole(cost * (1.0 + 1e-9) + 1.0 + 1e-7 * scale)).unwrap_or(i32::MAX);
                let most = HARVEST.max(master.items.len() / ITEMS_A_STICK);
                let sticks = self.table.sticks(rooms[bar], least, most);
                new.extend(sticks.into_iter().map(|pieces| Pattern { bar, pieces }));
            }
        }
        let worth = values.iter().map(|value| i64::from(*value)).collect();
        Some((Cut::new(problem, worth, gives), new))
    }
}

/// The linear program of a demand.
struct Master<'a> {
    problem: &'a Problem,
    ask: Ask<'a>,
    /// The item of each row.
    items: Vec<usize>,
    /// The row of each item.
    rows: Vec<Option<usize>>,
    /// The row of each bar that may run out.
    rents: Vec<Option<usize>>,
    /// Whether it is the whole demand, so that a cut is one for any plan.
    entire: bool,
    /// What the dearest stick costs: the unit of cost in the linear program.
    unit: f64,
    simplex: Simplex,
    /// The pattern of each column, from `first` on.
    patterns: Vec<Pattern>,
    first: usize,
}

/// By how much costs are moved for a seed: too little to matter, enough to decide between equals.
const HAIR: f64 = 1e-6;

/// What it costs to leave a part out, in dearest sticks.
const LEFT_OUT: f64 = 10.0;

impl<'a> Master<'a> {
    fn new(problem: &'a Problem, ask: Ask<'a>) -> Self {
        let items: Vec<usize> = (0..problem.items.len()).filter(|item| ask.demand[*item] > 0).collect();
        let mut rows = vec![None; problem.items.len()];
        items.iter().enumerate().for_each(|(row, item)| rows[*item] = Some(row));
        let wanted = ask.demand.iter().fold(0_u32, |sum, count| sum.saturating_add(*count));
        let mut rents = vec![None; problem.bars.len()];
        let mut most = Vec::new();
        for (bar, count) in ask.counts.iter().enumerate().filter(|(_, count)| **count > 0 && **count < wanted) {
            rents[bar] = Some(items.len() + most.len());
            most.push(real(*count));
        }
        let room = real(problem.room.iter().flatten().max().copied().unwrap_or(1));
        let least: Vec<f64> = items.iter().map(|item| real(ask.demand[*item])).collect();
        let out = |item: &usize| if ask.cover { real(problem.items[*item].size) / room } else { LEFT_OUT };
        let short: Vec<f64> = items.iter().map(out).collect();
        let simplex = Simplex::new(&least, &short, &most, 0);
        let first = 2 * least.len() + most.len();
        let unit = real(problem.bars.iter().map(|bar| bar.cost).max().unwrap_or(1).max(1));
        let entire = ask.demand == problem.demand();
        Self { problem, ask, items, rows, rents, entire, unit, simplex, patterns: Vec::new(), first }
    }

    /// What a stick costs in the linear program.
    fn cost(&self, bar: usize) -> f64 {
        if self.ask.cover { 0.0 } else { real(self.problem.bars[bar].cost) / self.unit }
    }

    /// Takes a pattern in, if there are sticks for it and none of its parts is cut beyond need.
    fn push(&mut self, pattern: &Pattern) {
        let proper = pattern.pieces.iter().all(|(item, count)| *count <= self.ask.demand[*item]);
        if !proper || self.ask.counts[pattern.bar] == 0 {
            return;
        }
        let entry = |(item, count): &(usize, u32)| self.rows[*item].map(|row| (row, real(*count)));
        let entries = pattern.pieces.iter().filter_map(entry).chain(self.rents[pattern.bar].map(|row| (row, 1.0)));
        let entries = entries.collect();
        let hair = HAIR * real((self.patterns.len() + 1) * (2 * self.ask.seed + 1) * 7919 % 10_007) / 10_007.0;
        let cost = self.cost(pattern.bar);
        self.simplex.push(if self.ask.seed > 0 { cost + hair } else { cost }, entries);
        self.patterns.push(pattern.clone());
    }

    fn amounts(&self) -> Vec<(Pattern, f64)> {
        let used = self.simplex.amounts().filter(|(column, amount)| *column >= self.first && *amount > HARDLY);
        used.map(|(column, amount)| (self.patterns[column - self.first].clone(), amount)).collect()
    }
}
