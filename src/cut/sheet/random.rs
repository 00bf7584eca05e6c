//! Numbers that look random and are the same on every run.

/// A sequence that its seed decides. Source: Steele, Lea and Flood, Fast splittable pseudorandom number generators,
/// OOPSLA 2014 (the constants of its 64-bit mixing).
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

    /// From 0 to below `end`, or 0.
    pub(super) fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX).max(1);
        usize::try_from(self.next() % end).unwrap_or(0)
    }

    /// Once in `times`.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }
}
