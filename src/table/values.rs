//! The value of a cell, read through the notation as the kind that its column has.

use super::brief;
use super::cells::Cell;
use crate::diag::{Diagnostic, Says, codes};
use crate::measure::{Kind, Quantity, Real, Unit, read};

/// The longest length that a table may have, in inches: some thirteen kilometers.
pub const LONGEST: i64 = 500_000;
/// The greatest count of a row.
const MOST: u32 = 1_000_000;

impl Cell {
    /// A finding about the cell, with a text for it that works.
    pub fn refuse(&self, says: impl Into<Says>, works: &str) -> Diagnostic {
        Diagnostic::of(&codes::table::CELL, says).at(self.span.clone()).hint(works)
    }

    /// Whether it is empty.
    pub fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    fn quantity(&self, bare: Option<&Unit>, works: &str) -> Result<Quantity, Diagnostic> {
        let read = read::quantity(&self.text, bare);
        read.map_err(|found| {
            let lines = found.fixed(&self.text);
            let found = Diagnostic { code: found.code, ..self.refuse(found.says, works) };
            if lines.is_empty() { found } else { found.only(lines) }
        })
    }

    /// A length above 0, in inches; a bare number is in the unit `bare`.
    ///
    /// # Errors
    /// It is missing, not a length, not above 0, longer than any stick.
    pub fn length(&self, what: &str, bare: Option<&Unit>) -> Result<Real, Diagnostic> {
        let works = if bare.is_some_and(|unit| unit.names.contains(&"mm")) { "419" } else { "16 1/2" };
        if self.is_empty() {
            return Err(self.refuse(format!("a {what} is missing here"), works));
        }
        let quantity = self.quantity(bare, works)?;
        let shown = brief(&self.text);
        if quantity.kind != Kind::LENGTH {
            let is = quantity.kind.with_article();
            return Err(self.refuse(format!("a {what} is wanted here, and {shown} is {is}"), works));
        }
        if !quantity.amount.is_positive() {
            return Err(self.refuse(format!("a {what} is above 0, and {shown} is not"), works));
        }
        if quantity.amount > Real::whole(LONGEST) {
            return Err(self.refuse(format!("a {what} is at most {LONGEST}in, and {shown} is more"), works));
        }
        Ok(quantity.amount)
    }

    /// A whole number from 0; none of an empty cell.
    ///
    /// # Errors
    /// Anything else.
    pub fn count(&self, what: &str) -> Result<Option<u32>, Diagnostic> {
        if self.is_empty() {
            return Ok(None);
        }
        let number = self.text.parse::<u32>().ok().filter(|number| *number <= MOST);
        let message = || format!("a {what} is a whole number up to {MOST}, not {}", brief(&self.text));
        number.map(Some).ok_or_else(|| self.refuse(message(), "4"))
    }

    /// An amount of money, in cents.
    ///
    /// # Errors
    /// Not money, below 0, a part of a cent.
    pub fn cents(&self) -> Result<u32, Diagnostic> {
        const WORKS: &str = "12.50";
        let quantity = self.quantity(None, WORKS)?;
        let shown = brief(&self.text);
        if quantity.kind != Kind::MONEY && quantity.kind != Kind::NUMBER {
            let is = quantity.kind.with_article();
            return Err(self.refuse(format!("a cost is wanted here, and {shown} is {is}"), WORKS));
        }
        if quantity.amount.is_negative() {
            return Err(self.refuse(format!("a cost is not below 0, and {shown} is"), WORKS));
        }
        let cents = (quantity.amount * Real::whole(100)).to_whole();
        let cents = cents.and_then(|cents| u32::try_from(cents).ok());
        cents.ok_or_else(|| self.refuse(format!("a cost is in whole cents up to some millions, not {shown}"), WORKS))
    }

    /// An angle in degrees, from 0 to where the saw would run along the part; none of an empty cell.
    ///
    /// # Errors
    /// Anything else.
    pub fn angle(&self, what: &str) -> Result<Option<Real>, Diagnostic> {
        const STEEPEST: i64 = 80;
        const WORKS: &str = "45";
        if self.is_empty() {
            return Ok(None);
        }
        let quantity = self.quantity(Unit::named("deg"), WORKS)?;
        let fits = !quantity.amount.is_negative() && quantity.amount <= Real::whole(STEEPEST);
        if quantity.kind != Kind::ANGLE || !fits {
            let shown = brief(&self.text);
            return Err(self.refuse(format!("a {what} is an angle from 0 to {STEEPEST} degrees, not {shown}"), WORKS));
        }
        Ok(Some(quantity.amount))
    }
}
