//! From tables of parts and stock to cutting plans: each material by itself, lengths in whole ticks.
//!
//! Invariant: pure; every plan has passed [`crate::cut::verify`] before it is given out.

mod boards;
mod booking;
mod buy;
mod ends;
pub mod facts;
mod job;
mod lacking;
mod material;
mod price;
mod proof;
mod rack;
mod read;
mod remedy;
mod saw;
mod setting;
mod sheets;
mod units;
mod whole;
mod work;
mod yard;

pub use boards::{Block, Board, Boarding, Cut};
pub use booking::{Booking, Pending, Takes};
pub use buy::{Purchase, purchases};
pub use facts::{buy_csv, plan_csv};
pub use job::{Cutting, Left, Order, Piece, Stick, Why};
pub use lacking::{Lacking, Unplanned};
pub use material::Material;
pub use price::Pricing;
pub use proof::Proof;
pub use rack::{BareRow, Held, Item, Rack, Readings, WHATS, What};
pub use read::read_parts;
pub use saw::Saw;
pub use setting::{ShortPart, StopSetting};
pub use sheets::Sheeting;
pub use whole::Whole;
pub use work::{Gives, Joint, LeftRow, RowOf, Wanted, WantedSheet, Work};
pub use yard::Ripping;
