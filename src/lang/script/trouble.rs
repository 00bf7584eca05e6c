//! Faults of functions, carried through the engine unchanged.

use std::fmt;

use rhai::{Dynamic, EvalAltResult, Position};

use crate::diag::{Diagnostic, Fault};

/// A fault on its way through the engine. A script that catches it gets it as a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Raised {
    /// The finding.
    pub diagnostic: Diagnostic,
    /// The argument at fault, counted from 0.
    pub argument: Option<usize>,
}

#[expect(clippy::disallowed_methods, reason = "what a script catches, it shows")]
impl fmt::Display for Raised {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.diagnostic.says.text())
    }
}

impl<F: Fault> From<F> for Raised {
    fn from(fault: F) -> Self {
        let argument = fault.argument();
        Self { diagnostic: fault.into(), argument }
    }
}

impl From<Diagnostic> for Raised {
    fn from(diagnostic: Diagnostic) -> Self {
        Self { diagnostic, argument: None }
    }
}

/// Why a function has no result: a fault, or an error of a script that it called back.
#[derive(Debug)]
pub struct Trouble(Box<EvalAltResult>);

impl Trouble {
    /// The error that the engine passes on.
    pub fn into_error(self) -> Box<EvalAltResult> {
        self.0
    }
}

/// Puts a fault into the engine's error as a value.
impl From<Raised> for Trouble {
    fn from(raised: Raised) -> Self {
        Self(EvalAltResult::ErrorRuntime(Dynamic::from(raised), Position::NONE).into())
    }
}

impl<F: Fault> From<F> for Trouble {
    fn from(fault: F) -> Self {
        Raised::from(fault).into()
    }
}

impl From<Diagnostic> for Trouble {
    fn from(diagnostic: Diagnostic) -> Self {
        Raised::from(diagnostic).into()
    }
}

impl From<Box<EvalAltResult>> for Trouble {
    fn from(error: Box<EvalAltResult>) -> Self {
        Self(error)
    }
}
