//! A length as it is read off the tape.

use crate::diag::{Diagnostic, codes};
use crate::measure::write::exactly;
use crate::measure::{Graduation, Length, Manner, Quantity, Real, Toward, to_step};

/// The longest number on a tape: a longer one does not fit under its mark.
const LONGEST: i64 = 1_000_000_000;

/// A length counted in the marks of the tape.
pub struct Reading {
    /// Marks from the end of the tape, with the part of a mark beyond the last.
    pub ticks: Real,
    /// The last mark at or below the length.
    pub below: i64,
    /// The nearest mark, by which the length is shown.
    pub nearest: i64,
    /// Whether the length is on a mark.
    pub exact: bool,
    /// The marks of the tape.
    pub tape: Tape,
}

/// The marks of a graduation, by their length.
pub struct Tape {
    /// From mark to mark, in inches.
    pub step: Real,
    /// Whether the tape is in millimeters.
    pub metric: bool,
    /// Marks from one longer mark to the next: the numbered marks first, every mark last.
    pub levels: Vec<i64>,
}

impl Tape {
    /// The marks of a tape with this graduation.
    pub fn new(graduation: &Graduation) -> Self {
        let step = graduation.step.value.clone();
        let levels = if graduation.metric {
            let one = (Real::ratio(5, 127) / step.clone()).to_whole().unwrap_or(1);
            let mut levels = vec![10 * one, 5 * one, one];
            levels.extend((one > 1).then_some(1));
            levels
        } else {
            let one = (Real::ONE / step.clone()).to_whole().unwrap_or(1);
            std::iter::successors(Some(one), |marks| (marks % 2 == 0).then_some(marks / 2)).collect()
        };
        Self { step, metric: graduation.metric, levels }
    }

    /// Marks from one numbered mark to the next: an inch, ten millimeters.
    pub fn numbered(&self) -> i64 {
        self.levels.first().copied().unwrap_or(1)
    }

    /// How far down the mark `tick` reaches, in half rows; the shortest are in the edge alone.
    pub fn reach(&self, tick: i64) -> usize {
        let longest = self.levels.len();
        let level = self.levels.iter().position(|marks| tick % marks == 0).unwrap_or(longest);
        // The numbered marks reach one further, so that they stand out from the next.
        if level == 0 { longest } else { longest.saturating_sub(1 + level) }
    }

    /// The length of so many marks, in inches.
    pub fn inches(&self, ticks: i64) -> Real {
        self.step.clone() * Real::whole(ticks)
    }
}

impl Reading {
    /// The reading of `length` on a tape with this graduation.
    ///
    /// # Errors
    /// The length is below zero, or longer than any tape.
    pub fn new(length: &Length, graduation: &Graduation) -> Result<Self, Diagnostic> {
        let value = length.value.clone().check()?;
        if value.is_negative() {
            return Err(below_nought(&value, graduation));
        }
        let tape = Tape::new(graduation);
        let (mark, exact) = to_step(&value, &tape.step, Toward::Nearest);
        let ticks = if exact { mark.clone() } else { value } / tape.step.clone();
        let count = |ticks: Real| ticks.to_whole().filter(|ticks| *ticks < LONGEST);
        match (count(ticks.floor()), count(mark / tape.step.clone())) {
            (Some(below), Some(nearest)) => Ok(Self { ticks, below, nearest, exact, tape }),
            _ => Err(Diagnostic::of(&codes::tape::RANGE, "no tape is that long")),
        }
    }
}

fn below_nought(value: &Real, graduation: &Graduation) -> Diagnostic {
    let shown = |value: Real| Manner { graduation: graduation.clone() }.short(&Quantity::inches(value));
    Diagnostic::of(&codes::tape::RANGE, format!("a tape begins at 0, so it cannot show {}", shown(value.clone())))
        .hint(format!("tape {}", exactly(&Quantity::inches(value.abs()))))
}
