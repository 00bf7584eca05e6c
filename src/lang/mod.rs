//! The bench language: from a typed line to a value, or to a finding with its place.

pub mod line;

pub use line::{Line, Mode, Names, Takes, is_complete, lone_name, prepass, read_line, unknown_name};
