//! From tables of parts and stock to cutting plans: each material by itself, lengths in whole ticks.
//!
//! Invariant: pure; every plan has passed [`crate::cut::verify`] before it is given out.

mod job;
mod material;
mod read;
mod saw;
mod table;
mod write;

pub use job::{Cutting, Left, Piece, Stick, Why, cutting};
pub use material::Material;
pub use read::{Held, Joint, Order, Wanted, read_parts, read_stock};
pub use saw::Saw;
pub use write::csv;
