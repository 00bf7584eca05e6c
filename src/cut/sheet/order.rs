//! The order in which pieces go on sheets, by size or at random.

use super::problem::{Item, Problem};

/// The key that sorts the pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    Area,
    Longest,
    Widest,
    Highest,
    Perimeter,
    Any,
}

impl Order {
    pub(super) const ALL: [Self; 6] =
        [Self::Area, Self::Longest, Self::Highest, Self::Widest, Self::Perimeter, Self::Any];

    fn worth(self, item: &Item, random: &mut Random) -> u64 {
        let size = item.size;
        match self {
            Self::Area => size.area(),
            Self::Longest => size.width.max(size.height),
            Self::Widest => size.width,
            Self::Highest => size.height,
            Self::Perimeter => size.width + size.height,
            Self::Any => random.next() >> 32,
        }
    }

    /// Sorts items, the greatest first; with `loose` above 0 each counts for up to `loose` percent less.
    pub(super) fn sort(self, problem: &Problem, items: &mut [usize], loose: usize, random: &mut Random) {
        let mut keyed: Vec<(u64, usize)> = items
            .iter()
            .map(|&item| {
                let percent = 100 - u64::try_from(random.below(loose.min(99) + 1)).unwrap_or(0);
                (self.worth(&problem.items[item], random) * percent, item)
            })
            .collect();
        keyed.sort_by(|left, right| right.cmp(left));
        items.iter_mut().zip(keyed).for_each(|(item, (_, sorted))| *item = sorted);
    }
}

/// Numbers that look random and are the same on every run. Source: Steele, Lea and Flood, Fast splittable pseudorandom
/// number generators, OOPSLA 2014 (the constants of its 64-bit mixing).
#[derive(Clone, Debug)]
pub(super) struct Random(u64);

impl Random {
    pub(super) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(super) const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A number from 0 to below `end`; 0 if `end` is 0.
    pub(super) fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX).max(1);
        usize::try_from(self.next() % end).unwrap_or(0)
    }

    /// True once in `times`.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }
}
