//! Walkers over the tables of facts: JSON, its schema, and the columns of pages. None of them knows a fact.

pub mod json;
mod measured;
pub mod page;
pub mod schema;

pub use json::{Object, json};
pub use measured::Memo;
