//! Facts: what the program answers, one table of fields for each kind of thing.
//!
//! A table stands beside the type that it describes: `shop/facts.rs`, `plan/facts.rs` and so on. Page, JSON, script map,
//! CSV, help and schema walk these tables. Invariant: no walker knows a fact, and no fact knows a walker.

mod datum;
mod field;
mod instance;
mod kind;
pub mod rows;

pub use datum::{Datum, Items};
pub use field::{Field, Get, Head, Level, field};
pub use instance::{Fact, Instance, Shape, fact, shapes};
pub use kind::Kind;
