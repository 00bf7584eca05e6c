//! The value of a cell, read through the notation as the kind that its column has.

use super::brief;
use super::cells::Cell;
use crate::diag::{Diagnostic, Says, codes, numbers};
use crate::measure::{Kind, Quantity, Real, Unit, read};

/// The longest length that a table may have, in inches: some thirteen kilometers.
pub const LONGEST: i64 = 500_000;
/// The greatest count of a row.
const MOST: u32 = 1_000_000;

impl Cell {
    /// A finding about the cell that nothing can be offered for: only a person knows what was measured or counted.
    pub fn wrong(&self, says: impl Into<Says>) -> Diagnostic {
        Diagnostic::of(&codes::table::CELL, says).at(self.span.clone())
    }

    /// A finding about the cell, with a text for it that works.
    pub fn refuse(&self, says: impl Into<Says>, works: &str) -> Diagnostic {
        self.wrong(says).hint(works)
    }

    /// Whether it is empty.
    pub fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    /// What the cell measures or counts. `what` is wanted of it, written as in `form`; a fix has the numbers of the cell, and
    /// can be read.
    fn quantity(&self, what: &str, form: &str, bare: Option<&Unit>) -> Result<Quantity, Diagnostic> {
        read::quantity(&self.text, bare).map_err(|found| {
            let mut lines = found.fixed(&self.text);
            lines.retain(|line| numbers(line) == numbers(&self.text) && read::quantity(line, bare).is_ok());
            let says = if lines.is_empty() {
                found.says.and(format!("; a {what} is written as in {form}"))
            } else {
                found.says
            };
            Diagnostic { code: found.code, ..self.wrong(says).only(lines) }
        })
    }

    /// A length above 0, in inches; a bare number is in the unit `bare`.
    ///
    /// # Errors
    /// It is missing, not a length, not above 0, longer than any stick.
    pub fn length(&self, what: &str, bare: Option<&Unit>) -> Result<Real, Diagnostic> {
        let form = if bare.is_some_and(|unit| unit.names.contains(&"mm")) { "419" } else { "16 1/2" };
        if self.is_empty() {
            return Err(self.wrong(format!("a {what} is missing here, as in {form}")));
        }
        let quantity = self.quantity(what, form, bare)?;
        let shown = brief(&self.text);
        if quantity.kind != Kind::LENGTH {
            let is = quantity.kind.with_article();
            return Err(self.wrong(format!("a {what} is wanted here, as in {form}, and {shown} is {is}")));
        }
        if !quantity.amount.is_positive() {
            return Err(self.wrong(format!("a {what} is above 0, and {shown} is not")));
        }
        if quantity.amount > Real::whole(LONGEST) {
            return Err(self.wrong(format!("a {what} is at most {LONGEST}in, and {shown} is more")));
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
        number.map(Some).ok_or_else(|| self.wrong(message()))
    }

    /// An amount of money, in cents.
    ///
    /// # Errors
    /// Not money, below 0, a part of a cent.
    pub fn cents(&self) -> Result<u32, Diagnostic> {
        const FORM: &str = "12.50";
        let quantity = self.quantity("cost", FORM, None)?;
        let shown = brief(&self.text);
        if quantity.kind != Kind::MONEY && quantity.kind != Kind::NUMBER {
            let is = quantity.kind.with_article();
            return Err(self.wrong(format!("a cost is wanted here, as in {FORM}, and {shown} is {is}")));
        }
        if quantity.amount.is_negative() {
            return Err(self.wrong(format!("a cost is not below 0, and {shown} is")));
        }
        let cents = (quantity.amount * Real::whole(100)).to_whole();
        let cents = cents.and_then(|cents| u32::try_from(cents).ok());
        cents.ok_or_else(|| self.wrong(format!("a cost is in whole cents up to some millions, not {shown}")))
    }

    /// An angle in degrees, from 0 to where the saw would run along the part; none of an empty cell.
    ///
    /// # Errors
    /// Anything else.
    pub fn angle(&self, what: &str) -> Result<Option<Real>, Diagnostic> {
        const STEEPEST: i64 = 80;
        if self.is_empty() {
            return Ok(None);
        }
        let quantity = self.quantity(what, "45", Unit::named("deg"))?;
        let fits = !quantity.amount.is_negative() && quantity.amount <= Real::whole(STEEPEST);
        if quantity.kind != Kind::ANGLE || !fits {
            let shown = brief(&self.text);
            return Err(self.wrong(format!("a {what} is an angle from 0 to {STEEPEST} degrees, not {shown}")));
        }
        Ok(Some(quantity.amount))
    }
}
