//! Errors of the pure layers, which know no text.

use super::{Code, Diagnostic, Fix, Says};

/// An error that does not know the text it came from.
pub trait Fault {
    /// Its row in the table of codes.
    fn code(&self) -> &'static Code;
    /// What it says.
    fn says(&self) -> Says;
    /// What to type instead, where that is known.
    fn hint(&self) -> Option<String> {
        None
    }
    /// Everything that would work instead.
    fn fixes(&self) -> Vec<Fix> {
        self.hint().map(Fix::Line).into_iter().collect()
    }
    /// The field, figure or design that it is about.
    fn name(&self) -> Option<&str> {
        None
    }
    /// Which argument is at fault, counted from 0.
    fn argument(&self) -> Option<usize> {
        None
    }
}

/// A fault becomes a finding without a place.
impl<F: Fault> From<F> for Diagnostic {
    fn from(fault: F) -> Self {
        let mut found = Self::of(fault.code(), fault.says());
        found.fixes = fault.fixes();
        found.name = fault.name().map(Into::into);
        found
    }
}
