//! What is proven of the sticks, the boards, and the sheets of each material of a plan.

use super::material::Material;
use super::price::Pricing;
use super::whole::Whole;

/// What one kind of stock costs in a plan, and below what no plan can come.
#[derive(Clone, Debug)]
pub struct Proof {
    /// What it is about: `stick`, `board` or `sheet`.
    pub what: &'static str,
    /// The material of sheets.
    pub material: Material,
    /// How many the plan takes.
    pub count: usize,
    /// Whether cost is money, or else a count.
    pub pricing: Pricing,
    /// What they cost.
    pub cost: u64,
    /// No plan for the same parts costs less.
    pub bound: u64,
    /// What it holds for alone, where something was left out; empty where nothing was.
    pub holds_for: String,
}

impl Proof {
    /// Whether no plan for the same parts costs less.
    pub fn is_proven(&self) -> bool {
        self.cost == self.bound
    }

    /// What it is about, in words: `sticks`, `sheets of glass 2mm`.
    pub fn of(&self) -> String {
        match self.material.words().as_str() {
            "" => format!("{}s", self.what),
            material => format!("{}s of {material}", self.what),
        }
    }
}

impl Whole {
    /// What the proofs hold for alone: the parts that are planned, the stock that could be read. Empty where nothing was
    /// left out.
    pub fn holds_for(&self) -> String {
        let parts = self.lacking().next().is_some().then_some("for the parts planned");
        let stock = (self.rack.unread > 0).then_some("from the stock that could be read");
        parts.into_iter().chain(stock).collect::<Vec<_>>().join(" ")
    }

    /// A proof for each kind of stock that the plan takes.
    pub fn proofs(&self) -> impl Iterator<Item = Proof> {
        let Self { sticks, boards, .. } = self;
        let holds_for = self.holds_for();
        let held = holds_for.clone();
        let of_sticks = (!sticks.sticks.is_empty()).then(|| Proof {
            what: "stick",
            material: Material::default(),
            count: sticks.sticks.len(),
            pricing: sticks.order.pricing,
            cost: sticks.cost,
            bound: sticks.bound,
            holds_for: holds_for.clone(),
        });
        let of_boards = (!boards.boards.is_empty()).then(|| Proof {
            what: "board",
            material: Material::default(),
            count: boards.boards.len(),
            pricing: boards.pricing,
            cost: boards.cost,
            bound: boards.bound,
            holds_for: holds_for.clone(),
        });
        let of_sheets = self.sheeting.iter().filter(|one| !one.plan.layouts.is_empty()).map(move |one| Proof {
            what: "sheet",
            material: one.rows.first().map_or_else(Material::default, |row| self.sheets[*row].material.clone()),
            count: one.plan.layouts.len(),
            pricing: one.pricing,
            cost: one.plan.cost,
            bound: one.plan.bound,
            holds_for: held.clone(),
        });
        of_sticks.into_iter().chain(of_boards).chain(of_sheets)
    }
}
