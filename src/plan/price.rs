//! What a piece costs, and what the cost of a plan is: money, or a count of what is taken.

use super::material::Material;
use crate::diag::Diagnostic;
use crate::measure::Real;
use crate::table::{Cell, brief};

/// One for all that the shop has except offcuts, which cost nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pricing {
    /// Everything has a price, in cents.
    Money,
    /// Nothing has one: each stick, board or sheet counts as one.
    #[default]
    Count,
}

impl Pricing {
    /// Whether cost is money.
    pub fn is_money(self) -> bool {
        self == Self::Money
    }

    /// What one piece costs that has this price, in cents or as a count.
    pub fn each(self, price: Option<u32>) -> u32 {
        match self {
            Self::Money => price.unwrap_or(0),
            Self::Count => 1,
        }
    }

    /// An amount of cost as exact text: `296.61`, or a count.
    pub fn text(self, cost: u64) -> String {
        match self {
            Self::Money => format!("{}.{:02}", cost / 100, cost % 100),
            Self::Count => cost.to_string(),
        }
    }
}

/// What one piece costs, in cents, rounded up where the price is by the foot.
pub(super) fn price(
    cell: &Cell,
    length: &Real,
    width: Option<&Real>,
    material: &Material,
) -> Result<Option<u32>, Diagnostic> {
    if cell.is_empty() {
        return Ok(None);
    }
    let Some((amount, by)) = cell.text.split_once('/') else {
        return cell.cents().map(Some);
    };
    let plain = Cell { text: amount.trim().to_string(), ..cell.clone() };
    let each = Real::whole(i64::from(plain.cents()?));
    let measure = match by.trim() {
        "ft" => length.clone() / Real::whole(12),
        "bdft" => {
            let Some(width) = width else {
                return Err(cell.wrong("a cost by the board foot takes a width, and this row has none"));
            };
            let Some(thickness) = quarters(&material.section) else {
                let message = "a cost by the board foot takes a thickness in quarters, and the section gives none";
                return Err(cell.wrong(message));
            };
            board_feet(length, width, &thickness)
        }
        other => return Err(cell.wrong(format!("a cost is by ft or bdft, as in 1.80/ft, not by {}", brief(other)))),
    };
    let cents = (each * measure).ceil().to_whole().and_then(|cents| u32::try_from(cents).ok());
    cents.map(Some).ok_or_else(|| cell.wrong("that is more than any board costs"))
}

/// Board feet: length × width × thickness, all in inches, by the 144 cubic inches of one (common practice, no source).
pub(super) fn board_feet(length: &Real, width: &Real, thickness: &Real) -> Real {
    length.clone() * width.clone() * thickness.clone() / Real::whole(144)
}

/// A thickness in quarters, `5/4`, in inches.
pub(super) fn quarters(section: &str) -> Option<Real> {
    let (over, under) = section.trim().split_once('/')?;
    let (over, under): (i64, i64) = (over.trim().parse().ok()?, under.trim().parse().ok()?);
    (over > 0 && under > 0).then(|| Real::ratio(over, under))
}
