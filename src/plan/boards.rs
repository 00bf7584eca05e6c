//! Rails out of rough boards: boards are ripped and crosscut into blanks, and blanks are milled and cut to size.
//!
//! A board is a sheet whose pieces all lie along it, so the planner of sheets plans boards too. A class is the parts
//! for which the same boards are thick enough. Each class is planned alone, and together with thicker ones, whose
//! boards may have room; the cheapest plan wins.

mod class;
mod cuts;
mod least;
mod stack;
mod strips;

use std::collections::BTreeMap;

use self::class::{Blank, Class, Kind};
pub use self::cuts::{Block, Board, Cut};
use self::stack::Stack;
use super::job::{Left, Why};
use super::material::sides;
use super::price::{Pricing, board_feet, quarters};
use super::rack::Item;
use super::work::Wanted;
use super::yard::Yard;
use crate::measure::{Real, Unit};

/// The plan of parts and boards.
#[derive(Clone, Debug, Default)]
pub struct Boarding {
    /// The parts wanted.
    pub parts: Vec<Wanted>,
    /// All boards.
    pub boards: Vec<Board>,
    /// The parts that are not planned.
    pub left: Vec<Left>,
    /// Whether cost is money, or else a count of boards.
    pub pricing: Pricing,
    /// The cost of the boards, in cents, or their count.
    pub cost: u64,
    /// A bound: no plan of the same parts costs less.
    pub bound: u64,
}

impl Boarding {
    /// All blocks that the boards are cut into.
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

    /// Board feet of the boards, by their rough thickness.
    pub fn feet(&self, items: &[Item]) -> Real {
        let foot = |board: &Board| {
            let item = items.get(board.item)?;
            let thickness = quarters(&item.material.section)?;
            Some(board_feet(&item.length, item.width.as_ref()?, &thickness))
        };
        self.boards.iter().filter_map(foot).fold(Real::ZERO, |sum, one| sum + one)
    }
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

/// Parts by the boards that they may come from, the thinnest first; a part without boards is left.
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
    // A board thick enough for one class is thick enough for thinner ones, so the sets of boards are nested.
    classes.sort_by_key(|class| std::cmp::Reverse(class.kinds.len()));
    classes
}

#[cfg(test)]
mod tests;
