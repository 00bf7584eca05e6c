//! How many of each item, in one number, so that two of them are added and compared at once.

use crate::cut::sheet::problem::index;

/// So many of each item.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) struct Counts(u128);

/// Where in the number the count of each item stands.
#[derive(Clone, Debug)]
pub(super) struct Places {
    /// The first bit of each, and the last behind them.
    first: Vec<u32>,
    /// The highest bit of each: never set in a count, it shows where one is greater than another.
    guards: u128,
}

impl Places {
    /// For at most so many of each; none if they do not go into one number.
    pub(super) fn new(most: &[u32]) -> Option<Self> {
        let mut first = vec![0];
        let mut guards = 0;
        let mut end = 0;
        for count in most {
            end += u32::BITS - count.leading_zeros() + 1;
            if end > u128::BITS {
                return None;
            }
            guards |= 1 << (end - 1);
            first.push(end);
        }
        Some(Self { first, guards })
    }

    /// One of an item.
    pub(super) fn one(&self, item: usize) -> Counts {
        Counts(1 << self.first[item])
    }

    /// So many of each.
    pub(super) fn of(&self, counts: &[u32]) -> Counts {
        let each = counts.iter().zip(&self.first).filter(|(count, _)| **count > 0);
        Counts(each.map(|(count, first)| u128::from(*count) << first).sum())
    }

    /// Both together; none if that is more than `most`.
    pub(super) const fn together(&self, one: Counts, other: Counts, most: Counts) -> Option<Counts> {
        let sum = one.0 + other.0;
        if ((most.0 | self.guards) - sum) & self.guards == self.guards { Some(Counts(sum)) } else { None }
    }

    /// How many of an item.
    pub(super) fn count(&self, counts: Counts, item: usize) -> usize {
        let (first, end) = (self.first[item], self.first[item + 1]);
        let own = (counts.0 >> first) & ((1 << (end - first)) - 1);
        index(u32::try_from(own).unwrap_or(u32::MAX))
    }

    /// Each as often as it is there.
    pub(super) fn items(&self, counts: Counts) -> Vec<usize> {
        let each = (0..self.first.len() - 1).map(|item| std::iter::repeat_n(item, self.count(counts, item)));
        each.flatten().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_more_than_wanted_is_seen() {
        let places = Places::new(&[1, 3, 2]).unwrap();
        let most = places.of(&[1, 3, 2]);
        let some = places.of(&[1, 2, 0]);
        assert_eq!(places.together(some, places.of(&[0, 1, 2]), most), Some(most));
        assert_eq!(places.together(some, places.one(0), most), None);
        assert_eq!(places.together(some, places.of(&[0, 2, 0]), most), None);
        assert_eq!(places.items(some), [0, 1, 1]);
        assert!(Places::new(&[1; 64]).is_some() && Places::new(&[1; 65]).is_none());
    }
}
