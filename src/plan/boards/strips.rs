//! What is laid on boards: blanks one by one, or end to end in strips of one width.
//!
//! One by one there are more ways to lay them. Many blanks are laid better as strips, each as full as the planner of sticks
//! makes it.

use std::collections::BTreeMap;

use super::class::{Blank, Kind};
use crate::cut::{Fit, Instance, Limits, Part, Stock, solve, verify};
use crate::plan::yard::Yard;

/// Blanks end to end, in ticks.
#[derive(Clone, Debug)]
pub(super) struct Strip {
    /// Parts and the lengths of their blanks.
    pub(super) blanks: Vec<(usize, u32)>,
    /// With the cuts between them.
    pub(super) length: u32,
    pub(super) width: u32,
    pub(super) quantity: u32,
}

/// Every blank by itself.
pub(super) fn single(blanks: &[Blank]) -> Vec<Strip> {
    let strip = |blank: &Blank| {
        let Blank { part, length, width, quantity } = *blank;
        Strip { blanks: vec![(part, length)], length, width, quantity }
    };
    blanks.iter().map(strip).collect()
}

/// Blanks of one width in strips that cost least, each its share of a board's width; one by one where a plan of sticks does
/// not pass its check.
pub(super) fn full(blanks: &[Blank], kinds: &[&Kind], yard: &Yard, limits: &Limits) -> Vec<Strip> {
    let mut widths: BTreeMap<u32, Vec<Blank>> = BTreeMap::new();
    blanks.iter().for_each(|blank| widths.entry(blank.width).or_default().push(*blank));
    let kerf = yard.saw.up(&yard.saw.kerf).unwrap_or(0);
    let each = widths.into_iter().map(|(width, own)| of_width(width, &own, kinds, kerf, limits));
    each.flatten().collect()
}

fn of_width(width: u32, blanks: &[Blank], kinds: &[&Kind], kerf: u32, limits: &Limits) -> Vec<Strip> {
    let part = |blank: &Blank| Part {
        length: blank.length,
        kerf,
        fit: Fit::Apart,
        quantity: blank.quantity,
        group: None,
        short: false,
    };
    let stock = |kind: &&&Kind| {
        let share = u64::from(kind.cost) * u64::from(width + kerf) / u64::from(kind.width + kerf).max(1);
        let cost = u32::try_from(share).unwrap_or(u32::MAX).max(1);
        Stock { usable: kind.length, count: None, cost, offcut: false }
    };
    let wide = kinds.iter().filter(|kind| kind.width >= width);
    let instance =
        Instance { parts: blanks.iter().map(part).collect(), stock: wide.map(|kind| stock(&kind)).collect(), keep: 0 };
    let plan = solve(&instance, limits);
    if verify(&instance, &plan).is_err() || plan.left.iter().any(|left| *left > 0) {
        return single(blanks);
    }
    let mut alike: BTreeMap<Vec<usize>, u32> = BTreeMap::new();
    for stick in plan.sticks {
        *alike.entry(stick.parts).or_default() += 1;
    }
    let strip = |(rows, quantity): (Vec<usize>, u32)| {
        let own: Vec<(usize, u32)> = rows.iter().map(|row| (blanks[*row].part, blanks[*row].length)).collect();
        let length = own.iter().map(|(_, length)| length + kerf).sum::<u32>().saturating_sub(kerf);
        Strip { blanks: own, length, width, quantity }
    };
    alike.into_iter().map(strip).collect()
}
