//! The program as it is started: words of the command line, pipes, files, exit status.

// Helpers of tests break off like tests do.
#![allow(clippy::unwrap_used)]

mod files;
mod lines;
mod pipes;
mod plan;
mod program;
mod scripts;
mod settings;
mod stock;
mod usage;
