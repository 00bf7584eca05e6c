//! The stick that is worth the most: whole-number values, each item at most so often.

use super::limits::Meter;
use super::problem::{Problem, index};

/// The values of a stick's parts add up to less than this.
pub(super) const MOST_VALUE: i32 = 1 << 30;

/// The largest table that is filled, in cells of four bytes.
const MOST_CELLS: usize = 64 << 20;

/// So many copies of one item, taken together or not at all.
#[derive(Clone, Copy, Debug)]
struct Layer {
    item: usize,
    copies: u32,
    size: usize,
    value: i32,
}

/// `rows[layer][room]`: the greatest value of sizes that add up to at most `room`, out of the layers before.
///
/// Bounded knapsack by dynamic programming; copies in lots of 1, 2, 4 … Source: Martello and Toth, Knapsack Problems,
/// 1990, chapters 2 and 3.
#[derive(Debug, Default)]
pub(super) struct Table {
    layers: Vec<Layer>,
    rows: Vec<i32>,
    width: usize,
}

/// How copies of an item are taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lots {
    /// In lots of 1, 2, 4 …: fewer layers.
    Doubled,
    /// One by one: each stick in one way only.
    Single,
}

/// The lots of `items`, each at most `demand` times and as often as it fits into `room`; worthless ones are left out.
fn layers(problem: &Problem, goods: &Goods, room: usize) -> Vec<Layer> {
    let Goods { items, demand, values, lots } = *goods;
    let mut layers = Vec::new();
    for &item in items.iter().filter(|item| values[**item] > 0) {
        let size = problem.items[item].size;
        let fitting = u32::try_from(room / size).unwrap_or(u32::MAX);
        let mut left = demand[item].min(fitting);
        let mut lot = 1;
        while left > 0 {
            let copies = lot.min(left);
            let value = values[item].wrapping_mul(i32::try_from(copies).unwrap_or(i32::MAX));
            layers.push(Layer { item, copies, size: size * index(copies), value });
            left -= copies;
            if lots == Lots::Doubled {
                lot *= 2;
            }
        }
    }
    layers
}

/// What a table is filled with.
#[derive(Clone, Copy)]
pub(super) struct Goods<'a> {
    pub(super) items: &'a [usize],
    /// Of each item of the problem, how many at most.
    pub(super) demand: &'a [u32],
    /// Of each item of the problem, what one is worth.
    pub(super) values: &'a [i32],
    pub(super) lots: Lots,
}

impl Table {
    /// Fills the table for a family up to `room`. Whether it could: the table may be too large.
    ///
    /// The caller sees to it that no stick's values reach [`MOST_VALUE`].
    pub(super) fn fill(&mut self, problem: &Problem, goods: Goods, room: usize, meter: &Meter) -> bool {
        self.layers = layers(problem, &goods, room);
        self.width = room + 1;
        let cells = self.width.saturating_mul(self.layers.len() + 1);
        if cells > MOST_CELLS {
            return false;
        }
        meter.count(cells);
        if self.rows.len() < cells {
            self.rows.resize(cells, 0);
        }
        self.rows[..self.width].fill(0);
        let mut rest = &mut self.rows[..cells];
        for layer in &self.layers {
            let (before, after) = rest.split_at_mut(self.width);
            let (size, value) = (layer.size, layer.value);
            after[..size].copy_from_slice(&before[..size]);
            let without = &before[size..];
            let with = &before[..self.width - size];
            for ((best, without), with) in after[size..self.width].iter_mut().zip(without).zip(with) {
                *best = (*without).max(with.wrapping_add(value));
            }
            rest = after;
        }
        true
    }

    /// The greatest value that `room` holds.
    pub(super) fn best(&self, room: usize) -> i32 {
        self.at(self.layers.len(), room)
    }

    fn at(&self, layer: usize, room: usize) -> i32 {
        self.rows[layer * self.width + room]
    }

    /// The best sticks of `room` that are worth more than `least`, best first, at most `most`: for each layer the best
    /// stick that has it and none behind it.
    pub(super) fn sticks(&self, room: usize, least: i32, most: usize) -> Vec<Vec<(usize, u32)>> {
        let mut found: Vec<(i32, usize)> = self
            .layers
            .iter()
            .enumerate()
            .filter(|(_, layer)| layer.size <= room)
            .map(|(at, layer)| (self.at(at, room - layer.size) + layer.value, at))
            .filter(|(value, _)| *value > least)
            .collect();
        found.sort_unstable_by(|left, right| right.cmp(left));
        found.truncate(most);
        found.into_iter().map(|(_, last)| self.stick(last, room)).collect()
    }

    /// The pieces of the best stick that ends with layer `last`.
    fn stick(&self, last: usize, room: usize) -> Vec<(usize, u32)> {
        let mut pieces: Vec<(usize, u32)> = Vec::new();
        let mut room = room;
        let mut take = |layer: &Layer, room: &mut usize| {
            *room -= layer.size;
            match pieces.last_mut() {
                Some(piece) if piece.0 == layer.item => piece.1 += layer.copies,
                _ => pieces.push((layer.item, layer.copies)),
            }
        };
        take(&self.layers[last], &mut room);
        for at in (0..last).rev() {
            if self.at(at + 1, room) != self.at(at, room) {
                take(&self.layers[at], &mut room);
            }
        }
        pieces.sort_unstable();
        pieces
    }

    /// Every stick of `room` that is worth at least `least`, of a table with [`Lots::Single`]; none if they are more
    pub(super) fn all(&self, room: usize, least: i32, most: usize) -> Option<Vec<Vec<(usize, u32)>>> {
        let mut found = Vec::new();
        let mut pieces = Vec::new();
        self.gather((self.layers.len(), room, least), &mut pieces, &mut found, most).then_some(found)
    }

    /// All ways to be worth `least` in `room` with the layers before `end`; whether they are few enough.
    fn gather(
        &self,
        (end, room, least): (usize, usize, i32),
        pieces: &mut Vec<(usize, u32)>,
        found: &mut Vec<Vec<(usize, u32)>>,
        most: usize,
    ) -> bool {
        if self.at(end, room) < least {
            return true;
        }
        let Some(layer) = end.checked_sub(1).and_then(|last| self.layers.get(last)) else {
            found.push(pieces.iter().rev().copied().collect());
            return found.len() <= most;
        };
        if layer.size <= room {
            let more = pieces.last().is_some_and(|piece| piece.0 == layer.item);
            match pieces.last_mut() {
                Some(piece) if more => piece.1 += 1,
                _ => pieces.push((layer.item, 1)),
            }
            if !self.gather((end - 1, room - layer.size, least - layer.value), pieces, found, most) {
                return false;
            }
            match pieces.last_mut() {
                Some(piece) if piece.1 > 1 => piece.1 -= 1,
                _ => {
                    pieces.pop();
                }
            }
        }
        // Without this copy there is none of its item.
        let item = layer.item;
        let before = self.layers[..end].iter().rposition(|layer| layer.item != item).map_or(0, |at| at + 1);
        self.gather((before, room, least), pieces, found, most)
    }
}
