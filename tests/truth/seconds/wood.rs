//! Movement, stiffness, corners as sawn, by another road.

use super::Method;

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[];
