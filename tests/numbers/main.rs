//! Numbers against the outside: notation, units, fractions, geometry, frames worked by hand, published engineering.

// A helper of a test fails the way a test does.
#![allow(clippy::unwrap_used)]

mod engineering;
mod exact;
mod fractions;
mod frames;
mod geometry;
mod moisture;
mod notation;
mod rows;
mod units;
