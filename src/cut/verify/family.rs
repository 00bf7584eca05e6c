//! Parts that may share a stick.

use super::kinds::{PartKind, StickKind};
use crate::cut::Fit;

/// The most room that is looked into.
const MOST_ROOM: i64 = 1 << 28;

/// Parts that may share a stick: their sizes add up to no more than the room.
pub(super) struct Family {
    /// Part kinds and their sizes.
    pub(super) sizes: Vec<(usize, usize)>,
    /// The room in each kind of stick, if there is any.
    pub(super) rooms: Vec<Option<usize>>,
}

/// Parts apart: the gap between two is the greater of their kerfs, so in the best order the gaps are all kerfs but the
/// least. With that kerf added to the room every part pays its own. Turned parts have one setting, one kerf, and one
/// overlap.
pub(super) fn families(parts: &[PartKind], sticks: &[StickKind]) -> Option<Vec<Family>> {
    let mut kinds: Vec<(Fit, i64)> = parts.iter().map(|part| (part.fit, part.kerf)).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let family = |(fit, kerf): (Fit, i64)| {
        let (overlap, apart) = match fit {
            Fit::Apart => (0, true),
            Fit::Turned { overlap, .. } => (i64::from(overlap), false),
        };
        let is_own = |part: &PartKind| part.fit == fit && (part.kerf == kerf || apart && part.kerf > kerf);
        let own = parts.iter().enumerate().filter(|(_, part)| is_own(part));
        let sized = |(kind, part): (usize, &PartKind)| {
            let size = usize::try_from(part.length + part.kerf - overlap).ok().filter(|size| *size > 0)?;
            Some((kind, size))
        };
        let mut sizes = own.map(sized).collect::<Option<Vec<_>>>()?;
        // In lowest terms the tables are short.
        let divisor = sizes.iter().fold(0, |divisor, own| num_integer::gcd(divisor, own.1)).max(1);
        sizes.iter_mut().for_each(|own| own.1 /= divisor);
        let room = |stick: &StickKind| Some(usize::try_from(stick.usable + kerf - overlap).ok()? / divisor);
        let within = |stick: &StickKind| stick.usable + kerf - overlap < MOST_ROOM;
        let rooms = sticks.iter().map(room).collect();
        sticks.iter().all(within).then_some(Family { sizes, rooms })
    };
    kinds.into_iter().map(family).collect()
}
