//! A plan as a table.

use super::job::Cutting;
use crate::measure::Quantity;
use crate::measure::write::exactly;
use crate::shop::Part;

/// The plan as comma-separated text: one row a part, in the order of cutting.
pub fn csv(cutting: &Cutting) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let exact = |inches: &crate::measure::Real| exactly(&Quantity::inches(inches.clone()));
    let mut rows = vec![["stick", "stock", "wood", "section", "cut", "name", "length", "offcut"].map(String::from)];
    for (number, stick) in cutting.sticks.iter().enumerate() {
        let held = &cutting.order.stock[stick.stock];
        for (cut, piece) in stick.pieces.iter().enumerate() {
            let part = &cutting.order.parts[piece.part];
            rows.push([
                (number + 1).to_string(),
                exact(&held.length),
                part.material.wood.clone(),
                part.material.section.clone(),
                (cut + 1).to_string(),
                part.name.clone(),
                exact(&part.length),
                exact(&stick.offcut),
            ]);
        }
    }
    // Writing to memory does not fail, and all of it is text.
    let written = rows.iter().try_for_each(|row| writer.write_record(row));
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// Parts as comma-separated text that `benchrule plan` reads: rails and strips by their long points, sheets with a width.
pub fn parts_csv(parts: &[Part]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let head = ["name", "quantity", "length", "short", "width", "wood", "section", "joint", "mitre", "tilt", "show"];
    let mut rows = vec![head.map(String::from)];
    for part in parts {
        let section = match (&part.section, part.sheet) {
            (Some((_, thickness)), true) => exactly(thickness),
            (Some((width, thickness)), false) => format!("{} x {}", exactly(width), exactly(thickness)),
            (None, _) => String::new(),
        };
        let joint = match (part.sheet, part.mitre.amount.is_exact_zero()) {
            (true, _) => "sheet",
            (false, true) => "square",
            (false, false) if part.turned => "reversible",
            (false, false) => "profiled",
        };
        let (short, width) =
            if part.sheet { (String::new(), exactly(&part.short)) } else { (exactly(&part.short), String::new()) };
        rows.push([
            part.name.clone(),
            part.quantity.to_string(),
            exactly(&part.long),
            short,
            width,
            part.material.clone(),
            section,
            joint.into(),
            exactly(&part.mitre),
            exactly(&part.tilt),
            part.show.into(),
        ]);
    }
    // Writing to memory does not fail, and all of it is text.
    let written = rows.iter().try_for_each(|row| writer.write_record(row));
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}
