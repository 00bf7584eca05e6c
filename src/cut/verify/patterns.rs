//! The patterns that a mix has room for.

use super::kinds::Kinds;
use super::knapsack::{Good, fill};
use super::steps::Steps;

/// A stick and the parts in it that have a worth: part kinds and counts.
pub(super) struct Pattern {
    pub(super) stick: usize,
    pub(super) parts: Vec<(usize, u32)>,
}

impl Kinds {
    /// Every pattern of worth with which the sticks of a mix waste no more than it has to spare.
    pub(super) fn patterns(&self, worth: &[i64], mix: &[u32], steps: &Steps) -> Option<Vec<Pattern>> {
        let cut = self.exact(worth, steps)?;
        let spare = cut.spare(mix);
        let mut all = Vec::new();
        for family in &self.families {
            let goods = self.goods(family, worth);
            let used = family.rooms.iter().enumerate().filter(|(stick, _)| mix[*stick] > 0);
            let used: Vec<(usize, usize)> = used.filter_map(|(stick, room)| Some((stick, (*room)?))).collect();
            let Some(widest) = used.iter().map(|(_, room)| *room).max() else { continue };
            let mut rows = vec![vec![0; widest + 1]];
            fill(&goods, widest, steps, |row| rows.push(row.to_vec()))?;
            for (stick, room) in used {
                let least = (cut.gives[stick] - spare).max(1);
                let mut found = Vec::new();
                gather(&goods, &rows, (room, least), &mut Vec::new(), &mut found, steps)?;
                all.extend(found.into_iter().map(|parts| Pattern { stick, parts }));
            }
        }
        Some(all)
    }
}

/// All ways to be worth at least `least` in a room with these goods; `rows[n]` has the most that the first `n` give.
fn gather(
    goods: &[Good],
    rows: &[Vec<i64>],
    (room, least): (usize, i64),
    taken: &mut Vec<(usize, u32)>,
    found: &mut Vec<Vec<(usize, u32)>>,
    steps: &Steps,
) -> Option<()> {
    steps.take(8)?;
    if rows[goods.len()][room] < least {
        return Some(());
    }
    let Some((good, before)) = goods.split_last() else {
        found.push(taken.clone());
        return steps.take(64 + taken.len());
    };
    let (mut room, mut least) = (room, least);
    gather(before, rows, (room, least), taken, found, steps)?;
    for count in 1..=good.count {
        let Some(rest) = room.checked_sub(good.size) else { break };
        room = rest;
        least -= good.worth;
        taken.push((good.kind, count));
        gather(before, rows, (room, least), taken, found, steps)?;
        taken.pop();
    }
    Some(())
}
