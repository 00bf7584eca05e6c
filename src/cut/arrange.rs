//! From patterns to sticks of named parts, so that the parts of a frame come from one stick, or from few that match.
//!
//! It costs nothing to choose which of several like parts a stick gets, or to swap parts between two sticks that still
//! hold them. Both keep the parts of a group together, and short parts beside longer ones.

use std::collections::{BTreeMap, BTreeSet};

use super::certificate::Certificate;
use super::greedy::Draft;
use super::instance::{Instance, Plan, Stick};
use super::problem::Problem;
use super::share::{Sharing, is_safe};

/// The plan of a draft. Parts that the draft or the problem leaves out are left.
pub(super) fn arrange(instance: &Instance, problem: &Problem, draft: &Draft, bound: u64) -> Plan {
    let mut left: Vec<u32> = instance.parts.iter().map(|part| part.quantity).collect();
    let mut bench = Bench::new(instance, named(instance, problem, draft, &mut left));
    bench.gather();
    let mut sticks = bench.sticks;
    for stick in &mut sticks {
        // By rising kerf the gaps are least. Shorter parts go first, while the stick is long enough to hold, and parts
        // of one length at one setting of the stop.
        stick.parts.sort_by_key(|part| (instance.parts[*part].kerf, instance.parts[*part].length, *part));
    }
    sticks.sort_by(|one, other| (one.stock, &other.parts).cmp(&(other.stock, &one.parts)));
    Plan {
        sticks,
        cost: draft.cost * problem.unit,
        bound: bound * problem.unit,
        left,
        certificate: Certificate::default(),
    }
}

/// The sticks of a draft; of like parts first those whose group is in the stick already.
fn named(instance: &Instance, problem: &Problem, draft: &Draft, left: &mut [u32]) -> Vec<Stick> {
    let mut stock: Vec<u32> = instance.stock.iter().map(|stock| stock.count.unwrap_or(u32::MAX)).collect();
    // The unused parts of each item; the last one is used first.
    let mut waiting: Vec<Vec<usize>> =
        problem.items.iter().map(|item| item.parts.iter().rev().copied().collect()).collect();
    let mut sticks = Vec::new();
    for (pattern, count) in &draft.patterns {
        for _ in 0..*count {
            let Some(&row) = problem.bars[pattern.bar].rows.iter().find(|row| stock[**row] > 0) else { continue };
            stock[row] -= 1;
            let mut parts: Vec<usize> = Vec::new();
            for (item, pieces) in &pattern.pieces {
                for _ in 0..*pieces {
                    let own = &mut waiting[*item];
                    own.retain(|part| left[*part] > 0);
                    let group = |part: usize| instance.parts[part].group;
                    let near = own
                        .iter()
                        .rev()
                        .take(NEAR)
                        .find(|part| parts.iter().any(|other| group(*other) == group(**part)));
                    if let Some(&part) = near.or(own.last()) {
                        left[part] -= 1;
                        parts.push(part);
                    }
                }
            }
            sticks.push(Stick { stock: row, parts });
        }
    }
    sticks
}

/// Like parts to look through for one of the right group.
const NEAR: usize = 64;
/// Passes over all pairs of sticks.
const PASSES: usize = 8;
/// With more parts a swap takes longer than it is worth.
const MOST_PARTS: usize = 20_000;
/// Sticks of a group, and neighbors for short parts, to try.
const MOST_HOMES: usize = 24;

struct Bench<'a> {
    instance: &'a Instance,
    sticks: Vec<Stick>,
    /// The sticks that hold parts of each group.
    homes: BTreeMap<u32, BTreeSet<usize>>,
}

impl<'a> Bench<'a> {
    fn new(instance: &'a Instance, sticks: Vec<Stick>) -> Self {
        let mut bench = Self { instance, sticks, homes: BTreeMap::new() };
        for stick in 0..bench.sticks.len() {
            bench.settle(stick);
        }
        bench
    }

    fn groups(&self, stick: usize) -> BTreeSet<u32> {
        self.sticks[stick].parts.iter().filter_map(|part| self.instance.parts[*part].group).collect()
    }

    fn settle(&mut self, stick: usize) {
        for group in self.groups(stick) {
            self.homes.entry(group).or_default().insert(stick);
        }
    }

    /// Redistributes the parts of pairs of sticks while that brings groups together, or short parts beside longer ones.
    fn gather(&mut self) {
        if self.sticks.iter().map(|stick| stick.parts.len()).sum::<usize>() > MOST_PARTS {
            return;
        }
        for _ in 0..PASSES {
            let mut better = self.guard();
            let groups: Vec<u32> = self.homes.keys().copied().collect();
            for group in groups {
                better |= self.unite(group);
                better |= self.match_up(group);
            }
            if !better {
                break;
            }
        }
    }

    /// Moves a group into fewer sticks.
    fn unite(&mut self, group: u32) -> bool {
        let homes: Vec<usize> = self.homes[&group].iter().copied().take(MOST_HOMES).collect();
        let pairs = homes.iter().enumerate().flat_map(|(at, one)| homes[at + 1..].iter().map(|other| (*one, *other)));
        pairs.fold(false, |better, (one, other)| self.share(one, other) || better)
    }

    /// Moves a group into sticks of fewer rows of the stock; sticks of one row match.
    fn match_up(&mut self, group: u32) -> bool {
        let homes: Vec<usize> = self.homes[&group].iter().copied().take(MOST_HOMES).collect();
        let rows: BTreeSet<usize> = homes.iter().map(|home| self.sticks[*home].stock).collect();
        if rows.len() < 2 {
            return false;
        }
        let mut better = false;
        for home in homes {
            let row = self.sticks[home].stock;
            let is_other =
                |stick: &usize| self.sticks[*stick].stock != row && rows.contains(&self.sticks[*stick].stock);
            let others: Vec<usize> = (0..self.sticks.len()).filter(is_other).take(MOST_HOMES).collect();
            better = others.into_iter().fold(better, |better, other| self.share(home, other) || better);
        }
        better
    }

    /// Moves a longer part beside short parts that are alone in a stick.
    fn guard(&mut self) -> bool {
        let mut better = false;
        for stick in 0..self.sticks.len() {
            let is_alone = |bench: &Self| !is_safe(bench.instance, &bench.sticks[stick].parts);
            let mut tried = 0;
            for other in 0..self.sticks.len() {
                if tried == MOST_HOMES || !is_alone(self) {
                    break;
                }
                let is_long = |part: &usize| !self.instance.parts[*part].short;
                if self.sticks[other].parts.iter().filter(|part| is_long(part)).count() > 1 {
                    tried += 1;
                    better |= self.share(stick, other);
                }
            }
        }
        better
    }

    /// Redistributes the parts of two sticks; returns whether that is better.
    fn share(&mut self, one: usize, other: usize) -> bool {
        let mut elsewhere: BTreeMap<u32, BTreeSet<usize>> = BTreeMap::new();
        let groups = self.groups(one).into_iter().chain(self.groups(other));
        for group in groups.collect::<BTreeSet<u32>>() {
            let homes = self.homes.get(&group).into_iter().flatten().filter(|home| **home != one && **home != other);
            elsewhere.insert(group, homes.map(|home| self.sticks[*home].stock).collect());
        }
        let pair = [one, other].map(|stick| &self.sticks[stick]);
        let Some(shared) = Sharing::new(self.instance, pair, &elsewhere).better() else { return false };
        for (stick, parts) in [one, other].into_iter().zip(shared) {
            for group in self.groups(stick) {
                self.homes.entry(group).or_default().remove(&stick);
            }
            self.sticks[stick].parts = parts;
        }
        self.settle(one);
        self.settle(other);
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cut::{Fit, Part, Stock};

    fn part(length: u32, group: u32, short: bool) -> Part {
        Part { length, kerf: 8, fit: Fit::Apart, quantity: 1, group: Some(group), short }
    }

    fn stick(stock: usize, parts: &[usize]) -> Stick {
        Stick { stock, parts: parts.to_vec() }
    }

    /// Puts the new parts into the two sticks, each in order.
    fn gathered(parts: Vec<Part>, usable: &[u32], sticks: Vec<Stick>) -> Vec<Vec<usize>> {
        keeping(parts, usable, 0, sticks)
    }

    fn keeping(parts: Vec<Part>, usable: &[u32], keep: u32, sticks: Vec<Stick>) -> Vec<Vec<usize>> {
        let stock = usable.iter().map(|usable| Stock { usable: *usable, count: None, cost: 1, offcut: false });
        let instance = Instance { parts, stock: stock.collect(), keep };
        let mut bench = Bench::new(&instance, sticks);
        bench.gather();
        let sorted = |stick: Stick| {
            let mut parts = stick.parts;
            parts.sort_unstable();
            parts
        };
        bench.sticks.into_iter().map(sorted).collect()
    }

    /// Two parts of 1000 swap with one of 2008; no swap of one for one works.
    #[test]
    fn several_parts_are_exchanged_for_one() {
        let parts = vec![part(2008, 0, false), part(1500, 0, false), part(1000, 1, false), part(1000, 1, false)];
        let parts = [parts, vec![part(1499, 1, false)]].concat();
        let sticks = vec![stick(0, &[0, 4]), stick(0, &[1, 2, 3])];
        assert_eq!(gathered(parts, &[3532], sticks), [vec![0, 1], vec![2, 3, 4]]);
    }

    /// Each frame takes two sticks, of one row if possible.
    #[test]
    fn sticks_of_a_frame_match() {
        let parts = vec![part(1500, 0, false), part(1500, 0, false), part(1501, 1, false), part(1501, 1, false)];
        let sticks = vec![stick(0, &[0]), stick(1, &[1]), stick(0, &[2]), stick(1, &[3])];
        let gathered = gathered(parts, &[1600, 1610], sticks);
        let of = |frame: [usize; 2]| gathered.iter().enumerate().filter(move |(_, parts)| frame.contains(&parts[0]));
        let rows = |frame: [usize; 2]| of(frame).map(|(stick, _)| stick % 2).collect::<Vec<_>>();
        assert!(rows([0, 1]) == [0, 0] || rows([0, 1]) == [1, 1], "{gathered:?}");
        assert!(rows([2, 3]) == [0, 0] || rows([2, 3]) == [1, 1], "{gathered:?}");
    }

    /// Worked by hand: a rest of 1084 (2000 - 500 - 400 - two kerfs of 8) would become two, of 484 and 684; one frame stays
    /// in two sticks, and a rest of 1092 (2000 - 900 - 8) whole.
    #[test]
    fn no_rest_worth_keeping_is_broken_up() {
        let parts = vec![part(1000, 0, false), part(900, 1, false), part(500, 0, false), part(400, 1, false)];
        let sticks = || vec![stick(0, &[0, 1]), stick(0, &[2, 3])];
        assert_eq!(keeping(parts.clone(), &[2000], 0, sticks()), [vec![0, 2], vec![1, 3]]);
        assert_eq!(keeping(parts, &[2000], 1050, sticks()), [vec![0, 2, 3], vec![1]]);
    }

    #[test]
    fn short_parts_come_beside_longer_ones() {
        let parts = vec![
            part(300, 0, true),
            part(310, 0, true),
            part(1000, 1, false),
            part(600, 2, false),
            part(380, 2, false),
        ];
        let sticks = vec![stick(0, &[0, 1]), stick(0, &[2, 3, 4])];
        let gathered = gathered(parts.clone(), &[2000], sticks);
        for own in &gathered {
            assert!(own.iter().any(|part| !parts[*part].short), "{gathered:?}");
        }
        // Without a longer part for them nothing changes.
        let parts = vec![part(300, 0, true), part(310, 0, true), part(1000, 1, false)];
        let sticks = vec![stick(0, &[0, 1]), stick(0, &[2])];
        assert_eq!(super::tests::gathered(parts, &[1100], sticks), [vec![0, 1], vec![2]]);
    }
}
