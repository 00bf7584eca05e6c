//! The ends of parts: joint, angles, and how much shorter a part is at its inner edge.

use super::material::sides;
use super::saw::Saw;
use super::work::{JOINTS, Joint, SHEET};
use crate::diag::{Diagnostic, near};
use crate::measure::{Real, Unit};
use crate::table::{Cell, brief};

/// The cells that give the ends of a part.
pub(super) struct Ends<'a> {
    pub(super) joint: &'a Cell,
    pub(super) mitre: &'a Cell,
    pub(super) tilt: &'a Cell,
    pub(super) short: &'a Cell,
    pub(super) section: &'a Cell,
}

/// How the ends of a part are cut, in degrees and inches.
pub(super) struct Cut {
    pub(super) joint: Joint,
    pub(super) mitre: Real,
    pub(super) tilt: Real,
    pub(super) short: Real,
}

impl Ends<'_> {
    /// Of a part so long, as far as that is known; all that is wrong with the cells goes to `faults`.
    pub(super) fn read(&self, length: Option<&Real>, bare: Option<&Unit>, faults: &mut Vec<Diagnostic>) -> Option<Cut> {
        let mut report = |one: Diagnostic| faults.push(one);
        let turn = self.mitre.angle("miter").map_err(&mut report).ok();
        let tilt = self.tilt.angle("tilt").map_err(&mut report).ok();
        let short = self.given_short(length, bare).map_err(&mut report).ok();
        let joint = self.joint(turn.as_ref().and_then(Option::as_ref)).map_err(&mut report).ok();
        let (turn, tilt, short, joint) = (turn?, tilt?, short?, joint?);
        let mitre = if joint == Joint::Square { Real::ZERO } else { turn.unwrap_or(RIGHT) };
        let less = || self.less(joint, &mitre, bare).map_err(report).ok();
        let short = match short {
            Some(short) => short,
            None => length.cloned().unwrap_or(Real::ZERO) - less()?,
        };
        Some(Cut { joint, tilt: tilt.unwrap_or(Real::ZERO), short, mitre })
    }

    fn joint(&self, turn: Option<&Real>) -> Result<Joint, Diagnostic> {
        let word = self.joint.text.to_lowercase();
        let joint = match JOINTS.iter().find(|row| row.0 == word) {
            Some(row) => row.1,
            None if word.is_empty() => Joint::Square,
            None => {
                let message = format!("a joint is square, profiled or reversible, not {}", brief(&self.joint.text));
                let words = JOINTS.iter().map(|row| row.0).chain([SHEET]);
                let meant = near(&word, words).first().map(ToString::to_string);
                return Err(self.joint.wrong(message).only(meant));
            }
        };
        if joint == Joint::Square && turn.is_some_and(|turn| !turn.is_exact_zero()) {
            let message = "a part with a miter is profiled or reversible, and this one is square";
            return Err(self.mitre.wrong(message));
        }
        Ok(joint)
    }

    /// The short length, where it is given.
    fn given_short(&self, length: Option<&Real>, bare: Option<&Unit>) -> Result<Option<Real>, Diagnostic> {
        if self.short.is_empty() {
            return Ok(None);
        }
        let short = self.short.length("short length", bare)?;
        match length {
            Some(length) if short > *length => {
                let given = brief(&self.short.text);
                let message = format!(
                    "a part cannot be longer between the short points than between the long ones, and {given} is"
                );
                Err(self.short.wrong(message))
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
                let message =
                    "what reversible parts share depends on their width: write a section with it, as in 1 1/2 x 3/4";
                Err(self.section.wrong(message))
            }
        }
    }
}

/// The miter of a frame of four sides.
const RIGHT: Real = Real::whole(45);
