//! From patterns to sticks with the parts' own names, so that the parts of a frame come out of one stick.
//!
//! Which part of a length comes out of which stick costs nothing, and neither does an exchange between two sticks that
//! hold what they get: both are used to keep the parts of a group together.

use std::collections::BTreeMap;

use super::greedy::Draft;
use super::instance::{Fit, Instance};
use super::plan::{Plan, Stick};
use super::problem::Problem;

/// The plan of a draft: what it leaves over is left, as is what the problem does not hold.
pub(super) fn arrange(instance: &Instance, problem: &Problem, draft: &Draft, bound: u64) -> Plan {
    let mut left: Vec<u32> = instance.parts.iter().map(|part| part.quantity).collect();
    let mut bench = Bench { instance, sticks: named(instance, problem, draft, &mut left) };
    bench.gather();
    let mut sticks = bench.sticks;
    for stick in &mut sticks {
        // By rising kerf the gaps are least. Shorter parts go first, while the stick is long enough to hold, and parts
        // of one length at one setting of the stop.
        stick.parts.sort_by_key(|part| (instance.parts[*part].kerf, instance.parts[*part].length, *part));
    }
    sticks.sort_by(|one, other| (one.stock, &other.parts).cmp(&(other.stock, &one.parts)));
    Plan { sticks, cost: draft.cost * problem.unit, bound: bound * problem.unit, left }
}

/// The sticks of a draft; of parts of one length first those whose group is in the stick already.
fn named(instance: &Instance, problem: &Problem, draft: &Draft, left: &mut [u32]) -> Vec<Stick> {
    let mut stock: Vec<u32> = instance.stock.iter().map(|stock| stock.count.unwrap_or(u32::MAX)).collect();
    // The parts of an item that are not used up, the latest to be used first.
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

/// So many parts of one length are looked at for one of the right group.
const NEAR: usize = 64;
/// So often all parts are gone through for exchanges.
const PASSES: usize = 8;
/// With more parts than this an exchange takes longer than it is worth.
const MOST_PARTS: usize = 20_000;

struct Bench<'a> {
    instance: &'a Instance,
    sticks: Vec<Stick>,
}

/// Where a part is: which stick, and which of its parts.
type Place = (usize, usize);

impl Bench<'_> {
    fn group(&self, (stick, at): Place) -> Option<u32> {
        self.instance.parts[self.sticks[stick].parts[at]].group
    }

    /// How many parts of a group a stick has.
    fn share(&self, stick: usize, group: u32) -> usize {
        self.sticks[stick].parts.iter().filter(|part| self.instance.parts[**part].group == Some(group)).count()
    }

    /// Exchanges parts between sticks while that brings groups together.
    fn gather(&mut self) {
        if self.sticks.iter().map(|stick| stick.parts.len()).sum::<usize>() > MOST_PARTS {
            return;
        }
        for _ in 0..PASSES {
            let mut homes: BTreeMap<u32, Vec<usize>> = BTreeMap::new();
            for (at, stick) in self.sticks.iter().enumerate() {
                for group in stick.parts.iter().filter_map(|part| self.instance.parts[*part].group) {
                    let homes = homes.entry(group).or_default();
                    if homes.last() != Some(&at) && !homes.contains(&at) {
                        homes.push(at);
                    }
                }
            }
            let mut better = false;
            for (group, homes) in homes.iter().filter(|(_, homes)| homes.len() > 1) {
                for &from in homes {
                    better |= self.bring(*group, from, homes);
                }
            }
            if !better {
                break;
            }
        }
    }

    /// Brings the parts of a group out of one stick into others that have parts of it.
    fn bring(&mut self, group: u32, from: usize, homes: &[usize]) -> bool {
        let mut better = false;
        for at in 0..self.sticks[from].parts.len() {
            if self.group((from, at)) != Some(group) {
                continue;
            }
            let place = (from, at);
            let others = homes.iter().filter(|home| **home != from);
            let each = others.flat_map(|home| (0..self.sticks[*home].parts.len()).map(|other| (*home, other)));
            let found = each.into_iter().find(|other| self.gains(place, *other) && self.may_exchange(place, *other));
            if let Some(other) = found {
                self.exchange(place, other);
                better = true;
            }
        }
        better
    }

    /// Whether fewer groups would be spread over fewer sticks after an exchange.
    fn gains(&self, one: Place, other: Place) -> bool {
        let (Some(first), second) = (self.group(one), self.group(other)) else { return false };
        if second == Some(first) {
            return false;
        }
        let moved = |group: u32, from: usize, to: usize| {
            i32::from(self.share(to, group) == 0) - i32::from(self.share(from, group) == 1)
        };
        moved(first, one.0, other.0) + second.map_or(0, |second| moved(second, other.0, one.0)) < 0
    }

    /// Whether both sticks hold what they would get.
    fn may_exchange(&self, one: Place, other: Place) -> bool {
        let with = |place: Place, part: usize| {
            let mut parts = self.sticks[place.0].parts.clone();
            parts[place.1] = part;
            holds(self.instance, self.sticks[place.0].stock, &parts)
        };
        let part = |place: Place| self.sticks[place.0].parts[place.1];
        with(one, part(other)) && with(other, part(one))
    }

    fn exchange(&mut self, one: Place, other: Place) {
        let part = self.sticks[one.0].parts[one.1];
        self.sticks[one.0].parts[one.1] = std::mem::replace(&mut self.sticks[other.0].parts[other.1], part);
    }
}

/// Whether a stick of a stock row holds these parts.
fn holds(instance: &Instance, stock: usize, parts: &[usize]) -> bool {
    let parts = || parts.iter().map(|part| &instance.parts[*part]);
    let Some(least) = parts().min_by_key(|part| part.kerf) else { return true };
    let shared = match least.fit {
        Fit::Apart => 0,
        Fit::Turned { overlap, .. } => i64::from(overlap),
    };
    let alike = match least.fit {
        Fit::Apart => parts().all(|part| part.fit == Fit::Apart),
        Fit::Turned { .. } => parts().all(|part| part.fit == least.fit && part.kerf == least.kerf),
    };
    let taken: i64 = parts().map(|part| i64::from(part.length) + i64::from(part.kerf) - shared).sum();
    alike && taken - i64::from(least.kerf) + shared <= i64::from(instance.stock[stock].usable)
}
