//! One person at one bench: lines go in, replies come out, and no terminal is anywhere near.
//!
//! The shell, pipes, files and tests all drive the same [`Session`].
//!
//! Invariant: nothing here writes to a terminal or knows how a reply looks.

mod book;
mod book_told;
pub mod booked;
pub mod command;
pub mod complete;
mod framer;
pub mod handle;
pub mod help;
mod history;
pub mod names;
mod planning;
pub mod reply;
mod script_book;
pub mod scripts;
#[allow(clippy::module_inception)]
mod session;
mod shelf;
pub mod style;
mod stylist;
pub mod trail;

pub use booked::Booked;
pub use command::{WORDS, Word};
pub use framer::Framer;
pub use reply::{Changed, Done, Help, Planned, Reply, StyleRow};
pub use scripts::{Paper, limits, usual_limit};
pub use session::{Outcome, Session, fresh};
pub use trail::Stand;
