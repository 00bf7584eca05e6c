//! The rules files that ship, and rules files → book.

use super::book::Book;
use super::{reader, resolve};
use crate::diag::Diagnostic;

/// The rules files that ship, in the order read.
pub const SHIPPED: &[(&str, &str)] = &[
    ("common.rules", include_str!("common.rules")),
    ("open.rules", include_str!("open.rules")),
    ("captured.rules", include_str!("captured.rules")),
    ("fixing.rules", include_str!("fixing.rules")),
    ("weight.rules", include_str!("weight.rules")),
    ("wall.rules", include_str!("wall.rules")),
    ("wood.rules", include_str!("wood.rules")),
    ("saw.rules", include_str!("saw.rules")),
    ("pieces.rules", include_str!("pieces.rules")),
    ("cautions.rules", include_str!("cautions.rules")),
    ("labels.rules", include_str!("labels.rules")),
];

/// The files of data that ship.
pub const DATA: &[(&str, &str)] = &[
    ("woods.toml", include_str!("../data/woods.toml")),
    ("screws.toml", include_str!("../data/screws.toml")),
    ("lengths.toml", include_str!("../data/lengths.toml")),
    ("drills.toml", include_str!("../data/drills.toml")),
    ("brads.toml", include_str!("../data/brads.toml")),
    ("kinds.toml", include_str!("../data/kinds.toml")),
    ("glazings.toml", include_str!("../data/glazings.toml")),
    ("boards.toml", include_str!("../data/boards.toml")),
    ("wires.toml", include_str!("../data/wires.toml")),
    ("hangers.toml", include_str!("../data/hangers.toml")),
    ("hooks.toml", include_str!("../data/hooks.toml")),
    ("roughs.toml", include_str!("../data/roughs.toml")),
    ("clips.toml", include_str!("../data/clips.toml")),
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
    resolve::resolve(&sheets, DATA)
}
