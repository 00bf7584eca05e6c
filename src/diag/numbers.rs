//! The numbers in a line, by which a fix is held to what was typed.

/// Every group of digits in a text, in order of value: `15 4/2"` has 15, 2 and 4; the name `moth-07` has none.
pub fn numbers(text: &str) -> Vec<&str> {
    let words = text.split(|letter: char| letter.is_whitespace() || ",;=()[]\"".contains(letter));
    let amounts = words.filter(|word| !word.starts_with(char::is_alphabetic));
    let groups = amounts.flat_map(|word| word.split(|letter: char| !letter.is_ascii_digit()));
    let mut found: Vec<&str> = groups.filter(|digits| !digits.is_empty()).collect();
    found.sort_unstable();
    found
}

#[cfg(test)]
mod tests {
    use super::numbers;

    #[test]
    fn names_have_no_numbers() {
        assert_eq!(numbers("face 15 4/2\""), ["15", "2", "4"]);
        assert_eq!(numbers("compare moth-07 moth-07@2"), Vec::<&str>::new());
    }
}
