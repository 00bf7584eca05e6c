//! The program in processes of its own: the command line, the design book, batch runs, hostile scripts, memory.

// A helper of a test fails the way a test does.
#![allow(clippy::unwrap_used)]

mod batch;
mod book;
mod cli;
mod facts;
mod hostile;
#[path = "../support/long.rs"]
mod long;
mod memory;
mod program;
