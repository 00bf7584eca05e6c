//! From tables of parts and stock to cutting plans: each material by itself, lengths in whole ticks.
//!
//! Invariant: pure; every plan has passed [`crate::cut::verify`] before it is given out.

mod boards;
mod booking;
mod buy;
mod design;
mod ends;
pub mod facts;
mod job;
mod material;
mod price;
mod rack;
mod read;
mod saw;
mod sheets;
mod table;
mod whole;
mod why;
mod write;
mod yard;

pub use boards::{Block, Board, Boarding, Cut, boarding};
pub use booking::Booking;
pub use buy::{Purchase, purchases};
pub use design::{WantedSheet, wanted};
pub use ends::Joint;
pub use job::{Cutting, Left, Piece, Stick, Why, cutting};
pub use material::Material;
pub use price::Pricing;
pub use rack::{Item, Rack, WHATS, What};
pub use read::{Held, Order, Wanted, read_parts, read_stock};
pub use saw::Saw;
pub use sheets::Sheeting;
pub use whole::{Lacking, Whole, whole};
pub use why::because;
pub use write::parts_csv;
pub use yard::{Nature, Ripping, Yard};
