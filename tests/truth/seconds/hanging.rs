//! Weights, hangers, screws and brads, by another road.

use super::Method;

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[];
