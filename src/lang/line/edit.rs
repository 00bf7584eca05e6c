//! A change to a script: what stands in place of what was typed.

use crate::diag::Span;

/// One stretch of the text, and what is run in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Edit {
    /// What was typed.
    pub(super) typed: Span,
    /// What is run.
    pub(super) script: String,
}
