//! One framer at one bench: lines go in and replies come out, without a terminal.
//!
//! The shell, pipes, files and tests all drive the same [`Session`].
//!
//! Invariant: nothing here writes to a terminal or knows how a reply looks.

mod action;
mod asking;
mod book;
mod book_fault;
pub mod booked;
pub mod command;
pub mod complete;
mod dependencies;
pub mod facts;
pub mod figure;
mod files;
mod formula_fault;
mod framer;
pub mod handle;
pub mod help;
mod history;
mod house;
mod made_plan;
pub mod names;
pub mod offer;
mod offer_files;
mod packed_rules;
mod planning;
mod powers;
pub mod question;
pub mod reply;
mod script_book;
mod script_workshop;
pub mod scripts;
#[allow(clippy::module_inception)]
mod session;
mod shelf;
mod shop;
pub mod shop_rules;
mod stock;
mod stored;
pub mod style;
mod style_check;
mod stylist;
mod suggest;
pub mod trail;
mod trial;
mod workshop;

pub use booked::Booked;
pub use command::{WORDS, Word};
pub use facts::REPLIES;
pub use files::Grants;
pub use framer::Framer;
pub use question::Question;
pub use reply::{Changed, Checked, Done, Help, HelpRow, Planned, Reply, StyleRow};
pub use session::{Outcome, Session};
pub use stock::read_rack;
pub use trail::Framed;
pub use workshop::Paper;

#[cfg(test)]
mod tests;
