//! Whether pieces come out of given sheets together: shared out piece by piece, each sheet asked whether it holds its own.

use std::collections::{HashMap, HashSet};

use super::builds::{Held, held};
use super::counts::{Counts, Places};
use crate::cut::limits::Meter;
use crate::cut::sheet::draft::{Draft, Open};
use crate::cut::sheet::fill::{Fit, fill_one};
use crate::cut::sheet::need::Need;
use crate::cut::sheet::order::{Order, Random};
use crate::cut::sheet::problem::Problem;
use crate::cut::sheet::tree::Tree;

/// What came of some sheets.
pub(super) enum Packed {
    /// They hold all, so.
    Found(Draft),
    /// They do not, whatever is put on which.
    Impossible,
    /// There was no time or room to know.
    Unknown,
}

/// What sheets are asked, and what they have answered.
pub(super) struct Packer<'a, 'm> {
    pub(super) problem: &'a Problem,
    pub(super) places: &'a Places,
    /// What every plan must meet: no sheet holds more than it gives of any.
    pub(super) needs: &'a [Need],
    pub(super) meter: &'a Meter<'m>,
    /// What a question may take of which the answer decides.
    pub(super) steps: u64,
    /// Answers by sheet and pieces.
    pub(super) known: Answers,
}

/// What sheets hold, by sheet and pieces, with the steps that there were for it.
pub(super) type Answers = HashMap<(usize, Counts), (Held, u64)>;

/// A question about a sheet that is not full yet may take this part of the one that decides.
const GLANCE: u64 = 32;

/// One way of sharing pieces out.
struct Sharing {
    all: Counts,
    /// The pieces, the greatest first.
    order: Vec<usize>,
    /// The sheets, and what is on each.
    sheets: Vec<(usize, Counts)>,
    /// What each sheet may still take of each need.
    slack: Vec<Vec<u128>>,
    /// What the pieces from each on are worth by each need.
    rest: Vec<Vec<u128>>,
    /// Sheets with what is on them from which there is no way on.
    dead: HashSet<Vec<(usize, Counts)>>,
    /// Whether a way was left because there was no answer.
    is_open: bool,
}

/// More ways than this take more memory than they are worth.
const MOST_DEAD: usize = 500_000;

impl Packer<'_, '_> {
    /// Whether so many sheets of each size hold so many of each item.
    pub(super) fn pack(&mut self, wanted: &[u32], mix: &[u32]) -> Packed {
        let all = self.places.of(wanted);
        let mut order = self.places.items(all);
        order.sort_by_key(|item| (std::cmp::Reverse(self.problem.items[*item].size.area()), *item));
        let each = mix.iter().enumerate().flat_map(|(blank, count)| (0..*count).map(move |_| blank));
        let sheets: Vec<(usize, Counts)> = each.map(|blank| (blank, Counts::default())).collect();
        if let [(blank, _)] = sheets[..] {
            // One sheet holds all or not: nothing is to be shared out.
            return match self.ask(blank, all, self.steps) {
                Held::Yes(tree) => {
                    Packed::Found(Draft { sheets: vec![Open { blank, tree: tree.clone() }], left: Vec::new() })
                }
                Held::No => Packed::Impossible,
                Held::Unknown => Packed::Unknown,
            };
        }
        let slack =
            sheets.iter().map(|(blank, _)| self.needs.iter().map(|need| need.gives[*blank]).collect()).collect();
        let mut rest = vec![vec![0; self.needs.len()]];
        for item in order.iter().rev() {
            let last = &rest[rest.len() - 1];
            rest.push(last.iter().zip(self.needs).map(|(sum, need)| sum + need.worth[*item]).collect());
        }
        rest.reverse();
        let mut sharing = Sharing { all, order, sheets, slack, rest, dead: HashSet::new(), is_open: false };
        if self.share(&mut sharing, 0) {
            return Packed::Found(self.draft(&sharing));
        }
        if sharing.is_open { Packed::Unknown } else { Packed::Impossible }
    }

    /// Shares out the pieces from one on.
    fn share(&mut self, sharing: &mut Sharing, at: usize) -> bool {
        self.meter.count(16 + 4 * sharing.sheets.len() * self.needs.len());
        if self.meter.is_over() || sharing.dead.len() > MOST_DEAD {
            sharing.is_open = true;
            return false;
        }
        for need in 0..self.needs.len() {
            let slack: u128 = sharing.slack.iter().map(|own| own[need]).sum();
            if slack < sharing.rest[at][need] {
                return false;
            }
        }
        let Some(&item) = sharing.order.get(at) else {
            let sheets = sharing.sheets.clone();
            let whole =
                sheets.iter().all(|(blank, counts)| matches!(self.ask(*blank, *counts, self.steps), Held::Yes(_)));
            sharing.is_open |= !whole;
            return whole;
        };
        let mut state = sharing.sheets.clone();
        state.sort_unstable();
        if sharing.dead.contains(&state) {
            return false;
        }
        let mut tried: Vec<(usize, Counts)> = Vec::new();
        for sheet in 0..sharing.sheets.len() {
            let before = sharing.sheets[sheet];
            // Of sheets with the same on them one is as good as the other.
            if tried.contains(&before) {
                continue;
            }
            tried.push(before);
            let worth = |need: usize| self.needs[need].worth[item];
            if (0..self.needs.len()).any(|need| sharing.slack[sheet][need] < worth(need)) {
                continue;
            }
            let Some(counts) = self.places.together(before.1, self.places.one(item), sharing.all) else { continue };
            if matches!(self.ask(before.0, counts, self.steps / GLANCE), Held::No) {
                continue;
            }
            sharing.sheets[sheet].1 = counts;
            (0..self.needs.len()).for_each(|need| sharing.slack[sheet][need] -= self.needs[need].worth[item]);
            if self.share(sharing, at + 1) {
                return true;
            }
            sharing.sheets[sheet] = before;
            (0..self.needs.len()).for_each(|need| sharing.slack[sheet][need] += self.needs[need].worth[item]);
        }
        sharing.dead.insert(state);
        false
    }

    /// Whether a sheet holds so many of each, as far as so many steps show.
    fn ask(&mut self, blank: usize, counts: Counts, steps: u64) -> &Held {
        let key = (blank, counts);
        let is_known = |(held, tried): &(Held, u64)| !matches!(held, Held::Unknown) || *tried >= steps;
        if !self.known.get(&key).is_some_and(is_known) {
            let answer = self.answer(blank, counts, steps);
            self.known.insert(key, (answer, steps));
        }
        &self.known[&key].0
    }

    fn answer(&self, blank: usize, counts: Counts, steps: u64) -> Held {
        let sheet = self.problem.blanks[blank].size;
        let mut pieces = self.places.items(counts);
        if pieces.is_empty() {
            return Held::Yes(Tree::new(sheet));
        }
        let mut random = Random::new(1);
        for by in Order::ALL {
            by.sort(self.problem, &mut pieces, 0, &mut random);
            for fit in Fit::ALL {
                if let Some(tree) = fill_one(self.problem, blank, &pieces, fit, self.meter) {
                    return Held::Yes(tree);
                }
            }
        }
        let (answer, _) = self.meter.part(steps, || held(self.problem, self.places, sheet, counts, self.meter));
        answer
    }

    fn draft(&mut self, sharing: &Sharing) -> Draft {
        let mut sheets = Vec::new();
        for (blank, counts) in sharing.sheets.iter().filter(|(_, counts)| *counts != Counts::default()) {
            if let Held::Yes(tree) = self.ask(*blank, *counts, 0) {
                sheets.push(Open { blank: *blank, tree: tree.clone() });
            }
        }
        Draft { sheets, left: Vec::new() }
    }
}
