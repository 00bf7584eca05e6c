//! The limits of a search.

use std::cell::Cell;

/// How long a search may run.
pub struct Limits<'a> {
    /// The most steps, each a comparison or two: a limit that is the same on every machine.
    pub steps: u64,
    /// Asked now and then; once it returns true the search ends with the best plan so far.
    pub stop: &'a dyn Fn() -> bool,
}

/// Steps between two questions, about a millisecond.
const STEPS_A_LOOK: u64 = 1 << 20;

impl Limits<'_> {
    /// A limit on steps alone.
    pub const fn steps(steps: u64) -> Self {
        Self { steps, stop: &|| false }
    }
}

/// Counts the steps of one search.
pub(super) struct Meter<'a> {
    limits: &'a Limits<'a>,
    used: Cell<u64>,
    asked: Cell<u64>,
    over: Cell<bool>,
    /// The step at which the current part of the search must end.
    until: Cell<u64>,
}

impl<'a> Meter<'a> {
    pub(super) fn new(limits: &'a Limits<'a>) -> Self {
        Self { limits, used: Cell::new(0), asked: Cell::new(0), over: Cell::new(false), until: Cell::new(u64::MAX) }
    }

    /// Counts `steps`.
    pub(super) fn count(&self, steps: usize) {
        let used = self.used.get().saturating_add(u64::try_from(steps).unwrap_or(u64::MAX));
        self.used.set(used);
        if used >= self.limits.steps {
            self.over.set(true);
        } else if used - self.asked.get() > STEPS_A_LOOK {
            self.asked.set(used);
            if (self.limits.stop)() {
                self.over.set(true);
            }
        }
    }

    /// Whether the search, or its current part, must end.
    pub(super) fn is_over(&self) -> bool {
        self.over.get() || self.used.get() >= self.until.get()
    }

    /// Runs a part of the search with at most `steps`; returns also how many it took.
    pub(super) fn part<T>(&self, steps: u64, work: impl FnOnce() -> T) -> (T, u64) {
        let before = self.used.get();
        let whole = self.until.get();
        self.until.set(before.saturating_add(steps).min(whole));
        let done = work();
        self.until.set(whole);
        (done, self.used.get() - before)
    }
}
