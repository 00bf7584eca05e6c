//! Lines typed at a bench in memory: the tables of names, house styles, data for scripts, lines nobody meant to type.

// A helper of a test fails the way a test does.
#![allow(clippy::unwrap_used)]

#[path = "../support/bench.rs"]
mod bench;
mod cautions;
mod facts;
mod findings;
mod fixes;
#[path = "../support/long.rs"]
#[allow(dead_code, reason = "some of it is for the tests of the program")]
mod long;
mod registry;
mod robust;
mod script_data;
mod styles;
