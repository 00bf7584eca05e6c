//! The ends of parts: joint, angles, and how much shorter a part is at its inner edge.

use super::material::sides;
use super::read::{bad, bad_reading, long};
use super::saw::Saw;
use super::table::Cell;
use crate::diag::Diagnostic;
use crate::measure::{Kind, Real, Unit, read};
use crate::shop::Stick;

/// How the ends of a part are cut, and so how parts lie in a stick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// Square ends.
    Square,
    /// Mitred, of a moulding that cannot be turned end for end.
    Profiled,
    /// Mitred, inner and outer edge alike: neighbours are turned end for end.
    Reversible,
}

/// Every joint with the word for it.
const JOINTS: &[(&str, Joint)] =
    &[("square", Joint::Square), ("profiled", Joint::Profiled), ("reversible", Joint::Reversible)];

/// What stands for a joint where a row is no stick but a sheet.
pub(super) const SHEET: &str = "sheet";

impl Joint {
    /// That of a piece of a design.
    pub(super) fn of(stick: &Stick) -> Self {
        match (stick.mitre.amount.is_exact_zero(), stick.turned) {
            (true, _) => Self::Square,
            (false, true) => Self::Reversible,
            (false, false) => Self::Profiled,
        }
    }

    pub(super) fn word(self) -> &'static str {
        JOINTS.iter().find(|row| row.1 == self).map_or("", |row| row.0)
    }
}

/// The cells that tell of a part's ends.
pub(super) struct Ends {
    pub(super) joint: Cell,
    pub(super) mitre: Cell,
    pub(super) tilt: Cell,
    pub(super) short: Cell,
    pub(super) section: Cell,
}

/// How the ends of a part are cut, in degrees and inches.
pub(super) struct Cut {
    pub(super) joint: Joint,
    pub(super) mitre: Real,
    pub(super) tilt: Real,
    pub(super) short: Real,
}

impl Ends {
    /// Of a part so long, as far as that is known.
    pub(super) fn read(&self, length: Option<&Real>, bare: Option<&Unit>) -> Result<Cut, Diagnostic> {
        let word = self.joint.text.to_lowercase();
        let joint = match JOINTS.iter().find(|row| row.0 == word) {
            Some(row) => row.1,
            None if word.is_empty() => Joint::Square,
            None => {
                let message = format!("a joint is square, profiled or reversible, not {}", self.joint.text);
                return Err(bad(&self.joint, message, "profiled"));
            }
        };
        let turn = angle(&self.mitre, "mitre")?;
        if joint == Joint::Square && turn.as_ref().is_some_and(|turn| !turn.is_exact_zero()) {
            let message = "a part with a mitre is profiled or reversible, and this one is square";
            return Err(bad(&self.mitre, message, "0"));
        }
        let mitre = if joint == Joint::Square { Real::ZERO } else { turn.unwrap_or(RIGHT) };
        let tilt = angle(&self.tilt, "tilt")?.unwrap_or(Real::ZERO);
        let long = length.cloned().unwrap_or(Real::ZERO);
        let short = match self.told_short(length, bare)? {
            Some(short) => short,
            None => long - self.less(joint, &mitre, bare)?,
        };
        Ok(Cut { joint, mitre, tilt, short })
    }

    /// The short length, where it is told.
    fn told_short(&self, length: Option<&Real>, bare: Option<&Unit>) -> Result<Option<Real>, Diagnostic> {
        if self.short.text.is_empty() {
            return Ok(None);
        }
        let short = long(&self.short, "short length", bare)?;
        match length {
            Some(length) if short > *length => {
                let message =
                    format!("between the short points a part is no longer than its length, and {} is", self.short.text);
                Err(bad(&self.short, message, "15"))
            }
            _ => Ok(Some(short)),
        }
    }

    /// By how much the short length is less than the long one, from the width of the section.
    fn less(&self, joint: Joint, mitre: &Real, bare: Option<&Unit>) -> Result<Real, Diagnostic> {
        let width = sides(&self.section.text, bare).map(|(width, _)| width);
        let both = |width: &Real| Saw::shared(width, mitre) * Real::whole(2);
        match (joint, width) {
            (Joint::Square, _) | (Joint::Profiled, Err(_)) => Ok(Real::ZERO),
            (Joint::Profiled | Joint::Reversible, Ok(width)) => Ok(both(&width)),
            (Joint::Reversible, Err(_)) => {
                let message = "what reversible parts share hangs on their width, and the section tells none";
                Err(bad(&self.section, message, "1 1/2 x 3/4"))
            }
        }
    }
}

/// The mitre of a frame of four sides.
const RIGHT: Real = Real::whole(45);

/// A mitre or tilt in degrees, from 0 to where the saw would run along the part.
fn angle(cell: &Cell, what: &str) -> Result<Option<Real>, Diagnostic> {
    const STEEPEST: i64 = 80;
    if cell.text.is_empty() {
        return Ok(None);
    }
    let read = read::quantity(&cell.text, Unit::named("deg"));
    let quantity = read.map_err(|found| bad_reading(cell, found, "45"))?;
    let fits = !quantity.amount.is_negative() && quantity.amount <= Real::whole(STEEPEST);
    if quantity.kind != Kind::ANGLE || !fits {
        return Err(bad(cell, format!("a {what} is an angle from 0 to {STEEPEST} degrees, not {}", cell.text), "45"));
    }
    Ok(Some(quantity.amount))
}
