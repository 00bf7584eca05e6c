//! Watches a running script between its steps, and holds it to its limits.

use std::alloc::System;
use std::cell::{Cell, RefCell};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use cap::Cap;

use super::limits::{Limits, Reached};
use super::stack;

/// The engine's own limits look at one value at a time: many live texts, or a map filled entry by entry, pass them. So
/// the allocator counts what the whole program holds. It only counts: at a limit of its own it would have to fail, and
/// that ends the process.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Steps between two looks at the clock. One step may copy a list as large as the memory limit.
const STEPS_A_LOOK: u64 = 8;

/// The resources that a running script has used.
///
/// The engine counts steps too, but a callback runs on a copy of its count.
#[derive(Debug)]
pub struct Watch {
    limits: RefCell<Limits>,
    stop: Arc<AtomicBool>,
    /// Whether the stop ended this run.
    heard: Cell<bool>,
    running: Cell<bool>,
    steps: Cell<u64>,
    most_steps: Cell<u64>,
    most_memory: Cell<usize>,
    printed: Cell<usize>,
    written: Cell<usize>,
    end: Cell<Option<Instant>>,
}

impl Watch {
    /// A watch before its first run. `stop` may be set from any thread at any time; the run that it ends clears it.
    pub fn new(limits: Limits, stop: Arc<AtomicBool>) -> Self {
        Self {
            limits: RefCell::new(limits),
            stop,
            heard: Cell::new(false),
            running: Cell::new(false),
            steps: Cell::new(0),
            most_steps: Cell::new(0),
            most_memory: Cell::new(0),
            printed: Cell::new(0),
            written: Cell::new(0),
            end: Cell::new(None),
        }
    }

    /// The limits in force.
    pub fn limits(&self) -> Limits {
        self.limits.borrow().clone()
    }

    /// Sets the limits from the next run on.
    pub fn set_limits(&self, limits: Limits) {
        *self.limits.borrow_mut() = limits;
    }

    /// Runs `work` within the limits; a nested run shares the limits of the outer one.
    pub fn during<T>(&self, work: impl FnOnce() -> T) -> T {
        if self.running.get() {
            return work();
        }
        let limits = self.limits();
        self.steps.set(0);
        self.most_steps.set(limits.steps);
        self.most_memory.set(in_use().saturating_add(limits.memory.min(stack::memory())));
        self.printed.set(0);
        self.written.set(0);
        self.end.set(Instant::now().checked_add(limits.time));
        self.running.set(true);
        let _end = End(self);
        stack::from_here(work)
    }

    /// Counts one step; returns the limit that it reaches, if any.
    pub fn step(&self) -> Option<Reached> {
        self.spend(1).err()
    }

    /// Counts steps for work inside a function, which the engine does not count.
    ///
    /// # Errors
    /// A limit is reached.
    pub fn spend(&self, steps: u64) -> Result<(), Reached> {
        let before = self.steps.get();
        let now = before.saturating_add(steps);
        self.steps.set(now);
        if now > self.most_steps.get() {
            return Err(Reached::Steps(self.limits.borrow().steps));
        }
        self.glance(before / STEPS_A_LOOK != now / STEPS_A_LOOK)
    }

    /// Checks all limits but steps; `clock` says whether to look at the clock too.
    ///
    /// # Errors
    /// A limit is reached.
    pub fn glance(&self, clock: bool) -> Result<(), Reached> {
        if self.stop.load(Ordering::Relaxed) {
            self.heard.set(true);
            return Err(Reached::Stopped);
        }
        if in_use() > self.most_memory.get() {
            return Err(Reached::Memory(self.limits.borrow().memory));
        }
        if stack::is_used_up() {
            return Err(Reached::Stack);
        }
        if clock && self.end.get().is_some_and(|end| Instant::now() > end) {
            return Err(Reached::Time(self.limits.borrow().time));
        }
        Ok(())
    }

    /// Checks that a text of `bytes` may be made.
    ///
    /// # Errors
    /// The text is too long, or takes too much memory.
    pub fn text(&self, bytes: usize) -> Result<(), Reached> {
        let most = self.limits.borrow().text;
        if bytes > most { Err(Reached::Text(most)) } else { self.memory(bytes) }
    }

    /// Checks that a list or map of `entries` may be made.
    ///
    /// # Errors
    /// The list or map is too long, or takes too much memory.
    pub fn entries(&self, entries: usize) -> Result<(), Reached> {
        let most = self.limits.borrow().entries;
        if entries > most { Err(Reached::Entries(most)) } else { self.memory(entries.saturating_mul(16)) }
    }

    /// Checks that `bytes` more may be held.
    ///
    /// # Errors
    /// That takes too much memory.
    pub fn hold(&self, bytes: usize) -> Result<(), Reached> {
        self.memory(bytes)
    }

    /// Counts `bytes` printed.
    ///
    /// # Errors
    /// The script has printed too much.
    pub fn print(&self, bytes: usize) -> Result<(), Reached> {
        // Printed text is held until the line ends.
        self.memory(bytes)?;
        let most = self.limits.borrow().printed;
        if count(&self.printed, bytes) > most { Err(Reached::Printed(most)) } else { Ok(()) }
    }

    /// Counts `bytes` written to files.
    ///
    /// # Errors
    /// The script has written too much.
    pub fn write(&self, bytes: usize) -> Result<(), Reached> {
        let most = self.limits.borrow().written;
        if count(&self.written, bytes) > most { Err(Reached::Written(most)) } else { Ok(()) }
    }

    fn memory(&self, bytes: usize) -> Result<(), Reached> {
        if in_use().saturating_add(bytes) > self.most_memory.get() {
            return Err(Reached::Memory(self.limits.borrow().memory));
        }
        Ok(())
    }
}

/// Bytes in use now, by the whole program.
fn in_use() -> usize {
    usize::MAX - HEAP.remaining()
}

/// Adds to a count and returns the sum.
fn count(so_far: &Cell<usize>, more: usize) -> usize {
    let now = so_far.get().saturating_add(more);
    so_far.set(now);
    now
}

/// Ends a run, on success and on failure alike.
struct End<'a>(&'a Watch);

impl Drop for End<'_> {
    fn drop(&mut self) {
        self.0.running.set(false);
        // A press that has not stopped anything yet is for what follows: a script is parsed before it runs.
        if self.0.heard.take() {
            self.0.stop.store(false, Ordering::Relaxed);
        }
    }
}
