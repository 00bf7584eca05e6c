//! Faults of the design book.

use std::path::PathBuf;

use rusqlite::ErrorCode;

use super::name::NameFault;
use crate::diag::codes::book;
use crate::diag::{Code, Fault, Fix, Says, says};
use crate::host::FileFault;

/// A fault of the design book.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum BookFault {
    Name(NameFault),
    /// There is no design of this name.
    Unknown {
        name: String,
        near: Vec<String>,
    },
    /// The design has no revision of this number.
    NoRevision {
        name: String,
        asked: u32,
        newest: u32,
    },
    /// Another design has this name.
    Taken {
        name: String,
    },
    /// The design is retired, and must be restored first.
    Retired {
        name: String,
    },
    AlreadyRetired {
        name: String,
    },
    NotRetired {
        name: String,
    },
    /// A note that is too long or not plain text.
    Note(&'static str),
    /// The design to save has no field set.
    Empty,
    /// `find` without words.
    NoWords,
    /// A damaged file to import, and the line.
    Import {
        file: PathBuf,
        line: usize,
        why: Says,
    },
    /// An export or a copy would overwrite a file.
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
    /// A trouble with the database.
    Database {
        file: PathBuf,
        trouble: Trouble,
    },
    /// There is no folder for the book.
    Nowhere,
}

/// A trouble with the database.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Another program is using it.
    Busy,
    /// The disk is full.
    Full,
    /// It is read-only.
    ReadOnly,
    /// It cannot be opened, for this reason.
    Closed(String),
    /// The file is not a design book.
    Foreign,
    /// A newer program wrote it: its format and ours.
    Newer(i64, i64),
    /// The file is damaged; the reason.
    Damaged(String),
    /// Anything else.
    Other(String),
}

/// Turns a message of the database into a trouble.
type Meaning = fn(String) -> Trouble;

/// The meaning of each code of the database.
const CODES: &[(ErrorCode, Meaning)] = &[
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
    /// The meaning of an error of the database.
    pub fn of(error: &rusqlite::Error) -> Self {
        let said = error.to_string();
        let Some(failure) = error.sqlite_error() else {
            // A missing row, or a value of another kind than was written.
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
        // A file at its size limit fails like a full disk.
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
    /// The fault, to follow the path of the book.
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
            Self::Taken { name } => line(format!("revisions {name}")),
            Self::Empty => line("help art".into()),
            Self::NoWords => line("help find".into()),
            Self::Name(_)
            | Self::Unknown { .. }
            | Self::NotRetired { .. }
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

/// Why work with the database ended.
#[derive(Debug)]
pub(super) enum Stop {
    Fault(BookFault),
    Database(rusqlite::Error),
}

impl Stop {
    /// The fault for the book at `file`.
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
