//! What is answered of a plan, of all that is cut in it, and of the stock.

mod board;
mod sheet;
mod stick;
mod stock;

use super::boards::Board;
use super::buy::{Purchase, purchases};
use super::job::Stick;
use super::lacking::Unplanned;
use super::material::Material;
use super::price::Pricing;
use super::proof::Proof;
use super::rack::Item;
use super::setting::{ShortPart, StopSetting};
use super::whole::Whole;
use super::work::WantedSheet;
use crate::fact::{Datum, Fact, Field, Items, Kind, Level, Shape, field, rows};
use crate::measure::Real;
use crate::measure::write::Manner;
use crate::table::table;

pub use sheet::{Layout, PlacedPiece, layouts, placed};

/// An amount of cost.
fn cost<'a>(pricing: Pricing, amount: u64) -> Datum<'a> {
    Datum::Cost { amount, money: pricing.is_money() }
}

/// A price in cents, where there is one.
fn price<'a>(cents: Option<u64>) -> Datum<'a> {
    Datum::maybe(cents, |amount| Datum::Cost { amount, money: true })
}

/// The width of a board or a sheet, each of which has one.
fn width<'a>(item: &Item) -> Datum<'a> {
    Datum::inches(item.width.as_ref().unwrap_or(&Real::ZERO))
}

/// Wood and section in words.
fn of<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.words())
}

fn wood<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.wood)
}

fn section<'a>(material: &Material) -> Datum<'a> {
    some_text(&material.section)
}

/// A text, or nothing where it is empty.
fn some_text<'a>(text: &str) -> Datum<'a> {
    if text.is_empty() { Datum::Nothing } else { Datum::text(text.to_string()) }
}

const fn each(kind: &'static Kind) -> Kind {
    Kind::Each(kind)
}

/// A plan as a table: a row for each part in the stick, board or sheet that it is cut from, in the order of cutting; then
/// pieces that are bought in their own size, and the parts that the plan leaves out.
pub fn plan_csv(whole: &Whole, manner: &Manner) -> String {
    let lists: Vec<(&'static dyn Shape, Items<'_, Datum<'_>>)> = vec![
        (Stick::SHAPE, whole.stick_facts()),
        (Board::SHAPE, whole.board_facts()),
        (Layout::SHAPE, whole.sheet_facts()),
        (WantedSheet::SHAPE, whole.sheets_to_get_facts()),
        (Unplanned::SHAPE, whole.unplanned_facts()),
    ];
    table(rows::union(lists, manner))
}

/// What a plan takes of the stock or from the dealer as a table, with the parts that no stock gives.
pub fn buy_csv(whole: &Whole, manner: &Manner) -> String {
    rows::csv::<Purchase>(purchases(whole).into_iter(), manner)
}

/// A plan with the seconds that it took.
impl Fact for Whole {
    type Of<'a> = (&'a Self, f64);
    const NAME: &'static str = "plan";
    const DOC: &'static str = "A cutting plan.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>(
            "cost",
            Kind::Cost,
            "cost of the stock, or how many pieces of it where nothing has a price",
            |(whole, _), _| cost(whole.sticks.order.pricing, whole.cost().0),
        )
        .at(Level::Key),
        field::<Self>("bound", Kind::Cost, "the least that any plan for these parts can cost", |(whole, _), _| {
            cost(whole.sticks.order.pricing, whole.cost().1)
        }),
        field::<Self>("proven", Kind::Truth, "whether the cost is the bound", |(whole, _), _| {
            let (cost, bound) = whole.cost();
            Datum::Truth(cost == bound)
        }),
        field::<Self>(
            "holds_for",
            Kind::Text,
            "what bound and proof hold for alone, where something was left out",
            |(whole, _), _| some_text(&whole.holds_for()),
        )
        .optional(),
        field::<Self>(
            "proofs",
            each(&Kind::One(Proof::SHAPE)),
            "the same for sticks, boards and sheets",
            |(whole, _), _| Datum::facts::<Proof>(whole.proofs()),
        ),
        field::<Self>(
            "stock_recorded",
            Kind::Truth,
            "whether the shop has recorded its stock; if not, the usual sticks are assumed",
            |(whole, _), _| Datum::Truth(whole.is_recorded),
        )
        .formerly(&["stock_said"]),
        field::<Self>("seconds", Kind::Seconds, "how long the search took", |(_, seconds), _| {
            Datum::Seconds((seconds * 1000.0).round() / 1000.0)
        }),
        field::<Self>(
            "buy",
            each(&Kind::One(Purchase::SHAPE)),
            "what to take from the rack or buy",
            |(whole, _), _| Datum::facts::<Purchase>(purchases(whole).into_iter()),
        ),
        field::<Self>(
            "stop_settings",
            each(&Kind::One(StopSetting::SHAPE)),
            "each length that more than one part is cut to",
            |(whole, _), _| Datum::facts::<StopSetting>(whole.sticks.stop_settings().into_iter()),
        ),
        field::<Self>(
            "sticks",
            each(&Kind::One(Stick::SHAPE)),
            "the sticks, in the order of cutting",
            |(whole, _), _| Datum::Each(whole.stick_facts()),
        ),
        field::<Self>(
            "boards",
            each(&Kind::One(Board::SHAPE)),
            "the boards that parts are ripped from",
            |(whole, _), _| Datum::Each(whole.board_facts()),
        ),
        field::<Self>(
            "sheets",
            each(&Kind::One(Layout::SHAPE)),
            "the sheets that pieces are cut from",
            |(whole, _), _| Datum::Each(whole.sheet_facts()),
        ),
        field::<Self>(
            "sheets_to_get",
            each(&Kind::One(WantedSheet::SHAPE)),
            "pieces of a sheet material that is not in stock",
            |(whole, _), _| Datum::Each(whole.sheets_to_get_facts()),
        ),
        field::<Self>(
            "short_parts",
            each(&Kind::One(ShortPart::SHAPE)),
            "parts that are too short to hold at the saw",
            |(whole, _), _| Datum::facts::<ShortPart>(whole.sticks.short_parts().into_iter()),
        ),
        field::<Self>(
            "unplanned",
            each(&Kind::One(Unplanned::SHAPE)),
            "parts and works that the plan leaves out",
            |(whole, _), _| Datum::Each(whole.unplanned_facts()),
        ),
    ];
}

impl Whole {
    /// The sticks, numbered.
    pub fn stick_facts(&self) -> Items<'_, Datum<'_>> {
        let sticks = self.sticks.sticks.iter().enumerate();
        Box::new(sticks.map(move |(at, stick)| Datum::fact::<Stick>((&self.sticks, at, stick))))
    }

    /// The boards, numbered.
    pub fn board_facts(&self) -> Items<'_, Datum<'_>> {
        let boards = self.boards.boards.iter().enumerate();
        Box::new(boards.map(move |(at, board)| Datum::fact::<Board>((self, at, board))))
    }

    /// The sheets of all materials, numbered.
    pub fn sheet_facts(&self) -> Items<'_, Datum<'_>> {
        Box::new(layouts(self).map(Datum::fact::<Layout>))
    }

    /// Pieces of a sheet material that is not in stock.
    pub fn sheets_to_get_facts(&self) -> Items<'_, Datum<'_>> {
        Box::new(self.sheets_to_get().map(Datum::fact::<WantedSheet>))
    }

    /// Parts that the plan leaves out.
    pub fn unplanned_facts(&self) -> Items<'_, Datum<'_>> {
        Box::new(self.lacking().map(Datum::fact::<Unplanned>))
    }
}

impl Fact for Proof {
    type Of<'a> = Self;
    const NAME: &'static str = "proof";
    const DOC: &'static str = "What is proven of the sticks, boards or sheets of a plan.";
    const FIELDS: &'static [Field<Self>] = &[
        field::<Self>("of", Kind::Text, "what it is about", |proof, _| Datum::text(proof.of())).at(Level::Key),
        field::<Self>("count", Kind::Count, "how many the plan takes", |proof, _| Datum::count(proof.count)),
        field::<Self>("cost", Kind::Cost, "what they cost", |proof, _| cost(proof.pricing, proof.cost)),
        field::<Self>("bound", Kind::Cost, "the least that any plan for the same parts can cost", |proof, _| {
            cost(proof.pricing, proof.bound)
        }),
        field::<Self>("proven", Kind::Truth, "whether the cost is the bound", |proof, _| {
            Datum::Truth(proof.is_proven())
        }),
        field::<Self>("holds_for", Kind::Text, "what it holds for alone, where something was left out", |proof, _| {
            some_text(&proof.holds_for)
        })
        .optional(),
    ];
}
