//! What the saw is set to, and what is too short for a hand to hold there.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::job::Cutting;
use crate::measure::Real;

/// A length that is cut more than once: one setting of the stop.
#[derive(Clone, Debug)]
pub struct StopSetting {
    /// The length, in inches.
    pub length: Real,
    /// How many parts are cut to it.
    pub parts: u64,
}

/// A part that is too short to hold at the saw.
#[derive(Clone, Debug)]
pub struct ShortPart {
    /// Name of the part.
    pub name: String,
    /// Length between the long points, in inches.
    pub length: Real,
    /// Whether every stick that it is cut from has something longer behind it.
    has_longer: bool,
}

impl ShortPart {
    /// How to cut it.
    pub fn advice(&self) -> &'static str {
        match self.has_longer {
            true => "cut it off while the stick is long, before the longer parts",
            false => "leave it on a longer piece and hold it in a jig, not by hand",
        }
    }
}

impl Cutting {
    /// The settings of the stop, the longest first.
    pub fn stop_settings(&self) -> Vec<StopSetting> {
        let pieces = self.sticks.iter().flat_map(|stick| &stick.pieces);
        let mut all: Vec<&Real> = pieces.map(|piece| &self.order.parts[piece.part].length).collect();
        all.sort_by(|left, right| right.partial_cmp(left).unwrap_or(Ordering::Equal));
        let alike = all.chunk_by(|one, other| one.same(other)).filter(|alike| alike.len() > 1);
        alike
            .map(|alike| StopSetting {
                length: alike[0].clone(),
                parts: u64::try_from(alike.len()).unwrap_or(u64::MAX),
            })
            .collect()
    }

    /// The parts that are too short to hold, in the order of their table.
    pub fn short_parts(&self) -> Vec<ShortPart> {
        let mut short: BTreeMap<usize, bool> = BTreeMap::new();
        for stick in &self.sticks {
            let is_long =
                stick.pieces.iter().any(|piece| !self.is_short(piece.part)) || stick.offcut >= self.saw.offcut;
            for piece in stick.pieces.iter().filter(|piece| self.is_short(piece.part)) {
                *short.entry(piece.part).or_insert(true) &= is_long && stick.pieces.len() > 1;
            }
        }
        let part = |(row, has_longer): (usize, bool)| {
            let part = &self.order.parts[row];
            ShortPart { name: part.name.clone(), length: part.length.clone(), has_longer }
        };
        short.into_iter().map(part).collect()
    }
}
