//! The rules of frames: written once as text, read by everything.
//!
//! The shipped `*.rules` files are read and checked when the program is built, and packed into it. From them come
//! values (drawn and cut), explanations, slopes, checks, help and completion.
//!
//! Invariant: pure; knows no file, no script, no screen.

mod accept;
pub mod added;
pub mod aim;
pub mod book;
mod caution;
mod circle;
pub mod condition;
mod data;
pub mod datum;
pub mod design;
pub mod entry;
pub mod evaluate;
pub mod explain;
pub mod facts;
pub mod finding;
mod idle;
pub mod input;
mod judge;
mod kinds;
mod label;
mod lookup;
pub mod native;
mod natives;
pub mod node;
mod nudge;
mod once;
mod own;
mod packed;
mod piece;
pub mod reader;
pub mod refusal;
pub mod resolve;
mod sentence;
pub mod sheets;
pub mod slope;
pub mod term;
pub mod tolerance;
mod wall;

pub use aim::Aimed;
pub use book::{Added, BUILD, Book, NameKind, Role, Slot, Type};
pub use condition::Condition;
pub use datum::{Datum, Fault as NotFound, Record};
pub use design::{Answer, Design, Input, Kept, answer};
pub use evaluate::{Absent, Known, Pass};
pub use explain::{Cause, Step};
pub use finding::Finding;
pub use native::{NATIVES, Native};
pub use own::FIGURE;
pub use packed::{READER, Rules, shipped, shipped_kind, unpack};
pub use refusal::Refusal;
pub use sentence::{in_unit, sentence};
pub use sheets::{SHIPPED, read_book};
pub use term::{Level, Way};
pub use tolerance::Tolerance;
pub use wall::Wall;

#[cfg(test)]
pub(crate) mod tests;
