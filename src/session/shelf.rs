//! The design book of a session, opened when a word first needs it.

use std::cell::RefCell;
use std::path::Path;
use std::rc::Rc;

use crate::book::{BookFault, BookPlace, DesignBook};
use crate::host::Host;

/// The design book of a session and of its scripts.
pub struct Shelf {
    host: Rc<dyn Host>,
    place: BookPlace,
    /// Called before a book is opened.
    opening: RefCell<Option<Box<dyn Fn()>>>,
    /// What was found odd when the book was opened, until it is shown.
    remarks: RefCell<Vec<String>>,
}

impl Shelf {
    /// Nothing is opened yet.
    pub fn new(host: Rc<dyn Host>) -> Self {
        Self { host, place: BookPlace::new(), opening: RefCell::default(), remarks: RefCell::default() }
    }

    /// Calls `opening` before a book is opened.
    pub fn before_opening(&self, opening: Box<dyn Fn()>) {
        *self.opening.borrow_mut() = Some(opening);
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
        let mut place = self.place.hold();
        let book = match &mut *place {
            Some(book) => book,
            None => place.insert(self.open()?),
        };
        let done = work(book);
        // What went wrong with the file may be mended by the next try, but not while it is held open.
        if matches!(done, Err(BookFault::Database { .. })) {
            *place = None;
        }
        done
    }

    fn open(&self) -> Result<DesignBook, BookFault> {
        if let Some(opening) = &*self.opening.borrow() {
            opening();
        }
        let book = DesignBook::open(&self.host.book().ok_or(BookFault::Nowhere)?, self.host.zone())?;
        self.remarks.borrow_mut().extend(book.remark());
        Ok(book)
    }

    /// What `work` finds in the book; one that is not there is empty, and stays away.
    ///
    /// # Errors
    /// It cannot be opened; what `work` fails with.
    pub fn look<T>(&self, work: impl FnOnce(&DesignBook) -> Result<T, BookFault>) -> Result<T, BookFault> {
        let file = self.host.book().ok_or(BookFault::Nowhere)?;
        if self.place.hold().is_none() && !file.exists() {
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

#[cfg(test)]
mod tests {
    use std::panic::{AssertUnwindSafe, catch_unwind};

    use super::*;
    use crate::host::Disk;

    /// A panic while the book is in use leaves it usable, and closed at the end.
    #[test]
    fn a_book_outlives_a_panic() {
        let home = tempfile::tempdir().unwrap();
        let shelf = Shelf::new(Rc::new(Disk::new(Some(home.path().into()))));
        let names = |shelf: &Shelf| shelf.change(|book| book.names("", 9)).unwrap();
        assert_eq!(names(&shelf), Vec::<String>::new());
        let broken = catch_unwind(AssertUnwindSafe(|| shelf.change::<()>(|_| panic!("a mistake of ours"))));
        assert!(broken.is_err());
        assert_eq!(names(&shelf), Vec::<String>::new());
        drop(shelf);
        let files: Vec<_> = std::fs::read_dir(home.path()).unwrap().map(|one| one.unwrap().file_name()).collect();
        assert_eq!(files, ["book.db"]);
    }
}
