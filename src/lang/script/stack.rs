//! How deep calls may nest before the thread's stack would run out.
//!
//! The engine walks scripts by recursion, and copies and drops nested lists by recursion as well. The first kind is
//! watched here between steps; the second cannot be, and is given room: [`with_room`].

use std::cell::Cell;
use std::io;
use std::thread;

/// Stack that a script may use on a thread nobody prepared: half of what threads have unless told otherwise.
const PLAIN: usize = 1 << 20;

/// Stack that a script may use on a thread made by [`with_room`].
const WIDE: usize = 32 << 20;

/// Stack for each byte that a script may hold: a chain of functions, each of which holds the next, takes some 110
/// bytes a link, and some 350 of the stack when it is dropped.
const STACK_A_BYTE: usize = 4;

thread_local! {
    static ALLOWED: Cell<usize> = const { Cell::new(PLAIN) };
    static MEMORY: Cell<usize> = const { Cell::new(usize::MAX) };
    static LOWEST: Cell<usize> = const { Cell::new(0) };
}

/// Runs `work` on a thread of its own with a stack for scripts that may hold `memory` bytes, and waits for it.
///
/// Without it scripts run as well, nested less deep; but a list nested some ten thousand times, or as long a chain
/// of functions, which a script can build within its limits, is copied and dropped by recursion and would end the
/// process on a small stack. Values must be dropped in here too. Only what is touched of the stack takes memory. A limit raised later to more than
/// `memory` holds from the next start on.
///
/// # Errors
/// No thread was to be had.
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

/// The stack that a thread wants on which scripts may hold `memory` bytes, for those who make their own threads.
pub fn stack_for(memory: usize) -> usize {
    memory.saturating_mul(STACK_A_BYTE).saturating_add(2 * WIDE)
}

/// Tells a thread that was made with [`stack_for`] what it has.
pub fn settle(memory: usize) {
    ALLOWED.set(WIDE);
    MEMORY.set(memory);
}

/// The memory that this thread has a stack for.
pub fn memory() -> usize {
    MEMORY.get()
}

/// Where the stack is now.
fn here() -> usize {
    let mark = 0_u8;
    std::ptr::from_ref(&mark).addr()
}

/// Runs `work` with its stack counted from here, unless a caller further out counts already.
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

    /// How many calls deep it gets before the stack allowed is used up.
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
