//! Cutting plans: parts out of sticks at the least cost, with a proof.
//!
//! An [`Instance`] is one material in whole ticks; [`solve`] returns the cheapest [`Plan`] that it finds and a lower
//! bound of the cost, with a [`Certificate`] of that bound; [`verify`] checks a plan, and [`certified`] the certificate.
//! They share no code with the search.
//!
//! How it works: like parts are merged, greedy fillings give a first plan, and column generation gives prices of the
//! parts by which no stick holds more than a known worth. Whole-number prices give a *cut*: the sticks of any plan must
//! hold the worth of all parts. The cheapest mix of sticks that meets all cuts is the bound.
//! That mix is tried: if its relaxation has no solution, a new cut follows; if it has one, it is rounded.
//!
//! Invariant: pure; every claim is in whole numbers, and floating point only guides the search.

mod arrange;
mod bound;
mod certificate;
mod certify;
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

pub use certificate::{Certificate, ClosedMix, Counted, Prices, Split, Tree};
pub use instance::{Fit, Instance, Part, Plan, Stick, Stock};
pub use limits::Limits;
pub use solve::solve;
pub use verify::{Flaw, certified, verify};
