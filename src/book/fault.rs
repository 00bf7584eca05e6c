//! Why the book does not do what it is asked.

use std::fmt;
use std::path::PathBuf;

use rusqlite::ErrorCode;

use super::name::NameFault;
use crate::diag::{Fault, list};
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
        why: String,
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

impl fmt::Display for BookFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Name(fault) => fault.fmt(f),
            Self::Unknown { name, near } if near.is_empty() => write!(f, "there is no design {name} in the book"),
            Self::Unknown { name, near } => {
                write!(f, "there is no design {name} in the book; did you mean {}?", list(near, "or"))
            }
            Self::NoRevision { name, asked, newest } => {
                write!(f, "{name} has no revision {asked}; its newest is {newest}")
            }
            Self::Taken { name } => write!(f, "there is a design {name} already"),
            Self::Retired { name } => write!(f, "{name} is retired; restore it first"),
            Self::AlreadyRetired { name } => write!(f, "{name} is retired already"),
            Self::NotRetired { name } => write!(f, "{name} is not retired"),
            Self::Note(why) => f.write_str(why),
            Self::Empty => f.write_str("nothing was given to this design, so there is nothing to keep"),
            Self::NoWords => f.write_str("`find` needs words to look for or `if` and a condition"),
            Self::Import { file, line, why } => {
                write!(f, "nothing of {} is taken in: line {line}: {why}", file.display())
            }
            Self::There { file, what } => write!(f, "{} {what}, and is left as it is", file.display()),
            Self::Copy { file, why } => write!(f, "the copy {} cannot be written: {why}", file.display()),
            Self::File(fault) => fault.fmt(f),
            Self::Database { file, trouble } => write!(f, "the design book {} {trouble}", file.display()),
            Self::Nowhere => f.write_str("there is no folder for the design book; start with --home and a folder"),
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Busy => f.write_str("is held by another program; nothing was written, try once more when it is done"),
            Self::Full => f.write_str(
                "takes no more: the disk is full or the file may not grow; nothing was written, make room and try once more",
            ),
            Self::ReadOnly => f.write_str(
                "may be read and not written; nothing was written, see to the rights of the file and of its folder",
            ),
            Self::Closed(why) => {
                write!(f, "cannot be opened ({why}); see to its folder and its rights, or start with --home and another")
            }
            Self::Foreign => {
                f.write_str("is something else and no design book; move it elsewhere, or start with --home and another folder")
            }
            Self::Newer(found, known) => write!(
                f,
                "is of a newer program, format {found}, and this one knows {known}; nothing was touched, use the newer program"
            ),
            Self::Damaged(why) => write!(
                f,
                "is damaged ({why}); nothing was touched, move it elsewhere and put a backup in its place"
            ),
            Self::Other(why) => write!(f, "fails: {why}"),
        }
    }
}

impl Fault for BookFault {
    fn hint(&self) -> Option<String> {
        match self {
            Self::Name(_) => None,
            Self::Unknown { near, .. } => near.first().cloned(),
            Self::NoRevision { name, newest, .. } => Some(format!("open {name}@{newest}")),
            Self::Retired { name } | Self::AlreadyRetired { name } => Some(format!("restore {name}")),
            Self::NotRetired { name } => Some(format!("retire {name}")),
            Self::Taken { name } => Some(format!("revisions {name}")),
            Self::Empty => Some("art 16\" x 20\" x 3/4\"".into()),
            Self::NoWords => Some("find if art.width > 20in".into()),
            Self::Note(_)
            | Self::Import { .. }
            | Self::There { .. }
            | Self::Copy { .. }
            | Self::File(_)
            | Self::Database { .. }
            | Self::Nowhere => None,
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
