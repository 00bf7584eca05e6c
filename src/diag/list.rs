//! Lists and counts in a sentence.

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
pub fn count(number: usize, noun: &str) -> String {
    format!("{number} {noun}{}", if number == 1 { "" } else { "s" })
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
        assert_eq!([count(0, "piece"), count(1, "piece"), count(2, "piece")], ["0 pieces", "1 piece", "2 pieces"]);
    }
}
