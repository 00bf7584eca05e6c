//! Chooses the stretch of the tape to draw and the distance of its marks in columns.

use super::reading::Reading;
use crate::measure::Real;

/// Columns before the first mark.
pub const LEFT: usize = 2;
/// Columns behind the last mark.
const RIGHT: usize = 2;
/// Marks are at most this far apart: a greater distance would show less of the tape, and not more clearly.
const MOST_PITCH: usize = 4;
/// The least and the most columns that a drawing is made for.
const WIDTHS: (usize, usize) = (24, 100);

/// The marks that are drawn, and where.
pub struct Scale {
    /// The first mark drawn, counted from the tape's end.
    pub first: i64,
    /// The mark that the length is counted from: a numbered one where it can be seen.
    pub start: i64,
    /// The last mark drawn.
    pub last: i64,
    /// Columns from mark to mark.
    pub pitch: usize,
    /// Columns of the whole drawing.
    pub width: usize,
}

impl Scale {
    /// The stretch from the numbered mark before the length to the one behind it, and a little to each side; half of
    /// it or a quarter where the marks are too fine for that.
    pub fn new(reading: &Reading, width: usize) -> Self {
        let width = width.clamp(WIDTHS.0, WIDTHS.1);
        let room = width - LEFT - RIGHT;
        let mut stretch = reading.tape.numbered();
        while marks(stretch) + 2 > room && stretch % 2 == 0 {
            stretch /= 2;
        }
        let pitch = (room / (marks(stretch) + 2)).clamp(1, MOST_PITCH);
        let count = i64::try_from(room / pitch).unwrap_or(stretch);
        let start = reading.below / stretch * stretch;
        let on_it = reading.exact && reading.below == start;
        let before = if on_it { count / 2 } else { (count - stretch) / 2 };
        let first = (start - before).max(0);
        Self { first, start, last: first + count, pitch, width }
    }

    /// The marks drawn.
    pub fn ticks(&self) -> std::ops::RangeInclusive<i64> {
        self.first..=self.last
    }

    /// The column of a mark.
    pub fn column(&self, tick: i64) -> usize {
        self.column_of(&Real::whole(tick))
    }

    /// The column nearest to a place counted in marks.
    pub fn column_of(&self, ticks: &Real) -> usize {
        let past = (ticks.clone() - Real::whole(self.first)) * Real::whole(i64::try_from(self.pitch).unwrap_or(1));
        LEFT + rounded(&past)
    }
}

fn marks(stretch: i64) -> usize {
    usize::try_from(stretch).unwrap_or(usize::MAX - 2)
}

/// The whole number nearest to one that is not below nought.
pub fn rounded(value: &Real) -> usize {
    (value.clone() + Real::ratio(1, 2)).floor().to_whole().and_then(|whole| usize::try_from(whole).ok()).unwrap_or(0)
}
