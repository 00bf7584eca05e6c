//! A plan as a table.

use super::job::Cutting;
use super::material::sides_text;
use super::read::{Joint, SHEET};
use crate::measure::Quantity;
use crate::measure::write::exactly;
use crate::shop::{Part, Shape};

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
        let none = String::new;
        let [length, short, width, section, joint, mitre, tilt, show] = match &part.shape {
            Shape::Sheet(sheet) => {
                let (width, height) = (exactly(&sheet.width), exactly(&sheet.height));
                [height, none(), width, exactly(&sheet.thickness), SHEET.into(), none(), none(), none()]
            }
            Shape::Stick(stick) => {
                let section = stick.section.as_ref().map(|(width, thickness)| sides_text(width, thickness));
                let joint = Joint::of(stick).word().to_string();
                let (mitre, tilt) = (exactly(&stick.mitre), exactly(&stick.tilt));
                let (long, short) = (exactly(&stick.long), exactly(&stick.short));
                [long, short, none(), section.unwrap_or_default(), joint, mitre, tilt, stick.show.into()]
            }
        };
        rows.push([
            part.name.clone(),
            part.quantity.to_string(),
            length,
            short,
            width,
            part.material.clone(),
            section,
            joint,
            mitre,
            tilt,
            show,
        ]);
    }
    // Writing to memory does not fail, and all of it is text.
    let written = rows.iter().try_for_each(|row| writer.write_record(row));
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}
