//! What is wrong with a piece of notation, and what could stand in its place.

use crate::diag::{Diagnostic, Says, Span, codes};

/// A piece of notation that cannot be read, in a text that it may be a part of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong.
    pub says: Says,
    /// Where, in bytes.
    pub span: Span,
    /// What could stand in place of that stretch: none, one, or every reading that it may have.
    pub instead: Vec<String>,
}

impl Misread {
    /// A fault at `span`.
    pub fn new(span: Span, says: impl Into<Says>) -> Self {
        Self { says: says.into(), span, instead: Vec::new() }
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

    /// As a finding about the text that it is placed in.
    pub fn found(self) -> Diagnostic {
        let found = Diagnostic::of(&codes::value::NOTATION, self.says).at(self.span);
        self.instead.into_iter().fold(found, Diagnostic::instead)
    }
}
