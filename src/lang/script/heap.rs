//! How much memory the whole program holds.
//!
//! The engine's own limits look at one value at a time: many live texts or a map filled entry by entry pass them.
//! So the allocator counts, and a running script is asked about the count between its steps.

use std::alloc::System;

use cap::Cap;

// Counting only: at a hard limit the allocator would have to fail, and that ends the process.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Bytes in use now, by the whole program.
pub fn in_use() -> usize {
    usize::MAX - HEAP.remaining()
}
