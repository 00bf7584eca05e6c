//! Other measures of a side, in which a sheet holds no more pieces than it did, but a bad mix of them looks greater.
//!
//! A measure `f` here is monotone and superadditive up to a whole side: `f(x) + f(y) ≤ f(x + y)`. Two of them, one for
//! each side, make a measure of area: when a rectangle is cut in two, its parts are together at most what it was, so
//! that the pieces of a sheet never measure more than the sheet. Sources: Fekete and Schepers, New classes of fast
//! lower bounds for bin packing problems, Mathematical Programming 91 (2001); Carlier, Clautiaux and Moukrim, New
//! reduction procedures and lower bounds for the two-dimensional bin packing problem with fixed orientation, Computers
//! and Operations Research 34 (2007).

/// Such a measure; none is of a side longer than the whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measure {
    /// As it is.
    Length,
    /// A side that leaves less than this counts as whole, a side below this as nothing, any other unchanged. At most
    /// half.
    Trimmed(u64),
    /// In steps of a whole by one more than this; a side of full steps as it is.
    Stepped(u64),
    /// In steps of this, from the ends to the middle. At most half.
    Mirrored(u64),
}

impl Measure {
    /// The measure of a side where `whole` is the longest side.
    pub(super) const fn of(self, side: u64, whole: u64) -> u64 {
        match self {
            Self::Length => side,
            Self::Trimmed(least) if side + least > whole => whole,
            Self::Trimmed(least) if side >= least => side,
            Self::Trimmed(_) => 0,
            Self::Stepped(steps) if (side * (steps + 1)).is_multiple_of(whole) => side * steps,
            Self::Stepped(steps) => side * (steps + 1) / whole * whole,
            Self::Mirrored(step) if 2 * side > whole => 2 * (whole / step - (whole - side) / step),
            Self::Mirrored(step) if 2 * side == whole => whole / step,
            Self::Mirrored(step) => 2 * (side / step),
        }
    }

    /// The measures worth trying for sides of these lengths, at most `most`.
    pub(super) fn all(sides: &[u64], whole: u64, most: usize) -> Vec<Self> {
        let mut least: Vec<u64> = sides.iter().flat_map(|side| [*side, whole.saturating_sub(*side) + 1]).collect();
        least.retain(|least| *least > 0 && 2 * least <= whole);
        least.sort_unstable();
        least.dedup();
        let each = (most.saturating_sub(MOST_STEPS) / 2).max(1);
        let stride = least.len().div_ceil(each).max(1);
        let chosen = || least.iter().rev().step_by(stride).copied();
        let steps = (1..).take(MOST_STEPS.min(most)).map(Self::Stepped);
        std::iter::once(Self::Length)
            .chain(chosen().map(Self::Trimmed))
            .chain(steps)
            .chain(chosen().map(Self::Mirrored))
            .collect()
    }
}

const MOST_STEPS: usize = 12;
