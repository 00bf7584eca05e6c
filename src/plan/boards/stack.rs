//! The boards of one wood: every way of planning it, the best of them, and a bound.

use super::class::{Blank, Class, Kind};
use super::cuts::{Block, Board};
use super::least::{Need, least};
use super::strips::{Strip, full, single};
use crate::cut::Limits;
use crate::cut::sheet::{Instance, Piece, Sheet, solve, verify};
use crate::plan::job::{Left, Why};
use crate::plan::yard::Yard;

/// The plan of one wood.
#[derive(Default)]
pub(super) struct OfWood {
    pub(super) boards: Vec<Board>,
    pub(super) left: Vec<Left>,
    pub(super) cost: u64,
    pub(super) bound: u64,
}

impl OfWood {
    /// The rank of the plan: first the parts left out, then the cost.
    fn rank(&self) -> (u32, u64) {
        (self.left.iter().map(|left| left.quantity).sum(), self.cost)
    }
}

/// The boards of one wood, and the blanks wanted.
pub(super) struct Stack<'a> {
    pub(super) kinds: &'a [Kind<'a>],
    pub(super) classes: &'a [Class],
    pub(super) yard: &'a Yard<'a>,
}

/// A way of planning a wood.
#[derive(Clone, Copy)]
struct Way {
    /// Class `n + 1` is planned together with class `n` if bit `n` is set.
    joined: u32,
    /// Whether blanks are first laid end to end in full strips.
    is_full: bool,
}

/// The most classes for which all ways of joining are tried.
const MOST_JOINED: usize = 4;
/// The steps for trying a way, and for planning the best one: some tenths of a second.
const TRIED: u64 = 1_000_000;
const PLANNED: u64 = 20_000_000;
/// The most blanks to plan together: the time grows with their square.
const MOST_BLANKS: u32 = 1500;

impl Stack<'_> {
    /// The cheapest plan of all ways, and its bound.
    pub(super) fn cheapest(&self) -> OfWood {
        let inner = self.classes.len().saturating_sub(1);
        let ways: Vec<u32> = if inner < MOST_JOINED { (0..1 << inner).collect() } else { vec![0, u32::MAX] };
        let mut best: Option<(OfWood, Way)> = None;
        for (joined, is_full) in ways.iter().flat_map(|way| [(*way, false), (*way, true)]) {
            let way = Way { joined, is_full };
            let one = self.by(way, TRIED);
            if best.as_ref().is_none_or(|(best, _)| one.rank() < best.rank()) {
                best = Some((one, way));
            }
        }
        let Some((mut best, way)) = best else { return OfWood::default() };
        best.bound = self.bound(&best);
        if best.cost > best.bound || !best.left.is_empty() {
            let more = self.by(way, PLANNED);
            if more.rank() < best.rank() {
                best = more;
            }
            best.bound = self.bound(&best);
        }
        best
    }

    /// A plan by a way; the thickest class first.
    fn by(&self, way: Way, steps: u64) -> OfWood {
        let mut made = OfWood::default();
        let mut counts: Vec<Option<u32>> = self.kinds.iter().map(|kind| kind.count).collect();
        let mut waiting: Vec<Blank> = Vec::new();
        let mut kinds: &[usize] = &[];
        for (at, class) in self.classes.iter().enumerate().rev() {
            if waiting.is_empty() {
                kinds = &class.kinds;
            }
            waiting.extend(&class.blanks);
            let bit = at.checked_sub(1).map(|before| way.joined.checked_shr(index(before)).unwrap_or(way.joined));
            if bit.is_some_and(|bit| bit & 1 == 1) {
                continue;
            }
            let own: Vec<&Kind> = kinds.iter().map(|at| &self.kinds[*at]).collect();
            let strips =
                if way.is_full { full(&waiting, &own, self.yard, &self.limits(steps)) } else { single(&waiting) };
            waiting.clear();
            for some in split(strips) {
                self.plan(&some, kinds, &mut counts, steps, &mut made);
            }
        }
        made
    }

    fn limits(&self, steps: u64) -> Limits<'_> {
        Limits { steps: self.yard.limits.steps.min(steps), stop: self.yard.limits.stop }
    }

    /// Strips and boards as the planner of sheets takes them; the width of a sheet is the length of a board.
    fn instance(&self, strips: &[Strip], kinds: &[usize], counts: &[Option<u32>]) -> Instance {
        let piece =
            |strip: &Strip| Piece { width: strip.length, height: strip.width, quantity: strip.quantity, turns: false };
        let sheet = |at: &usize| {
            let Kind { length, width, cost, .. } = self.kinds[*at];
            Sheet { width: length, height: width, count: counts[*at], cost }
        };
        let kerf = self.yard.saw.up(&self.yard.saw.kerf).unwrap_or(0);
        Instance {
            kerf,
            trim: 0,
            pieces: strips.iter().map(piece).collect(),
            sheets: kinds.iter().map(sheet).collect(),
        }
    }

    /// Plans some strips out of boards, of which there are so many, and takes them.
    fn plan(&self, strips: &[Strip], kinds: &[usize], counts: &mut [Option<u32>], steps: u64, made: &mut OfWood) {
        let instance = self.instance(strips, kinds, counts);
        let plan = solve(&instance, &self.limits(steps));
        let is_sound = verify(&instance, &plan).is_ok();
        for (at, strip) in strips.iter().enumerate() {
            let quantity = if is_sound { plan.left[at] } else { strip.quantity };
            let why = if is_sound { Why::UsedUp } else { Why::Unchecked };
            let left = strip.blanks.iter().filter(|_| quantity > 0);
            made.left.extend(left.map(|(part, _)| Left { part: *part, quantity, why: why.clone() }));
        }
        if !is_sound {
            return;
        }
        made.cost += plan.cost;
        for layout in &plan.layouts {
            let kind = kinds[layout.sheet];
            counts[kind] = counts[kind].map(|count| count.saturating_sub(1));
            let block = Block::of(layout, &instance, strips, self.yard);
            made.boards.push(Board { item: self.kinds[kind].item, block });
        }
    }

    /// What no plan of the blanks that a plan cuts costs less than.
    fn bound(&self, made: &OfWood) -> u64 {
        let left =
            |part: usize| -> u32 { made.left.iter().filter(|left| left.part == part).map(|left| left.quantity).sum() };
        let counts: Vec<Option<u32>> = self.kinds.iter().map(|kind| kind.count).collect();
        let mut thicker: Vec<Blank> = Vec::new();
        let mut needs: Vec<Need> = Vec::new();
        for class in self.classes.iter().rev() {
            let cut = |blank: &Blank| Blank { quantity: blank.quantity.saturating_sub(left(blank.part)), ..*blank };
            thicker.extend(class.blanks.iter().map(cut));
            let instance = self.instance(&single(&thicker), &class.kinds, &counts);
            let total = thicker.iter().fold(0_u32, |sum, blank| sum.saturating_add(blank.quantity));
            let solved = (total <= MOST_BLANKS).then(|| solve(&instance, &self.limits(TRIED)));
            // A bound of a plan that lacks something is not one of all the blanks.
            let cost = solved.filter(|plan| plan.left.iter().all(|left| *left == 0)).map_or(0, |plan| plan.bound);
            let kerf = u64::from(instance.kerf);
            let area = |length: u32, width: u32| (u64::from(length) + kerf) * (u64::from(width) + kerf);
            let areas = thicker.iter().map(|blank| u64::from(blank.quantity) * area(blank.length, blank.width));
            let is_own = |at: usize| class.kinds.contains(&at);
            let own = self.kinds.iter().enumerate();
            let gives = own.map(|(at, kind)| if is_own(at) { area(kind.length, kind.width) } else { 0 }).collect();
            let costs = (0..self.kinds.len()).map(|at| if is_own(at) { u64::from(self.kinds[at].cost) } else { 0 });
            needs.push(Need { gives, need: areas.sum() });
            needs.push(Need { gives: costs.collect(), need: cost });
        }
        let costs: Vec<(u64, Option<u32>)> = self.kinds.iter().map(|kind| (u64::from(kind.cost), kind.count)).collect();
        least(&costs, &needs, made.cost)
    }
}

fn index(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

/// Strips in lots that are not too large to be planned together, like ones beside one another.
fn split(mut strips: Vec<Strip>) -> Vec<Vec<Strip>> {
    strips.sort_by_key(|strip| std::cmp::Reverse((strip.width, strip.length)));
    let mut lots: Vec<Vec<Strip>> = Vec::new();
    let mut room = 0;
    for strip in strips {
        let mut quantity = strip.quantity;
        while quantity > 0 {
            if room == 0 {
                lots.push(Vec::new());
                room = MOST_BLANKS;
            }
            let some = quantity.min(room);
            lots.last_mut().into_iter().for_each(|lot| lot.push(Strip { quantity: some, ..strip.clone() }));
            quantity -= some;
            room -= some;
        }
    }
    lots
}
