//! A page as letters alone: for files, pipes and terminals without colour.

use super::columns::NO_BREAK;
use super::text::Text;

/// The lines, each with its line end.
pub fn write(lines: &[Text]) -> String {
    let mut written = String::new();
    for line in lines {
        let letters = line.letters().trim_end_matches([' ', NO_BREAK]);
        if letters.contains(NO_BREAK) {
            written.push_str(&letters.replace(NO_BREAK, " "));
        } else {
            written.push_str(letters);
        }
        written.push('\n');
    }
    written
}
