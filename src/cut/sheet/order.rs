//! In what order pieces are put on sheets.

use super::problem::{Item, Problem};
use super::random::Random;

/// What comes first.
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

    /// Sorts items, the greatest first; with `loose` above 0 each counts for up to so many percent less.
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
