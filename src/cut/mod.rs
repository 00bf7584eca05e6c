//! Cutting plans: parts out of sticks at the least cost, with a proof.
//!
//! An [`Instance`] is one material in whole ticks; [`solve`] gives the cheapest [`Plan`] that it finds and a bound
//! under which no plan can cost; [`verify`] checks a plan and shares no code with what made it.
//!
//! How it works: parts that take the same length are merged, greedy fillings give a first plan, and column generation
//! gives prices of the parts for which no stick holds more than so much. From whole-number prices follows a *cut*: the
//! sticks of any plan must hold what all parts are worth. The cheapest mix of sticks that meets all cuts is the bound.
//! That mix is tried: where its relaxation has no solution, a new cut follows; where it has one, it is rounded.
//!
//! Invariant: pure, and whole numbers in whatever is claimed; floating point only guides the search.

mod arrange;
mod bound;
mod close;
mod dive;
mod greedy;
mod instance;
mod knapsack;
mod limits;
mod mix;
mod number;
mod problem;
mod relax;
mod share;
pub mod sheet;
mod simplex;
mod solve;
mod verify;

pub use instance::{Fit, Instance, Part, Plan, Stick, Stock};
pub use limits::Limits;
pub use solve::solve;
pub use verify::{Flaw, verify};
