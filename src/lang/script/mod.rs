//! Scripts: from the typed text to a value, or to a finding with its place.
//!
//! Invariant: nothing here touches files, the clock on the wall or the terminal; a script reaches only what the table
//! of functions grants.

mod arithmetic;
mod bench;
pub mod builtin;
mod caught;
mod compare;
mod construct;
mod context;
mod design;
mod engine;
mod facts;
mod guard;
mod imports;
mod insertions;
mod json;
mod limits;
mod literal;
mod lower;
mod memory;
mod operator;
mod powers;
mod property;
mod registry;
mod resolver;
mod reword;
mod scripts;
mod sort;
mod source;
mod stack;
mod syntax;
mod tables;
mod tokens;
mod trouble;
mod unary;
mod value;
mod watch;

pub use design::{DESIGN, Design, DesignHandle};
pub use engine::{Engine, Settings};
pub use limits::{Limits, Reached};
pub use literal::sides;
pub use memory::Memory;
pub use powers::{Aside, BookHandle, FileHandle, Listener, Powers, Workshop};
pub use scripts::Script;
pub use sort::Sort;
pub use source::{Places, Prepared, Source};
pub use stack::{settle, stack_for, with_room};
pub use value::Value;
pub use watch::Watch;

#[cfg(test)]
mod tests;
