//! How deep calls may nest before the stack of the thread runs out.
//!
//! The engine walks scripts by recursion, and copies and drops nested lists by recursion. The watch can stop the first
//! between steps; the second it cannot stop, so it gets room: [`with_room`].

use std::cell::Cell;
use std::io;
use std::thread;

/// Stack for scripts on an ordinary thread: half of the default stack.
const PLAIN: usize = 1 << 20;

/// Stack for scripts on a thread made by [`with_room`].
const WIDE: usize = 32 << 20;

/// Stack for each byte that a script may hold: in a chain of functions that hold one another, a link takes some 110
/// bytes, and some 350 bytes of stack when it is dropped.
const STACK_A_BYTE: usize = 4;

thread_local! {
    static ALLOWED: Cell<usize> = const { Cell::new(PLAIN) };
    static MEMORY: Cell<usize> = const { Cell::new(usize::MAX) };
    static LOWEST: Cell<usize> = const { Cell::new(0) };
}

/// Runs `work` on a thread of its own with a stack for scripts that may hold `memory` bytes, and waits for it.
///
/// Without it scripts run too, but nest less deep. A script can build a list nested some ten thousand times within its
/// limits, or as long a chain of functions; copying or dropping it by recursion would end the process on a small stack.
/// Drop values inside `work` too. Only the pages that are touched take memory. A limit raised above `memory` takes
/// effect at the next start.
///
/// # Errors
/// The system has no thread to give.
pub fn with_room<T: Send>(memory: usize, work: impl FnOnce() -> T + Send) -> io::Result<T> {
    thread::scope(|scope| {
        let roomy = move || {
            settle(memory);
            work()
        };
        let handle = thread::Builder::new().stack_size(stack_for(memory)).spawn_scoped(scope, roomy)?;
        handle.join().map_err(|_| io::Error::other("the thread broke off"))
    })
}

/// The stack for a thread whose scripts may hold `memory` bytes, for callers that make their own threads.
pub fn stack_for(memory: usize) -> usize {
    memory.saturating_mul(STACK_A_BYTE).saturating_add(2 * WIDE)
}

/// Records on a thread made with [`stack_for`] the stack that it has.
pub fn settle(memory: usize) {
    ALLOWED.set(WIDE);
    MEMORY.set(memory);
}

/// The memory that this thread has a stack for.
pub fn memory() -> usize {
    MEMORY.get()
}

/// The address of the top of the stack.
fn here() -> usize {
    let mark = 0_u8;
    std::ptr::from_ref(&mark).addr()
}

/// Runs `work` with its stack counted from here, unless an outer caller already counts.
pub fn from_here<T>(work: impl FnOnce() -> T) -> T {
    if LOWEST.get() > 0 {
        return work();
    }
    LOWEST.set(here().saturating_sub(ALLOWED.get()).max(1));
    let _end = End;
    work()
}

/// Ends the counting however the work ends.
struct End;

impl Drop for End {
    fn drop(&mut self) {
        LOWEST.set(0);
    }
}

/// Whether the stack allowed is used up.
pub fn is_used_up() -> bool {
    here() < LOWEST.get()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The number of nested calls before the allowed stack is used up.
    fn dig(depth: usize) -> usize {
        let ballast = std::hint::black_box([depth; 64]);
        if is_used_up() { ballast[0] } else { dig(depth + 1).max(ballast[1]) }
    }

    #[test]
    fn the_end_is_seen_in_time() {
        assert!(!is_used_up());
        let plain = from_here(|| dig(0));
        let wide = with_room(1 << 20, || from_here(|| dig(0))).unwrap();
        assert!(plain > 100 && wide > 20 * plain);
        assert!(!is_used_up());
    }
}
