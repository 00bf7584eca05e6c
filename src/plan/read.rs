//! The two tables: parts wanted, stock held.

use super::ends::{Cut, Ends, Joint, SHEET};
use super::material::Material;
use super::price::Pricing;
use super::saw::LONGEST;
use super::table::{Cell, Column, Table};
use crate::diag::{Diagnostic, Says};
use crate::measure::{Kind, Quantity, Real, Unit, read};

/// Parts of one row.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// What they are called.
    pub name: String,
    /// The frame that they belong to, where the name does not begin with it.
    pub frame: Option<String>,
    /// From long point to long point, in inches.
    pub length: Real,
    /// From short point to short point, in inches.
    pub short: Real,
    /// How many.
    pub quantity: u32,
    /// What of.
    pub material: Material,
    /// Their ends.
    pub joint: Joint,
    /// Turn of the saw from square, in degrees.
    pub mitre: Real,
    /// Lean of the blade from upright, in degrees.
    pub tilt: Real,
}

impl Wanted {
    /// What two neighbours share that are turned end for end, in inches: what each mitre takes off the inner edge. Source:
    /// frame maths §4.
    pub fn overlap(&self) -> Real {
        (self.length.clone() - self.short.clone()) / Real::whole(2)
    }
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

/// What is to be planned.
#[derive(Clone, Debug, Default)]
pub struct Order {
    /// Parts, in the order of their table.
    pub parts: Vec<Wanted>,
    /// Stock, in the order of its table.
    pub stock: Vec<Held>,
    /// Whether parts and sticks must be of one wood: both tables tell it.
    pub by_wood: bool,
    /// Whether parts and sticks must be of one section: both tables tell it.
    pub by_section: bool,
    /// Whether cost is money.
    pub pricing: Pricing,
}

/// The most parts and sticks of one row.
const MOST: u32 = 1_000_000;

const fn column(name: &'static str, needed: bool) -> Column {
    Column { name, needed }
}

const PARTS: [Column; 11] = [
    column("name", true),
    column("length", true),
    column("quantity", true),
    column("wood", false),
    column("section", false),
    column("joint", false),
    column("mitre", false),
    column("tilt", false),
    column("short", false),
    // What a list of parts tells besides, and a plan of sticks does not ask for.
    column("width", false),
    column("show", false),
];

const STOCK: [Column; 5] = [
    column("length", true),
    column("count", true),
    column("cost", true),
    column("wood", false),
    column("section", false),
];

/// What is wrong with a cell.
pub(super) fn bad(cell: &Cell, says: impl Into<Says>, hint: &str) -> Diagnostic {
    Diagnostic::new(says).at(cell.span.clone()).hint(hint)
}

/// A cell that cannot be read, with cells that would do instead.
pub(super) fn bad_reading(cell: &Cell, found: Diagnostic, example: &str) -> Diagnostic {
    let lines = found.fixed(&cell.text);
    let found = Diagnostic { code: found.code, ..bad(cell, found.says, example) };
    if lines.is_empty() { found } else { found.only(lines) }
}

/// Reads the table of parts: `name,length,quantity`, and `wood`, `section`, `joint`, `mitre`, `tilt`, `short` if they are
/// there. A row with a cell that cannot be read is left out, and `found` says why.
///
/// Takes: the bench unit, for bare numbers. Gives: the rows, and whether wood and section are told.
///
/// # Errors
/// A needed column that is missing.
pub fn read_parts(
    text: &str,
    bare: Option<&Unit>,
    found: &mut Vec<Diagnostic>,
) -> Result<(Vec<Wanted>, [bool; 2]), Diagnostic> {
    let table = Table::read(text, "parts", &PARTS, found)?;
    let told = [table.present[3], table.present[4]];
    let mut rows = Vec::new();
    for cells in table.rows {
        let Ok([name, length, quantity, wood, section, joint, mitre, tilt, short, ..]) = <[Cell; 11]>::try_from(cells)
        else {
            continue;
        };
        // Glass and boards are on a list of parts too.
        if joint.text.eq_ignore_ascii_case(SHEET) {
            continue;
        }
        let name = if name.text.is_empty() { "part".to_string() } else { name.text };
        let material = Material::new(&wood.text, &section.text);
        let mut tell = |one: Diagnostic| found.push(one);
        let length = long(&length, "length", bare).map_err(&mut tell).ok();
        let quantity = some(&quantity, &name).map_err(&mut tell).ok();
        let ends = Ends { joint, mitre, tilt, short, section };
        let ends = ends.read(length.as_ref(), bare).map_err(&mut tell).ok();
        if let (Some(length), Some(quantity), Some(Cut { joint, mitre, tilt, short })) = (length, quantity, ends) {
            rows.push(Wanted { name, frame: None, length, short, quantity, material, joint, mitre, tilt });
        }
    }
    Ok((rows, told))
}

/// Reads the table of stock: `length,count,cost`, and `wood`, `section` if they are there. Rows with faults are left
/// out. Gives: the rows, whether wood and section are told, and whether sticks have a price.
///
/// # Errors
/// A needed column that is missing.
pub fn read_stock(
    text: &str,
    bare: Option<&Unit>,
    found: &mut Vec<Diagnostic>,
) -> Result<(Vec<Held>, [bool; 2], Pricing), Diagnostic> {
    let table = Table::read(text, "stock", &STOCK, found)?;
    let told = [table.present[3], table.present[4]];
    let mut rows = Vec::new();
    // Where one stick has a price, one without is no gift: its price is missing.
    let priced = table.rows.iter().any(|cells| cells.get(2).is_some_and(|cost| !cost.text.is_empty()));
    for cells in table.rows {
        let Ok([length, held, cost, wood, section]) = <[Cell; 5]>::try_from(cells) else { continue };
        let before = found.len();
        let inches = long(&length, "length", bare).map_err(|one| found.push(one)).ok();
        let count = count(&held, "count").map_err(|one| found.push(one)).ok();
        let cost = match (priced, cents(&cost)) {
            (false, _) => None,
            (true, Ok(cents)) => Some(cents),
            (true, Err(one)) => {
                found.push(one);
                None
            }
        };
        if let (Some(length), Some(count)) = (inches, count)
            && found.len() == before
        {
            rows.push(Held { length, count, cost, material: Material::new(&wood.text, &section.text), offcut: false });
        }
    }
    Ok((rows, told, if priced { Pricing::Money } else { Pricing::Count }))
}

/// A length above 0, in inches.
pub(super) fn long(cell: &Cell, what: &str, bare: Option<&Unit>) -> Result<Real, Diagnostic> {
    let example = if bare.is_some_and(|unit| unit.names.contains(&"mm")) { "419" } else { "16 1/2" };
    if cell.text.is_empty() {
        return Err(bad(cell, format!("a {what} is missing here"), example));
    }
    let read = read::quantity(&cell.text, bare);
    let quantity = read.map_err(|found| bad_reading(cell, found, example))?;
    if quantity.kind != Kind::LENGTH {
        return Err(bad(
            cell,
            format!("a {what} is wanted here, and {} is {}", cell.text, article(&quantity)),
            example,
        ));
    }
    if !quantity.amount.is_positive() {
        return Err(bad(cell, format!("a {what} is above 0, and {} is not", cell.text), example));
    }
    if quantity.amount > Real::whole(LONGEST) {
        return Err(bad(cell, format!("a {what} is at most {LONGEST}in, and {} is more", cell.text), example));
    }
    Ok(quantity.amount)
}

fn article(quantity: &Quantity) -> String {
    quantity.kind.with_article()
}

/// A whole number from 0; an empty cell is none.
pub(super) fn count(cell: &Cell, what: &str) -> Result<Option<u32>, Diagnostic> {
    if cell.text.is_empty() {
        return Ok(None);
    }
    let number = cell.text.parse::<u32>().ok().filter(|number| *number <= MOST);
    number
        .map(Some)
        .ok_or_else(|| bad(cell, format!("a {what} is a whole number up to {MOST}, not {}", cell.text), "4"))
}

/// How many parts, at least one.
fn some(cell: &Cell, name: &str) -> Result<u32, Diagnostic> {
    match count(cell, "quantity")? {
        Some(0) => Err(bad(cell, format!("{name} has a quantity of 0, so there is nothing to cut"), "1")),
        Some(quantity) => Ok(quantity),
        None => Err(bad(cell, format!("{name} has no quantity"), "1")),
    }
}

/// An amount of money in cents.
pub(super) fn cents(cell: &Cell) -> Result<u32, Diagnostic> {
    const EXAMPLE: &str = "12.50";
    if cell.text.is_empty() {
        return Err(bad(cell, "a cost is missing here, and other sticks have one", "0"));
    }
    let read = read::quantity(&cell.text, None);
    let quantity = read.map_err(|found| bad_reading(cell, found, EXAMPLE))?;
    if quantity.kind != Kind::MONEY && quantity.kind != Kind::NUMBER {
        return Err(bad(cell, format!("a cost is wanted here, and {} is {}", cell.text, article(&quantity)), EXAMPLE));
    }
    if quantity.amount.is_negative() {
        return Err(bad(cell, format!("a cost is not below 0, and {} is", cell.text), EXAMPLE));
    }
    let cents = (quantity.amount * Real::whole(100)).to_whole();
    let cents = cents.and_then(|cents| u32::try_from(cents).ok());
    cents.ok_or_else(|| bad(cell, format!("a cost is in whole cents up to some millions, not {}", cell.text), EXAMPLE))
}
