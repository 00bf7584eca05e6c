//! A scripting shell for frame maths.

// The macros of the quantity library call one another by bare names.
#[macro_use]
extern crate uom;

pub mod args;
pub mod batch;
pub mod book;
pub mod cut;
pub mod diag;
pub mod drive;
pub mod fact;
pub mod frame;
pub mod host;
pub mod lang;
pub mod measure;
pub mod plan;
pub mod rules;
pub mod session;
pub mod shell;
pub mod shop;
pub mod show;
pub mod start;
pub mod table;
pub mod word;
