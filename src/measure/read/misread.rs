//! What is wrong with a piece of notation, and what could stand in its place.

use crate::diag::{Diagnostic, Span};

/// A piece of notation that cannot be read, in a text that it may be a part of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong.
    pub message: String,
    /// Where, in bytes.
    pub span: Span,
    /// What could stand in place of that stretch: none, one, or every reading that it may have.
    pub instead: Vec<String>,
}

/// Between two lines that are offered, where a text can be read two ways.
pub const OR: &str = "  or  ";

/// A line longer than this is not worth repeating in a hint.
const LONGEST_HINT: usize = 160;

impl Misread {
    /// A fault at `span`.
    pub fn new(span: Span, message: impl Into<String>) -> Self {
        Self { message: message.into(), span, instead: Vec::new() }
    }

    /// The same fault, with one more text that could stand in its place.
    #[must_use]
    pub fn or(mut self, instead: impl Into<String>) -> Self {
        self.instead.push(instead.into());
        self
    }

    /// The same fault, in a text that has `bytes` more in front.
    #[must_use]
    pub fn shifted(mut self, bytes: usize) -> Self {
        self.span = self.span.start + bytes..self.span.end + bytes;
        self
    }

    /// As it is told of the whole text: the hint is the line at fault, mended, once for each reading.
    pub fn in_text(self, text: &str) -> Diagnostic {
        let line_start = text.get(..self.span.start).and_then(|before| before.rfind('\n')).map_or(0, |at| at + 1);
        let line_end =
            text.get(self.span.end..).and_then(|after| after.find('\n')).map_or(text.len(), |at| self.span.end + at);
        let before = text.get(line_start..self.span.start).unwrap_or_default();
        let after = text.get(self.span.end..line_end).unwrap_or_default();
        let lines = self.instead.iter().map(|new| format!("{before}{new}{after}").trim().to_string());
        let lines: Vec<String> = lines.filter(|line| !line.is_empty()).collect();
        let finding = Diagnostic::new(self.message).at(self.span);
        if lines.is_empty() || before.len() + after.len() > LONGEST_HINT {
            finding
        } else {
            finding.hint(lines.join(OR))
        }
    }
}
