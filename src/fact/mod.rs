//! Facts: what the program answers, one table of fields for each kind of thing.
//!
//! A table is in the file beside the type that it describes: `shop/facts.rs`, `plan/facts.rs` and so on. Page, JSON, script map,
//! CSV, help and schema walk these tables. Invariant: no walker knows a fact, and no fact knows a walker.

mod datum;
mod kind;
pub mod rows;
mod shape;
mod table;

pub use datum::{Datum, Items};
pub use kind::Kind;
pub use shape::{Head, Level, Shape, shapes};
pub use table::{Fact, Field, Get, Instance, fact, field};
