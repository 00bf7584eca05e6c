//! The parts of two sticks, redistributed for what costs nothing and still matters.

use std::collections::{BTreeMap, BTreeSet};

use super::instance::{Fit, Instance, Stick};

/// The faults of two sticks, the worst first; less is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Fault {
    /// Sticks of short parts without a longer neighbor: the last part cannot be held.
    unsafe_sticks: usize,
    /// The number of sticks of each group, added up.
    homes: usize,
    /// The number of rows of stock of each group, added up: sticks of one row match.
    rows: usize,
}

/// The most ways to try for two sticks.
const MOST_WAYS: usize = 2_000;

/// Redistributes the parts of two sticks.
pub(super) struct Sharing<'a> {
    instance: &'a Instance,
    stock: [usize; 2],
    /// Sorted by group, and within a group by row.
    parts: Vec<usize>,
    /// The rows of stock of the other sticks of each group.
    elsewhere: &'a BTreeMap<u32, BTreeSet<usize>>,
    /// The stick of each part, as far as decided.
    into: Vec<usize>,
    best: Fault,
    /// The length of both offcuts as far as they are worth keeping; it must not shrink.
    kept: i64,
    found: Option<Vec<usize>>,
    ways: usize,
}

impl<'a> Sharing<'a> {
    /// For two sticks; `elsewhere` holds the rows of stock of all other sticks by group.
    pub(super) fn new(
        instance: &'a Instance,
        pair: [&Stick; 2],
        elsewhere: &'a BTreeMap<u32, BTreeSet<usize>>,
    ) -> Self {
        let mut parts: Vec<usize> = pair.iter().flat_map(|stick| stick.parts.iter().copied()).collect();
        let key = |part: &usize| (instance.parts[*part].group, std::cmp::Reverse(instance.parts[*part].length), *part);
        parts.sort_by_key(key);
        let stock = pair.map(|stick| stick.stock);
        let own = pair.map(|stick| stick.parts.as_slice());
        let best = fault(instance, stock, own, elsewhere);
        let kept = own.iter().zip(stock).map(|(parts, row)| kept(instance, row, parts)).sum();
        Self { instance, stock, parts, elsewhere, into: Vec::new(), best, kept, found: None, ways: 0 }
    }

    /// A better distribution, if one is found: the parts of each stick.
    pub(super) fn better(mut self) -> Option<[Vec<usize>; 2]> {
        let groups: BTreeSet<Option<u32>> = self.parts.iter().map(|part| self.instance.parts[*part].group).collect();
        // Each group in one stick, of one row with its other sticks: nothing is better.
        let grouped = groups.iter().flatten().count();
        if self.best.unsafe_sticks == 0 && self.best.homes == grouped && self.stock[0] == self.stock[1] {
            return None;
        }
        let room = self.stock.map(|row| self.room(row));
        self.decide(room, 0);
        let into = self.found.take()?;
        Some(self.split(&into))
    }

    /// The most that the sizes in a stick may add up to: the last part pays no kerf.
    fn room(&self, row: usize) -> i64 {
        let kerf = self.parts.iter().map(|part| self.instance.parts[*part].kerf).max().unwrap_or(0);
        i64::from(self.instance.stock[row].usable) + i64::from(kerf)
    }

    fn split(&self, into: &[usize]) -> [Vec<usize>; 2] {
        let own = |stick: usize| {
            let each = self.parts.iter().zip(into);
            each.filter(|(_, into)| **into == stick).map(|(part, _)| *part).collect()
        };
        [own(0), own(1)]
    }

    /// Decides the stick of the next part, given the room in both and the sticks of each group so far.
    fn decide(&mut self, room: [i64; 2], homes: usize) {
        self.ways += 1;
        let is_worse = self.best.unsafe_sticks == 0 && homes > self.best.homes;
        if self.ways > MOST_WAYS || is_worse {
            return;
        }
        let at = self.into.len();
        let Some(&part) = self.parts.get(at) else {
            self.end();
            return;
        };
        let size = size(self.instance, part);
        let before = at.checked_sub(1).map(|before| (self.parts[before], self.into[before]));
        let is_like =
            |(other, _): &(usize, usize)| self.instance.parts[*other].group == self.instance.parts[part].group;
        // The stick of its group first; a repeated part never returns to the first stick.
        let first = before.filter(is_like).map_or(0, |(_, into)| into);
        let least = before.filter(|(other, _)| *other == part).map_or(0, |(_, into)| into);
        for stick in [first, 1 - first] {
            if stick < least || room[stick] < size {
                continue;
            }
            let mut rest = room;
            rest[stick] -= size;
            let more = usize::from(self.is_new(at, stick));
            self.into.push(stick);
            self.decide(rest, homes + more);
            self.into.pop();
        }
    }

    /// Whether a stick holds no earlier part of the same group.
    fn is_new(&self, at: usize, stick: usize) -> bool {
        let group = self.instance.parts[self.parts[at]].group;
        let each = self.parts[..at].iter().zip(&self.into).rev();
        let mut own = each.take_while(|(part, _)| self.instance.parts[**part].group == group);
        group.is_some() && !own.any(|(_, into)| *into == stick)
    }

    /// Judges a complete distribution.
    fn end(&mut self) {
        let [one, other] = self.split(&self.into);
        if one.is_empty() || other.is_empty() {
            return;
        }
        let own = [one.as_slice(), other.as_slice()];
        let fault = fault(self.instance, self.stock, own, self.elsewhere);
        let holds = || own.iter().zip(self.stock).all(|(parts, row)| holds(self.instance, row, parts));
        let kept = || own.iter().zip(self.stock).map(|(parts, row)| kept(self.instance, row, parts)).sum::<i64>();
        // Safety first, then offcuts, then looks.
        let is_safer = fault.unsafe_sticks < self.best.unsafe_sticks;
        if fault < self.best && holds() && (is_safer || kept() >= self.kept) {
            self.best = fault;
            self.found = Some(self.into.clone());
        }
    }
}

fn fault(
    instance: &Instance,
    stock: [usize; 2],
    parts: [&[usize]; 2],
    elsewhere: &BTreeMap<u32, BTreeSet<usize>>,
) -> Fault {
    let group = |part: &usize| instance.parts[*part].group;
    let own = parts.map(|parts| parts.iter().filter_map(group).collect::<BTreeSet<u32>>());
    let homes = own.iter().map(BTreeSet::len).sum();
    let rows = |group: &u32| {
        let here = own.iter().zip(stock).filter(|(own, _)| own.contains(group)).map(|(_, row)| row);
        let rows: BTreeSet<usize> = elsewhere.get(group).into_iter().flatten().copied().chain(here).collect();
        rows.len()
    };
    let rows = own[0].union(&own[1]).map(rows).sum();
    let unsafe_sticks = parts.iter().filter(|parts| !is_safe(instance, parts)).count();
    Fault { unsafe_sticks, homes, rows }
}

/// Whether the short parts of a stick, if any, have a longer neighbor.
pub(super) fn is_safe(instance: &Instance, parts: &[usize]) -> bool {
    let is_short = |part: &usize| instance.parts[*part].short;
    !parts.iter().any(is_short) || !parts.iter().all(is_short)
}

/// The length of a part and a kerf, less the overlap with a neighbor.
fn size(instance: &Instance, part: usize) -> i64 {
    let part = &instance.parts[part];
    i64::from(part.length) + i64::from(part.kerf) - shared(part.fit)
}

fn shared(fit: Fit) -> i64 {
    match fit {
        Fit::Apart => 0,
        Fit::Turned { overlap, .. } => i64::from(overlap),
    }
}

/// The length of a stick that parts take, laid by rising kerf.
fn taken(instance: &Instance, parts: &[usize]) -> i64 {
    let Some(least) = parts.iter().map(|part| &instance.parts[*part]).min_by_key(|part| part.kerf) else { return 0 };
    let all: i64 = parts.iter().map(|part| size(instance, *part)).sum();
    all - i64::from(least.kerf) + shared(least.fit)
}

/// The offcut after the last cut, if it is worth keeping.
fn kept(instance: &Instance, stock: usize, parts: &[usize]) -> i64 {
    let kerf = parts.iter().map(|part| instance.parts[*part].kerf).min().unwrap_or(0);
    let rest = i64::from(instance.stock[stock].usable) - taken(instance, parts) - i64::from(kerf);
    if instance.keep > 0 && rest >= i64::from(instance.keep) { rest } else { 0 }
}

/// Whether a stick of a row of stock holds these parts.
pub(super) fn holds(instance: &Instance, stock: usize, parts: &[usize]) -> bool {
    let own = || parts.iter().map(|part| &instance.parts[*part]);
    let Some(first) = own().next() else { return true };
    let alike = match first.fit {
        Fit::Apart => own().all(|part| part.fit == Fit::Apart),
        Fit::Turned { .. } => own().all(|part| part.fit == first.fit && part.kerf == first.kerf),
    };
    alike && taken(instance, parts) <= i64::from(instance.stock[stock].usable)
}
