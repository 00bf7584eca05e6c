//! What the shop has: sticks, offcuts, boards and sheets, as a table.

use csv::Writer;

use super::material::Material;
use super::price::{Pricing, price, quarters};
use super::read::{Held, bad, count, long};
use super::table::{Cell, Column, Table};
use super::work::Gives;
use crate::diag::Diagnostic;
use crate::measure::write::exactly;
use crate::measure::{Quantity, Real, Unit};

/// What a row of the rack is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Milled to its section.
    Stick,
    /// A rest of a stick that was worth keeping.
    Offcut,
    /// Rough, to be ripped; its section is its thickness in quarters of an inch, `4/4`.
    Board,
    /// Glass, board and the like; its section is its thickness.
    Sheet,
}

/// Every kind with the word for it.
pub const WHATS: &[(&str, What)] =
    &[("stick", What::Stick), ("offcut", What::Offcut), ("board", What::Board), ("sheet", What::Sheet)];

/// One row of the rack.
#[derive(Clone, Debug)]
pub struct Item {
    /// What it is.
    pub what: What,
    /// End to end, in inches.
    pub length: Real,
    /// Across, in inches: of boards and sheets.
    pub width: Option<Real>,
    /// How many; none means as many as wanted.
    pub count: Option<u32>,
    /// What one costs, in cents; none means that pieces are counted.
    pub cost: Option<u32>,
    /// What of.
    pub material: Material,
    /// The cells as they were written, the count left out.
    written: [String; 7],
}

/// All that the shop has.
#[derive(Clone, Debug, Default)]
pub struct Rack {
    /// In the order of the table.
    pub items: Vec<Item>,
    /// The columns of the table, in their order; none for all of them.
    pub columns: Vec<&'static str>,
}

impl Item {
    /// Whether two rows are of the same pieces: all cells are, but for the count.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        let mut one = other.written.clone();
        one[COUNT].clone_from(&self.written[COUNT]);
        one == self.written && self.count.is_none() == other.count.is_none()
    }

    /// Its cells as they were written, and the count as it is now.
    pub(super) fn cells(&self) -> [String; 7] {
        let mut cells = self.written.clone();
        cells[COUNT] = self.count.map_or_else(String::new, |count| count.to_string());
        cells
    }

    /// Its row with another cost.
    pub fn line_at(&self, cost: &str) -> String {
        let mut cells = self.cells();
        cells[COST] = cost.into();
        lines(&[cells]).trim_end().to_string()
    }
}

/// Rows as text.
fn lines(rows: &[[String; 7]]) -> String {
    let mut writer = Writer::from_writer(Vec::new());
    // Writing to memory does not fail, and all of it is text.
    let written = rows.iter().try_for_each(|row| writer.write_record(row));
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

const COLUMNS: [Column; 7] = [
    Column { name: "what", needed: false },
    Column { name: "length", needed: true },
    Column { name: "width", needed: false },
    Column { name: "count", needed: false },
    Column { name: "cost", needed: false },
    Column { name: "wood", needed: false },
    Column { name: "section", needed: false },
];

/// Where count and cost stand among them.
const COUNT: usize = 3;
const COST: usize = 4;

impl Rack {
    /// The first line of its table.
    pub const HEAD: &str = "what,length,width,count,cost,wood,section";

    /// Whether what is bought has a price, or is counted. Offcuts are there already and say nothing of it.
    pub fn pricing(&self) -> Pricing {
        let is_priced = self.items.iter().any(|item| item.what != What::Offcut && item.cost.is_some());
        if is_priced { Pricing::Money } else { Pricing::Count }
    }

    /// Reads the table `what,length,width,count,cost,wood,section`. A row with a cell that cannot be read is left out, and
    /// `found` says why. Bare numbers are of the bench unit; an empty count is as many as wanted; a cost is of one piece,
    /// or by the foot (`1.80/ft`) or the board foot (`9.50/bdft`). Where one has a cost all have one, offcuts excepted.
    ///
    /// # Errors
    /// A table without a column of lengths.
    pub fn read(text: &str, bare: Option<&Unit>, found: &mut Vec<Diagnostic>) -> Result<Self, Diagnostic> {
        let table = Table::read(text, "stock", &COLUMNS, found)?;
        let mut rack = Self { items: Vec::new(), columns: table.columns(&COLUMNS) };
        let mut spans = Vec::new();
        for cells in table.rows {
            match item(&cells, bare) {
                Ok(item) => {
                    spans.push(cells[COST].span.clone());
                    rack.items.push(item);
                }
                Err(one) => found.push(one),
            }
        }
        if rack.pricing().is_money() {
            // What has no price among priced ones would be a gift to the plan.
            let is_gift = |item: &Item| item.what != What::Offcut && item.cost.is_none();
            for (item, span) in rack.items.iter().zip(spans).filter(|(item, _)| is_gift(item)) {
                let message = "this row has no cost, and others have one";
                found.push(Diagnostic::new(message).at(span).hint(item.line_at("12.50")));
            }
            rack.items.retain(|item| !is_gift(item));
        }
        Ok(rack)
    }

    /// Whether a row goes with those that are there: all that is bought has a cost, or nothing.
    ///
    /// # Errors
    /// What is unlike, with the row as it would do.
    pub fn may_take(&self, item: &Item) -> Result<(), Diagnostic> {
        let is_bought = |item: &Item| item.what != What::Offcut;
        if !is_bought(item) || !self.items.iter().any(is_bought) {
            return Ok(());
        }
        match (self.pricing(), item.cost) {
            (Pricing::Money, None) => {
                Err(Diagnostic::new("this row has no cost, and others have one").hint(item.line_at("12.50")))
            }
            (Pricing::Count, Some(_)) => {
                Err(Diagnostic::new("this row has a cost, and the others have none").hint(item.line_at("")))
            }
            (Pricing::Money, Some(_)) | (Pricing::Count, None) => Ok(()),
        }
    }

    /// Whether its table has columns for wood and section.
    pub fn gives(&self) -> Gives {
        let has = |name: &str| self.columns.is_empty() || self.columns.contains(&name);
        Gives { wood: has("wood"), section: has("section") }
    }

    /// The rack as a table that reads back, a row a line.
    pub fn text(&self) -> String {
        let mut rows = vec![COLUMNS.map(|column| column.name.to_string())];
        for item in &self.items {
            rows.push(item.cells());
        }
        lines(&rows)
    }

    /// What a shop has that says nothing: sticks of 8 ft, or 2.4 m, of every wood and section, as many as wanted.
    pub fn unsaid(metric: bool) -> Self {
        let length = if metric { Real::ratio(2400 * 5, 127) } else { Real::whole(96) };
        let item = Item {
            what: What::Stick,
            length,
            width: None,
            count: None,
            cost: None,
            material: Material::default(),
            written: Default::default(),
        };
        Self { items: vec![item], columns: Vec::new() }
    }

    /// The rows of one kind, with their places.
    pub fn of(&self, what: What) -> impl Iterator<Item = (usize, &Item)> {
        self.items.iter().enumerate().filter(move |(_, item)| item.what == what)
    }

    /// Sticks and offcuts as stock of a plan, each with its place in the rack.
    pub fn held(&self) -> Vec<(usize, Held)> {
        let sticks = self.items.iter().enumerate().filter(|(_, item)| matches!(item.what, What::Stick | What::Offcut));
        sticks
            .map(|(at, item)| {
                let offcut = item.what == What::Offcut;
                let cost = if offcut { Some(0) } else { item.cost };
                let held = Held {
                    length: item.length.clone(),
                    count: item.count,
                    cost,
                    material: item.material.clone(),
                    offcut,
                };
                (at, held)
            })
            .collect()
    }

    /// Books one piece of a row out.
    pub fn book_out(&mut self, at: usize) {
        if let Some(count) = self.items.get_mut(at).and_then(|item| item.count.as_mut()) {
            *count = count.saturating_sub(1);
        }
    }

    /// Books an offcut in: one more of a like row, or a row of its own.
    pub fn book_in(&mut self, length: &Real, material: &Material) {
        let like = self
            .items
            .iter_mut()
            .find(|item| item.what == What::Offcut && item.length.same(length) && item.material == *material);
        if let Some(count) = like.and_then(|item| item.count.as_mut()) {
            *count += 1;
            return;
        }
        let text = exactly(&Quantity::inches(length.clone()));
        let written = [
            "offcut".into(),
            text,
            String::new(),
            String::new(),
            "0".into(),
            material.wood.clone(),
            material.section.clone(),
        ];
        self.items.push(Item {
            what: What::Offcut,
            length: length.clone(),
            width: None,
            count: Some(1),
            cost: Some(0),
            material: material.clone(),
            written,
        });
    }

    /// Takes away rows of which nothing is left; offcuts, that is, for a row of sticks is bought again.
    pub fn tidy(&mut self) {
        self.items.retain(|item| item.what != What::Offcut || item.count != Some(0));
    }
}

fn item(cells: &[Cell], bare: Option<&Unit>) -> Result<Item, Diagnostic> {
    let [what_cell, length, width, held, cost, wood, section] = cells else {
        return Err(Diagnostic::new("a row of stock has seven cells"));
    };
    let word = what_cell.text.to_lowercase();
    let what = match WHATS.iter().find(|(name, _)| *name == word) {
        Some((_, what)) => *what,
        None if word.is_empty() => What::Stick,
        None => {
            let message = format!("stock is a stick, an offcut, a board or a sheet, not {}", what_cell.text);
            return Err(bad(what_cell, message, "stick"));
        }
    };
    let inches = long(length, "length", bare)?;
    let across = if width.text.is_empty() { None } else { Some(long(width, "width", bare)?) };
    if matches!(what, What::Board | What::Sheet) && across.is_none() {
        return Err(bad(width, format!("a {word} has a width"), "6"));
    }
    let material = Material::new(&wood.text, &section.text);
    if what == What::Board && quarters(&material.section).is_none() {
        return Err(bad(section, "the section of a board is its thickness in quarters", "4/4"));
    }
    if what == What::Sheet && cost.text.ends_with("/ft") {
        return Err(bad(cost, "a cost by the foot is of sticks and boards, and this is a sheet", "18"));
    }
    let cost = price(cost, &inches, across.as_ref(), &material)?;
    Ok(Item {
        what,
        length: inches,
        width: across,
        count: count(held, "count")?,
        cost,
        material,
        written: std::array::from_fn(|at| cells[at].text.clone()),
    })
}

#[cfg(test)]
mod tests;
