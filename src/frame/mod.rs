//! Geometry and statics beyond a formula: measured art, ovals, moving wood, errors of the saw, fixings, walls.
//!
//! Plain functions over plain numbers: lengths in inches, angles in radians, moisture in percent, all approximate.
//!
//! Invariant: pure; knows no rules, no quantities and no script.

mod fault;
pub mod fit;
pub mod mitre;
pub mod moisture;
pub mod oval;
pub mod point;
pub mod quadrilateral;
pub mod saw;
pub mod wall;
pub mod wedge;

#[cfg(test)]
mod tests;

pub use fault::OutOfRange;
pub use fit::{Fit, fit};
pub use point::Point;
pub use quadrilateral::{Basis, Measured, Quadrilateral, QuadrilateralFault};
