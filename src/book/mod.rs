//! The design book: every named design, every revision, and the benches that shells leave behind.
//!
//! A revision is kept as text that a person can read ([`text`]), in an SQLite database ([`store`]) that is opened when a
//! word first needs it. Once kept it is never changed.
//!
//! Invariant: text reaches the database as a parameter and never as a part of a statement; what is answered as kept is
//! on disk.

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
