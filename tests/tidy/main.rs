//! What holds for the whole project: layers, who may do what, what is shipped and what is written about it.

// Helpers of tests break off like tests do.
#![allow(clippy::unwrap_used)]

mod advisories;
#[path = "../support/bench.rs"]
mod bench;
mod circles;
mod layers;
mod notices;
mod packages;
mod phrases;
mod powers;
mod project;
mod readme;
mod sentences;
mod source;
mod styles;
mod uses;
