//! Sheets: pieces out of glass and boards by cuts from edge to edge, at the least cost, with a bound.
//!
//! [`solve`] returns the cheapest [`Plan`] that it finds and a lower bound of the cost; [`verify`] checks a plan and
//! shares no code with the search.

mod bound;
mod draft;
mod exact;
mod fill;
mod fullest;
mod improve;
mod instance;
mod layout;
mod measure;
mod need;
mod order;
mod plan;
mod problem;
mod solve;
mod tree;
mod verify;

#[cfg(test)]
mod tests;

pub use fullest::{Fullest, fullest};
pub use instance::{Instance, Piece, Sheet};
pub use plan::{Layout, Line, Placed, Plan, Region};
pub use solve::solve;
pub use verify::{Flaw, verify};
