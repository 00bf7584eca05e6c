//! Places in a text.

use std::ops::Range;

/// A stretch of a text, in bytes.
pub type Span = Range<usize>;

/// A text that came from elsewhere than the prompt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// What to call it: a file name, the name of a style.
    pub name: String,
    /// The whole text, or a part of it.
    pub text: String,
    /// The number of its first line, from 1.
    pub line: usize,
}

/// Line and column of a byte offset, both from 1, the column in characters.
pub fn line_column(text: &str, offset: usize) -> (usize, usize) {
    let mut end = offset.min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let before = &text[..end];
    let line = before.matches('\n').count() + 1;
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (line, before[start..].chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        assert_eq!(line_column("é = 5\n ñx", 10), (2, 3));
        assert_eq!(line_column("abc", 99), (1, 4));
    }
}
