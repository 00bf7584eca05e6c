//! What is to be cut: the pieces of designs, or of a table, as one piece of work for the planner.

use super::boards::{Ripping, Yard};
use super::ends::Joint;
use super::material::{Material, sides_text};
use super::rack::Rack;
use super::read::Wanted;
use super::saw::Saw;
use super::sheets::Nature;
use super::whole::{Whole, whole};
use crate::cut::Limits;
use crate::measure::Real;
use crate::measure::write::exactly;
use crate::rules::Design;
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

/// Whether a table gives the wood and the section of its rows. Where it does not, any will do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gives {
    /// The wood.
    pub wood: bool,
    /// The section.
    pub section: bool,
}

impl Gives {
    /// Wood and section, as every design gives them.
    pub const BOTH: Self = Self { wood: true, section: true };

    /// What two tables both give: that alone can be compared.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self { wood: self.wood && other.wood, section: self.section && other.section }
    }
}

/// All that is cut together.
#[derive(Clone, Debug)]
pub struct Work {
    /// Rails and strips.
    pub parts: Vec<Wanted>,
    /// Panes, panels and boards.
    pub sheets: Vec<WantedSheet>,
    /// What the parts give.
    pub gives: Gives,
}

impl Work {
    /// The pieces of designs, those of each design under its name. Where several are planned together, the name stands
    /// before a slash. Parts of one frame come from one stick where that costs nothing.
    pub fn of_designs(designs: &[(String, Vec<Part>)]) -> Self {
        let mut work = Self { parts: Vec::new(), sheets: Vec::new(), gives: Gives::BOTH };
        for (name, parts) in designs {
            parts.iter().for_each(|part| work.add(name, part, designs.len() > 1));
        }
        work
    }

    /// Whether there is nothing to cut.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.sheets.is_empty()
    }

    /// Plans it out of a rack, or out of the usual sticks where the shop has recorded no stock. This is the only way in:
    /// prompt, scripts, batch and command line all come through here.
    ///
    /// `shop` has the settings and the bench unit, `saw` what a cut takes.
    pub fn plan(self, rack: Option<Rack>, shop: &Design, saw: &Saw, limits: &Limits) -> Whole {
        let (ripping, natures) = (Ripping::of(shop), Nature::all(shop.book()));
        let bare = Some(shop.bare_unit());
        whole(self, rack, &Yard { saw, ripping: &ripping, natures: &natures, bare, limits })
    }

    fn add(&mut self, frame: &str, part: &Part, several: bool) {
        let quantity = u32::try_from(part.quantity).unwrap_or(0);
        let name = if several { format!("{frame}/{}", part.name) } else { part.name.clone() };
        match &part.shape {
            Shape::Sheet(sheet) => self.sheets.push(WantedSheet {
                name,
                width: sheet.width.amount.clone(),
                height: sheet.height.amount.clone(),
                quantity,
                material: Material::new(&part.material, &exactly(&sheet.thickness)),
            }),
            Shape::Stick(stick) => {
                let Some((width, thickness)) = &stick.section else { return };
                self.parts.push(Wanted {
                    name,
                    frame: Some(frame.to_string()),
                    length: stick.long.amount.clone(),
                    short: stick.short.amount.clone(),
                    quantity,
                    material: Material::new(&part.material, &sides_text(width, thickness)),
                    joint: Joint::of(stick),
                    mitre: stick.mitre.amount.clone(),
                    tilt: stick.tilt.amount.clone(),
                });
            }
        }
    }
}
