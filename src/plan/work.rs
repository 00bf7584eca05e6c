//! What is to be cut: the pieces of designs, or of a table, as one piece of work for the planner.

use super::material::{Material, sides_text};
use crate::measure::Real;
use crate::measure::write::exactly;
use crate::rules::Design;
use crate::shop::{self, Caution, Part, Shape, cautions_for};

/// How the ends of a part are cut, and so how parts lie in a stick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// Square ends.
    Square,
    /// Mitered, of a molding that cannot be turned end for end.
    Profiled,
    /// Mitered, inner and outer edge alike: neighbors are turned end for end.
    Reversible,
}

/// Every joint with the word for it.
pub(super) const JOINTS: &[(&str, Joint)] =
    &[("square", Joint::Square), ("profiled", Joint::Profiled), ("reversible", Joint::Reversible)];

/// What stands for a joint where a row is a sheet and not a stick.
pub(super) const SHEET: &str = "sheet";

impl Joint {
    /// That of a piece of a design.
    pub(super) fn of(stick: &shop::Stick) -> Self {
        match (stick.mitre.amount.is_exact_zero(), stick.turned) {
            (true, _) => Self::Square,
            (false, true) => Self::Reversible,
            (false, false) => Self::Profiled,
        }
    }
}

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
    /// What two neighbors share that are turned end for end, in inches: what each miter takes off the inner edge. Source:
    /// frame maths §4.
    pub fn overlap(&self) -> Real {
        (self.length.clone() - self.short.clone()) / Real::whole(2)
    }
}

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
    /// Rows of a table that are left out as a whole.
    pub rows: Vec<LeftRow>,
    /// The cautions of the designs; none where there are no designs, but a table of parts.
    pub cautions: Option<Vec<Caution>>,
}

/// A row of a table that is left out of a plan as a whole.
#[derive(Clone, Debug)]
pub struct LeftRow {
    /// What its part or its work is called, where that much could be read; else its line.
    pub name: String,
    /// What the row asks for.
    pub of: RowOf,
    /// Why it is left out.
    pub because: String,
}

/// What the rows of a table ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowOf {
    /// Parts, in a table of parts.
    Parts,
    /// A work to frame, in a table of works.
    Work,
}

impl Work {
    /// The pieces of designs, those of each design under its name. Where several are planned together, the name stands
    /// before a slash. Parts of one frame come from one stick where that costs nothing.
    pub fn of_designs(designs: &[(String, Vec<Part>)], cautions: Vec<Caution>) -> Self {
        let (parts, sheets, rows) = (Vec::new(), Vec::new(), Vec::new());
        let mut work = Self { parts, sheets, gives: Gives::BOTH, rows, cautions: Some(cautions) };
        for (name, parts) in designs {
            parts.iter().for_each(|part| work.add(name, part, designs.len() > 1));
        }
        work
    }

    /// Whether there is nothing to cut.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.sheets.is_empty()
    }

    /// The cautions of a plan for it: those of its designs, or those of its pieces in a shop with these settings.
    pub fn cautions(&self, shop: &Design) -> Vec<Caution> {
        if let Some(cautions) = &self.cautions {
            return cautions.clone();
        }
        let sticks =
            self.parts.iter().map(|part| shop::Cut { material: &part.material.wood, short: Some(&part.short) });
        let sheets = self.sheets.iter().map(|sheet| shop::Cut { material: &sheet.material.wood, short: None });
        cautions_for(shop, &sticks.chain(sheets).collect::<Vec<_>>(), "plan")
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
