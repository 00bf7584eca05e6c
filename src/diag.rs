//! What is said to the framer when something cannot be done: a message, its place, and a line that would work.
//!
//! Invariant: nothing here knows a frame, a script or a terminal.

use std::ops::Range;

/// A stretch of the text that was typed, in bytes.
pub type Span = Range<usize>;

/// One finding about a text: what is wrong, where, and what would do.
///
/// `message` is lower case without a full stop; `hint` is a line that runs when pasted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// What is wrong, in the framer's own words and figures.
    pub message: String,
    /// The stretch of the source text at fault, if it has one.
    pub span: Option<Span>,
    /// A line to type instead.
    pub hint: Option<String>,
    /// What would do in the very place of `span`, for one who knows the whole line.
    pub instead: Option<Box<str>>,
    /// The text that `span` counts in, where it is not the line just typed (a script file, a rules file).
    pub source: Option<Box<Source>>,
}

/// A text that came from elsewhere than the prompt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// What to call it: a file name, a style's name.
    pub name: String,
    /// The whole text, or a part of it.
    pub text: String,
    /// The line that the text begins on, from 1.
    pub line: usize,
}

impl Diagnostic {
    /// A finding without a place.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), span: None, hint: None, instead: None, source: None }
    }

    /// The same finding, placed at `span`.
    #[must_use]
    pub fn at(mut self, span: Span) -> Self {
        self.span = Some(span);
        self
    }

    /// The same finding with a line that would work.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same finding with what would do in its place.
    #[must_use]
    pub fn instead(mut self, text: impl Into<Box<str>>) -> Self {
        self.instead = Some(text.into());
        self
    }

    /// `text`, in which the finding is placed, with what would do in the place of what is wrong.
    pub fn mended(&self, text: &str) -> Option<String> {
        let (span, instead) = (self.span.clone()?, self.instead.as_ref()?);
        Some(format!("{}{instead}{}", text.get(..span.start)?, text.get(span.end..)?))
    }

    /// The same finding, counted in another text.
    #[must_use]
    pub fn inside(self, name: impl Into<String>, text: impl Into<String>) -> Self {
        self.inside_from(name, text, 1)
    }

    /// The same finding, counted in a part of another text that begins on line `line` there.
    #[must_use]
    pub fn inside_from(mut self, name: impl Into<String>, text: impl Into<String>, line: usize) -> Self {
        self.source = Some(Box::new(Source { name: name.into(), text: text.into(), line }));
        self
    }

    /// The same finding with its place moved right by `bytes`, for a text that was part of a longer one.
    #[must_use]
    pub fn shifted(mut self, bytes: usize) -> Self {
        // A place in another text is none of this one's.
        if self.source.is_some() {
            return self;
        }
        self.span = self.span.map(|span| span.start + bytes..span.end + bytes);
        self
    }
}

/// A domain error that does not know the text it came from.
pub trait Fault: std::fmt::Display {
    /// What to type instead, if it can be told.
    fn hint(&self) -> Option<String> {
        None
    }
    /// Which argument is at fault, counted from 0.
    fn argument(&self) -> Option<usize> {
        None
    }
}

/// A fault without a place becomes a finding without a place.
impl<F: Fault> From<F> for Diagnostic {
    fn from(fault: F) -> Self {
        let hint = fault.hint();
        Self { message: fault.to_string(), span: None, hint, instead: None, source: None }
    }
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

/// The names nearest to `word`, best first, at most three: for "did you mean".
///
/// A candidate counts when it differs by at most a third of its letters, or begins with `word`.
pub fn near<'a>(word: &str, names: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = word.to_lowercase();
    let letters = wanted.chars().count();
    let mut found: Vec<(usize, &str)> = names
        .into_iter()
        .filter_map(|name| {
            let name_lower = name.to_lowercase();
            let length = name_lower.chars().count();
            let allowed = (letters.max(length) / 3).max(1);
            let begins = letters >= 3 && name_lower.starts_with(&wanted);
            // Words that differ in length by more differ by more: not looked at, be the word a million letters long.
            if letters.abs_diff(length) > allowed && !begins {
                return None;
            }
            // What stands under a name is as near to it as a slip of one letter.
            let under = name_lower.strip_prefix(&wanted).is_some_and(|rest| rest.starts_with('.'));
            let distance = if under { 1 } else { distance(&wanted, &name_lower) };
            (distance <= allowed || begins).then_some((distance, name))
        })
        .collect();
    found.sort_by(|left, right| left.0.cmp(&right.0).then(left.1.cmp(right.1)));
    found.dedup_by(|left, right| left.1 == right.1);
    found.truncate(3);
    found.into_iter().map(|(_, name)| name).collect()
}

/// How many letters must be put in, taken out, changed or swapped with their neighbour.
fn distance(left: &str, right: &str) -> usize {
    let left: Vec<char> = left.chars().collect();
    let right: Vec<char> = right.chars().collect();
    let mut older = vec![0; right.len() + 1];
    let mut old: Vec<usize> = (0..=right.len()).collect();
    for (row, &a) in left.iter().enumerate() {
        let mut new = vec![row + 1; right.len() + 1];
        for (column, &b) in right.iter().enumerate() {
            let mut best = (old[column + 1] + 1).min(new[column] + 1).min(old[column] + usize::from(a != b));
            if row > 0 && column > 0 && a == right[column - 1] && left[row - 1] == b {
                best = best.min(older[column - 1] + 1);
            }
            new[column + 1] = best;
        }
        older = std::mem::replace(&mut old, new);
    }
    old[right.len()]
}

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn near_names_are_offered_best_first() {
        let names = ["reveal", "reveal.left", "rail.top.long", "recess"];
        assert_eq!(near("reveel", names), ["reveal"]);
        assert_eq!(near("reveal.lfet", names), ["reveal.left"]);
        assert!(near("zebra", names).is_empty());
        assert_eq!(near("rec", names), ["recess"]);
        assert!(near(&"reveal".repeat(1_000_000), names).is_empty());
    }

    #[test]
    fn columns_count_characters() {
        assert_eq!(line_column("é = 5\n ñx", 10), (2, 3));
        assert_eq!(line_column("abc", 99), (1, 4));
    }

    #[test]
    fn lists_read_as_sentences() {
        assert_eq!(list(&["a"], "or"), "a");
        assert_eq!(list(&["a", "b", "c"], "or"), "a, b or c");
    }
}
