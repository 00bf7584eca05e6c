//! The limit of a check.

use std::cell::Cell;

/// The steps that are left.
pub(super) struct Steps(Cell<u64>);

impl Steps {
    pub(super) fn new(most: u64) -> Self {
        Self(Cell::new(most))
    }

    /// Takes some steps; none if they are used up.
    pub(super) fn take(&self, steps: usize) -> Option<()> {
        let left = self.0.get().checked_sub(u64::try_from(steps).ok()?)?;
        self.0.set(left);
        Some(())
    }
}
