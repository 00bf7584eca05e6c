//! Labelled text: labels say what a part is, never how it looks.

use super::columns;

/// The label of a stretch of text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Label {
    /// Running text.
    Plain,
    /// A heading.
    Heading,
    /// The name of a field, a figure, a part.
    Name,
    /// A figure to work to.
    Value,
    /// The value in the other unit.
    Other,
    /// A value that the framer set.
    Given,
    /// Less important text.
    Dim,
    /// A check that forbids the build.
    Stop,
    /// A check to think about.
    Warn,
    /// A remark of a check.
    Note,
    /// Something done or in order.
    Good,
    /// A pointer: carets, or the arrow on the tape.
    Mark,
    /// A line that failed.
    Error,
    /// A line to type instead.
    Hint,
}

impl Label {
    /// Every label.
    pub const ALL: &[Self] = &[
        Self::Plain,
        Self::Heading,
        Self::Name,
        Self::Value,
        Self::Other,
        Self::Given,
        Self::Dim,
        Self::Stop,
        Self::Warn,
        Self::Note,
        Self::Good,
        Self::Mark,
        Self::Error,
        Self::Hint,
    ];

    /// The word before such text, which shows without color what it is.
    pub const fn word(self) -> Option<&'static str> {
        match self {
            Self::Stop => Some("stop"),
            Self::Warn => Some("warn"),
            Self::Note => Some("note"),
            Self::Error => Some("error"),
            Self::Hint => Some("try"),
            Self::Plain
            | Self::Heading
            | Self::Name
            | Self::Value
            | Self::Other
            | Self::Given
            | Self::Dim
            | Self::Good
            | Self::Mark => None,
        }
    }
}

/// A stretch of text of one label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece<'t> {
    /// The label.
    pub label: Label,
    /// The letters, none of which acts on a terminal.
    pub text: &'t str,
}

/// A line of labelled text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text {
    /// All letters, none of which acts on a terminal.
    letters: String,
    /// Labels in order, each with the byte where its stretch ends.
    runs: Vec<(Label, usize)>,
    /// The width in terminal columns, which tables need often.
    width: usize,
}

impl Text {
    /// An empty text.
    pub const fn new() -> Self {
        Self { letters: String::new(), runs: Vec::new(), width: 0 }
    }

    /// `text`, all of one label.
    pub fn of(label: Label, text: impl AsRef<str>) -> Self {
        Self::new().and(label, text)
    }

    /// This text with more after it.
    #[must_use]
    pub fn and(mut self, label: Label, text: impl AsRef<str>) -> Self {
        self.push(label, text.as_ref());
        self
    }

    /// Adds `text`. Tabs and line ends become spaces, control letters become pictures.
    pub fn push(&mut self, label: Label, text: &str) {
        if text.is_empty() {
            return;
        }
        if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) {
            self.letters.push_str(text);
            self.width += text.len();
        } else {
            self.letters.extend(text.chars().map(|letter| match letter {
                '\t' | '\n' | '\r' => ' ',
                other => columns::harmless(other),
            }));
            // A mark can join the letter before it, so the whole is measured again.
            self.width = columns::width(&self.letters);
        }
        self.mark(label);
    }

    /// Labels the letters from the last run on.
    fn mark(&mut self, label: Label) {
        let end = self.letters.len();
        match self.runs.last_mut() {
            Some(last) if last.0 == label => last.1 = end,
            _ => self.runs.push((label, end)),
        }
    }

    /// Adds other labelled text.
    pub fn append(&mut self, other: &Self) {
        let plain = other.width == other.letters.len();
        let start = self.letters.len();
        self.letters.push_str(&other.letters);
        self.width = if plain { self.width + other.width } else { columns::width(&self.letters) };
        for (label, end) in &other.runs {
            match self.runs.last_mut() {
                Some(last) if last.0 == *label => last.1 = start + end,
                _ => self.runs.push((*label, start + end)),
            }
        }
    }

    /// Adds spaces.
    pub fn pad(&mut self, blanks: usize) {
        if blanks > 0 {
            self.letters.extend(std::iter::repeat_n(' ', blanks));
            self.width += blanks;
            self.mark(Label::Plain);
        }
    }

    /// The stretches, in order.
    pub fn pieces(&self) -> impl DoubleEndedIterator<Item = Piece<'_>> {
        self.runs.iter().enumerate().map(|(at, (label, end))| {
            let start = at.checked_sub(1).map_or(0, |before| self.runs[before].1);
            Piece { label: *label, text: self.letters.get(start..*end).unwrap_or_default() }
        })
    }

    /// The width in terminal columns.
    pub fn width(&self) -> usize {
        self.width
    }

    /// Whether the text is empty.
    pub fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }

    /// The text as printed: spaces that held words together become plain, and spaces at the end go.
    #[must_use]
    pub fn printed(&self) -> Self {
        let mut printed = Self::new();
        for piece in self.pieces() {
            printed.push(piece.label, &piece.text.replace(columns::NO_BREAK, " "));
        }
        let kept = printed.letters.trim_end_matches(' ').len();
        printed.width -= printed.letters.len() - kept;
        printed.letters.truncate(kept);
        let mut start = 0;
        printed.runs.retain_mut(|run| {
            let begins = start;
            start = run.1;
            run.1 = run.1.min(kept);
            begins < kept
        });
        printed
    }

    /// The letters alone.
    pub fn letters(&self) -> &str {
        &self.letters
    }
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        Self::of(Label::Plain, text)
    }
}

impl From<String> for Text {
    fn from(text: String) -> Self {
        Self::of(Label::Plain, text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn like_text_grows_together() {
        let text = Text::of(Label::Name, "reveal").and(Label::Name, ".left").and(Label::Value, "3/8\"");
        assert_eq!(text.pieces().count(), 2);
        assert_eq!((text.letters(), text.width()), ("reveal.left3/8\"", 15));
    }

    #[test]
    fn nothing_in_a_text_acts_on_the_terminal() {
        assert_eq!(Text::from("a\tb\u{1b}[31m\n").letters(), "a b␛[31m ");
    }
}
