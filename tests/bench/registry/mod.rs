//! The tables of names: one meaning a name, help on each, examples that do as they promise.

// Helpers of tests break off like tests do.
#![allow(clippy::unwrap_used)]

mod engineering;
mod examples;
mod help;
mod names;
mod reference;
mod units;
mod words;
