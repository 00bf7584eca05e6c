//! All that designs need, out of all that the shop has: sticks and offcuts first, boards for what they lack.

use super::boards::{Boarding, Cut, boarding};
use super::job::{Cutting, Left, Order, cutting};
use super::material::Material;
use super::rack::{Held, Rack, What};
use super::saw::Saw;
use super::sheets::{Sheeting, sheeting};
use super::work::{Gives, LeftRow, Wanted, WantedSheet, Work};
use super::yard::{Nature, Ripping, Yard};
use crate::cut::Limits;
use crate::measure::Unit;
use crate::rules::Design;

/// A plan for everything.
#[derive(Clone, Debug)]
pub struct Whole {
    /// What it was planned from.
    pub rack: Rack,
    /// Whether the shop said what it has, or usual sticks were taken.
    pub is_recorded: bool,
    /// Parts out of sticks and offcuts.
    pub sticks: Cutting,
    /// For each row of the sticks' stock: its row of the rack.
    pub rows: Vec<usize>,
    /// Parts out of boards.
    pub boards: Boarding,
    /// Sheets that are wanted.
    pub sheets: Vec<WantedSheet>,
    /// Plans for them, material by material.
    pub sheeting: Vec<Sheeting>,
    /// Rows of a table of parts or of works that are left out as a whole.
    pub left_rows: Vec<LeftRow>,
}

/// Sticks and offcuts, each with its row of the rack. A stick whose wood or section is not recorded does for any that is
/// wanted: as many as wanted of each, or all of the first.
fn stock(rack: &Rack, parts: &[Wanted], compared: Gives, bare: Option<&Unit>) -> (Vec<usize>, Vec<Held>) {
    let mut materials: Vec<&Material> = Vec::new();
    for part in parts {
        if !materials.contains(&&part.material) {
            materials.push(&part.material);
        }
    }
    let (mut rows, mut stock) = (Vec::new(), Vec::new());
    for (row, held) in rack.held() {
        let (any_wood, any_section) =
            (compared.wood && held.material.wood.is_empty(), compared.section && held.material.section.is_empty());
        if !any_wood && !any_section {
            rows.push(row);
            stock.push(held);
            continue;
        }
        let own = held.material.key(bare);
        let fits = |material: &&&Material| {
            let (wood, section) = material.key(bare);
            (any_wood || !compared.wood || own.0 == wood) && (any_section || !compared.section || own.1 == section)
        };
        let most = if held.count.is_some() { 1 } else { usize::MAX };
        for material in materials.iter().filter(fits).take(most) {
            rows.push(row);
            stock.push(Held { material: (*material).clone(), ..held.clone() });
        }
    }
    (rows, stock)
}

/// The search for sheets goes on until it is stopped, where nothing is proven: so many steps are some seconds.
fn sheet_limits<'a>(limits: &Limits<'a>) -> Limits<'a> {
    Limits { steps: limits.steps.min(SHEET_STEPS), stop: limits.stop }
}

const SHEET_STEPS: u64 = 300_000_000;

impl Work {
    /// Plans it out of a rack, or out of the usual sticks where the shop has recorded no stock. This is the only way in:
    /// prompt, scripts, batch and command line all come through here.
    ///
    /// `shop` has the settings and the bench unit, `saw` what a cut takes.
    pub fn plan(self, rack: Option<Rack>, shop: &Design, saw: &Saw, limits: &Limits) -> Whole {
        let (ripping, natures) = (Ripping::of(shop), Nature::all(shop.book()));
        let bare = Some(shop.bare_unit());
        whole(self, rack, &Yard { saw, ripping: &ripping, natures: &natures, bare, limits })
    }
}

/// Plans a piece of work out of the rack; what sticks do not give is planned from boards.
fn whole(work: Work, rack: Option<Rack>, yard: &Yard) -> Whole {
    let Yard { saw, bare, limits, .. } = *yard;
    let Work { parts, sheets, gives, rows: left_rows, .. } = work;
    let is_recorded = rack.is_some();
    let rack = rack.unwrap_or_else(|| Rack::assumed(saw.metric));
    let compared = gives.and(rack.gives());
    let (rows, stock) = stock(&rack, &parts, compared, bare);
    let pricing = rack.pricing();
    let order = Order { parts, stock, by_wood: compared.wood, by_section: compared.section, pricing };
    let mut sticks = cutting(order, saw.clone(), bare, limits);
    let items: Vec<_> = rack.of(What::Board).collect();
    let mut boards = Boarding::default();
    if !items.is_empty() && !sticks.left.is_empty() {
        let wanted = sticks.left.iter().map(|left| {
            let part = &sticks.order.parts[left.part];
            Wanted { quantity: left.quantity, ..part.clone() }
        });
        boards = boarding(wanted.collect(), &items, pricing, yard);
        // Of what the sticks lack, only what the boards lack too is left.
        let lacks: Vec<_> = sticks
            .left
            .iter()
            .enumerate()
            .filter_map(|(at, left)| {
                let lack = boards.left.iter().filter(|one| one.part == at).map(|one| one.quantity).sum();
                (lack > 0).then(|| Left { quantity: lack, ..left.clone() })
            })
            .collect();
        sticks.left = lacks;
    }
    let stock: Vec<_> = rack.of(What::Sheet).collect();
    let sheeting = sheeting(&sheets, &stock, pricing, &Yard { limits: &sheet_limits(limits), ..*yard });
    Whole { rack, is_recorded, sticks, rows, boards, sheets, sheeting, left_rows }
}

impl Whole {
    /// How many pieces of stock it takes.
    pub fn pieces(&self) -> usize {
        let sheets: usize = self.sheeting.iter().map(|sheeting| sheeting.plan.layouts.len()).sum();
        self.sticks.sticks.len() + self.boards.boards.len() + sheets
    }

    /// What all of it costs, in cents or pieces, and what no plan of the same parts costs less than.
    pub fn cost(&self) -> (u64, u64) {
        let sheets = self.sheeting.iter().map(|one| (one.plan.cost, one.plan.bound));
        let all = sheets.chain([(self.sticks.cost, self.sticks.bound), (self.boards.cost, self.boards.bound)]);
        all.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
    }

    /// How many offcuts are worth keeping.
    pub fn offcuts(&self) -> usize {
        let sticks = self.sticks.sticks.iter().filter(|stick| stick.offcut.is_positive()).count();
        sticks + self.boards.blocks().filter(|block| matches!(block.cut, Cut::Offcut(..))).count()
    }

    /// The rack after the plan is carried out: stock out, offcuts in.
    pub fn taken(&self) -> Rack {
        let mut rack = self.rack.clone();
        for stick in &self.sticks.sticks {
            rack.book_out(self.rows[stick.stock]);
            if stick.offcut.is_positive() {
                rack.book_in(&stick.offcut, &self.sticks.material_of(stick));
            }
        }
        for board in &self.boards.boards {
            rack.book_out(board.item);
            for block in board.block.each() {
                if let Cut::Offcut(part, length) = &block.cut {
                    rack.book_in(length, &self.boards.parts[*part].material);
                }
            }
        }
        for sheeting in &self.sheeting {
            sheeting.plan.layouts.iter().for_each(|layout| rack.book_out(sheeting.items[layout.sheet]));
        }
        rack.tidy();
        rack
    }
}

impl Whole {
    /// Pieces of which the shop has no sheets: they are bought in their own size.
    pub fn sheets_to_get(&self) -> impl Iterator<Item = &WantedSheet> {
        let planned = |row: usize| self.sheeting.iter().any(|one| one.rows.contains(&row));
        self.sheets.iter().enumerate().filter(move |(row, _)| !planned(*row)).map(|(_, sheet)| sheet)
    }
}
