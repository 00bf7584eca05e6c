//! Spaces that a line is not broken at: those inside a quantity.

use crate::measure::Unit;

/// Whether the words on both sides of a space belong together: a number and its fraction or unit, a sum read off the tape,
/// the sides of a size.
pub fn together(before: &str, after: &str) -> bool {
    let (before, after) = (before.trim_start_matches(OPENING), after.trim_end_matches(CLOSING));
    if is_whole(before) && is_fraction(after) {
        return true;
    }
    if is_number(before) && Unit::named(after).is_some() {
        return true;
    }
    let joint = |word: &str| matches!(word, "+" | "-" | "−" | "±" | "x" | "×");
    (joint(after) && is_quantity(before)) || (joint(before) && starts_with_digit(after))
}

const OPENING: &[char] = &['(', '[', '~', '-', '$'];
const CLOSING: &[char] = &[',', '.', ';', ':', ')', ']', '?', '!'];

fn is_whole(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|letter| letter.is_ascii_digit())
}

fn is_number(word: &str) -> bool {
    starts_with_digit(word) && word.bytes().all(|letter| letter.is_ascii_digit() || b"./_,".contains(&letter))
}

/// A fraction with or without its unit: `3/8`, `3/8"`, `3/8in`.
fn is_fraction(word: &str) -> bool {
    word.split_once('/').is_some_and(|(above, below)| is_whole(above) && starts_with_digit(below))
}

/// The end of a quantity: an inch mark or a degree after a digit, or a unit as a word.
fn is_quantity(word: &str) -> bool {
    let mark = word.ends_with(['"', '″', '\'', '°']) && starts_with_digit(word);
    mark || is_number(word) || matches!(word, "mm" | "cm" | "m" | "in" | "ft" | "lb" | "oz" | "kg" | "g")
}

fn starts_with_digit(word: &str) -> bool {
    word.starts_with(|letter: char| letter.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quantity_stays_in_one_piece() {
        for (before, after) in [
            ("11", "3/8\""),
            ("(11", "3/8\","),
            ("~1", "7/16\""),
            ("-1", "1/2"),
            ("288.9", "mm"),
            ("288.9", "mm."),
            ("25", "lb/ft3"),
            ("3/4\"", "+"),
            ("+", "1/64\""),
            ("mm", "-"),
            ("18\"", "×"),
            ("x", "24"),
        ] {
            assert!(together(before, after), "{before} {after}");
        }
    }

    #[test]
    fn other_words_may_part() {
        for (before, after) in
            [("art", "16"), ("16\"", "is"), ("setback", "-"), ("12", "has"), ("11", "and/or"), ("16\"", "24\"")]
        {
            assert!(!together(before, after), "{before} {after}");
        }
    }
}
