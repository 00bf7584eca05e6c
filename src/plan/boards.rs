//! Rails out of rough boards: boards are ripped into strips, strips are cut to length.
//!
//! Strips of one section are sticks, planned as such; a stick costs its share of the board's width, which no plan of whole
//! boards can do better than, so that their cost together is a bound. Then the strips are laid side by side on boards, by
//! the same planner, across. Every kind of board is tried alone, and all together; the cheapest is taken.

use std::collections::BTreeMap;

use super::job::{Left, Piece, Why, cutting};
use super::material::sides;
use super::price::{Pricing, board_feet, quarters};
use super::rack::Item;
use super::read::{Held, Order, Wanted};
use super::saw::Saw;
use super::sheets::Nature;
use crate::cut::{Fit, Instance, Limits, Part, Stock, solve, verify};
use crate::measure::{Real, Unit};

/// What goes for every board.
#[derive(Clone, Debug)]
pub struct Ripping {
    /// What is taken off each edge before the first strip, in inches.
    pub edge: Real,
    /// What is left on a strip's width for the planer, in inches.
    pub mill: Real,
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

/// A strip of a board.
#[derive(Clone, Debug)]
pub struct Strip {
    /// As ripped, in inches.
    pub width: Real,
    /// In the order of cutting.
    pub pieces: Vec<Piece>,
    /// What is left of its length and worth keeping, in inches; 0 if nothing is.
    pub offcut: Real,
}

/// A board and the strips ripped from it.
#[derive(Clone, Debug)]
pub struct Board {
    /// Which row of the rack.
    pub item: usize,
    /// From one edge to the other.
    pub strips: Vec<Strip>,
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
    /// Board feet of wood in the parts, as finished.
    pub fn used(&self) -> Real {
        let pieces = self.boards.iter().flat_map(|board| &board.strips).flat_map(|strip| &strip.pieces);
        let volume = |piece: &Piece| {
            let part = &self.parts[piece.part];
            let (width, thickness) = sides(&part.material.section, Unit::named("in")).ok()?;
            Some(board_feet(&part.length, &width, &thickness))
        };
        pieces.filter_map(volume).fold(Real::ZERO, |sum, one| sum + one)
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

/// Cost of a board where boards are counted, in shares of one.
const SHARES: u32 = 1000;

/// Parts of one strip width and finished thickness.
struct Section {
    parts: Vec<usize>,
    width: Real,
    thickness: Real,
}

/// Plans parts out of boards, each wood by itself.
pub fn boarding(parts: Vec<Wanted>, items: &[(usize, &Item)], pricing: Pricing, yard: &Yard) -> Boarding {
    let mut all = Boarding { parts, pricing, ..Boarding::default() };
    let mut woods: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, part) in all.parts.iter().enumerate() {
        woods.entry(part.material.wood.to_lowercase()).or_default().push(at);
    }
    for (wood, rows) in woods {
        let here: Vec<(usize, &Item)> = items
            .iter()
            .copied()
            .filter(|(_, item)| item.material.wood.is_empty() || item.material.wood.to_lowercase() == wood)
            .collect();
        let sections = sections(&all.parts, &rows, yard, &mut all.left);
        let one = of_wood(&Wood { parts: &all.parts, sections: &sections, pricing, yard }, &here);
        all.boards.extend(one.boards);
        all.left.extend(one.left);
        all.cost += one.cost;
        all.bound += one.bound;
    }
    all.left.sort_by_key(|left| left.part);
    all
}

/// Parts by the strip that they are cut from; a part without a section is left.
fn sections(parts: &[Wanted], rows: &[usize], yard: &Yard, left: &mut Vec<Left>) -> Vec<Section> {
    let mut sections: Vec<Section> = Vec::new();
    for row in rows {
        let Ok((one, other)) = sides(&parts[*row].material.section, yard.bare) else {
            left.push(Left { part: *row, quantity: parts[*row].quantity, why: Why::NoStock });
            continue;
        };
        let (wide, thickness) = if one < other { (other, one) } else { (one, other) };
        let width = wide + yard.ripping.mill.clone();
        match sections.iter_mut().find(|section| section.width.same(&width) && section.thickness.same(&thickness)) {
            Some(section) => section.parts.push(*row),
            None => sections.push(Section { parts: vec![*row], width, thickness }),
        }
    }
    sections
}

/// What came of one wood.
#[derive(Default)]
struct OfWood {
    boards: Vec<Board>,
    left: Vec<Left>,
    cost: u64,
    bound: u64,
}

/// What is wanted of one wood.
struct Wood<'a> {
    parts: &'a [Wanted],
    sections: &'a [Section],
    pricing: Pricing,
    yard: &'a Yard<'a>,
}

fn of_wood(wood: &Wood, items: &[(usize, &Item)]) -> OfWood {
    let mut best = plan(wood, items);
    let bound = best.bound;
    if items.len() > 1 {
        for one in items {
            let other = plan(wood, &[*one]);
            if (lacking(&other), other.cost) < (lacking(&best), best.cost) {
                best = other;
            }
        }
    }
    best.bound = whole_boards(bound, wood.pricing, items).min(best.cost);
    best
}

fn lacking(one: &OfWood) -> u32 {
    one.left.iter().map(|left| left.quantity).sum()
}

/// A bound in whole boards where all cost alike.
fn whole_boards(bound: u64, pricing: Pricing, items: &[(usize, &Item)]) -> u64 {
    let costs: Vec<u64> = items.iter().map(|(_, item)| u64::from(pricing.each(item.cost))).collect();
    match costs.first() {
        Some(first) if *first > 0 && costs.iter().all(|cost| cost == first) => bound.div_ceil(*first) * first,
        _ => bound,
    }
}

/// Between the edges of a board, in ticks.
fn usable(item: &Item, yard: &Yard) -> Option<u32> {
    yard.saw.down(&(item.width.clone()? - yard.ripping.edge.clone() * Real::whole(2)))
}

fn plan(wood: &Wood, items: &[(usize, &Item)]) -> OfWood {
    let Wood { parts, sections, pricing, yard } = *wood;
    let saw = yard.saw;
    let mut made = OfWood::default();
    // Strips wanted of each board, by its place among the items.
    let mut strips: Vec<Vec<Strip>> = vec![Vec::new(); items.len()];
    let is_money = pricing.is_money();
    let mut shares = 0;
    let kerf = saw.up(&saw.kerf).unwrap_or(0);
    for section in sections {
        // Shares of cost are prices here, whatever they are of.
        let mut order = Order { pricing: Pricing::Money, ..Order::default() };
        order.parts.extend(section.parts.iter().map(|row| parts[*row].clone()));
        let mut rows = Vec::new();
        for (at, (_, item)) in items.iter().enumerate() {
            let thick = yard.ripping.yields.iter().find(|(word, _)| *word == item.material.section);
            let thick = thick.is_some_and(|(_, yields)| *yields >= section.thickness);
            let (Some(room), Some(width), true) = (usable(item, yard), saw.up(&section.width), thick) else {
                continue;
            };
            let across = (room + kerf) / (width + kerf).max(1);
            if across == 0 {
                continue;
            }
            let cost = if is_money { pricing.each(item.cost) } else { SHARES };
            let share = u64::from(cost) * u64::from(width + kerf) / u64::from(room + kerf);
            order.stock.push(Held {
                length: item.length.clone(),
                count: item.count.map(|count| count.saturating_mul(across)),
                cost: Some(u32::try_from(share).unwrap_or(u32::MAX)),
                material: item.material.clone(),
                offcut: false,
            });
            rows.push(at);
        }
        let cut = cutting(order, saw.clone(), yard.bare, yard.limits);
        shares += cut.bound;
        let own = |part: usize| section.parts[part];
        made.left.extend(cut.left.iter().map(|left| Left { part: own(left.part), ..left.clone() }));
        for stick in cut.sticks {
            let pieces = stick.pieces.into_iter().map(|piece| Piece { part: own(piece.part), ..piece }).collect();
            strips[rows[stick.stock]].push(Strip { width: section.width.clone(), pieces, offcut: stick.offcut });
        }
    }
    made.bound = if is_money { shares } else { shares.div_ceil(u64::from(SHARES)) };
    for (place, strips) in strips.into_iter().enumerate() {
        let (at, item) = items[place];
        let boards = rip(strips, item, yard, &mut made.left);
        made.cost += u64::from(pricing.each(item.cost)) * u64::try_from(boards.len()).unwrap_or(u64::MAX);
        made.boards.extend(boards.into_iter().map(|strips| Board { item: at, strips }));
    }
    made
}

/// Lays strips side by side on boards of one kind, as few as it takes.
fn rip(mut strips: Vec<Strip>, item: &Item, yard: &Yard, left: &mut Vec<Left>) -> Vec<Vec<Strip>> {
    let saw = yard.saw;
    let kerf = saw.up(&saw.kerf).unwrap_or(0);
    let mut widths: Vec<u32> = strips.iter().filter_map(|strip| saw.up(&strip.width)).collect();
    widths.sort_unstable();
    widths.dedup();
    let count = |width: &u32| strips.iter().filter(|strip| saw.up(&strip.width) == Some(*width)).count();
    let part = |width: &u32| Part {
        length: *width,
        kerf,
        fit: Fit::Apart,
        quantity: u32::try_from(count(width)).unwrap_or(u32::MAX),
        group: None,
        short: false,
    };
    let stock = Stock { usable: usable(item, yard).unwrap_or(0), count: item.count, cost: 1, offcut: false };
    let instance = Instance { parts: widths.iter().map(part).collect(), stock: vec![stock], keep: 0 };
    let plan = solve(&instance, yard.limits);
    if verify(&instance, &plan).is_err() {
        left.extend(unripped(strips));
        return Vec::new();
    }
    let mut boards = Vec::new();
    for board in &plan.sticks {
        let mut here = Vec::new();
        for row in &board.parts {
            let place = strips.iter().position(|strip| saw.up(&strip.width) == Some(widths[*row]));
            here.extend(place.map(|place| strips.remove(place)));
        }
        boards.push(here);
    }
    left.extend(unripped(strips));
    boards
}

/// The pieces of strips for which no board is left.
fn unripped(strips: Vec<Strip>) -> Vec<Left> {
    let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
    for piece in strips.iter().flat_map(|strip| &strip.pieces) {
        *counts.entry(piece.part).or_default() += 1;
    }
    counts.into_iter().map(|(part, quantity)| Left { part, quantity, why: Why::UsedUp }).collect()
}

#[cfg(test)]
mod tests;
