//! Quick plans: stick after stick, each filled as well as possible.

use super::limits::Meter;
use super::number::real;
use super::problem::{Pattern, Problem, index};

/// How to fill a stick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Filling {
    /// The longest part that fits, repeatedly.
    Longest,
    /// The longest part, then the parts that leave the least over.
    Tightest,
}

/// A plan as patterns, with the parts left over and the cost.
#[derive(Clone, Debug)]
pub(super) struct Draft {
    pub(super) patterns: Vec<(Pattern, u32)>,
    pub(super) left: Vec<u32>,
    pub(super) cost: u64,
}

impl Draft {
    /// Whether every part has a stick.
    pub(super) fn is_whole(&self) -> bool {
        self.left.iter().all(|left| *left == 0)
    }

    /// A plan without parts left over.
    pub(super) fn whole(problem: &Problem, patterns: Vec<(Pattern, u32)>) -> Self {
        let cost = |(pattern, count): &(Pattern, u32)| problem.bars[pattern.bar].cost * u64::from(*count);
        let cost = patterns.iter().map(cost).sum();
        Self { patterns, left: vec![0; problem.items.len()], cost }
    }

    /// The number of sticks.
    pub(super) fn sticks(&self) -> usize {
        self.patterns.iter().map(|(_, count)| index(*count)).sum()
    }

    /// The room that the parts left over would take.
    pub(super) fn left_over(&self, problem: &Problem) -> usize {
        self.left.iter().zip(&problem.items).map(|(left, item)| index(*left) * item.size).sum()
    }
}

/// Fills sticks until no part or no stick is left, or until the cost exceeds `most`.
pub(super) fn fill(problem: &Problem, demand: &[u32], counts: &[u32], how: Filling, most: u64, meter: &Meter) -> Draft {
    let mut left = demand.to_vec();
    let mut counts = counts.to_vec();
    let mut draft = Draft { patterns: Vec::new(), left: Vec::new(), cost: 0 };
    // The items are in order of size: those before `first` are done, or fit no stick that is left.
    let mut first = 0;
    // Filling with the longest never stops early, so there is always a plan.
    while first < left.len() && draft.cost <= most && (how == Filling::Longest || !meter.is_over()) {
        if left[first] == 0 {
            first += 1;
            continue;
        }
        let Some(pattern) = best_stick(problem, first, &left, &counts, how, meter) else {
            first += 1;
            continue;
        };
        // The same stick as often as possible.
        let again = pattern.pieces.iter().map(|(item, count)| left[*item] / count).min().unwrap_or(1);
        let again = again.min(counts[pattern.bar]).max(1);
        pattern.pieces.iter().for_each(|(item, count)| left[*item] -= again * count);
        counts[pattern.bar] -= again;
        draft.cost += problem.bars[pattern.bar].cost * u64::from(again);
        draft.patterns.push((pattern, again));
    }
    draft.left = left;
    draft
}

/// The stick with item `first` that costs the least for its contents.
fn best_stick(
    problem: &Problem,
    first: usize,
    left: &[u32],
    counts: &[u32],
    how: Filling,
    meter: &Meter,
) -> Option<Pattern> {
    let mut best: Option<(f64, Pattern)> = None;
    for (family, rooms) in
        problem.families.iter().zip(&problem.room).filter(|(family, _)| family.items.binary_search(&first).is_ok())
    {
        for (bar, room) in rooms.iter().enumerate().filter(|(bar, _)| counts[*bar] > 0) {
            let Some(room) = room.checked_sub(problem.items[first].size) else { continue };
            let mut rest = left.to_vec();
            rest[first] -= 1;
            let mut pieces = match how {
                Filling::Longest => longest(problem, &family.items, &rest, room, meter),
                Filling::Tightest => tightest(problem, &family.items, &rest, room, meter),
            };
            match pieces.iter_mut().find(|piece| piece.0 == first) {
                Some(piece) => piece.1 += 1,
                None => pieces.push((first, 1)),
            }
            pieces.sort_unstable();
            let dear = real(problem.bars[bar].cost) / real(problem.taken(&pieces));
            if best.as_ref().is_none_or(|best| dear < best.0) {
                best = Some((dear, Pattern { bar, pieces }));
            }
        }
    }
    best.map(|best| best.1)
}

fn longest(problem: &Problem, items: &[usize], left: &[u32], room: usize, meter: &Meter) -> Vec<(usize, u32)> {
    let mut room = room;
    let mut pieces = Vec::new();
    meter.count(items.len());
    for &item in items.iter().filter(|item| left[**item] > 0) {
        let size = problem.items[item].size;
        let count = left[item].min(u32::try_from(room / size).unwrap_or(u32::MAX));
        if count > 0 {
            pieces.push((item, count));
            room -= size * index(count);
        }
    }
    pieces
}

/// The best filling of the room: the reachable sums, each with the item that reached it first.
fn tightest(problem: &Problem, items: &[usize], left: &[u32], room: usize, meter: &Meter) -> Vec<(usize, u32)> {
    let mut reached: Vec<Option<(usize, u32)>> = vec![None; room + 1];
    for &item in items.iter().filter(|item| left[**item] > 0 && problem.items[**item].size <= room) {
        let size = problem.items[item].size;
        meter.count(room - size);
        for sum in size..=room {
            if reached[sum].is_some() {
                continue;
            }
            let before = sum - size;
            match reached[before] {
                Some((last, used)) if last == item && used < left[item] => reached[sum] = Some((item, used + 1)),
                Some((last, _)) if last != item => reached[sum] = Some((item, 1)),
                None if before == 0 => reached[sum] = Some((item, 1)),
                _ => {}
            }
        }
        if reached[room].is_some() {
            break;
        }
    }
    let mut pieces: Vec<(usize, u32)> = Vec::new();
    let mut sum = (0..=room).rev().find(|sum| *sum == 0 || reached[*sum].is_some()).unwrap_or(0);
    while let Some((item, _)) = reached.get(sum).copied().flatten().filter(|_| sum > 0) {
        match pieces.last_mut() {
            Some(piece) if piece.0 == item => piece.1 += 1,
            _ => pieces.push((item, 1)),
        }
        sum -= problem.items[item].size;
    }
    pieces.sort_unstable();
    pieces
}
