//! The instance as the search sees it: like parts and like sticks merged, kerfs added to sizes.

use std::collections::BTreeMap;

use super::instance::{Fit, Instance, Part};

/// Parts that take equal room.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// Length and kerf, less the overlap with a neighbor.
    pub(super) size: usize,
    /// The number wanted.
    pub(super) demand: u32,
    /// Their rows in the instance.
    pub(super) parts: Vec<usize>,
}

/// Sticks of one length and price.
#[derive(Clone, Debug)]
pub(super) struct Bar {
    pub(super) usable: i64,
    pub(super) cost: u64,
    /// At most the number of parts.
    pub(super) count: u32,
    /// Their rows in the instance.
    pub(super) rows: Vec<usize>,
    pub(super) offcut: bool,
}

/// Items that may share a stick.
#[derive(Clone, Debug)]
pub(super) struct Family {
    /// The room of a stick beyond its length: the kerf that the last part does not pay, less the overlap that it lacks.
    pub(super) bonus: i64,
    /// The items, the greatest first.
    pub(super) items: Vec<usize>,
}

/// The parts of one stick.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) struct Pattern {
    pub(super) bar: usize,
    /// Items and their counts, in order of the items.
    pub(super) pieces: Vec<(usize, u32)>,
}

/// The merged instance, with sizes and costs in lowest terms.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub(super) items: Vec<Item>,
    pub(super) bars: Vec<Bar>,
    pub(super) families: Vec<Family>,
    /// `room[family][bar]`: the most that the sizes in a stick may add up to.
    pub(super) room: Vec<Vec<usize>>,
    /// The divisor of all costs.
    pub(super) unit: u64,
}

/// The key by which the search merges parts.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Like {
    fit: Fit,
    kerf: u32,
    size: i64,
}

fn like(part: &Part) -> Like {
    let overlap = match part.fit {
        Fit::Apart => 0,
        Fit::Turned { overlap, .. } => overlap,
    };
    let size = i64::from(part.length) + i64::from(part.kerf) - i64::from(overlap);
    Like { fit: part.fit, kerf: part.kerf, size }
}

impl Problem {
    pub(super) fn new(instance: &Instance) -> Self {
        let mut merged: BTreeMap<Like, (u32, Vec<usize>)> = BTreeMap::new();
        for (row, part) in instance.parts.iter().enumerate().filter(|(_, part)| part.quantity > 0) {
            // A part longer than any stick is left out of the search.
            if instance.stock.iter().any(|stock| stock.usable >= part.length && stock.count != Some(0)) {
                let entry = merged.entry(like(part)).or_default();
                entry.0 = entry.0.saturating_add(part.quantity);
                entry.1.push(row);
            }
        }
        let demand = merged.values().fold(0_u32, |sum, (quantity, _)| sum.saturating_add(*quantity));
        let families = families(merged.keys());
        // Of two apart parts of one size the kerfs may differ, and then they are different items; sizes above 0
        // always, since an overlap is within its part.
        let mut items: Vec<(&Like, Item)> = merged
            .iter()
            .map(|(like, (quantity, parts))| {
                let size = usize::try_from(like.size.max(1)).unwrap_or(usize::MAX);
                (like, Item { size, demand: *quantity, parts: parts.clone() })
            })
            .collect();
        items.sort_by(|left, right| right.1.size.cmp(&left.1.size).then(left.0.cmp(right.0)));
        let families: Vec<Family> = families
            .into_iter()
            .map(|(bonus, holds)| {
                let within = items.iter().enumerate().filter(|(_, (like, _))| holds(like));
                Family { bonus, items: within.map(|(at, _)| at).collect() }
            })
            .collect();
        let items: Vec<Item> = items.into_iter().map(|(_, item)| item).collect();
        let bars = bars(instance, demand);
        let mut problem = Self { items, bars, families, room: Vec::new(), unit: 1 };
        problem.room = problem.rooms();
        problem.shrink();
        problem
    }

    fn rooms(&self) -> Vec<Vec<usize>> {
        let room = |family: &Family, bar: &Bar| usize::try_from(bar.usable + family.bonus).unwrap_or(0);
        self.families.iter().map(|family| self.bars.iter().map(|bar| room(family, bar)).collect()).collect()
    }

    /// Divides all sizes by their greatest common divisor, and all costs by theirs; the order of plans stays the same.
    fn shrink(&mut self) {
        let divisor = self.items.iter().fold(0, |divisor, item| num_integer::gcd(divisor, item.size)).max(1);
        self.items.iter_mut().for_each(|item| item.size /= divisor);
        self.room.iter_mut().flatten().for_each(|room| *room /= divisor);
        self.unit = self.bars.iter().fold(0, |unit, bar| num_integer::gcd(unit, bar.cost)).max(1);
        self.bars.iter_mut().for_each(|bar| bar.cost /= self.unit);
    }

    /// The number wanted of each item.
    pub(super) fn demand(&self) -> Vec<u32> {
        self.items.iter().map(|item| item.demand).collect()
    }

    /// The stock of each length.
    pub(super) fn counts(&self) -> Vec<u32> {
        self.bars.iter().map(|bar| bar.count).collect()
    }

    /// The cost of a mix of sticks.
    pub(super) fn cost(&self, mix: &[u32]) -> u64 {
        self.bars.iter().zip(mix).map(|(bar, count)| bar.cost * u64::from(*count)).sum()
    }

    /// The room that the pieces of a pattern take.
    pub(super) fn taken(&self, pieces: &[(usize, u32)]) -> usize {
        pieces.iter().map(|(item, count)| self.items[*item].size * index(*count)).sum()
    }
}

impl Problem {
    /// Whether a stick holds the pieces.
    pub(super) fn holds(&self, bar: usize, pieces: &[(usize, u32)]) -> bool {
        let taken = self.taken(pieces);
        let holds = |family: &Family, room: usize| {
            taken <= room && pieces.iter().all(|(item, _)| family.items.binary_search(item).is_ok())
        };
        self.families.iter().zip(&self.room).any(|(family, rooms)| holds(family, rooms[bar]))
    }
}

/// A count as an index.
pub(super) fn index(count: u32) -> usize {
    usize::try_from(count).unwrap_or(usize::MAX)
}

type Holds = Box<dyn Fn(&Like) -> bool>;

/// The families of parts that may share a stick.
///
/// Parts of different kerfs that lie apart: with the least kerf `c` of a stick its gaps are all its kerfs less `c`,
/// laid by rising kerf. So there is a family for each kerf, of the parts that have at least that; each stick is of
/// one.
fn families<'a>(likes: impl Iterator<Item = &'a Like> + Clone) -> Vec<(i64, Holds)> {
    let mut kinds: Vec<(Fit, u32)> = likes.map(|like| (like.fit, like.kerf)).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let family = |(fit, kerf): (Fit, u32)| -> (i64, Holds) {
        match fit {
            Fit::Apart => (i64::from(kerf), Box::new(move |like| like.fit == Fit::Apart && like.kerf >= kerf)),
            Fit::Turned { overlap, .. } => {
                let bonus = i64::from(kerf) - i64::from(overlap);
                (bonus, Box::new(move |like| like.fit == fit && like.kerf == kerf))
            }
        }
    };
    kinds.into_iter().map(family).collect()
}

fn bars(instance: &Instance, demand: u32) -> Vec<Bar> {
    let mut merged: BTreeMap<(u32, u32, bool), (u32, Vec<usize>)> = BTreeMap::new();
    for (row, stock) in instance.stock.iter().enumerate().filter(|(_, stock)| stock.count != Some(0)) {
        let entry = merged.entry((stock.usable, stock.cost, stock.offcut)).or_default();
        entry.0 = entry.0.saturating_add(stock.count.unwrap_or(u32::MAX)).min(demand);
        entry.1.push(row);
    }
    let bar = |((usable, cost, offcut), (count, rows)): ((u32, u32, bool), (u32, Vec<usize>))| Bar {
        usable: i64::from(usable),
        cost: u64::from(cost),
        count,
        rows,
        offcut,
    };
    merged.into_iter().map(bar).collect()
}
