//! A check of a finished plan against its instance. It shares no code with the search.

mod bound;
mod cuts;
mod family;
mod kinds;
mod knapsack;
mod mixes;
mod patterns;
mod steps;
mod tree;

use std::fmt;

pub use bound::certified;

use super::instance::{Fit, Instance, Part, Plan};

/// A flaw of a plan; sticks, parts and stock by their rows.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Flaw {
    /// A stick of a row that the stock does not have.
    NoStock { stick: usize },
    /// A part of a row that the instance does not have.
    NoPart { stick: usize },
    /// Parts that must not share a stick.
    Unlike { stick: usize },
    /// A stick that is overfull, in ticks.
    TooFull { stick: usize, taken: i64, usable: u32 },
    /// Parts cut and left do not add up to those wanted.
    Count { part: usize, cut: u64, left: u64, wanted: u32 },
    /// More sticks than the stock has.
    TooMany { stock: usize, used: u64, count: u32 },
    /// A cost other than that of the sticks.
    Cost { claimed: u64, found: u64 },
    /// A bound above the cost.
    Bound { bound: u64, cost: u64 },
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoStock { stick } => write!(f, "stick {stick} is of no stock"),
            Self::NoPart { stick } => write!(f, "stick {stick} has a part that is not asked for"),
            Self::Unlike { stick } => write!(f, "stick {stick} has parts that do not go together"),
            Self::TooFull { stick, taken, usable } => write!(f, "stick {stick} has {taken} ticks in {usable}"),
            Self::Count { part, cut, left, wanted } => {
                write!(f, "part {part} is cut {cut} times and left {left} times, of {wanted}")
            }
            Self::TooMany { stock, used, count } => write!(f, "stock {stock} is used {used} times, of {count}"),
            Self::Cost { claimed, found } => write!(f, "the plan claims a cost of {claimed}, and costs {found}"),
            Self::Bound { bound, cost } => write!(f, "a bound of {bound} is above the cost of {cost}"),
        }
    }
}

/// Checks a plan: every stick holds its parts and the gaps between them, every part is cut or left exactly once, no
/// stick is used twice, and the cost is that of the sticks.
///
/// # Errors
/// The first flaw.
pub fn verify(instance: &Instance, plan: &Plan) -> Result<(), Flaw> {
    let mut cut = vec![0_u64; instance.parts.len()];
    let mut used = vec![0_u64; instance.stock.len()];
    let mut cost = 0;
    for (stick, own) in plan.sticks.iter().enumerate() {
        let stock = instance.stock.get(own.stock).ok_or(Flaw::NoStock { stick })?;
        used[own.stock] += 1;
        cost += u64::from(stock.cost);
        let mut taken = 0;
        let mut before: Option<&Part> = None;
        for row in &own.parts {
            let part = instance.parts.get(*row).ok_or(Flaw::NoPart { stick })?;
            cut[*row] += 1;
            if let Some(before) = before {
                taken += gap(before, part).ok_or(Flaw::Unlike { stick })?;
            }
            taken += i64::from(part.length);
            before = Some(part);
        }
        if taken > i64::from(stock.usable) {
            return Err(Flaw::TooFull { stick, taken, usable: stock.usable });
        }
    }
    for (part, own) in instance.parts.iter().enumerate() {
        let left = plan.left.get(part).copied().map_or(0, u64::from);
        if cut[part] + left != u64::from(own.quantity) {
            return Err(Flaw::Count { part, cut: cut[part], left, wanted: own.quantity });
        }
    }
    for (stock, own) in instance.stock.iter().enumerate() {
        if let Some(count) = own.count.filter(|count| used[stock] > u64::from(*count)) {
            return Err(Flaw::TooMany { stock, used: used[stock], count });
        }
    }
    if cost != plan.cost {
        return Err(Flaw::Cost { claimed: plan.cost, found: cost });
    }
    if plan.bound > cost {
        return Err(Flaw::Bound { bound: plan.bound, cost });
    }
    Ok(())
}

/// From the end of a part to the start of the next; none if they must not be neighbors.
fn gap(before: &Part, part: &Part) -> Option<i64> {
    let kerf = i64::from(before.kerf.max(part.kerf));
    match (before.fit, part.fit) {
        (Fit::Apart, Fit::Apart) => Some(kerf),
        (Fit::Turned { overlap, .. }, fit) if fit == before.fit && before.kerf == part.kerf => {
            Some(kerf - i64::from(overlap))
        }
        _ => None,
    }
}
