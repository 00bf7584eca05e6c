//! The places of open books, so that the program leaves none open when it ends.
//!
//! Whoever closes the book last folds its log into the one file and removes what lies beside it. A session closes its book
//! when it is dropped; where an interrupt ends the process, nothing is dropped, so [`close_all`] does it.

use std::mem::forget;
use std::sync::mpsc::channel;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use std::time::Duration;

use super::store::DesignBook;

type Slot = Mutex<Option<DesignBook>>;

/// Every place that is in use.
static PLACES: Mutex<Vec<Weak<Slot>>> = Mutex::new(Vec::new());

/// How long an interrupt waits for a change of a book.
const PATIENCE: Duration = Duration::from_secs(2);

/// The place of an open book.
#[derive(Debug)]
pub struct BookPlace(Arc<Slot>);

impl BookPlace {
    /// An empty place.
    pub fn new() -> Self {
        let slot = Arc::new(Slot::default());
        let mut places = locked(&PLACES);
        places.retain(|place| place.strong_count() > 0);
        places.push(Arc::downgrade(&slot));
        Self(slot)
    }

    /// The book in this place, for one use at a time.
    pub fn hold(&self) -> MutexGuard<'_, Option<DesignBook>> {
        locked(&self.0)
    }
}

impl Drop for BookPlace {
    fn drop(&mut self) {
        // The end of the process waits for this lock, so that no book is left half closed.
        let _places = locked(&PLACES);
        *self.hold() = None;
    }
}

impl Default for BookPlace {
    fn default() -> Self {
        Self::new()
    }
}

/// A lock after a panic is sound: the database undoes an incomplete change.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Closes every book for good. Only for a thread that ends the process next: no book can be opened afterwards.
///
/// A change that is being written is completed first, so that what was reported as saved is saved.
pub fn close_all() {
    let (done, closed) = channel();
    std::thread::spawn(move || {
        let places = locked(&PLACES);
        for slot in places.iter().filter_map(Weak::upgrade) {
            let mut book = locked(&slot);
            *book = None;
            forget(book);
        }
        forget(places);
        done.send(())
    });
    // After that the change is given up; the next program that opens the book completes it.
    let _ = closed.recv_timeout(PATIENCE);
}
