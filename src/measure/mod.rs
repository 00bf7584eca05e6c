//! Exact quantities: storage, reading, writing, rounding, arithmetic.
//!
//! Invariant: knows no frame and no script; no exact length passes through a float.

mod function;
mod kind;
#[cfg(test)]
mod properties;
mod quantity;
pub mod read;
mod real;
mod size;
pub mod step;
pub mod system;
pub mod unit;
pub mod write;

pub use function::FunctionFault;
pub use kind::{KINDS, Kind, KindRow};
pub use quantity::{Quantity, Turn, Unlike};
pub use real::{Broken, MOST_BITS, Real};
pub use size::{Size, Sizing};
pub use step::{Graduation, Toward, to_step};
pub use system::{Angle, Area, Force, Length, Mass, Time, Volume, inches};
pub use unit::{UNITS, Unit};
pub use write::Manner;
