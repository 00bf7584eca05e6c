//! Reporting many faults without flooding the screen.

use crate::diag::{Diagnostic, codes, count};

/// So many faults are shown; the rest are counted.
pub const MOST_SHOWN: usize = 20;
/// So many columns of a cell's text are shown.
const MOST_COLUMNS: usize = 200;

/// A cell's text, short enough for a message.
pub fn brief(text: &str) -> String {
    match text.char_indices().nth(MOST_COLUMNS) {
        None => text.into(),
        Some((end, _)) => format!("{}…", &text[..end]),
    }
}

/// The first of these faults, and how many more `place` has.
pub fn capped(mut found: Vec<Diagnostic>, place: &str) -> Vec<Diagnostic> {
    let more = found.len().saturating_sub(MOST_SHOWN);
    if more > 0 {
        found.truncate(MOST_SHOWN);
        found.push(Diagnostic::of(&codes::table::SHAPE, format!("{place} has {}", count(more, "more fault"))));
    }
    found
}
