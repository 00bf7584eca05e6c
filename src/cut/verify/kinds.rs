//! Like parts and like sticks.

use std::collections::BTreeMap;

use super::family::{Family, families};
use crate::cut::{Fit, Instance, Plan};

/// Parts of one length, kerf, and fit.
pub(super) struct PartKind {
    pub(super) wanted: u32,
    pub(super) length: i64,
    pub(super) kerf: i64,
    pub(super) fit: Fit,
}

/// Sticks of one length and cost.
pub(super) struct StickKind {
    pub(super) usable: i64,
    pub(super) cost: u64,
    /// At most the number of parts.
    pub(super) count: u32,
}

/// The parts that a plan cuts and the stock, by kinds.
pub(super) struct Kinds {
    pub(super) parts: Vec<PartKind>,
    pub(super) sticks: Vec<StickKind>,
    /// The divisor of all costs.
    pub(super) unit: u64,
    /// The kind of each row of parts, if the plan cuts any of that kind.
    part_of: Vec<Option<usize>>,
    stick_of: Vec<usize>,
    /// Whether the plan cuts any part of the row.
    cut: Vec<bool>,
    pub(super) families: Vec<Family>,
}

impl Kinds {
    /// None where an overlap is as long as its part and kerf, or where numbers are out of all bounds.
    pub(super) fn new(instance: &Instance, plan: &Plan) -> Option<Self> {
        let mut wanted: BTreeMap<(Fit, u32, u32), u32> = BTreeMap::new();
        let mut cut = Vec::new();
        for (row, part) in instance.parts.iter().enumerate() {
            let count = part.quantity.checked_sub(plan.left.get(row).copied().unwrap_or(0))?;
            cut.push(count > 0);
            if count > 0 {
                let sum = wanted.entry((part.fit, part.kerf, part.length)).or_default();
                *sum = sum.checked_add(count)?;
            }
        }
        let all = wanted.values().try_fold(0_u32, |sum, count| sum.checked_add(*count))?;
        let place: BTreeMap<_, usize> = wanted.keys().enumerate().map(|(at, key)| (*key, at)).collect();
        let part_of =
            instance.parts.iter().map(|part| place.get(&(part.fit, part.kerf, part.length)).copied()).collect();
        let kind = |(&(fit, kerf, length), &wanted): (&(Fit, u32, u32), &u32)| PartKind {
            wanted,
            length: i64::from(length),
            kerf: i64::from(kerf),
            fit,
        };
        let parts: Vec<PartKind> = wanted.iter().map(kind).collect();
        let mut stock: BTreeMap<(u32, u32, bool), u32> = BTreeMap::new();
        for own in &instance.stock {
            let sum = stock.entry((own.usable, own.cost, own.offcut)).or_default();
            *sum = sum.saturating_add(own.count.unwrap_or(u32::MAX)).min(all);
        }
        let place: BTreeMap<_, usize> = stock.keys().enumerate().map(|(at, key)| (*key, at)).collect();
        let stick_of = instance.stock.iter().map(|own| place[&(own.usable, own.cost, own.offcut)]).collect();
        let unit = stock.keys().fold(0, |unit, key| num_integer::gcd(unit, u64::from(key.1))).max(1);
        let kind = |(&(usable, cost, _), &count): (&(u32, u32, bool), &u32)| StickKind {
            usable: i64::from(usable),
            cost: u64::from(cost) / unit,
            count,
        };
        let sticks: Vec<StickKind> = stock.iter().map(kind).collect();
        let families = families(&parts, &sticks)?;
        Some(Self { parts, sticks, unit, part_of, stick_of, cut, families })
    }

    /// The kind of a row of parts, if the plan cuts any of that kind.
    pub(super) fn part(&self, row: usize) -> Option<usize> {
        self.part_of.get(row).copied().flatten()
    }

    /// The kind of a row of stock.
    pub(super) fn stick(&self, row: usize) -> Option<usize> {
        self.stick_of.get(row).copied()
    }

    /// A mix by rows of stock as one by kinds.
    pub(super) fn mix(&self, rows: &[u32]) -> Option<Vec<u32>> {
        let mut mix = vec![0_u32; self.sticks.len()];
        for (row, count) in rows.iter().enumerate() {
            let own = &mut mix[self.stick(row)?];
            *own = own.checked_add(*count)?;
        }
        Some(mix)
    }

    /// What one part of each kind is worth; none unless like parts are worth the same.
    pub(super) fn worth(&self, rows: &[u32]) -> Option<Vec<i64>> {
        let mut worth = vec![None; self.parts.len()];
        for (row, _) in self.cut.iter().enumerate().filter(|(_, cut)| **cut) {
            let (own, known) = (i64::from(*rows.get(row)?), &mut worth[self.part(row)?]);
            if known.is_some_and(|known| known != own) {
                return None;
            }
            *known = Some(own);
        }
        worth.into_iter().collect()
    }
}
