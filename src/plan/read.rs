//! The table of parts.

use super::ends::Ends;
use super::material::Material;
use super::work::{Gives, LeftRow, RowOf, SHEET, Wanted, WantedSheet, Work};
use crate::diag::Diagnostic;
use crate::measure::Unit;
use crate::table::{Cell, Holds, Kind, Spec};

const fn column(name: &'static str, needed: bool, holds: Holds) -> Spec {
    Spec { name, needed, holds }
}

/// Name, length and quantity are needed. A cut list that the program wrote has the other columns too, `long` for the length
/// and `material` for the wood.
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
        column("cut_from", false, Holds::Text),
        column("height", false, Holds::Amount),
        column("thickness", false, Holds::Amount),
    ],
    aliases: &[
        ("part", "name"),
        ("piece", "name"),
        ("title", "name"),
        ("l", "length"),
        ("long", "length"),
        ("h", "height"),
        ("w", "width"),
        ("qty", "quantity"),
        ("count", "quantity"),
        ("pieces", "quantity"),
        ("species", "wood"),
        ("timber", "wood"),
        ("material", "wood"),
        ("miter", "mitre"),
    ],
    own: &["long", "material"],
};

/// Reads the table of parts called `table`: `name,length,quantity`, and `wood`, `section`, `joint`, `mitre`, `tilt`,
/// `short` if they are there. A row that is cut from a `sheet`, or whose joint is `sheet`, is a pane or a panel: `height`
/// (or else `length`) high, `width` wide, `thickness` (or else `section`) thick. A row with faults is left out, and `found`
/// gets all of them.
///
/// Takes: the bench unit, for bare numbers. Gives: the work, and what was not read as it is written there.
///
/// # Errors
/// A table of which no row can be read.
pub fn read_parts(
    table: &str,
    text: impl AsRef<[u8]>,
    bare: Option<&Unit>,
    found: &mut Vec<Diagnostic>,
) -> Result<(Work, Vec<String>), Diagnostic> {
    let sheet = PARTS.read(table, text, found)?;
    let has = |name: &str| sheet.columns.contains(&name);
    let gives = Gives { wood: has("wood"), section: has("section") };
    let left = |line: usize, name: Option<String>| LeftRow {
        name: name.unwrap_or_else(|| format!("line {line}")),
        of: RowOf::Parts,
        because: format!("line {line} of {table} cannot be read"),
    };
    let rows = sheet.unsound.iter().map(|line| left(*line, None)).collect();
    let mut work = Work { parts: Vec::new(), sheets: Vec::new(), gives, rows, cautions: None };
    for entry in &sheet.entries {
        let mut faults = Vec::new();
        work.add_row(&entry.cells, bare, &mut faults);
        if !faults.is_empty() {
            let name = entry.cells.first().filter(|name| !name.is_empty()).map(|name| name.text.clone());
            work.rows.push(left(entry.row.line, name));
        }
        found.extend(entry.placed(table, faults));
    }
    Ok((work, sheet.notes))
}

impl Work {
    /// Adds the part or the sheet of a row, or reports all that is wrong with its cells.
    fn add_row(&mut self, cells: &[Cell], bare: Option<&Unit>, faults: &mut Vec<Diagnostic>) {
        let [name, length, quantity, wood, section, joint, mitre, tilt, short, width, _, cut_from, height, thickness] =
            cells
        else {
            return;
        };
        let name = if name.is_empty() { "part".to_string() } else { name.text.clone() };
        let count = some(quantity, &name).map_err(|one| faults.push(one)).ok();
        let is_sheet = [joint, cut_from].iter().any(|cell| cell.text.eq_ignore_ascii_case(SHEET));
        if is_sheet {
            let given = |cell: &'_ Cell, other: &'_ Cell| if cell.is_empty() { other.clone() } else { cell.clone() };
            let material = Material::new(&wood.text, &given(thickness, section).text);
            let height = given(height, length).length("height", bare).map_err(|one| faults.push(one)).ok();
            let width = width.length("width", bare).map_err(|one| faults.push(one)).ok();
            if let (Some(height), Some(width), Some(quantity)) = (height, width, count) {
                self.sheets.push(WantedSheet { name, width, height, quantity, material });
            }
            return;
        }
        let material = Material::new(&wood.text, &section.text);
        let inches = length.length("length", bare).map_err(|one| faults.push(one)).ok();
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
        Some(0) => Err(cell.wrong(format!("{name} has a quantity of 0, so there is nothing to cut"))),
        Some(quantity) => Ok(quantity),
        None => Err(cell.wrong(format!("{name} has no quantity; write how many, as in 4"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fact::rows;
    use crate::measure::Unit;
    use crate::measure::write::Manner;
    use crate::rules::tests::designed;
    use crate::shop::{Part, Shape, parts};

    /// What a cut list gives the planner is what the design itself gives it: lengths, angles, overlap.
    #[test]
    fn parts_come_back_as_they_were_written() {
        let art = ("art", "16 x 20 x 3/4");
        for lines in [
            vec![art],
            vec![art, ("moulding", "reversible")],
            vec![art, ("moulding", "reversible"), ("slope", "15deg")],
            vec![art, ("slope", "7 1/2deg"), ("face", "1 3/8")],
        ] {
            let parts = parts(&designed(&lines));
            let mut found = Vec::new();
            let (read, notes) = read_parts(
                "parts.csv",
                rows::csv::<Part>(parts.iter(), &Manner::default()),
                Unit::named("in"),
                &mut found,
            )
            .unwrap();
            assert!(found.is_empty() && notes.is_empty(), "{lines:?}: {found:?} {notes:?}");
            let own = Work::of_designs(&[("frame".into(), parts)], Vec::new());
            assert_eq!((read.parts.len(), read.sheets.len()), (own.parts.len(), own.sheets.len()), "{lines:?}");
            for (one, other) in read.sheets.iter().zip(&own.sheets) {
                assert_eq!((&one.name, one.quantity, &one.material), (&other.name, other.quantity, &other.material));
                assert!(one.width.same(&other.width) && one.height.same(&other.height), "{lines:?}");
            }
            for (one, other) in read.parts.iter().zip(&own.parts) {
                assert_eq!((&one.name, one.quantity, one.joint), (&other.name, other.quantity, other.joint));
                assert_eq!(one.material, other.material);
                for (one, other) in [
                    (&one.length, &other.length),
                    (&one.short, &other.short),
                    (&one.mitre, &other.mitre),
                    (&one.tilt, &other.tilt),
                    (&one.overlap(), &other.overlap()),
                ] {
                    // A root or a sine comes back as the decimal that it was written as.
                    let apart = (one.to_f64() - other.to_f64()).abs();
                    assert!(apart < 1e-12, "{lines:?}: {} and {}", one.to_text(), other.to_text());
                }
            }
        }
        assert!(parts(&designed(&[art, ("slope", "15deg")])).iter().any(|part| matches!(&part.shape,
            Shape::Stick(stick) if stick.tilt.amount.is_positive())));
    }
}
