//! Cuts that need no search: from the lengths themselves.

use super::mix::Cut;
use super::problem::Problem;

/// The parts' sizes as their worth: no stick holds more than its room.
pub(super) fn by_size(problem: &Problem) -> Cut {
    let number = |size: usize| i64::try_from(size).unwrap_or(i64::MAX);
    let widest = |bar: usize| problem.room.iter().map(|rooms| rooms[bar]).max().unwrap_or(0);
    let worth = problem.items.iter().map(|item| number(item.size)).collect();
    Cut::new(problem, worth, (0..problem.bars.len()).map(|bar| number(widest(bar))).collect())
}

/// For one length of stock: parts that fill a stick but for less than `least` count as a whole stick, those under
/// `least` not at all, all others by their size. The strongest over all `least`.
///
/// The bound L2 of Martello and Toth, Knapsack Problems, 1990, section 8.3.2, with every part's worth written out.
pub(super) fn by_halves(problem: &Problem) -> Option<Cut> {
    let [room] = problem.room.as_slice() else { return None };
    let [room] = room.as_slice() else { return None };
    let room = *room;
    let number = |size: usize| i64::try_from(size).unwrap_or(i64::MAX);
    let mut best: Option<Cut> = None;
    let least = problem.items.iter().map(|item| item.size).filter(|size| 2 * size <= room);
    for least in least {
        let worth = |size: usize| match size {
            size if size + least > room => number(room),
            size if size >= least => number(size),
            _ => 0,
        };
        let cut = Cut::new(problem, problem.items.iter().map(|item| worth(item.size)).collect(), vec![number(room)]);
        if best.as_ref().is_none_or(|best| cut.need > best.need) {
            best = Some(cut);
        }
    }
    best
}
