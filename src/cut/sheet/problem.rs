//! The instance as the search sees it: like pieces merged, kerfs taken into sizes.
//!
//! With a kerf added to every piece and to every sheet, a cut loses nothing: `w + kerf = (x + kerf) + (w − x)`.

use std::collections::BTreeMap;

use super::instance::Instance;

/// Width and height, with a kerf added to each.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Size {
    pub(super) width: u64,
    pub(super) height: u64,
}

impl Size {
    pub(super) const fn area(self) -> u64 {
        self.width * self.height
    }

    /// The size when turned.
    pub(super) const fn turned(self) -> Self {
        Self { width: self.height, height: self.width }
    }

    /// Whether it fits in another without turning.
    pub(super) const fn is_in(self, other: Self) -> bool {
        self.width <= other.width && self.height <= other.height
    }
}

/// Pieces of one size.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) size: Size,
    /// Whether the piece may be turned and is not square.
    pub(super) turns: bool,
    pub(super) demand: u32,
    /// Their rows in the instance, and the count of each.
    pub(super) rows: Vec<(usize, u32)>,
}

impl Item {
    /// The sizes as it may lie.
    pub(super) fn ways(&self) -> impl Iterator<Item = Size> + use<> {
        [Some(self.size), self.turns.then(|| self.size.turned())].into_iter().flatten()
    }

    /// Whether it fits in a rectangle, turned or not.
    pub(super) fn is_in(&self, room: Size) -> bool {
        self.ways().any(|way| way.is_in(room))
    }
}

/// Sheets of one size and price.
#[derive(Clone, Debug)]
pub(super) struct Blank {
    pub(super) size: Size,
    pub(super) cost: u64,
    /// At most the number of pieces.
    pub(super) count: u32,
    /// The row in the instance.
    pub(super) row: usize,
}

/// The merged instance.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub(super) items: Vec<Item>,
    pub(super) blanks: Vec<Blank>,
    pub(super) kerf: u64,
}

impl Problem {
    /// The pieces of an instance that some sheet holds.
    pub(super) fn new(instance: &Instance) -> Self {
        let kerf = u64::from(instance.kerf.min(Instance::MOST));
        let grown = |width: u32, height: u32| Size { width: u64::from(width) + kerf, height: u64::from(height) + kerf };
        let blank = |(row, sheet): (usize, &super::instance::Sheet)| {
            let (width, height) = instance.usable(sheet);
            let size = grown(width.min(Instance::MOST), height.min(Instance::MOST));
            let count = sheet.count.unwrap_or(u32::MAX);
            (count > 0).then(|| Blank { size, cost: u64::from(sheet.cost), count, row })
        };
        let mut blanks: Vec<Blank> = instance.sheets.iter().enumerate().filter_map(blank).collect();
        let mut merged: BTreeMap<(Size, bool), Item> = BTreeMap::new();
        for (row, piece) in instance.pieces.iter().enumerate().filter(|(_, piece)| piece.quantity > 0) {
            let size = grown(piece.width, piece.height);
            let turns = piece.turns && piece.width != piece.height;
            let size = if turns { size.max(size.turned()) } else { size };
            let item = Item { size, turns, demand: 0, rows: Vec::new() };
            if piece.width > 0 && piece.height > 0 && blanks.iter().any(|blank| item.is_in(blank.size)) {
                let item = merged.entry((size, turns)).or_insert(item);
                item.demand = item.demand.saturating_add(piece.quantity);
                item.rows.push((row, piece.quantity));
            }
        }
        let items: Vec<Item> = merged.into_values().collect();
        let demand = items.iter().fold(0_u32, |sum, item| sum.saturating_add(item.demand));
        blanks.iter_mut().for_each(|blank| blank.count = blank.count.min(demand));
        Self { items, blanks, kerf }
    }

    /// All pieces, each by its item.
    pub(super) fn pieces(&self) -> Vec<usize> {
        let each = |(at, item): (usize, &Item)| std::iter::repeat_n(at, index(item.demand));
        self.items.iter().enumerate().flat_map(each).collect()
    }
}

/// A count as an index.
pub(super) fn index(count: u32) -> usize {
    usize::try_from(count).unwrap_or(usize::MAX)
}
