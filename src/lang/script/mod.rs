//! Scripts: from the text that was typed to a value or a finding with its place.
//!
//! Invariant: nothing here touches files, the clock on the wall or the terminal; a script reaches only what the table
//! of functions gives it.

mod arithmetic;
mod bench;
pub mod builtin;
mod caught;
mod compare;
mod construct;
mod design;
mod engine;
mod facts;
mod files;
mod guard;
mod heap;
mod imports;
mod json;
mod limits;
mod literal;
mod lower;
mod memory;
mod operator;
mod registry;
mod room;
mod said;
mod scripts;
mod shelf;
mod signs;
mod sort;
mod source;
mod syntax;
mod tables;
mod tokens;
mod trouble;
mod value;
mod watch;

pub use bench::{BookHandle, NewDesign, Outside, Reader, Sheet, Styled};
pub use design::{Design, DesignHandle};
pub use engine::{DESIGN, Engine, Printer, Settings};
pub use files::{Aside, FileHandle, Listener};
pub use imports::Library;
pub use limits::{Limits, Reached};
pub use literal::sides;
pub use memory::Memory;
pub use room::{settle, stack_for, with_room};
pub use scripts::Script;
pub use sort::Sort;
pub use source::{Places, Prepared, Prepass, Source};
pub use value::Value;
pub use watch::Watch;

#[cfg(test)]
mod tests;
