//! A copy of the book in a file of its own.

use std::path::Path;

use rusqlite::params;

use super::fault::{BookFault, Trouble};
use super::store::DesignBook;

impl DesignBook {
    /// Copies the book to `file` as it is at one moment, while others may write to it.
    ///
    /// # Errors
    /// The file exists or cannot be written, or the database fails.
    pub fn backup(&self, file: &Path) -> Result<(), BookFault> {
        let there = |what| BookFault::There { file: file.into(), what };
        if file.exists() {
            return Err(there("exists"));
        }
        let failed = |why: String| BookFault::Copy { file: file.into(), why };
        if let Some(folder) = file.parent().filter(|folder| !folder.as_os_str().is_empty() && !folder.is_dir()) {
            return Err(failed(format!("there is no folder {}", folder.display())));
        }
        let fresh = file.with_extension("new");
        if fresh.exists() {
            std::fs::remove_file(&fresh).map_err(|error| failed(error.to_string()))?;
        }
        let path = fresh.to_str().ok_or_else(|| there("has a name that is not text"))?;
        let copied = self.connection.execute("VACUUM INTO ?1", params![path]);
        let safe = copied.map_err(|error| self.not_copied(&error, file)).and_then(|_| {
            std::fs::File::open(&fresh)
                .and_then(|copy| copy.sync_all())
                .and_then(|()| std::fs::rename(&fresh, file))
                .map_err(|error| failed(error.to_string()))
        });
        if safe.is_err() {
            let _ = std::fs::remove_file(&fresh);
        }
        safe
    }

    /// Why the copy failed: its own place, or the book.
    fn not_copied(&self, error: &rusqlite::Error, copy: &Path) -> BookFault {
        let trouble = Trouble::of(error);
        let why = match trouble {
            Trouble::Full => "the disk is full, or the file may not grow",
            Trouble::ReadOnly | Trouble::Closed(_) => "you may not write to its folder",
            Trouble::Busy | Trouble::Foreign | Trouble::Newer(..) | Trouble::Damaged(_) | Trouble::Other(_) => {
                return BookFault::Database { file: self.file.clone(), trouble };
            }
        };
        BookFault::Copy { file: copy.into(), why: why.into() }
    }
}
