//! Faults of notation, and what could be meant.

use crate::diag::{Diagnostic, Says, Span, codes};

/// A piece of notation that cannot be read, in a text that it may be a part of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// The message.
    pub says: Says,
    /// The place, in bytes.
    pub span: Span,
    /// Texts that could replace that stretch: none, one, or one for each reading.
    pub instead: Vec<String>,
}

impl Misread {
    /// A fault at `span`.
    pub fn new(span: Span, says: impl Into<Says>) -> Self {
        Self { says: says.into(), span, instead: Vec::new() }
    }

    /// The same fault, with one more replacement.
    #[must_use]
    pub fn or(mut self, instead: impl Into<String>) -> Self {
        self.instead.push(instead.into());
        self
    }

    /// The same fault, in a text with `bytes` more in front.
    #[must_use]
    pub fn shifted(mut self, bytes: usize) -> Self {
        self.span = self.span.start + bytes..self.span.end + bytes;
        self
    }

    /// The finding about the whole text.
    pub fn found(self) -> Diagnostic {
        let found = Diagnostic::of(&codes::value::NOTATION, self.says).at(self.span);
        self.instead.into_iter().fold(found, Diagnostic::instead)
    }
}
