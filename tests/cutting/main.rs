//! Cutting plans against known optima, against an exhaustive search, and against a general solver.

// Helpers of tests break off like tests do.
#![allow(clippy::unwrap_used)]

mod certificates;
mod exhaustive;
mod flaws;
mod frames;
mod gcut;
mod general;
mod instances;
mod known;
#[path = "../support/long.rs"]
#[allow(dead_code, reason = "some of it is for the tests of the program")]
mod long;
mod random;
mod scale;
mod sheets;
