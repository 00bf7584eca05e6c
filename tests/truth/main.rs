//! Numbers against the outside: notation, units, fractions, geometry, frames worked by hand, published engineering.

// A helper of a test fails the way a test does.
#![allow(clippy::unwrap_used)]

mod arithmetic;
mod engineering;
mod exact;
mod fractions;
mod frames;
mod geometry;
mod held;
#[path = "../support/long.rs"]
#[allow(dead_code, reason = "some of it is for tests that draw samples")]
mod long;
mod moisture;
mod mutants;
mod notation;
mod row;
mod rows;
mod runner;
mod seconds;
mod truth;
mod units;
