//! An exact search for few pieces: mixes of sheets, the cheapest first, each packed or shown to be too little.
//!
//! It ends where it can; what it has not seen to the end it leaves open, and says so.

mod builds;
mod counts;
mod pack;

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashSet};

use self::counts::Places;
use self::pack::{Answers, Packed, Packer};
use super::draft::Draft;
use super::need::Need;
use super::problem::{Problem, index};
use crate::cut::limits::Meter;

/// What is asked for.
pub(super) struct Ask<'a> {
    /// How many of each item.
    pub(super) wanted: &'a [u32],
    /// What every plan must meet.
    pub(super) needs: &'a [Need],
    /// What is known: no plan costs less.
    pub(super) bound: u64,
    /// Only plans that cost less than this are looked for.
    pub(super) below: u64,
}

/// What is known after a search.
pub(super) struct Known {
    /// No plan costs less, as far as below what was asked.
    pub(super) bound: u64,
    /// A plan that costs no more than the bound.
    pub(super) found: Option<Draft>,
}

/// The search, with what it remembers from one time to the next.
pub(super) struct Exact {
    places: Option<Places>,
    known: Answers,
    /// Mixes that are certain not to do.
    impossible: HashSet<Vec<u32>>,
}

/// With more pieces than this nothing is tried.
const MOST_PIECES: usize = 64;
/// The most mixes that are looked at in one search.
const MOST_MIXES: usize = 20_000;
/// A question about one sheet may take this part of a search.
const SHARE: u64 = 2;

impl Exact {
    pub(super) fn new(problem: &Problem) -> Self {
        let most: Vec<u32> = problem.items.iter().map(|item| item.demand).collect();
        let pieces = most.iter().fold(0_usize, |sum, count| sum.saturating_add(index(*count)));
        let places = if pieces <= MOST_PIECES { Places::new(&most) } else { None };
        Self { places, known: Answers::new(), impossible: HashSet::new() }
    }

    /// Forgets what hangs on how many of each item were wanted.
    pub(super) fn forget(&mut self) {
        self.impossible.clear();
    }

    /// Whether it can do anything.
    pub(super) const fn is_able(&self) -> bool {
        self.places.is_some()
    }

    /// Whether all sheets that there are hold so many of each item.
    pub(super) fn all(&mut self, problem: &Problem, ask: &Ask, steps: u64, meter: &Meter) -> Option<Draft> {
        let pieces = ask.wanted.iter().copied().fold(0, u32::saturating_add);
        let mix: Vec<u32> = problem.blanks.iter().map(|blank| blank.count.min(pieces)).collect();
        match self.pack(problem, ask, &mix, steps, meter) {
            Packed::Found(draft) => Some(draft),
            Packed::Impossible | Packed::Unknown => None,
        }
    }

    /// Looks for the cheapest plan with at most so many steps.
    pub(super) fn cheapest(&mut self, problem: &Problem, ask: &Ask, steps: u64, meter: &Meter) -> Known {
        let pieces = ask.wanted.iter().copied().fold(0, u32::saturating_add);
        let totals: Vec<u128> = ask.needs.iter().map(|need| need.total(ask.wanted)).collect();
        let mut waiting =
            BinaryHeap::from([(Reverse(0_u64), Reverse(0_u32), vec![0_u32; problem.blanks.len()], 0_usize)]);
        for _ in 0..MOST_MIXES {
            let Some((Reverse(cost), Reverse(sheets), mix, from)) = waiting.pop() else {
                return Known { bound: ask.below, found: None };
            };
            meter.count(64);
            let enough = ask.needs.iter().zip(&totals).all(|(need, total)| {
                let given = need.gives.iter().zip(&mix).map(|(gives, count)| gives * u128::from(*count));
                given.sum::<u128>() >= *total
            });
            if enough && cost >= ask.bound && !self.impossible.contains(&mix) {
                match self.pack(problem, ask, &mix, steps, meter) {
                    Packed::Found(draft) => return Known { bound: cost, found: Some(draft) },
                    Packed::Impossible => {
                        self.impossible.insert(mix.clone());
                    }
                    Packed::Unknown => return Known { bound: ask.bound.max(cost), found: None },
                }
            }
            if sheets == pieces {
                continue;
            }
            for blank in from..mix.len() {
                let dearer = cost + problem.blanks[blank].cost;
                if mix[blank] < problem.blanks[blank].count && dearer < ask.below {
                    let mut more = mix.clone();
                    more[blank] += 1;
                    waiting.push((Reverse(dearer), Reverse(sheets + 1), more, blank));
                }
            }
        }
        Known { bound: ask.bound.max(waiting.peek().map_or(0, |next| next.0.0)), found: None }
    }

    fn pack(&mut self, problem: &Problem, ask: &Ask, mix: &[u32], steps: u64, meter: &Meter) -> Packed {
        let Some(places) = &self.places else { return Packed::Unknown };
        let known = std::mem::take(&mut self.known);
        let mut packer = Packer { problem, places, needs: ask.needs, meter, steps: steps / SHARE, known };
        let (packed, _) = meter.part(steps, || packer.pack(ask.wanted, mix));
        self.known = packer.known;
        packed
    }
}
