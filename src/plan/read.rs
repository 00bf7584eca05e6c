//! The table of parts.

use super::ends::Ends;
use super::material::Material;
use super::work::{Gives, SHEET, Wanted, WantedSheet, Work};
use crate::diag::Diagnostic;
use crate::measure::Unit;
use crate::table::{Cell, Holds, Kind, Spec};

const fn column(name: &'static str, needed: bool, holds: Holds) -> Spec {
    Spec { name, needed, holds }
}

/// Name, length and quantity are needed; what a list of parts says besides is read as far as a plan asks for it.
const PARTS: Kind = Kind {
    of: "parts",
    version: 1,
    columns: &[
        column("name", true, Holds::Text),
        column("length", true, Holds::Amount),
        column("quantity", true, Holds::Amount),
        column("wood", false, Holds::Text),
        column("section", false, Holds::Amount),
        column("joint", false, Holds::Text),
        column("mitre", false, Holds::Amount),
        column("tilt", false, Holds::Amount),
        column("short", false, Holds::Amount),
        column("width", false, Holds::Amount),
        column("show", false, Holds::Text),
    ],
    aliases: &[
        ("part", "name"),
        ("piece", "name"),
        ("title", "name"),
        ("l", "length"),
        ("w", "width"),
        ("qty", "quantity"),
        ("count", "quantity"),
        ("pieces", "quantity"),
        ("species", "wood"),
        ("timber", "wood"),
        ("material", "wood"),
        ("miter", "mitre"),
    ],
};

/// Reads the table of parts called `table`: `name,length,quantity`, and `wood`, `section`, `joint`, `mitre`, `tilt`,
/// `short`, `width` if they are there. A row whose joint is `sheet` is a pane or panel, `length` high and `width` wide, its
/// section the thickness. A row with faults is left out, and `found` gets all of them.
///
/// Takes: the bench unit, for bare numbers. Gives: the work, and what was read in another way than it stands there.
///
/// # Errors
/// A table of which no row can be read.
pub fn read_parts(
    table: &str,
    text: &str,
    bare: Option<&Unit>,
    found: &mut Vec<Diagnostic>,
) -> Result<(Work, Vec<String>), Diagnostic> {
    let sheet = PARTS.read(table, text, found)?;
    let has = |name: &str| sheet.columns.contains(&name);
    let gives = Gives { wood: has("wood"), section: has("section") };
    let mut work = Work { parts: Vec::new(), sheets: Vec::new(), gives };
    for entry in &sheet.entries {
        let mut faults = Vec::new();
        work.add_row(&entry.cells, bare, &mut faults);
        found.extend(entry.placed(table, faults));
    }
    Ok((work, sheet.notes))
}

impl Work {
    /// Adds the part or the sheet of a row, or reports all that is wrong with its cells.
    fn add_row(&mut self, cells: &[Cell], bare: Option<&Unit>, faults: &mut Vec<Diagnostic>) {
        let [name, length, quantity, wood, section, joint, mitre, tilt, short, width, _] = cells else { return };
        let name = if name.is_empty() { "part".to_string() } else { name.text.clone() };
        let material = Material::new(&wood.text, &section.text);
        let inches = length.length("length", bare).map_err(|one| faults.push(one)).ok();
        let count = some(quantity, &name).map_err(|one| faults.push(one)).ok();
        if joint.text.eq_ignore_ascii_case(SHEET) {
            let across = width.length("width", bare).map_err(|one| faults.push(one)).ok();
            if let (Some(height), Some(width), Some(quantity)) = (inches, across, count) {
                self.sheets.push(WantedSheet { name, width, height, quantity, material });
            }
            return;
        }
        let ends = Ends { joint, mitre, tilt, short, section }.read(inches.as_ref(), bare, faults);
        if let (Some(length), Some(quantity), Some(ends)) = (inches, count, ends) {
            let (joint, mitre, tilt, short) = (ends.joint, ends.mitre, ends.tilt, ends.short);
            self.parts.push(Wanted { name, frame: None, length, short, quantity, material, joint, mitre, tilt });
        }
    }
}

/// How many parts, at least one.
fn some(cell: &Cell, name: &str) -> Result<u32, Diagnostic> {
    match cell.count("quantity")? {
        Some(0) => Err(cell.refuse(format!("{name} has a quantity of 0, so there is nothing to cut"), "1")),
        Some(quantity) => Ok(quantity),
        None => Err(cell.refuse(format!("{name} has no quantity"), "1")),
    }
}
