//! When a search ends.

use std::cell::Cell;

use crate::cut::Limits;

/// So many steps pass between two questions, about a millisecond.
const STEPS_A_LOOK: u64 = 1 << 20;

/// Counts the steps of one search.
pub(super) struct Meter<'a> {
    limits: &'a Limits<'a>,
    used: Cell<u64>,
    asked: Cell<u64>,
    stopped: Cell<bool>,
}

impl<'a> Meter<'a> {
    pub(super) const fn new(limits: &'a Limits<'a>) -> Self {
        Self { limits, used: Cell::new(0), asked: Cell::new(0), stopped: Cell::new(false) }
    }

    /// Counts `steps` more.
    pub(super) fn count(&self, steps: usize) {
        let used = self.used.get().saturating_add(u64::try_from(steps).unwrap_or(u64::MAX));
        self.used.set(used);
        if used - self.asked.get() > STEPS_A_LOOK {
            self.asked.set(used);
            if (self.limits.stop)() {
                self.stopped.set(true);
            }
        }
    }

    /// Whether the search must end.
    pub(super) fn is_over(&self) -> bool {
        self.stopped.get() || self.used.get() >= self.limits.steps
    }

    /// Where the count stands.
    pub(super) const fn used(&self) -> u64 {
        self.used.get()
    }
}
