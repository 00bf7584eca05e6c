//! Lists and counts in a sentence.

use std::fmt::Display;

/// Puts a list into a sentence: `a`, `a or b`, `a, b or c`.
pub fn list(words: &[impl AsRef<str>], joint: &str) -> String {
    match words {
        [] => String::new(),
        [only] => only.as_ref().to_string(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} {joint} {}", first.join(", "), last.as_ref())
        }
    }
}

/// A count with its noun: `1 piece`, `3 pieces`.
pub fn count<N: Display + PartialEq + From<u8>>(number: N, noun: &str) -> String {
    let plural = if number == N::from(1) { "" } else { "s" };
    format!("{number} {noun}{plural}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_as_sentences() {
        assert_eq!(list(&["a"], "or"), "a");
        assert_eq!(list(&["a", "b", "c"], "or"), "a, b or c");
    }

    #[test]
    fn a_plural_follows_its_count() {
        assert_eq!(
            [count(0_usize, "piece"), count(1_usize, "piece"), count(2_usize, "piece")],
            ["0 pieces", "1 piece", "2 pieces"]
        );
    }
}
