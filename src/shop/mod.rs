//! The shop: the pieces to make, and the settings of the house.
//!
//! Invariant: pure; files are read and written by whoever holds the host.

pub mod caution;
pub mod facts;
pub mod hanging;
pub mod limits;
pub mod parts;
pub mod settings;

pub use caution::{Caution, Cut, cautions, cautions_for, cautions_of_all, is_short};
pub use hanging::{Place, Places, on_wall};
pub use limits::{Limit, usual_limit};
pub use parts::{Part, Shape, Sheet, Stick, incomplete, parts};
pub use settings::{Setting, Settings};
