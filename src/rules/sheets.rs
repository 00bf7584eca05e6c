//! The rules files that ship, and rules files → book.

use super::book::Book;
use super::{reader, resolve};
use crate::diag::Diagnostic;

/// The rules files that ship, in the order read.
pub const SHIPPED: &[(&str, &str)] = &[
    ("common.rules", include_str!("common.rules")),
    ("open.rules", include_str!("open.rules")),
    ("captured.rules", include_str!("captured.rules")),
];

/// Reads rules files, given as name and text, into a book.
///
/// # Errors
/// The first fault, with file and place in it.
pub fn read_book(files: &[(&str, &str)]) -> Result<Book, Diagnostic> {
    let sheets = files
        .iter()
        .map(|(name, text)| Ok(resolve::Sheet { name, text, entries: reader::read_sheet(name, text)? }))
        .collect::<Result<Vec<_>, Diagnostic>>()?;
    resolve::resolve(&sheets)
}
