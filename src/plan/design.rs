//! The pieces of designs as parts to plan.

use super::material::Material;
use super::read::{Joint, Wanted};
use crate::measure::Real;
use crate::measure::write::exactly;
use crate::shop::Part;

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
        let Some((width, thickness)) = &part.section else { continue };
        if part.sheet {
            let thick = exactly(thickness);
            let material = Material::new(&part.material, &thick);
            let (width, height) = (part.short.amount.clone(), part.long.amount.clone());
            sheets.push(WantedSheet { name: called, width, height, quantity, material });
            continue;
        }
        let section = format!("{} x {}", exactly(width), exactly(thickness));
        let square = part.mitre.amount.is_exact_zero();
        let joint = match (square, part.turned) {
            (true, _) => Joint::Square,
            (false, true) => Joint::Reversible,
            (false, false) => Joint::Profiled,
        };
        let run = (part.long.amount.clone() - part.short.amount.clone()) / Real::whole(2);
        sticks.push(Wanted {
            name: called,
            frame: Some(name.to_string()),
            length: part.long.amount.clone(),
            quantity,
            material: Material::new(&part.material, &section),
            joint,
            mitre: part.mitre.amount.clone(),
            tilt: part.tilt.amount.clone(),
            shared: (joint == Joint::Reversible).then_some(run),
        });
    }
    (sticks, sheets)
}
