//! From tables of parts and stock to cutting plans: each material by itself, lengths in whole ticks.
//!
//! Invariant: pure; every plan has passed [`crate::cut::verify`] before it is given out.

mod boards;
mod booking;
mod buy;
mod ends;
pub mod facts;
mod job;
mod material;
mod price;
mod rack;
mod read;
mod saw;
mod sheets;
mod units;
mod whole;
mod why;
mod work;
mod write;
mod yard;

pub use boards::{Block, Board, Boarding, Cut};
pub use booking::{Booking, Pending, Takes};
pub use buy::{Purchase, purchases};
pub use job::{Cutting, Left, Order, Piece, Stick, Why};
pub use material::Material;
pub use price::Pricing;
pub use rack::{Held, Item, Rack, WHATS, What};
pub use read::read_parts;
pub use saw::Saw;
pub use sheets::Sheeting;
pub use whole::{Lacking, Whole};
pub use why::because;
pub use work::{Gives, Joint, Wanted, WantedSheet, Work};
pub use write::parts_csv;
pub use yard::Ripping;
