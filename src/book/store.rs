//! The design book: saves, reads, lists and renames designs.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, Transaction, TransactionBehavior, params};

use super::fault::{BookFault, Stop};
use super::name::{Address, check_name};
use super::revision::{Draft, Entry, Revision};
use super::rows::{AGE, ENTRY, Head, New, REVISION, append, entry, find, head, index, make_design, revision, time};
use super::schema;
use crate::diag::near;
use crate::host::Zone;

/// The version of this program, saved with each revision.
pub const PROGRAM: &str = env!("CARGO_PKG_VERSION");

/// The most letters of a note.
const LONGEST_NOTE: usize = 1 << 20;

/// An open design book.
#[derive(Debug)]
pub struct DesignBook {
    pub(super) connection: Connection,
    pub(super) file: PathBuf,
    /// How the database shifts a time into local time.
    pub(super) zone: &'static str,
    was_empty: bool,
}

/// The result of saving a design.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The name of the design.
    pub name: String,
    /// The number of the newest revision.
    pub number: u32,
    /// Whether a new revision was written; if not, the design was saved already without a change.
    pub written: bool,
}

impl DesignBook {
    /// Opens the book at `file`, which is created if missing; times are shown in the zone `zone`.
    ///
    /// # Errors
    /// The file cannot be opened or created, is not a design book, or was written by a newer program.
    pub fn open(file: &Path, zone: Zone) -> Result<Self, BookFault> {
        let zone = match zone {
            Zone::Local => "localtime",
            Zone::Universal => "+0 seconds",
        };
        let schema::Opened { connection, was_empty } = schema::open(file)?;
        Ok(Self { connection, file: file.into(), zone, was_empty })
    }

    /// A remark on opening the book, if there is one.
    pub fn remark(&self) -> Option<String> {
        self.was_empty.then(|| {
            format!(
                "the design book {} was empty, so a new one was started; if it held designs, put a backup in its place",
                self.file.display()
            )
        })
    }

    /// An empty book in memory.
    ///
    /// # Errors
    /// Memory is short.
    pub fn empty() -> Result<Self, BookFault> {
        Self::open(Path::new(schema::IN_MEMORY), Zone::Universal)
    }

    /// Does `work` as one change, on disk when this returns, or not at all.
    pub(super) fn change<T>(&mut self, work: impl FnOnce(&Connection) -> Result<T, Stop>) -> Result<T, BookFault> {
        let changed = (|| {
            let change = Transaction::new(&mut self.connection, TransactionBehavior::Immediate)?;
            let done = work(&change)?;
            change.commit()?;
            Ok(done)
        })();
        changed.map_err(|stop: Stop| stop.at(&self.file))
    }

    /// The result of `work` on the book.
    pub(super) fn look<T>(&self, work: impl FnOnce(&Connection) -> Result<T, Stop>) -> Result<T, BookFault> {
        work(&self.connection).map_err(|stop| stop.at(&self.file))
    }

    /// Saves a design under a name, as a new revision if the name exists. Nothing is written if the newest revision is the
    /// same; a new note makes it different.
    ///
    /// # Errors
    /// The name is not allowed or retired, the note is too long or not plain text, or the database fails.
    pub fn keep(&mut self, name: &str, note: Option<&str>, draft: &Draft, now: i64) -> Result<Kept, BookFault> {
        check_name(name)?;
        note.map_or(Ok(()), check_note)?;
        let kept = |number, written| Kept { name: name.into(), number, written };
        self.change(|change| {
            let Some(head) = head(change, name)? else {
                let id = make_design(change, name, false)?;
                let time = time(change, now)?;
                let new = New { number: 1, time: &time, note: note.unwrap_or_default(), program: PROGRAM, draft };
                append(change, id, name, &new)?;
                return Ok(kept(1, true));
            };
            if head.retired {
                return Err(BookFault::Retired { name: name.into() }.into());
            }
            let newest = find(change, "+0 seconds", name, head.number)?;
            let same =
                newest.is_some_and(|newest| newest.draft == *draft && note.is_none_or(|note| newest.note == note));
            if same {
                return Ok(kept(head.number, false));
            }
            let time = time(change, now)?;
            let number = head.number + 1;
            let new = New { number, time: &time, note: note.unwrap_or_default(), program: PROGRAM, draft };
            append(change, head.id, name, &new)?;
            Ok(kept(number, true))
        })
    }

    /// A revision, by default the newest.
    ///
    /// # Errors
    /// There is no design of that name (with near names), it has no such revision, or the database fails.
    pub fn revision(&self, address: &Address) -> Result<Revision, BookFault> {
        let head = self.head(&address.name)?;
        let number = address.revision.unwrap_or(head.number);
        let found = self.look(|book| Ok(find(book, self.zone, &address.name, number)?))?;
        let (name, newest) = (address.name.clone(), head.number);
        found.ok_or(BookFault::NoRevision { name, asked: number, newest })
    }

    /// Every revision of a design, oldest first.
    ///
    /// # Errors
    /// There is no design of that name (with near names), or the database fails.
    pub fn revisions(&self, name: &str) -> Result<Vec<Revision>, BookFault> {
        let head = self.head(name)?;
        self.look(|book| {
            let sql = format!(
                "SELECT {REVISION} FROM revision JOIN design ON design.id = design WHERE design = ?2 ORDER BY number"
            );
            let mut rows = book.prepare(&sql)?;
            let rows = rows.query_map(params![self.zone, head.id], revision)?;
            Ok(rows.collect::<rusqlite::Result<_>>()?)
        })
    }

    pub(super) fn head(&self, name: &str) -> Result<Head, BookFault> {
        check_name(name)?;
        match self.look(|book| Ok(head(book, name)?))? {
            Some(head) => Ok(head),
            None => Err(self.unknown(name)?),
        }
    }

    fn unknown(&self, name: &str) -> Result<BookFault, BookFault> {
        let names = self.names("", u32::MAX)?;
        let near = near(name, names.iter().map(String::as_str)).into_iter().map(Into::into).collect();
        Ok(BookFault::Unknown { name: name.into(), near })
    }

    /// Designs in use, or retired designs; newest first, at most `most`, and the number in all.
    ///
    /// # Errors
    /// The database fails.
    pub fn list(&self, retired: bool, most: usize) -> Result<(Vec<Entry>, usize), BookFault> {
        self.look(|book| {
            let count = "SELECT count(*) FROM design WHERE retired = ?1";
            let count: i64 = book.query_row(count, [retired], |row| row.get(0))?;
            let sql = format!(
                "SELECT {ENTRY} FROM design JOIN revision ON revision.id = newest WHERE retired = ?1 \
                 ORDER BY {AGE} LIMIT ?2"
            );
            let mut rows = book.prepare(&sql)?;
            let rows = rows.query_map(params![retired, i64::try_from(most).unwrap_or(i64::MAX), self.zone], entry)?;
            Ok((rows.collect::<rusqlite::Result<_>>()?, usize::try_from(count).unwrap_or_default()))
        })
    }

    /// Names of designs that begin with a text, in order, at most `most`; for Tab.
    ///
    /// # Errors
    /// The database fails.
    pub fn names(&self, begin: &str, most: u32) -> Result<Vec<String>, BookFault> {
        // The beginning with the last letter of Unicode sorts after every name with that beginning.
        let end = format!("{begin}\u{10ffff}");
        self.look(|book| {
            let sql = "SELECT name FROM design WHERE name >= ?1 AND name < ?2 ORDER BY name LIMIT ?3";
            let mut names = book.prepare(sql)?;
            let names = names.query_map(params![begin, end, most], |row| row.get(0))?;
            Ok(names.collect::<rusqlite::Result<_>>()?)
        })
    }

    /// Hides a design from lists, or shows it again. No revision is touched.
    ///
    /// # Errors
    /// There is no design of that name, it is retired or in use already, or the database fails.
    pub fn set_retired(&mut self, name: &str, retired: bool) -> Result<(), BookFault> {
        let head = self.head(name)?;
        self.change(|change| {
            let name = name.to_string();
            let changed = change
                .execute("UPDATE design SET retired = ?2 WHERE id = ?1 AND retired <> ?2", params![head.id, retired])?;
            match (changed, retired) {
                (0, true) => Err(BookFault::AlreadyRetired { name }.into()),
                (0, false) => Err(BookFault::NotRetired { name }.into()),
                _ => Ok(()),
            }
        })
    }

    /// Renames a design and all its revisions.
    ///
    /// # Errors
    /// There is no design of that name, another has the new name, or the database fails.
    pub fn rename(&mut self, from: &str, to: &str) -> Result<(), BookFault> {
        let old = self.head(from)?;
        check_name(to)?;
        self.change(|change| {
            if head(change, to)?.is_some() {
                return Err(BookFault::Taken { name: to.into() }.into());
            }
            change.execute("UPDATE design SET name = ?2 WHERE id = ?1", params![old.id, to])?;
            Ok(index(change, old.id)?)
        })
    }

    /// Copies a revision under a new name; the note names the revision.
    ///
    /// # Errors
    /// The revision does not exist, another design has the new name, or the database fails.
    pub fn copy(&mut self, from: &Address, to: &str, now: i64) -> Result<Kept, BookFault> {
        let revision = self.revision(from)?;
        check_name(to)?;
        self.change(|change| {
            if head(change, to)?.is_some() {
                return Err(BookFault::Taken { name: to.into() }.into());
            }
            let id = make_design(change, to, false)?;
            let time = time(change, now)?;
            let note = format!("copy of {}@{}", revision.name, revision.number);
            let new = New { number: 1, time: &time, note: &note, program: &revision.program, draft: &revision.draft };
            append(change, id, to, &new)?;
            Ok(Kept { name: to.into(), number: 1, written: true })
        })
    }
}

fn check_note(note: &str) -> Result<(), BookFault> {
    if note.len() > LONGEST_NOTE {
        return Err(BookFault::Note("a note may be at most 1 MiB long"));
    }
    if note.contains('\0') {
        return Err(BookFault::Note("a note must be plain text; this one has a NUL byte"));
    }
    Ok(())
}
