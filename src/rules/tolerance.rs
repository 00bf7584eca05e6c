//! How far a figure may be off: the errors of what is measured and made, carried to it by its own slopes.

use std::collections::HashMap;

use super::book::{MEANS, Means, Slot, Type};
use super::datum::Datum;
use super::design::Design;
use super::evaluate::Absent;
use crate::measure::Real;

/// How far a figure may be off, in its storage unit.
#[derive(Clone, Debug)]
pub struct Tolerance {
    /// Every error at its greatest, all to one side.
    pub worst: Real,
    /// The root of the sum of the squares: what is likely, the errors being independent.
    pub likely: Real,
    /// What each measured or made size adds at its greatest, the largest first.
    pub shares: Vec<(Slot, Real)>,
}

/// A share so many times smaller than its figure is left out.
const DUST: i64 = 1_000_000_000_000;

impl Design {
    /// How far `figure` may be off from what faultless measuring and cutting would give.
    ///
    /// A measured field may be off by half a mark of the tape, a made size by the repeatability of the saw or the planer
    /// (`shop.saw`, `shop.planer`); what is typed as a target is not off. A size that feeds a figure on two ways is one
    /// error. Rounding to the tape is left aside: it is known, and the sheet shows it.
    ///
    /// # Errors
    /// The figure has no value, or is not a quantity.
    pub fn tolerance(&self, figure: Slot) -> Result<Tolerance, Absent> {
        let known = self.known(figure)?;
        if !matches!(self.book().name(figure).of, Type::Quantity(_)) {
            return Err(Absent::Idle);
        }
        let order = &self.book().builds[usize::from(self.build())].order;
        let own: HashMap<Slot, Real> = order.iter().filter_map(|slot| Some((*slot, self.off(*slot)?))).collect();
        // Roots and sines leave dust where errors cancel.
        let dust = known.drawn.amount().map_or(Real::ZERO, |amount| amount.abs() * Real::ratio(1, DUST));
        let moved = self.moved_by(figure, &own)?.into_iter().map(|(source, by)| (source, by.abs()));
        let mut shares: Vec<(Slot, Real)> =
            moved.filter(|(_, share)| !share.is_approximate() || *share > dust).collect();
        shares.sort_by(|one, other| other.1.partial_cmp(&one.1).unwrap_or(std::cmp::Ordering::Equal));
        let worst = shares.iter().fold(Real::ZERO, |sum, (_, share)| sum + share.clone());
        let squares = shares.iter().fold(Real::ZERO, |sum, (_, share)| sum + share.clone() * share.clone());
        Ok(Tolerance { worst, likely: squares.sqrt(), shares })
    }

    /// What a size is measured or made with, in a few words.
    pub fn means(&self, slot: Slot) -> Option<&'static str> {
        Some(match self.rule(slot)?.by? {
            Means::Tape => "read off the tape",
            Means::Saw => "cut on the saw",
            Means::Planer => "planed or milled",
        })
    }

    /// Whether a field holds what was measured on the work or on the frame, which only the work can show.
    pub fn is_measured(&self, slot: Slot) -> bool {
        self.rule(slot).is_some_and(|rule| rule.by == Some(Means::Tape))
    }

    /// How far a size by itself may be off, if it is measured or made and has a value.
    fn off(&self, slot: Slot) -> Option<Real> {
        let by = self.rule(slot)?.by?;
        self.known(slot).ok()?;
        if by == Means::Tape {
            // What nobody measured is not off.
            self.given(slot)?;
            return Some(self.manner().graduation.step.value.clone() / Real::whole(2));
        }
        let (_, _, field) = MEANS.iter().find(|(_, means, _)| *means == by)?;
        match self.known(self.book().slot((*field)?)?).ok()?.drawn {
            Datum::Amount(amount) => Some(amount),
            Datum::Word(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => None,
        }
    }
}
