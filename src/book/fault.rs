//! Why the book does not do what it is asked.

use std::path::PathBuf;

use rusqlite::ErrorCode;

use super::name::NameFault;
use crate::diag::codes::book;
use crate::diag::{Code, Fault, Fix, Says, says};
use crate::host::FileFault;

/// Why the book does not do what it is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum BookFault {
    Name(NameFault),
    /// No design is called so.
    Unknown {
        name: String,
        near: Vec<String>,
    },
    /// It has not so many revisions.
    NoRevision {
        name: String,
        asked: u32,
        newest: u32,
    },
    /// Another design is called so.
    Taken {
        name: String,
    },
    /// It is retired, and must be restored before this.
    Retired {
        name: String,
    },
    AlreadyRetired {
        name: String,
    },
    NotRetired {
        name: String,
    },
    /// A note past all use, or with what no text holds.
    Note(&'static str),
    /// Nothing is given to the design that is to be kept.
    Empty,
    /// Nothing to look for.
    NoWords,
    /// A file to import that is damaged; where.
    Import {
        file: PathBuf,
        line: usize,
        why: Says,
    },
    /// What is exported would go over something else.
    There {
        file: PathBuf,
        what: &'static str,
    },
    /// A copy of the book cannot be written.
    Copy {
        file: PathBuf,
        why: String,
    },
    File(FileFault),
    /// The database itself.
    Database {
        file: PathBuf,
        trouble: Trouble,
    },
    /// There is no folder for the book.
    Nowhere,
}

/// What can be the matter with the database.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Others write all the time.
    Busy,
    /// The disk takes no more.
    Full,
    /// It may be read and not written.
    ReadOnly,
    /// It cannot be opened; what the machine says.
    Closed(String),
    /// It is something else.
    Foreign,
    /// A newer program wrote it: its format and ours.
    Newer(i64, i64),
    /// It is not as it was written; what is said of it.
    Damaged(String),
    /// Anything else.
    Other(String),
}

/// A trouble, given what the database says.
type Told = fn(String) -> Trouble;

/// What the codes of the database mean to a framer.
const CODES: &[(ErrorCode, Told)] = &[
    (ErrorCode::DatabaseBusy, |_| Trouble::Busy),
    (ErrorCode::DatabaseLocked, |_| Trouble::Busy),
    (ErrorCode::DiskFull, |_| Trouble::Full),
    (ErrorCode::ReadOnly, |_| Trouble::ReadOnly),
    (ErrorCode::CannotOpen, Trouble::Closed),
    (ErrorCode::PermissionDenied, Trouble::Closed),
    (ErrorCode::NotADatabase, |_| Trouble::Foreign),
    (ErrorCode::DatabaseCorrupt, Trouble::Damaged),
];

impl Trouble {
    /// What an error of the database means to a framer.
    pub fn of(error: &rusqlite::Error) -> Self {
        let said = error.to_string();
        let Some(failure) = error.sqlite_error() else {
            // A row that is wanting, or a value of another kind than it was written with.
            let damaged = matches!(
                error,
                rusqlite::Error::FromSqlConversionFailure(..)
                    | rusqlite::Error::InvalidColumnType(..)
                    | rusqlite::Error::IntegralValueOutOfRange(..)
                    | rusqlite::Error::Utf8Error(..)
                    | rusqlite::Error::QueryReturnedNoRows
            );
            return if damaged { Self::Damaged(said) } else { Self::Other(said) };
        };
        // A file that may grow no further fails like a disk that is full.
        if failure.extended_code == rusqlite::ffi::SQLITE_IOERR_WRITE {
            return Self::Full;
        }
        match CODES.iter().find(|(code, _)| *code == failure.code) {
            Some((_, trouble)) => trouble(said),
            None => Self::Other(said),
        }
    }
}

impl Trouble {
    /// What is wrong with the book, behind its path.
    fn says(&self) -> Says {
        match self {
            Self::Busy => says!("is in use by another program; nothing was written, try again when it is done"),
            Self::Full => says!("cannot grow: the disk is full; nothing was written, make room and try again"),
            Self::ReadOnly => {
                says!("is read-only; nothing was written, check the permissions of the file and its folder")
            }
            Self::Closed(why) => says!(
                "cannot be opened ({}); check its folder and permissions, or start with --home and another folder",
                why
            ),
            Self::Foreign => {
                says!("is not a design book; move the file elsewhere, or start with --home and another folder")
            }
            Self::Newer(found, known) => says!(
                "was written by a newer program (format {}; this one knows {}); nothing was changed, use the newer program",
                found,
                known
            ),
            Self::Damaged(why) => {
                says!("is damaged ({}); nothing was changed, move it elsewhere and put a backup in its place", why)
            }
            Self::Other(why) => says!("fails: {}", why),
        }
    }
}

impl Fault for BookFault {
    fn code(&self) -> &'static Code {
        match self {
            Self::Name(fault) => fault.code(),
            Self::Unknown { .. } => &book::UNKNOWN,
            Self::NoRevision { .. } => &book::REVISION_UNKNOWN,
            Self::Taken { .. } => &book::NAME_TAKEN,
            Self::Retired { .. } | Self::AlreadyRetired { .. } => &book::RETIRED,
            Self::NotRetired { .. } => &book::NOT_RETIRED,
            Self::Note(_) => &book::NOTE,
            Self::Empty => &book::EMPTY,
            Self::NoWords => &book::NO_WORDS,
            Self::Import { .. } => &book::IMPORT,
            Self::There { .. } => &book::FILE_EXISTS,
            Self::Copy { .. } => &book::COPY,
            Self::File(fault) => fault.code(),
            Self::Database { .. } | Self::Nowhere => &book::DATABASE,
        }
    }

    fn says(&self) -> Says {
        match self {
            Self::Name(fault) => fault.says(),
            Self::Unknown { name, .. } => says!("there is no design called {}", name),
            Self::NoRevision { name, asked, newest } => {
                says!("{} has no revision {}; the newest is {}", name, asked, newest)
            }
            Self::Taken { name } => says!("there is already a design called {}", name),
            Self::Retired { name } => says!("{} is retired; restore it first", name),
            Self::AlreadyRetired { name } => says!("{} is already retired", name),
            Self::NotRetired { name } => says!("{} is not retired", name),
            Self::Note(why) => (*why).into(),
            Self::Empty => says!("nothing to save: no field of this design is set"),
            Self::NoWords => says!("`find` needs words to look for, or `if` and a condition"),
            Self::Import { file, line, why } => {
                why.clone().within(says!("nothing was imported from {}; line {}", file.display(), line))
            }
            Self::There { file, what } => says!("{} {}; not overwritten", file.display(), what),
            Self::Copy { file, why } => says!("the copy {} cannot be written: {}", file.display(), why),
            Self::File(fault) => fault.says(),
            Self::Database { file, trouble } => says!("the design book {} ", file.display()).and(trouble.says()),
            Self::Nowhere => says!("there is no folder for the design book; start with --home and a folder"),
        }
    }

    fn name(&self) -> Option<&str> {
        match self {
            Self::Unknown { name, .. }
            | Self::NoRevision { name, .. }
            | Self::Taken { name }
            | Self::Retired { name }
            | Self::AlreadyRetired { name }
            | Self::NotRetired { name } => Some(name),
            Self::Name(_)
            | Self::Note(_)
            | Self::Empty
            | Self::NoWords
            | Self::Import { .. }
            | Self::There { .. }
            | Self::Copy { .. }
            | Self::File(_)
            | Self::Database { .. }
            | Self::Nowhere => None,
        }
    }

    fn fixes(&self) -> Vec<Fix> {
        let line = |line: String| vec![Fix::Line(line)];
        match self {
            Self::NoRevision { name, newest, .. } => line(format!("open {name}@{newest}")),
            Self::Retired { name } | Self::AlreadyRetired { name } => line(format!("restore {name}")),
            Self::NotRetired { name } => line(format!("retire {name}")),
            Self::Taken { name } => line(format!("revisions {name}")),
            Self::Empty => line("help art".into()),
            Self::NoWords => line("help find".into()),
            Self::Name(_)
            | Self::Unknown { .. }
            | Self::Note(_)
            | Self::Import { .. }
            | Self::There { .. }
            | Self::Copy { .. }
            | Self::File(_)
            | Self::Database { .. }
            | Self::Nowhere => Vec::new(),
        }
    }
}

impl From<NameFault> for BookFault {
    fn from(fault: NameFault) -> Self {
        Self::Name(fault)
    }
}

impl From<FileFault> for BookFault {
    fn from(fault: FileFault) -> Self {
        Self::File(fault)
    }
}

/// What ends a piece of work with the database.
#[derive(Debug)]
pub(super) enum Stop {
    Fault(BookFault),
    Database(rusqlite::Error),
}

impl Stop {
    /// What it is to whoever works with the book at `file`.
    pub(super) fn at(self, file: &std::path::Path) -> BookFault {
        match self {
            Self::Fault(fault) => fault,
            Self::Database(error) => BookFault::Database { file: file.into(), trouble: Trouble::of(&error) },
        }
    }
}

impl From<rusqlite::Error> for Stop {
    fn from(error: rusqlite::Error) -> Self {
        Self::Database(error)
    }
}

impl From<rusqlite::types::FromSqlError> for Stop {
    fn from(error: rusqlite::types::FromSqlError) -> Self {
        Self::Database(error.into())
    }
}

impl From<BookFault> for Stop {
    fn from(fault: BookFault) -> Self {
        Self::Fault(fault)
    }
}
