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
    /// Remarks on opening the book, until they are shown.
    remarks: RefCell<Vec<String>>,
}

impl Shelf {
    /// A shelf whose book is not open yet.
    pub fn new(host: Rc<dyn Host>) -> Self {
        Self { host, place: BookPlace::new(), opening: RefCell::default(), remarks: RefCell::default() }
    }

    /// Calls `opening` before a book is opened.
    pub fn before_opening(&self, opening: Box<dyn Fn()>) {
        *self.opening.borrow_mut() = Some(opening);
    }

    /// The remarks since the last call.
    pub fn take_remarks(&self) -> Vec<String> {
        self.remarks.take()
    }

    /// The result of `work` on the book, which is created if missing.
    ///
    /// # Errors
    /// The book cannot be opened, or `work` fails.
    pub fn change<T>(&self, work: impl FnOnce(&mut DesignBook) -> Result<T, BookFault>) -> Result<T, BookFault> {
        let mut place = self.place.hold();
        let book = match &mut *place {
            Some(book) => book,
            None => place.insert(self.open()?),
        };
        let done = work(book);
        // The next try may find the file in order, but not while it is held open.
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

    /// The result of `work` on the book; a missing book counts as empty and is not created.
    ///
    /// # Errors
    /// The book cannot be opened, or `work` fails.
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

    /// The path of a file that was named at the prompt or in a script.
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

    /// After a panic in `work` the book still works, and is closed at the end.
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
