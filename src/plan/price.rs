//! What the cost of a plan is: money, or a count of what is taken.

use super::read::Held;

/// Told once for all that the shop has, offcuts left out: they are there already and cost nothing.
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

    /// What one stick or offcut costs.
    pub fn of(self, held: &Held) -> u32 {
        if held.offcut { 0 } else { self.each(held.cost) }
    }

    /// An amount of cost as exact text: `296.61`, or a count.
    pub fn text(self, cost: u64) -> String {
        match self {
            Self::Money => format!("{}.{:02}", cost / 100, cost % 100),
            Self::Count => cost.to_string(),
        }
    }
}
