//! What the shop has: sticks, offcuts, boards and sheets, as a table.

use super::material::Material;
use super::price::{Pricing, price, quarters};
use super::units::{is_bare, with_unit};
use super::work::Gives;
use crate::diag::{Diagnostic, codes, near};
use crate::measure::write::exactly;
use crate::measure::{Quantity, Real, Unit};
use crate::table::{Cell, Entry, Holds, Kind, Spec, brief, table};

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

/// Every kind with the word for it and what it means. A bought stick or board that is shorter or longer than any sold is named
/// `short stick` or `long board`, which says that it is not a slip of the pen.
pub const WHATS: &[(&str, What, &str)] = &[
    ("stick", What::Stick, "strip or molding, sold by length"),
    ("offcut", What::Offcut, "what is left of a stick"),
    ("board", What::Board, "rough or surfaced lumber"),
    ("sheet", What::Sheet, "glass, mat board, plywood"),
];

impl What {
    /// The word for it.
    pub fn word(self) -> &'static str {
        WHATS.iter().find(|(_, what, _)| *what == self).map_or("", |(word, ..)| word)
    }
}

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

/// The cells of a row in which a length has no unit, in both readings.
#[derive(Clone, Debug)]
pub struct BareRow {
    /// With bare lengths in inches.
    pub(super) inches: Vec<String>,
    /// With bare lengths in millimeters.
    pub(super) millimeters: Vec<String>,
}

/// A table of stock in which lengths have no unit, in both readings.
#[derive(Clone, Debug)]
pub struct Readings {
    /// Its rows.
    pub rows: Vec<BareRow>,
    /// The unit that bare lengths are likely in: one by which every row is sound.
    pub likely: &'static str,
}

/// All that the shop has.
#[derive(Clone, Debug, Default)]
pub struct Rack {
    /// In the order of the table.
    pub items: Vec<Item>,
    /// The columns of the table, in their order; none for all of them.
    pub columns: Vec<&'static str>,
    /// What was not read as it is written in the table.
    pub notes: Vec<String>,
    /// Whether any of its lengths had no unit, and was read in that of the bench.
    pub is_bare: bool,
    /// How many rows of the table are left out because they cannot be read.
    pub unread: usize,
}

/// Sticks of one row.
#[derive(Clone, Debug)]
pub struct Held {
    /// End to end, in inches.
    pub length: Real,
    /// How many; none means as many as wanted.
    pub count: Option<u32>,
    /// What one costs, in cents, where sticks have a price.
    pub cost: Option<u32>,
    /// What of.
    pub material: Material,
    /// Whether it is left over from another plan.
    pub offcut: bool,
}

impl Held {
    /// What one stick costs. Offcuts cost nothing.
    pub fn cost_by(&self, pricing: Pricing) -> u32 {
        if self.offcut { 0 } else { pricing.each(self.cost) }
    }
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

    /// A row that is not there yet, without a price: as many as wanted. Its cells hold no quotation mark, which a table
    /// would have to double.
    pub(super) fn to_buy(what: What, length: Real, width: Option<Real>, material: &Material) -> Self {
        let typed = |text: &str| text.replace('"', "in");
        let inches = |length: &Real| typed(&exactly(&Quantity::inches(length.clone())));
        let written = [
            what.word().into(),
            inches(&length),
            width.as_ref().map_or_else(String::new, inches),
            String::new(),
            String::new(),
            material.wood.clone(),
            typed(&material.section),
        ];
        Self { what, length, width, count: None, cost: None, material: material.clone(), written }
    }

    /// Its row in a table with these columns, or in one with all of them.
    pub fn row(&self, columns: &[&str]) -> String {
        let cells = STOCK.columns.iter().map(|column| column.name).zip(self.cells()).collect::<Vec<_>>();
        let cell = |name: &&str| cells.iter().find(|(own, _)| own == name).map(|(_, cell)| cell.clone());
        let row = match columns {
            [] => cells.iter().map(|(_, cell)| cell.clone()).collect(),
            some => some.iter().filter_map(cell).collect::<Vec<_>>(),
        };
        table([row]).trim_end().to_string()
    }

    /// The same at another price, in cents.
    fn at(mut self, cents: Option<u32>) -> Self {
        self.cost = cents;
        self.written[COST] = cents.map_or_else(String::new, |cents| Pricing::Money.text(cents.into()));
        self
    }

    /// Its length, or its area, by which the price of a like piece is scaled; in inches.
    fn extent(&self) -> Real {
        self.length.clone() * self.width.clone().unwrap_or(Real::ONE)
    }
}

/// The table of stock.
const STOCK: Kind = Kind {
    of: "stock",
    version: 1,
    columns: &[
        Spec { name: "what", needed: false, holds: Holds::Text },
        Spec { name: "length", needed: true, holds: Holds::Amount },
        Spec { name: "width", needed: false, holds: Holds::Amount },
        Spec { name: "count", needed: false, holds: Holds::Amount },
        Spec { name: "cost", needed: false, holds: Holds::Amount },
        Spec { name: "wood", needed: false, holds: Holds::Text },
        Spec { name: "section", needed: false, holds: Holds::Amount },
    ],
    aliases: &[
        ("kind", "what"),
        ("l", "length"),
        ("w", "width"),
        ("qty", "count"),
        ("quantity", "count"),
        ("pieces", "count"),
        ("price", "cost"),
        ("species", "wood"),
        ("timber", "wood"),
        ("material", "wood"),
    ],
    own: &[],
};

/// Where columns stand among them.
pub(super) const WHAT: usize = 0;
pub(super) const LENGTH: usize = 1;
pub(super) const WIDTH: usize = 2;
pub(super) const COUNT: usize = 3;
pub(super) const COST: usize = 4;
pub(super) const WOOD: usize = 5;
pub(super) const SECTION: usize = 6;

/// Bought sticks and boards are asked about below and above these lengths, in inches: 1 ft and 40 ft (common practice, no
/// source).
const USUAL: [i64; 2] = [12, 480];

impl Rack {
    /// The names of its columns.
    pub fn columns() -> impl Iterator<Item = &'static str> {
        STOCK.columns.iter().map(|column| column.name)
    }

    /// Its columns as the first row of a table.
    pub fn head() -> String {
        Self::columns().collect::<Vec<_>>().join(",")
    }

    /// A row that goes with those that are there: priced like the likest one that is bought, by length or area, rounded up
    /// to a cent; without a price where nothing has one.
    pub(super) fn priced(&self, item: Item) -> Item {
        let bought = self.items.iter().rev().filter(|own| own.what != What::Offcut && own.cost.is_some());
        let alike = bought.max_by_key(|own| {
            let (own_key, key) = (own.material.key(None), item.material.key(None));
            (own.what == item.what, own_key.0 == key.0, own_key.1 == key.1, own.length.same(&item.length))
        });
        let cents = |own: &Item| {
            let cost = Real::whole(i64::from(own.cost?));
            let each = if own.what == item.what { cost * item.extent() / own.extent() } else { cost };
            u32::try_from(each.ceil().to_whole()?).ok()
        };
        let cost = alike.and_then(cents);
        item.at(cost)
    }

    /// Whether what is bought has a price, or is counted. Offcuts are not bought.
    pub fn pricing(&self) -> Pricing {
        let is_priced = self.items.iter().any(|item| item.what != What::Offcut && item.cost.is_some());
        if is_priced { Pricing::Money } else { Pricing::Count }
    }

    /// Reads the table of stock called `name`: `what,length,width,count,cost,wood,section`, or of sticks alone
    /// `length,count,cost`. A row with faults is left out, and `found` gets all of them. Bare numbers are of the bench
    /// unit; an empty count is as many as wanted; a cost is of one piece, or by the foot (`1.80/ft`) or the board foot
    /// (`9.50/bdft`). Where one has a cost all have one, offcuts excepted.
    ///
    /// # Errors
    /// A table of which no row can be read.
    pub fn read(
        name: &str,
        text: impl AsRef<[u8]>,
        bare: Option<&Unit>,
        found: &mut Vec<Diagnostic>,
    ) -> Result<Self, Diagnostic> {
        let sheet = STOCK.read(name, text, found)?;
        let (rows, mut unread) = (sheet.entries.len(), sheet.unsound.len());
        let mut rack = Self { columns: sheet.columns, notes: sheet.notes, ..Self::default() };
        let mut sound = Vec::new();
        for entry in &sheet.entries {
            let mut faults = Vec::new();
            let item = item(entry, &rack.columns, bare, &mut faults);
            found.extend(entry.placed(name, faults));
            rack.is_bare |= has_bare(&entry.cells);
            if let Some(item) = item {
                sound.push(entry);
                rack.items.push(item);
            }
        }
        if rack.pricing().is_money() {
            // What has no price among priced ones would be a gift to the plan.
            let is_gift = |item: &Item| item.what != What::Offcut && item.cost.is_none();
            for (item, entry) in rack.items.iter().zip(sound).filter(|(item, _)| is_gift(item)) {
                let priced = rack.priced(item.clone());
                let fault = entry.cells[COST].refuse(NO_COST, &priced.row(&rack.columns));
                found.extend(entry.placed(name, vec![fault]));
            }
            rack.items.retain(|item| !is_gift(item));
        }
        unread += rows - rack.items.len();
        Ok(Self { unread, ..rack })
    }

    /// Whether a row goes with those that are there: all that is bought has a cost, or nothing.
    ///
    /// # Errors
    /// What is unlike; no fix, for only the framer knows the price.
    pub fn may_take(&self, item: &Item) -> Result<(), Diagnostic> {
        let is_bought = |item: &Item| item.what != What::Offcut;
        if !is_bought(item) || !self.items.iter().any(is_bought) {
            return Ok(());
        }
        match (self.pricing(), item.cost) {
            (Pricing::Money, None) => Err(Diagnostic::of(&codes::table::CELL, NO_COST)),
            (Pricing::Count, Some(_)) => {
                Err(Diagnostic::of(&codes::table::CELL, "this row has a cost, and the others have none"))
            }
            (Pricing::Money, Some(_)) | (Pricing::Count, None) => Ok(()),
        }
    }

    /// Whether its table has columns for wood and section.
    pub fn gives(&self) -> Gives {
        let has = |name: &str| self.columns.is_empty() || self.columns.contains(&name);
        Gives { wood: has("wood"), section: has("section") }
    }

    /// The rack as a table that reads back on any bench: its kind and version, its columns, a row a line.
    pub fn text(&self) -> String {
        lines(self.items.iter().map(|item| Vec::from(item.cells())))
    }

    /// A table of stock in which lengths have no unit, each row as it reads in inches and in millimeters.
    ///
    /// # Errors
    /// A table of which no row can be read.
    pub fn readings(name: &str, text: &str) -> Result<Readings, Diagnostic> {
        let sheet = STOCK.read(name, text, &mut Vec::new())?;
        let row = |entry: &Entry| {
            let mut cells = entry.cells.clone();
            if cells[WHAT].is_empty() {
                cells[WHAT].text = What::Stick.word().into();
            }
            let [inches, millimeters] = UNITS.map(|unit| match Unit::named(unit) {
                Some(unit) => settled(&cells, unit),
                None => cells.iter().map(|cell| cell.text.clone()).collect(),
            });
            BareRow { inches, millimeters }
        };
        let rows = sheet.entries.iter().map(row).collect();
        Ok(Readings { rows, likely: Self::likely_unit(name, text) })
    }

    /// A table of stock with a unit at every length: bare ones are in `unit`.
    ///
    /// # Errors
    /// Any fault in the table: what cannot be read would be lost.
    pub fn with_units(name: &str, text: &str, unit: &Unit) -> Result<String, Vec<Diagnostic>> {
        let mut found = Vec::new();
        let sheet = STOCK.read(name, text, &mut found).map_err(|fault| vec![fault])?;
        if !found.is_empty() {
            return Err(found);
        }
        let rows = sheet.entries.iter().map(|entry| settled(&entry.cells, unit));
        Ok(lines(rows))
    }

    /// The unit that bare lengths of a table are likely in: one by which every row is sound.
    pub fn likely_unit(name: &str, text: &str) -> &'static str {
        let is_sound = |unit: &&str| {
            let Some(unit) = Unit::named(unit) else { return false };
            let mut found = Vec::new();
            Self::read(name, text, Some(unit), &mut found).is_ok() && found.is_empty()
        };
        UNITS.iter().copied().find(is_sound).unwrap_or(UNITS[0])
    }

    /// What a shop has that says nothing: sticks of 8 ft, or 2.4 m, of every wood and section, as many as wanted.
    pub fn assumed(metric: bool) -> Self {
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
        Self { items: vec![item], ..Self::default() }
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
            What::Offcut.word().into(),
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

/// The message for a row without a cost among others with one.
const NO_COST: &str = "this row has no cost, and others have one";

/// The units that a table without units may be in.
const UNITS: [&str; 2] = ["in", "mm"];

/// The table of these rows: kind and version, columns, a row a line.
fn lines(rows: impl Iterator<Item = Vec<String>>) -> String {
    let head = STOCK.columns.iter().map(|column| column.name.to_string()).collect::<Vec<_>>();
    format!("{}\n{}", STOCK.first_line(), table(std::iter::once(head).chain(rows)))
}

/// Whether a cell of a row is a length or a size. The section of a board is a word, `4/4`.
fn is_long(cells: &[Cell], at: usize) -> bool {
    let is_board = cells[WHAT].text.to_lowercase().ends_with("board");
    at == LENGTH || at == WIDTH || at == SECTION && !is_board
}

/// The cells of a row with a unit at every length.
fn settled(cells: &[Cell], unit: &Unit) -> Vec<String> {
    let cell = |(at, cell): (usize, &Cell)| match is_long(cells, at) {
        true => with_unit(&cell.text, unit),
        false => cell.text.clone(),
    };
    cells.iter().enumerate().map(cell).collect()
}

/// Whether any length of a row has no unit.
fn has_bare(cells: &[Cell]) -> bool {
    cells.iter().enumerate().any(|(at, cell)| is_long(cells, at) && is_bare(&cell.text))
}

/// The row of stock that cells give; all that is wrong with them goes to `faults`.
fn item(entry: &Entry, columns: &[&str], bare: Option<&Unit>, faults: &mut Vec<Diagnostic>) -> Option<Item> {
    let cells = entry.cells.as_slice();
    let [kind, length, width, held, cost, wood, section] = cells else { return None };
    let (what, odd) = what(kind).map_err(|one| faults.push(one)).ok()?;
    let mut report = |one: Diagnostic| faults.push(one);
    let inches = length.length("length", bare).map_err(&mut report).ok();
    let across = match (width.is_empty(), what) {
        (false, What::Stick | What::Offcut) => {
            let word = if what == What::Stick { "a stick" } else { "an offcut" };
            report(width.wrong(format!("{word} has no width of its own: its section has both, as in 3/4in x 1 1/2in")));
            None
        }
        (false, What::Board | What::Sheet) => width.length("width", bare).map_err(&mut report).ok().map(Some),
        (true, What::Stick | What::Offcut) => Some(None),
        (true, What::Board | What::Sheet) => {
            report(width.wrong(format!("a {} has a width, as in 6in", what.word())));
            None
        }
    };
    let material = Material::new(&wood.text, &section.text);
    let no_thickness = what == What::Board && quarters(&material.section).is_none();
    if no_thickness {
        report(section.wrong("the section of a board is its thickness in quarters, as in 4/4"));
    }
    let count = held.count("count").map_err(&mut report).ok();
    let is_by_foot = what == What::Sheet && cost.text.ends_with("/ft");
    if is_by_foot {
        report(cost.wrong("a cost by the foot is of sticks and boards, and this is a sheet"));
    }
    let (inches, across) = (inches?, across?);
    // A fault of the section is not reported for the cost again.
    let cost = if is_by_foot || no_thickness {
        None
    } else {
        price(cost, &inches, across.as_ref(), &material).map_err(&mut report).ok()
    };
    let written =
        bare.map_or_else(|| cells.iter().map(|cell| cell.text.clone()).collect(), |bare| settled(cells, bare));
    let written: [String; 7] = written.try_into().ok()?;
    let material = Material::new(&wood.text, &written[SECTION]);
    let item = Item { what, length: inches, width: across, count: count?, cost: cost?, material, written };
    match unusual(&item, entry, odd, columns) {
        Some(fault) => faults.push(fault),
        None if faults.is_empty() => return Some(item),
        None => {}
    }
    None
}

/// What a row is, and the word before it that says that its odd length is meant.
fn what(cell: &Cell) -> Result<(What, Option<&'static str>), Diagnostic> {
    let word = cell.text.to_lowercase();
    let said = ODD.iter().find_map(|odd| Some((*odd, word.strip_prefix(odd)?.trim_start())));
    let (odd, plain) = said.map_or((None, word.as_str()), |(odd, plain)| (Some(odd), plain));
    match WHATS.iter().find(|(name, ..)| *name == plain) {
        Some((_, what, _)) => Ok((*what, odd)),
        None if plain.is_empty() => Ok((What::Stick, odd)),
        None => {
            let message = format!("stock is a stick, an offcut, a board or a sheet, not {}", brief(&cell.text));
            let meant = near(plain, WHATS.iter().map(|(name, ..)| *name)).first().map(ToString::to_string);
            Err(cell.wrong(message).only(meant))
        }
    }
}

/// The words that say that a length is meant: below the usual ones, and above.
const ODD: [&str; 2] = ["short", "long"];

/// What is to be asked about a bought stick or board of a length that nobody sells, unless the row says that it is so.
fn unusual(item: &Item, entry: &Entry, said: Option<&str>, columns: &[&str]) -> Option<Diagnostic> {
    if !matches!(item.what, What::Stick | What::Board) {
        return None;
    }
    let kind = item.what.word();
    let [least, most] = USUAL.map(Real::whole);
    let (odd, than) = if item.length < least {
        (ODD[0], "under 1 ft")
    } else if item.length > most {
        (ODD[1], "over 40 ft")
    } else {
        return None;
    };
    if said == Some(odd) {
        return None;
    }
    let [_, length, ..] = item.cells();
    let message = format!("a bought {kind} of {length} is {than}; if that is right, call it a {odd} {kind}");
    // The row as it is, but for its first word. A table of sticks alone has no column to say it in.
    let works = match columns.contains(&"what") {
        true => {
            let mut row = entry.row.text.clone();
            row.replace_range(entry.cells[WHAT].span.clone(), &format!("{odd} {kind}"));
            row
        }
        false => Rack::head(),
    };
    Some(entry.cells[LENGTH].refuse(message, &works))
}

#[cfg(test)]
mod tests;
