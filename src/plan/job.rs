//! From an order to plans: one instance for each material, solved, checked, put together.

use std::collections::BTreeMap;

use super::material::Material;
use super::price::Pricing;
use super::rack::Held;
use super::saw::Saw;
use super::work::{Joint, Wanted};
use crate::cut::{Fit, Instance, Limits, Part, Plan, Stock, certified, solve, verify};
use crate::measure::{Real, Unit};
use crate::shop::is_short;

/// What is to be cut from sticks.
#[derive(Clone, Debug, Default)]
pub struct Order {
    /// Parts, in the order of their table.
    pub parts: Vec<Wanted>,
    /// Stock, in the order of its table.
    pub stock: Vec<Held>,
    /// Whether parts and sticks must be of one wood.
    pub by_wood: bool,
    /// Whether parts and sticks must be of one section.
    pub by_section: bool,
    /// Whether cost is money.
    pub pricing: Pricing,
}

/// A part in a stick.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Which row of the order's parts.
    pub part: usize,
    /// Where it begins, from the end of the stick, in inches, on whole ticks.
    pub from: Real,
    /// Where it ends.
    pub to: Real,
}

/// One stick and what is cut from it.
#[derive(Clone, Debug)]
pub struct Stick {
    /// Which row of the order's stock.
    pub stock: usize,
    /// In the order of cutting.
    pub pieces: Vec<Piece>,
    /// What is left and worth keeping, in inches; 0 if nothing is.
    pub offcut: Real,
    /// What is neither part nor offcut, in inches: kerfs, trims, a short rest.
    pub waste: Real,
}

impl Cutting {
    /// What a stick is of. Wood or section that the rack does not record is that of the parts cut from it.
    pub fn material_of(&self, stick: &Stick) -> Material {
        let held = &self.order.stock[stick.stock].material;
        let Some(piece) = stick.pieces.first() else { return held.clone() };
        let cut = &self.order.parts[piece.part].material;
        let known = |held: &String, cut: &String| if held.is_empty() { cut.clone() } else { held.clone() };
        Material { wood: known(&held.wood, &cut.wood), section: known(&held.section, &cut.section) }
    }
}

/// Why parts are not planned.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// No stock is of their material.
    NoStock,
    /// The longest stick of their material, trims off, is shorter; in inches.
    TooLong(Real),
    /// Every stick that would hold them is used up.
    UsedUp,
    /// They are as short as what a cut takes, or shorter.
    UnderKerf,
    /// The plan did not pass its check.
    Unchecked,
}

/// Parts that are not planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Which row of the order's parts.
    pub part: usize,
    /// How many of them.
    pub quantity: u32,
    /// Why.
    pub why: Why,
}

/// What came of an order.
#[derive(Clone, Debug)]
pub struct Cutting {
    /// What was asked for.
    pub order: Order,
    /// How it is sawn.
    pub saw: Saw,
    /// Every stick, material by material.
    pub sticks: Vec<Stick>,
    /// What is not planned.
    pub left: Vec<Left>,
    /// What the sticks cost, in cents, or how many there are where none has a cost.
    pub cost: u64,
    /// No plan of the same parts costs less.
    pub bound: u64,
}

impl Cutting {
    /// Whether no plan of the same parts costs less: from whole numbers alone.
    pub fn is_proven(&self) -> bool {
        self.cost == self.bound
    }

    /// Whether cost is money, or else a count of sticks, offcuts left out.
    pub fn is_money(&self) -> bool {
        self.order.pricing.is_money()
    }

    /// Whether any of its sticks is an offcut.
    pub fn has_offcuts(&self) -> bool {
        self.sticks.iter().any(|stick| self.order.stock[stick.stock].offcut)
    }

    /// An amount of cost as exact text: `296.61`, or a count of sticks.
    pub fn text(&self, cost: u64) -> String {
        self.order.pricing.text(cost)
    }

    /// Whether a part is too short to be held at the saw by hand.
    pub fn is_short(&self, part: usize) -> bool {
        is_short(&self.order.parts[part].short, &self.saw.short)
    }

    /// What one stick of a row costs.
    pub fn cost_of(&self, stock: usize) -> u64 {
        u64::from(self.order.stock[stock].cost_by(self.order.pricing))
    }
}

/// Parts and stock of one material.
struct Lot {
    parts: Vec<usize>,
    stock: Vec<usize>,
    instance: Instance,
    plan: Option<Plan>,
}

/// So many steps each material has at first, that a hard one does not keep the others waiting.
const FIRST_STEPS: u64 = 300_000_000;

/// The steps of a check, some seconds. Where they run out, the plan is not proven.
const CHECK_STEPS: u64 = 4_000_000_000;

/// Plans an order within `limits`, with `bare` the bench unit.
///
/// Every material by itself, again with four times the steps while one is not proven.
pub fn cutting(order: Order, saw: Saw, bare: Option<&Unit>, limits: &Limits) -> Cutting {
    let mut left = Vec::new();
    let mut lots = lots(&order, &saw, bare, &mut left);
    let mut steps = if lots.len() == 1 { limits.steps } else { FIRST_STEPS.min(limits.steps) };
    loop {
        for lot in &mut lots {
            let done = lot.plan.as_ref().is_some_and(Plan::is_proven);
            if !done && (lot.plan.is_none() || !(limits.stop)()) {
                let plan = solve(&lot.instance, &Limits { steps, stop: limits.stop });
                lot.keep(plan);
            }
        }
        let done = lots.iter().all(|lot| lot.plan.as_ref().is_some_and(Plan::is_proven));
        if done || steps >= limits.steps || (limits.stop)() {
            break;
        }
        steps = steps.saturating_mul(4).min(limits.steps);
    }
    let mut cutting = Cutting { order, saw, sticks: Vec::new(), left, cost: 0, bound: 0 };
    for lot in lots {
        cutting.add(lot);
    }
    cutting.left.sort_by_key(|left| left.part);
    cutting
}

impl Lot {
    /// Keeps a plan if it is sound: the cheaper of two, with the higher bound of both as far as its certificate shows it.
    fn keep(&mut self, plan: Plan) {
        if verify(&self.instance, &plan).is_err() {
            return;
        }
        let mut kept = match self.plan.take() {
            None => plan,
            Some(old) => {
                let is_better = (plan.left.iter().sum::<u32>(), plan.cost) < (old.left.iter().sum(), old.cost);
                let (mut better, other) = if is_better { (plan, old) } else { (old, plan) };
                if other.bound > better.bound {
                    better.bound = other.bound.min(better.cost);
                    better.certificate = other.certificate;
                }
                better
            }
        };
        kept.bound = certified(&self.instance, &kept, CHECK_STEPS);
        self.plan = Some(kept);
    }
}

/// The lots of an order; parts that no lot can take go to `left`.
fn lots(order: &Order, saw: &Saw, bare: Option<&Unit>, left: &mut Vec<Left>) -> Vec<Lot> {
    let key = |material: &Material| {
        let (wood, section) = material.key(bare);
        (order.by_wood.then_some(wood), order.by_section.then_some(section))
    };
    let mut lots: BTreeMap<_, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for (row, part) in order.parts.iter().enumerate() {
        lots.entry(key(&part.material)).or_default().0.push(row);
    }
    for (row, held) in order.stock.iter().enumerate() {
        // What has no profile may lie either way.
        let is_plain =
            |lot: &(Vec<usize>, Vec<usize>)| lot.0.iter().all(|row| order.parts[*row].joint != Joint::Profiled);
        let own = key(&held.material);
        if lots.contains_key(&own) {
            lots.entry(own).and_modify(|lot| lot.1.push(row));
        } else if let Some(turned) = held.material.turned(bare) {
            lots.entry(key(&turned)).and_modify(|lot| lot.1.extend(is_plain(lot).then_some(row)));
        }
    }
    let mut ready: Vec<Lot> = Vec::new();
    let mut groups = Groups::default();
    for (parts, stock) in lots.into_values() {
        let mut lot = Lot { parts: Vec::new(), stock: Vec::new(), instance: Instance::default(), plan: None };
        for row in stock {
            let held = &order.stock[row];
            let usable = saw.down(&(held.length.clone() - saw.trim.clone() * Real::whole(2)));
            if let Some(usable) = usable.filter(|_| held.count != Some(0)) {
                let cost = held.cost_by(order.pricing);
                lot.instance.stock.push(Stock { usable, count: held.count, cost, offcut: held.offcut });
                lot.stock.push(row);
            }
        }
        lot.instance.keep = saw.up(&saw.offcut).unwrap_or(u32::MAX);
        let longest = lot.instance.stock.iter().map(|stock| stock.usable).max();
        for row in parts {
            let wanted = &order.parts[row];
            let why = match (longest, part(wanted, saw, &mut groups)) {
                (None, _) => Why::NoStock,
                (Some(_), Some(part)) if part.length <= part.kerf => Why::UnderKerf,
                (Some(longest), Some(part)) if part.length <= longest => {
                    lot.instance.parts.push(part);
                    lot.parts.push(row);
                    continue;
                }
                (Some(longest), _) => Why::TooLong(saw.inches(longest)),
            };
            left.push(Left { part: row, quantity: wanted.quantity, why });
        }
        if !lot.parts.is_empty() {
            ready.push(lot);
        }
    }
    ready
}

/// The frames that parts belong to, by what their names begin with.
#[derive(Default)]
struct Groups(BTreeMap<String, u32>);

impl Groups {
    /// The frame of `1204 rail top` is `1204 rail`, and that of `A/left` is `A`: all before the last blank or slash.
    fn of(&mut self, wanted: &Wanted) -> Option<u32> {
        let name = wanted.frame.as_ref().unwrap_or(&wanted.name);
        let end = if wanted.frame.is_some() { name.len() } else { name.rfind([' ', '/', ':'])? };
        let next = u32::try_from(self.0.len()).unwrap_or(u32::MAX);
        Some(*self.0.entry(name[..end].to_string()).or_insert(next))
    }
}

/// A part in ticks; none if it is longer than any stick can be.
fn part(wanted: &Wanted, saw: &Saw, groups: &mut Groups) -> Option<Part> {
    let length = saw.up(&wanted.length)?;
    let kerf = saw.up(&saw.along(&wanted.mitre, &wanted.tilt))?;
    let fit = match wanted.joint {
        Joint::Reversible => {
            // Never more than the part is long: its outer edge is then a point.
            let overlap = saw.down(&wanted.overlap())?.min(length);
            // Parts of one angle are one setting; a quarter of a thousandth of a degree is the same setting.
            let setting = (wanted.mitre.clone() * Real::whole(4000)).floor().to_whole()?;
            Fit::Turned { overlap, setting: u32::try_from(setting).ok()? }
        }
        Joint::Square | Joint::Profiled => Fit::Apart,
    };
    Some(Part {
        length,
        kerf,
        fit,
        quantity: wanted.quantity,
        group: groups.of(wanted),
        short: is_short(&wanted.short, &saw.short),
    })
}

impl Cutting {
    /// Takes in what came of a lot.
    fn add(&mut self, lot: Lot) {
        let Some(plan) = &lot.plan else {
            let left = lot.parts.iter().map(|row| (*row, self.order.parts[*row].quantity));
            self.left.extend(left.map(|(part, quantity)| Left { part, quantity, why: Why::Unchecked }));
            return;
        };
        self.cost += plan.cost;
        self.bound += plan.bound;
        for (row, quantity) in plan.left.iter().enumerate().filter(|(_, quantity)| **quantity > 0) {
            self.left.push(Left { part: lot.parts[row], quantity: *quantity, why: Why::UsedUp });
        }
        for stick in &plan.sticks {
            let cut = self.cut(&lot, stick);
            self.sticks.push(cut);
        }
    }

    fn cut(&self, lot: &Lot, stick: &crate::cut::Stick) -> Stick {
        let stock = lot.stock[stick.stock];
        let length = self.order.stock[stock].length.clone();
        let mut pieces = Vec::new();
        let mut at = Real::ZERO;
        let mut parts = Real::ZERO;
        let mut before: Option<&Part> = None;
        for row in &stick.parts {
            let part = &lot.instance.parts[*row];
            let (gap, shared) = match (before, part.fit) {
                (None, _) => (Real::ZERO, Real::ZERO),
                (Some(before), Fit::Apart) => (self.saw.inches(before.kerf.max(part.kerf)), Real::ZERO),
                (Some(before), Fit::Turned { overlap, .. }) => (self.saw.inches(before.kerf), self.saw.inches(overlap)),
            };
            let from = at.clone() + gap - shared.clone();
            let to = from.clone() + self.saw.inches(part.length);
            parts = parts + self.order.parts[lot.parts[*row]].length.clone() - shared;
            pieces.push(Piece { part: lot.parts[*row], from, to: to.clone() });
            at = to;
            before = Some(part);
        }
        let kerf = before.map_or(Real::ZERO, |part| self.saw.inches(part.kerf));
        // The cut behind the last part is made where there is something behind it.
        let rest = self.saw.inches(lot.instance.stock[stick.stock].usable) - at - kerf;
        let kept = rest.is_positive() && rest >= self.saw.offcut;
        let offcut = if kept { rest } else { Real::ZERO };
        let waste = length - parts - offcut.clone();
        Stick { stock, pieces, offcut, waste }
    }
}
