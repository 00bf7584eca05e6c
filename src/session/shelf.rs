//! Where the design book stands: opened when a word first needs it.

use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

use crate::book::{BookFault, DesignBook};
use crate::host::Host;

/// The design book of a session and of its scripts.
pub struct Shelf {
    host: Rc<dyn Host>,
    open: RefCell<Option<DesignBook>>,
    /// What was found odd when it was opened, until that is told.
    remarks: RefCell<Vec<String>>,
}

impl Shelf {
    /// Nothing is opened yet.
    pub fn new(host: Rc<dyn Host>) -> Self {
        Self { host, open: RefCell::default(), remarks: RefCell::default() }
    }

    /// What was found odd since this was last asked.
    pub fn take_remarks(&self) -> Vec<String> {
        self.remarks.take()
    }

    /// What `work` does to the book, which is made if it is not there.
    ///
    /// # Errors
    /// It cannot be opened; what `work` fails with.
    pub fn change<T>(&self, work: impl FnOnce(&mut DesignBook) -> Result<T, BookFault>) -> Result<T, BookFault> {
        let mut open = self.open.borrow_mut();
        let book = match &mut *open {
            Some(book) => book,
            None => {
                let book = DesignBook::open(&self.host.book().ok_or(BookFault::Nowhere)?, self.host.zone())?;
                self.remarks.borrow_mut().extend(book.remark());
                open.insert(book)
            }
        };
        let done = work(book);
        // What went wrong with the file may be mended by the next try, but not on this hold of it.
        if matches!(done, Err(BookFault::Database { .. })) {
            *open = None;
        }
        done
    }

    /// What `work` finds in the book; one that is not there is empty, and stays away.
    ///
    /// # Errors
    /// It cannot be opened; what `work` fails with.
    pub fn look<T>(&self, work: impl FnOnce(&DesignBook) -> Result<T, BookFault>) -> Result<T, BookFault> {
        let file = self.host.book().ok_or(BookFault::Nowhere)?;
        if self.open.borrow().is_none() && !file.exists() {
            return work(&DesignBook::empty()?);
        }
        self.change(|book| work(book))
    }

    /// Files, and the clock.
    pub fn host(&self) -> &dyn Host {
        &*self.host
    }

    /// A file that was named at the prompt or in a script.
    pub fn file(text: &str) -> &Path {
        let text = text.trim();
        Path::new(text.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(text))
    }
}
