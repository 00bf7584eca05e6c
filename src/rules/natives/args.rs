//! What the functions of the program take, and parts of what they give.

use crate::measure::Real;
use crate::rules::book::{Cell, Table};
use crate::rules::datum::Datum;

/// The arguments of a function, by their place.
pub struct Args<'a>(pub &'a [Option<Datum>]);

impl Args<'_> {
    /// An amount, if it is given.
    pub fn real(&self, place: usize) -> Option<Real> {
        self.0.get(place)?.as_ref()?.amount().cloned()
    }

    /// An amount that is always given.
    pub fn amount(&self, place: usize) -> Real {
        self.real(place).unwrap_or(Real::ZERO)
    }

    /// An amount for geometry, which counts in plain numbers.
    pub fn float(&self, place: usize) -> Option<f64> {
        self.real(place).map(|amount| amount.to_f64())
    }

    /// A count, such as of sides; 0 for anything else, which no frame has.
    pub fn count(&self, place: usize) -> u32 {
        self.real(place).and_then(|amount| amount.to_whole()).and_then(|whole| u32::try_from(whole).ok()).unwrap_or(0)
    }

    /// A list of amounts; empty if none is given.
    pub fn list(&self, place: usize) -> &[Real] {
        match self.0.get(place) {
            Some(Some(Datum::List(list))) => list,
            _ => &[],
        }
    }
}

/// The amount in a cell of a table.
pub fn cell(table: &Table, column: &str, row: usize) -> Option<Real> {
    match table.column(column)?.cells.get(row)?.as_ref()? {
        Cell::Amount(amount) => Some(amount.clone()),
        Cell::Word(_) => None,
    }
}

/// An exact amount as part of a record.
pub fn amount(amount: Real) -> Option<Datum> {
    Some(Datum::Amount(amount))
}

/// An approximate amount as part of a record.
pub fn about(value: f64) -> Option<Datum> {
    Some(Datum::Amount(Real::approximate(value)))
}
