//! Glass, boards and the like: sheets cut from edge to edge, each material by itself.

use super::price::Pricing;
use super::rack::Item;
use super::saw::Saw;
use super::work::WantedSheet;
use super::yard::{Nature, Yard};
use crate::cut::sheet::{Instance, Piece, Placed, Plan, Sheet, solve, verify};
use crate::measure::{Real, Unit, read};

/// A plan for the pieces of one material.
#[derive(Clone, Debug)]
pub struct Sheeting {
    /// Its pieces, by their rows among the sheets wanted.
    pub rows: Vec<usize>,
    /// For each row of the instance's sheets: its row of the rack.
    pub items: Vec<usize>,
    /// In ticks.
    pub instance: Instance,
    /// Whether cost is money, or else a count of sheets.
    pub pricing: Pricing,
    /// Checked.
    pub plan: Plan,
}

impl Sheeting {
    /// Where everything lies on a sheet of the plan, in inches from its lower left corner.
    pub fn placed(&self, layout: usize, saw: &Saw) -> Vec<(Placed, [Real; 2])> {
        let layout = &self.plan.layouts[layout];
        let place = |placed: Placed| (placed, [saw.inches(placed.left), saw.inches(placed.bottom)]);
        layout.placed(&self.instance).into_iter().map(place).collect()
    }

    /// How many sheets the plan takes.
    pub fn count(&self) -> usize {
        self.plan.layouts.len()
    }

    /// Whether a sheet in stock is large enough for the pieces of a row.
    pub fn holds(&self, row: usize) -> bool {
        let piece = &self.instance.pieces[row];
        let fits =
            |width, height| self.instance.sheets.iter().any(|sheet| sheet.width >= width && sheet.height >= height);
        fits(piece.width, piece.height) || piece.turns && fits(piece.height, piece.width)
    }

    /// The part of all sheets that is pieces, from 0 to 1.
    pub fn used(&self) -> Real {
        let area = |width: u32, height: u32| Real::whole(i64::from(width)) * Real::whole(i64::from(height));
        let whole = self.plan.layouts.iter().map(|layout| &self.instance.sheets[layout.sheet]);
        let whole = whole.fold(Real::ZERO, |sum, sheet| sum + area(sheet.width, sheet.height));
        let pieces = self.instance.pieces.iter().zip(&self.plan.left);
        let pieces = pieces.fold(Real::ZERO, |sum, (piece, left)| {
            sum + area(piece.width, piece.height) * Real::whole(i64::from(piece.quantity - left))
        });
        if whole.is_positive() { pieces / whole } else { Real::ZERO }
    }
}

/// Whether a row of the rack is of a material: the same word, and a thickness that measures the same if the row has one.
fn is_of(item: &Item, wanted: &WantedSheet, bare: Option<&Unit>) -> bool {
    let inches = |text: &str| read::quantity(text, bare).ok().map(|length| length.amount);
    let (own, other) = (&item.material, &wanted.material);
    let thickness =
        own.section.is_empty() || inches(&own.section).is_some_and(|own| Some(own) == inches(&other.section));
    own.wood.eq_ignore_ascii_case(&other.wood) && thickness
}

/// Plans sheets; pieces of which the shop has no sheets are in no plan.
pub(super) fn sheeting(
    wanted: &[WantedSheet],
    items: &[(usize, &Item)],
    pricing: Pricing,
    yard: &Yard,
) -> Vec<Sheeting> {
    let Yard { saw, natures, bare, limits, .. } = *yard;
    let mut plans: Vec<Sheeting> = Vec::new();
    let mut done = vec![false; wanted.len()];
    for first in 0..wanted.len() {
        let stock: Vec<&(usize, &Item)> = items.iter().filter(|(_, item)| is_of(item, &wanted[first], bare)).collect();
        if done[first] || stock.is_empty() {
            continue;
        }
        let alike = |row: &usize| wanted[*row].material == wanted[first].material;
        let rows: Vec<usize> = (first..wanted.len()).filter(alike).collect();
        rows.iter().for_each(|row| done[*row] = true);
        let Nature { has_kerf, turns, .. } = Nature::of(&wanted[first].material.wood, natures);
        let kerf = if has_kerf { saw.up(&saw.kerf).unwrap_or(0) } else { 0 };
        let piece = |row: &usize| {
            let one = &wanted[*row];
            Some(Piece { width: saw.up(&one.width)?, height: saw.up(&one.height)?, quantity: one.quantity, turns })
        };
        let pieces = rows.iter().map(piece).collect::<Option<Vec<_>>>();
        let sheet = |(_, item): &&(usize, &Item)| {
            let (width, height) = (saw.down(&item.length)?, saw.down(item.width.as_ref()?)?);
            Some(Sheet { width, height, count: item.count, cost: pricing.each(item.cost) })
        };
        let sheets = stock.iter().map(sheet).collect::<Option<Vec<_>>>();
        let (Some(pieces), Some(sheets)) = (pieces, sheets) else { continue };
        let instance = Instance { kerf, trim: 0, pieces, sheets };
        let plan = solve(&instance, limits);
        // What does not pass its check is not shown.
        if verify(&instance, &plan).is_ok() {
            plans.push(Sheeting { rows, items: stock.iter().map(|(at, _)| *at).collect(), instance, pricing, plan });
        }
    }
    plans
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cut::Limits;
    use crate::plan::yard::Ripping;
    use crate::plan::{Material, Rack, What};
    use crate::rules::shipped;

    /// Worked by hand: on 32 x 40 lie four of 16 x 20, so that eight take two sheets, and nothing is left of either.
    #[test]
    fn panes_come_out_of_sheets() {
        let table = "what,length,width,count,cost,wood,section\nsheet,40,32,5,6,glass,2mm\nsheet,40,32,5,6,mdf,1/4\n";
        let mut found = Vec::new();
        let rack = Rack::read("stock.csv", table, Unit::named("in"), &mut found).unwrap();
        let pane = WantedSheet {
            name: "glazing".into(),
            width: Real::whole(16),
            height: Real::whole(20),
            quantity: 8,
            material: Material::new("glass", "2mm"),
        };
        let saw = Saw {
            metric: false,
            kerf: Real::ratio(1, 8),
            trim: Real::ZERO,
            offcut: Real::whole(12),
            short: Real::whole(8),
        };
        let ripping = Ripping { edge: Real::ZERO, mill: Real::ZERO, ends: Real::ZERO, yields: Vec::new() };
        let limits = Limits::steps(1_000_000);
        let natures = Nature::all(&shipped());
        let yard = Yard { saw: &saw, ripping: &ripping, natures: &natures, bare: Unit::named("in"), limits: &limits };
        let items: Vec<(usize, &Item)> = rack.of(What::Sheet).collect();
        let made = sheeting(std::slice::from_ref(&pane), &items, rack.pricing(), &yard);
        assert_eq!((made[0].plan.layouts.len(), made[0].plan.cost, made[0].plan.bound), (2, 1200, 1200));
        assert_eq!(made[0].used().to_text(), "1");
        // A saw takes its kerf: two beside one another no longer fit.
        let board = WantedSheet { material: Material::new("mdf", "1/4"), quantity: 2, ..pane };
        let made = sheeting(&[board], &items, rack.pricing(), &yard);
        assert_eq!(made[0].plan.layouts.len(), 1);
        assert_eq!(made[0].instance.kerf, 8);
    }
}
