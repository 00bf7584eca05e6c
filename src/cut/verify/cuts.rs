//! What sticks give under a worth of the parts.

use super::family::Family;
use super::kinds::{Kinds, PartKind};
use super::knapsack::{Good, fill};
use super::steps::Steps;

/// Sums of worth below these keep all products within their types.
const MOST_WORTH: i64 = 1 << 32;
const MOST_NEED: i64 = 1 << 60;

/// A condition on mixes: `Σ gives · count ≥ need`.
pub(super) struct Cut {
    pub(super) need: i64,
    pub(super) gives: Vec<i64>,
}

impl Cut {
    /// What a mix gives beyond need.
    pub(super) fn spare(&self, mix: &[u32]) -> i64 {
        self.gives.iter().zip(mix).map(|(gives, count)| gives * i64::from(*count)).sum::<i64>() - self.need
    }
}

impl Kinds {
    /// What all parts are worth.
    pub(super) fn need(&self, worth: &[i64]) -> Option<i64> {
        let mut each = self.parts.iter().zip(worth);
        let sum =
            |sum: i64, (part, worth): (&PartKind, &i64)| sum.checked_add(i64::from(part.wanted).checked_mul(*worth)?);
        let need = each.try_fold(0, sum)?;
        (need < MOST_NEED).then_some(need)
    }

    /// The cut for parts of this worth, by a bound of what each stick holds: a part of a part counts too. Quick.
    pub(super) fn rough(&self, worth: &[i64]) -> Option<Cut> {
        let mut gives = vec![0; self.sticks.len()];
        for family in &self.families {
            let mut goods = self.goods(family, worth);
            goods.sort_by(|one, other| {
                let dense = |good: &Good, other: &Good| {
                    i128::from(good.worth) * i128::from(i64::try_from(other.size).unwrap_or(1))
                };
                dense(other, one).cmp(&dense(one, other))
            });
            for (own, room) in gives.iter_mut().zip(&family.rooms) {
                *own = room.map_or(0, |room| fractional(&goods, room)).max(*own);
            }
        }
        Self::cut(self.need(worth)?, gives)
    }

    /// The cut for parts of this worth, by the most that each stick holds.
    pub(super) fn exact(&self, worth: &[i64], steps: &Steps) -> Option<Cut> {
        let need = self.need(worth)?;
        let mut gives = vec![0; self.sticks.len()];
        for family in &self.families {
            let Some(widest) = family.rooms.iter().flatten().max() else { continue };
            let best = fill(&self.goods(family, worth), *widest, steps, |_| {})?;
            for (own, room) in gives.iter_mut().zip(&family.rooms) {
                *own = room.map_or(0, |room| best[room]).max(*own);
            }
        }
        Self::cut(need, gives)
    }

    fn cut(need: i64, gives: Vec<i64>) -> Option<Cut> {
        gives.iter().all(|gives| *gives < MOST_WORTH).then_some(Cut { need, gives })
    }

    /// The parts of a family that have a worth.
    pub(super) fn goods(&self, family: &Family, worth: &[i64]) -> Vec<Good> {
        let good =
            |&(kind, size): &(usize, usize)| Good { kind, size, worth: worth[kind], count: self.parts[kind].wanted };
        family.sizes.iter().map(good).filter(|good| good.worth > 0).collect()
    }
}

/// The most worth in a room, the densest goods first, the last of them in part; rounded down.
fn fractional(goods: &[Good], room: usize) -> i64 {
    let mut room = room;
    let mut worth = 0_i64;
    for good in goods {
        let fits = u32::try_from(room / good.size).unwrap_or(u32::MAX);
        let whole = fits.min(good.count);
        worth = worth.saturating_add(good.worth.saturating_mul(i64::from(whole)));
        room -= good.size * usize::try_from(whole).unwrap_or(0);
        if fits < good.count {
            let over = |size: usize| i128::try_from(size).unwrap_or(i128::MAX);
            let part = i128::from(good.worth) * over(room) / over(good.size);
            return worth.saturating_add(i64::try_from(part).unwrap_or(i64::MAX));
        }
    }
    worth
}
