//! The design book: every named design, every revision, and the benches that shells leave behind.
//!
//! A revision is text that a person can read ([`text`]), in an SQLite database ([`store`]) that is opened when a word first
//! needs it. A saved revision never changes.
//!
//! Invariant: text reaches the database as a parameter and never as part of a statement; once `keep` answers, the revision
//! is on disk.

mod backup;
pub mod exchange;
pub mod facts;
pub mod fault;
mod incoming;
pub mod journal;
pub mod name;
mod place;
pub mod revision;
mod rows;
mod schema;
mod search;
pub mod store;
pub mod text;

#[cfg(test)]
mod tests;

pub use exchange::Imported;
pub use fault::BookFault;
pub use journal::{Journal, Left, Step};
pub use name::{Address, NameFault};
pub use place::{BookPlace, close_all};
pub use revision::{Draft, Entry, Mark, Revision};
pub use store::{DesignBook, Kept};
