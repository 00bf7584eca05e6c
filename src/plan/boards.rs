//! Rails out of rough boards: boards are ripped and crosscut into blanks, and blanks are milled and cut to size.
//!
//! A board is a sheet whose pieces all lie along it, so that the planner of sheets plans boards as well. Parts are of one
//! class where the same boards are thick enough for them. Each class is planned by itself, and together with thicker ones,
//! whose boards may have room; the cheapest is taken.

mod cuts;
mod least;

use std::collections::BTreeMap;

pub use self::cuts::{Block, Cut};
use self::least::{Need, least};
use super::job::{Left, Why};
use super::material::sides;
use super::price::{Pricing, board_feet, quarters};
use super::rack::Item;
use super::read::Wanted;
use super::saw::Saw;
use super::sheets::Nature;
use crate::cut::Limits;
use crate::cut::sheet::{Instance, Piece, Sheet, solve, verify};
use crate::measure::{Real, Unit};

/// What goes for every board.
#[derive(Clone, Debug)]
pub struct Ripping {
    /// What is taken off each edge before the first strip, in inches.
    pub edge: Real,
    /// What is left on a blank's width for the planer, in inches.
    pub mill: Real,
    /// What is left on a blank's length, in inches.
    pub ends: Real,
    /// What rough thicknesses yield when planed, in inches, by their word: `4/4`.
    pub yields: Vec<(String, Real)>,
}

/// How the shop works: what goes for every plan of it.
#[derive(Clone, Copy)]
pub struct Yard<'a> {
    /// What a cut takes, and what is kept.
    pub saw: &'a Saw,
    /// What goes for boards.
    pub ripping: &'a Ripping,
    /// How materials of sheets are cut.
    pub natures: &'a [Nature],
    /// The bench unit, of bare numbers.
    pub bare: Option<&'a Unit>,
    /// How long a plan is looked for.
    pub limits: &'a Limits<'a>,
}

/// A board and how it is cut.
#[derive(Clone, Debug)]
pub struct Board {
    /// Which row of the rack.
    pub item: usize,
    /// What becomes of it between its trims and edges.
    pub block: Block,
}

/// What came of parts and boards.
#[derive(Clone, Debug, Default)]
pub struct Boarding {
    /// The parts asked for.
    pub parts: Vec<Wanted>,
    /// Every board.
    pub boards: Vec<Board>,
    /// What is not planned.
    pub left: Vec<Left>,
    /// Whether cost is money, or else a count of boards.
    pub pricing: Pricing,
    /// What the boards cost, in cents, or how many there are.
    pub cost: u64,
    /// No plan of the same parts costs less.
    pub bound: u64,
}

impl Boarding {
    /// Every block that boards are cut into.
    pub fn blocks(&self) -> impl Iterator<Item = &Block> {
        self.boards.iter().flat_map(|board| board.block.each())
    }

    /// Board feet of wood in the parts, as finished.
    pub fn used(&self) -> Real {
        let volume = |block: &Block| {
            let Cut::Part(part) = block.cut else { return None };
            let part = &self.parts[part];
            let (width, thickness) = sides(&part.material.section, Unit::named("in")).ok()?;
            Some(board_feet(&part.length, &width, &thickness))
        };
        self.blocks().filter_map(volume).fold(Real::ZERO, |sum, one| sum + one)
    }

    /// Board feet of some boards, of the rack's rows, by their rough thickness.
    pub fn feet(&self, items: &[Item]) -> Real {
        let foot = |board: &Board| {
            let item = items.get(board.item)?;
            let thickness = quarters(&item.material.section)?;
            Some(board_feet(&item.length, item.width.as_ref()?, &thickness))
        };
        self.boards.iter().filter_map(foot).fold(Real::ZERO, |sum, one| sum + one)
    }
}

/// A blank that is wanted, in ticks.
#[derive(Clone, Copy)]
struct Blank {
    part: usize,
    length: u32,
    width: u32,
    quantity: u32,
}

/// Boards of one row between trims and edges, in ticks.
struct Kind<'a> {
    /// Which row of the rack.
    item: usize,
    length: u32,
    width: u32,
    count: Option<u32>,
    cost: u32,
    yields: &'a Real,
}

/// Blanks that the same boards are thick enough for, and these boards by their places.
struct Class {
    blanks: Vec<Blank>,
    kinds: Vec<usize>,
}

/// Plans parts out of boards, each wood by itself.
pub fn boarding(parts: Vec<Wanted>, items: &[(usize, &Item)], pricing: Pricing, yard: &Yard) -> Boarding {
    let mut all = Boarding { parts, pricing, ..Boarding::default() };
    let mut woods: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, part) in all.parts.iter().enumerate() {
        woods.entry(part.material.wood.to_lowercase()).or_default().push(at);
    }
    for (wood, rows) in woods {
        let is_own = |item: &Item| item.material.wood.is_empty() || item.material.wood.to_lowercase() == wood;
        let here = items.iter().filter(|(_, item)| is_own(item));
        let kinds: Vec<Kind> = here.filter_map(|(at, item)| kind(*at, item, pricing, yard)).collect();
        let classes = classes(&all.parts, &rows, &kinds, yard, &mut all.left);
        let one = Stack { kinds: &kinds, classes: &classes, yard }.cheapest();
        all.boards.extend(one.boards);
        all.left.extend(one.left);
        all.cost += one.cost;
        all.bound += one.bound;
    }
    all.left.sort_by_key(|left| left.part);
    all
}

/// A row of boards, if its thickness is known.
fn kind<'a>(at: usize, item: &Item, pricing: Pricing, yard: &Yard<'a>) -> Option<Kind<'a>> {
    let Yard { saw, ripping, .. } = *yard;
    let (_, yields) = ripping.yields.iter().find(|(word, _)| *word == item.material.section)?;
    Some(Kind {
        item: at,
        length: saw.down(&(item.length.clone() - saw.trim.clone() * Real::whole(2)))?,
        width: saw.down(&(item.width.clone()? - ripping.edge.clone() * Real::whole(2)))?,
        count: item.count,
        cost: pricing.each(item.cost),
        yields,
    })
}

/// Parts by the boards that they may come from, the thinnest first; a part that none gives is left.
fn classes(parts: &[Wanted], rows: &[usize], kinds: &[Kind], yard: &Yard, left: &mut Vec<Left>) -> Vec<Class> {
    let Yard { saw, ripping, bare, .. } = *yard;
    let mut classes: Vec<Class> = Vec::new();
    for row in rows {
        let part = &parts[*row];
        let sized = sides(&part.material.section, bare).ok().and_then(|(one, other)| {
            let (wide, thickness) = if one < other { (other, one) } else { (one, other) };
            let length = saw.up(&(part.length.clone() + ripping.ends.clone()))?;
            let width = saw.up(&(wide + ripping.mill.clone()))?;
            Some((Blank { part: *row, length, width, quantity: part.quantity }, thickness))
        });
        let fit = sized.map(|(blank, thickness)| {
            let is_thick = |at: &usize| *kinds[*at].yields >= thickness && kinds[*at].count != Some(0);
            (blank, (0..kinds.len()).filter(is_thick).collect::<Vec<usize>>())
        });
        let holds = |blank: &Blank, at: usize| blank.length <= kinds[at].length && blank.width <= kinds[at].width;
        match fit.filter(|(blank, own)| own.iter().any(|at| holds(blank, *at))) {
            None => left.push(Left { part: *row, quantity: part.quantity, why: Why::NoStock }),
            Some((blank, own)) => match classes.iter_mut().find(|class| class.kinds == own) {
                Some(class) => class.blanks.push(blank),
                None => classes.push(Class { blanks: vec![blank], kinds: own }),
            },
        }
    }
    // What is thick enough for more is thick enough for less: the sets of boards lie one within the other.
    classes.sort_by_key(|class| std::cmp::Reverse(class.kinds.len()));
    classes
}

/// What came of one wood.
#[derive(Default)]
struct OfWood {
    boards: Vec<Board>,
    left: Vec<Left>,
    cost: u64,
    bound: u64,
}

impl OfWood {
    /// How bad it is: first what it lacks, then what it costs.
    fn rank(&self) -> (u32, u64) {
        (self.left.iter().map(|left| left.quantity).sum(), self.cost)
    }
}

/// The boards of one wood, and what is wanted of it.
struct Stack<'a> {
    kinds: &'a [Kind<'a>],
    classes: &'a [Class],
    yard: &'a Yard<'a>,
}

/// Up to so many classes every way of joining them is tried.
const MOST_JOINED: usize = 4;
/// The steps in which a way of joining classes is tried, and in which the best way is planned: some tenths of a second.
const TRIED: u64 = 1_000_000;
const PLANNED: u64 = 20_000_000;
/// So many blanks are planned together at most: the time grows by their square.
const MOST_BLANKS: u32 = 1500;

impl Stack<'_> {
    fn cheapest(&self) -> OfWood {
        let inner = self.classes.len().saturating_sub(1);
        let ways: Vec<u32> = if inner < MOST_JOINED { (0..1 << inner).collect() } else { vec![0, u32::MAX] };
        let mut best = (OfWood::default(), 0);
        for (nth, way) in ways.iter().enumerate() {
            let one = self.joined(*way, TRIED);
            if nth == 0 || one.rank() < best.0.rank() {
                best = (one, *way);
            }
        }
        let (mut best, way) = best;
        best.bound = self.bound(&best);
        if best.cost > best.bound || !best.left.is_empty() {
            let more = self.joined(way, PLANNED);
            if more.rank() < best.rank() {
                best = more;
            }
            best.bound = self.bound(&best);
        }
        best
    }

    /// A plan where class `n + 1` is planned together with class `n` if bit `n` of `way` is set; the thickest first.
    fn joined(&self, way: u32, steps: u64) -> OfWood {
        let mut made = OfWood::default();
        let mut counts: Vec<Option<u32>> = self.kinds.iter().map(|kind| kind.count).collect();
        let mut waiting: Vec<Blank> = Vec::new();
        let mut kinds: &[usize] = &[];
        for (at, class) in self.classes.iter().enumerate().rev() {
            if waiting.is_empty() {
                kinds = &class.kinds;
            }
            waiting.extend(&class.blanks);
            let goes_on =
                at.checked_sub(1).is_some_and(|before| way.checked_shr(index(before)).unwrap_or(way) & 1 == 1);
            if !goes_on {
                for some in split(std::mem::take(&mut waiting)) {
                    self.plan(&some, kinds, &mut counts, steps, &mut made);
                }
            }
        }
        made
    }

    fn limits(&self, steps: u64) -> Limits<'_> {
        Limits { steps: self.yard.limits.steps.min(steps), stop: self.yard.limits.stop }
    }

    /// Blanks and boards as the planner of sheets takes them; the width of a sheet is the length of a board.
    fn instance(&self, blanks: &[Blank], kinds: &[usize], counts: &[Option<u32>]) -> Instance {
        let piece =
            |blank: &Blank| Piece { width: blank.length, height: blank.width, quantity: blank.quantity, turns: false };
        let sheet = |at: &usize| {
            let Kind { length, width, cost, .. } = self.kinds[*at];
            Sheet { width: length, height: width, count: counts[*at], cost }
        };
        let kerf = self.yard.saw.up(&self.yard.saw.kerf).unwrap_or(0);
        Instance {
            kerf,
            trim: 0,
            pieces: blanks.iter().map(piece).collect(),
            sheets: kinds.iter().map(sheet).collect(),
        }
    }

    /// Plans some blanks out of boards, of which there are so many, and takes them.
    fn plan(&self, blanks: &[Blank], kinds: &[usize], counts: &mut [Option<u32>], steps: u64, made: &mut OfWood) {
        let instance = self.instance(blanks, kinds, counts);
        let plan = solve(&instance, &self.limits(steps));
        let is_sound = verify(&instance, &plan).is_ok();
        for (at, blank) in blanks.iter().enumerate() {
            let quantity = if is_sound { plan.left[at] } else { blank.quantity };
            let why = if is_sound { Why::UsedUp } else { Why::Unchecked };
            made.left.extend((quantity > 0).then_some(Left { part: blank.part, quantity, why }));
        }
        if !is_sound {
            return;
        }
        made.cost += plan.cost;
        let rows: Vec<usize> = blanks.iter().map(|blank| blank.part).collect();
        for layout in &plan.layouts {
            let kind = kinds[layout.sheet];
            counts[kind] = counts[kind].map(|count| count.saturating_sub(1));
            let block = Block::of(layout, &instance, &rows, self.yard);
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
            let instance = self.instance(&thicker, &class.kinds, &counts);
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

/// Blanks in lots that are not too large to be planned together, like ones beside one another.
fn split(mut blanks: Vec<Blank>) -> Vec<Vec<Blank>> {
    blanks.sort_by_key(|blank| std::cmp::Reverse((blank.width, blank.length)));
    let mut lots: Vec<Vec<Blank>> = Vec::new();
    let mut room = 0;
    for blank in blanks {
        let mut quantity = blank.quantity;
        while quantity > 0 {
            if room == 0 {
                lots.push(Vec::new());
                room = MOST_BLANKS;
            }
            let some = quantity.min(room);
            lots.last_mut().into_iter().for_each(|lot| lot.push(Blank { quantity: some, ..blank }));
            quantity -= some;
            room -= some;
        }
    }
    lots
}

#[cfg(test)]
mod tests;
