//! The most worth that a room holds, in whole numbers.

use super::steps::Steps;

/// Like parts.
pub(super) struct Good {
    pub(super) kind: usize,
    pub(super) size: usize,
    pub(super) worth: i64,
    /// How many there are.
    pub(super) count: u32,
}

/// The most worth in each room up to `room`; `each` sees the same for the first goods, one more each time.
pub(super) fn fill(goods: &[Good], room: usize, steps: &Steps, mut each: impl FnMut(&[i64])) -> Option<Vec<i64>> {
    let mut best = vec![0; room + 1];
    for good in goods {
        let mut left = usize::try_from(good.count).ok()?.min(room / good.size);
        // Lots of 1, 2, 4 … and a rest make up every count.
        let mut lot = 1;
        while left > 0 {
            let copies = lot.min(left);
            let (size, worth) = (good.size * copies, good.worth.checked_mul(i64::try_from(copies).ok()?)?);
            steps.take(room)?;
            for at in (size..=room).rev() {
                best[at] = best[at].max(best[at - size] + worth);
            }
            left -= copies;
            lot *= 2;
        }
        each(&best);
    }
    Some(best)
}
