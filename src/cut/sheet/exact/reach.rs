//! How much of a side pieces can fill.

/// Every sum of some pieces' sides, up to a whole one.
pub(super) struct Reach {
    whole: u64,
    /// In rising order; none where there are too many to know.
    sums: Option<Vec<u64>>,
}

/// With more sums than this a rest that none of them fills is hardly found.
const MOST_SUMS: usize = 20_000;

impl Reach {
    /// Of pieces that give one of some sides each.
    pub(super) fn new<'a>(whole: u64, sides: impl Iterator<Item = &'a [u64]>) -> Self {
        let mut sums = vec![0];
        for own in sides {
            let more: Vec<u64> = own.iter().flat_map(|side| sums.iter().map(move |sum| sum + side)).collect();
            sums.extend(more.into_iter().filter(|sum| *sum <= whole));
            sums.sort_unstable();
            sums.dedup();
            if sums.len() > MOST_SUMS {
                return Self { whole, sums: None };
            }
        }
        Self { whole, sums: Some(sums) }
    }

    /// What is lost beside something so long: no pieces fill more of the rest.
    pub(super) fn lost(&self, side: u64) -> u64 {
        let rest = self.whole - side;
        let Some(sums) = &self.sums else { return 0 };
        let at = sums.partition_point(|sum| *sum <= rest);
        rest - sums[at.saturating_sub(1)]
    }
}
