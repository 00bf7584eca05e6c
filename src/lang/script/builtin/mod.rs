//! The table of functions: the only place where one is named.
//!
//! The engine registers from it; help, completion, hints, the messages about wrong arguments and the reference page
//! read from it. Each topic has its file. A row's adapter computes nothing itself.

mod angles;
mod book;
mod call;
mod check;
mod convert;
mod designs;
mod files;
mod lists;
mod maps;
mod numbers;
mod orders;
mod row;
mod scripts;
mod sizes;
mod texts;
mod units;
mod walks;
mod want;
mod workshop;

pub use call::Call;
pub use row::{Builtin, Param};
pub(super) use row::{HIDDEN, param};
pub use want::Want;

use crate::measure::Unit;

/// Topics whose functions reach beyond the values that they are given.
const ACTS: &[&str] = &["the design book", "files", "scripts"];

/// Whether a function works on values alone, those of the line or of its variables.
pub fn only_computes(name: &str) -> bool {
    let mut computes = topics().filter(|(title, _)| !ACTS.contains(title)).flat_map(|(_, rows)| rows);
    computes.any(|row| row.name == name)
}

/// The function that counts a quantity in `unit`.
pub fn counting_in(unit: &Unit) -> Option<&'static str> {
    all().find(|row| unit.names.contains(&row.counts)).map(|row| row.name)
}

/// The topics with tables of their own.
const TOPICS: &[(&str, &[Builtin])] = &[
    ("numbers", numbers::ROWS),
    ("angles", angles::ROWS),
    ("units", units::ROWS),
    ("sizes", sizes::ROWS),
    ("values and text", convert::ROWS),
    ("text", texts::ROWS),
    ("lists", lists::ROWS),
    ("order", orders::ROWS),
    ("going through lists", walks::ROWS),
    ("maps", maps::ROWS),
    ("designs", designs::ROWS),
    ("the design book", book::ROWS),
    ("files", files::ROWS),
    ("scripts", scripts::ROWS),
];

/// All topics, with their titles and rows.
pub fn topics() -> impl Iterator<Item = (&'static str, &'static [Builtin])> {
    TOPICS.iter().copied().chain(std::iter::once_with(|| ("the workshop", workshop::ROWS.as_slice())))
}

/// All functions.
pub fn all() -> impl Iterator<Item = &'static Builtin> {
    topics().flat_map(|(_, rows)| rows)
}

/// The function called `name`.
pub fn named(name: &str) -> Option<&'static Builtin> {
    all().find(|row| row.name == name && !row.property)
}

#[cfg(test)]
mod tests;
