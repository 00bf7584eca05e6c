//! The pieces of designs as parts to plan.

use super::ends::Joint;
use super::material::{Material, sides_text};
use super::read::Wanted;
use crate::measure::Real;
use crate::measure::write::exactly;
use crate::shop::{Part, Shape};

/// A sheet that is wanted: width × height, in inches.
#[derive(Clone, Debug)]
pub struct WantedSheet {
    /// What it is called.
    pub name: String,
    /// Across.
    pub width: Real,
    /// Up and down.
    pub height: Real,
    /// How many.
    pub quantity: u32,
    /// What of.
    pub material: Material,
}

/// The rails and strips among the parts of a design called `name`, and its sheets.
///
/// Where several designs are planned together the parts have its name before a slash. Parts of one frame come from one
/// stick where that costs nothing.
pub fn wanted(name: &str, parts: &[Part], several: bool) -> (Vec<Wanted>, Vec<WantedSheet>) {
    let mut sticks = Vec::new();
    let mut sheets = Vec::new();
    for part in parts {
        let quantity = u32::try_from(part.quantity).unwrap_or(0);
        let called = if several { format!("{name}/{}", part.name) } else { part.name.clone() };
        match &part.shape {
            Shape::Sheet(sheet) => sheets.push(WantedSheet {
                name: called,
                width: sheet.width.amount.clone(),
                height: sheet.height.amount.clone(),
                quantity,
                material: Material::new(&part.material, &exactly(&sheet.thickness)),
            }),
            Shape::Stick(stick) => {
                let Some((width, thickness)) = &stick.section else { continue };
                let joint = Joint::of(stick);
                sticks.push(Wanted {
                    name: called,
                    frame: Some(name.to_string()),
                    length: stick.long.amount.clone(),
                    short: stick.short.amount.clone(),
                    quantity,
                    material: Material::new(&part.material, &sides_text(width, thickness)),
                    joint,
                    mitre: stick.mitre.amount.clone(),
                    tilt: stick.tilt.amount.clone(),
                });
            }
        }
    }
    (sticks, sheets)
}
