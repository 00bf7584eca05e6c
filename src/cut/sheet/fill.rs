//! Puts pieces on sheets one after another, each at the best place by a rule.

use super::draft::{Draft, Open};
use super::order::Random;
use super::problem::{Problem, Size};
use super::tree::{Node, Place, Tree};
use crate::cut::limits::Meter;

/// The rule for the best place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fit {
    /// The rectangle around it grows by little more than the piece.
    Dense,
    /// One side of the free room is used up.
    Snug,
    /// The free room is small.
    Small,
    /// Both of the first two.
    Even,
}

impl Fit {
    pub(super) const ALL: [Self; 4] = [Self::Dense, Self::Even, Self::Small, Self::Snug];

    /// The score of a place; less is better.
    fn judge(self, node: &Node, place: Place) -> u64 {
        let (along, thick) = place.way.sides(node.size);
        let (most, room) = place.way.sides(node.room);
        let (length, across) = place.way.sides(place.size);
        let lost = || if across <= thick { length * (thick - across) } else { along * (across - thick) };
        let over = || (most - along - length).min(room - across);
        match self {
            Self::Dense => lost(),
            Self::Snug => over(),
            Self::Small => (most - along) * room - length * across,
            Self::Even => lost() + over() * length.min(across),
        }
    }
}

/// The sheet to start next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Next {
    /// The cheapest for its area.
    Cheap,
    /// The smallest that holds the piece.
    Small,
    /// The greatest.
    Great,
    /// Any.
    Any,
}

/// How to put pieces on sheets.
#[derive(Clone, Copy, Debug)]
pub(super) struct Manner {
    pub(super) fit: Fit,
    pub(super) next: Next,
    /// One in so many places is skipped; 0 skips none.
    pub(super) blink: usize,
}

/// The newest sheets to search for a place.
const NEAR: usize = 64;

/// Puts items on sheets in this order, and starts new sheets while all cost at most `budget`.
pub(super) fn fill(
    problem: &Problem,
    draft: &mut Draft,
    order: &[usize],
    manner: Manner,
    budget: u64,
    random: &mut Random,
    meter: &Meter,
) {
    let mut cost = draft.cost(problem);
    let mut counts = draft.counts(problem);
    for &item in order {
        let size = problem.items[item].size;
        if let Some((at, place)) = best_place(problem, draft, item, manner, random, meter) {
            draft.sheets[at].tree.put(item, place);
            meter.count(4 * draft.sheets[at].tree.nodes().len());
            continue;
        }
        let Some(blank) = next_blank(problem, item, manner.next, &counts, budget.saturating_sub(cost), random) else {
            draft.left.push(item);
            continue;
        };
        cost += problem.blanks[blank].cost;
        counts[blank] -= 1;
        let mut tree = Tree::new(problem.blanks[blank].size);
        let way = if size.is_in(tree.sheet()) { size } else { size.turned() };
        tree.start(item, way);
        draft.sheets.push(Open { blank, tree });
    }
}

/// Puts all items on one sheet in this order, if possible; the first is not turned if it fits that way.
pub(super) fn fill_one(problem: &Problem, blank: usize, order: &[usize], fit: Fit, meter: &Meter) -> Option<Tree> {
    let manner = Manner { fit, next: Next::Cheap, blink: 0 };
    let mut random = Random::new(1);
    let (&first, rest) = order.split_first()?;
    let mut tree = Tree::new(problem.blanks[blank].size);
    let way = problem.items[first].ways().find(|way| way.is_in(tree.sheet()))?;
    tree.start(first, way);
    let mut draft = Draft { sheets: vec![Open { blank, tree }], left: Vec::new() };
    for &item in rest {
        let (at, place) = best_place(problem, &draft, item, manner, &mut random, meter)?;
        draft.sheets[at].tree.put(item, place);
    }
    draft.sheets.pop().map(|open| open.tree)
}

fn best_place(
    problem: &Problem,
    draft: &Draft,
    item: usize,
    manner: Manner,
    random: &mut Random,
    meter: &Meter,
) -> Option<(usize, Place)> {
    let own = &problem.items[item];
    let mut best: Option<(u64, usize, Place)> = None;
    let far = draft.sheets.len().saturating_sub(NEAR);
    for (at, open) in draft.sheets.iter().enumerate().skip(far) {
        if open.tree.free() < own.size.area() {
            continue;
        }
        meter.count(open.tree.nodes().len());
        for size in own.ways() {
            open.tree.places(size, |node, place| {
                if manner.blink > 0 && random.once_in(manner.blink) {
                    return;
                }
                let judged = manner.fit.judge(node, place);
                if best.is_none_or(|best| judged < best.0) {
                    best = Some((judged, at, place));
                }
            });
        }
    }
    best.map(|(_, at, place)| (at, place))
}

/// The sheet to start for an item, if the budget allows one that holds it.
fn next_blank(
    problem: &Problem,
    item: usize,
    next: Next,
    counts: &[u32],
    money: u64,
    random: &mut Random,
) -> Option<usize> {
    let own = &problem.items[item];
    let holds = |blank: &usize| {
        let one = &problem.blanks[*blank];
        counts[*blank] > 0 && one.cost <= money && own.is_in(one.size)
    };
    let blanks = (0..problem.blanks.len()).filter(holds);
    let area = |size: Size| u128::from(size.area());
    match next {
        Next::Cheap => blanks.min_by(|left, right| {
            let (left, right) = (&problem.blanks[*left], &problem.blanks[*right]);
            (u128::from(left.cost) * area(right.size)).cmp(&(u128::from(right.cost) * area(left.size)))
        }),
        Next::Small => blanks.min_by_key(|blank| problem.blanks[*blank].size.area()),
        Next::Great => blanks.max_by_key(|blank| problem.blanks[*blank].size.area()),
        Next::Any => {
            let all: Vec<usize> = blanks.collect();
            all.get(random.below(all.len())).copied()
        }
    }
}
