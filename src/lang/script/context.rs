//! What the program knows when a script fails.

use std::rc::Rc;

use super::limits::Limits;
use super::source::{Source, Sources};

/// The texts and names that an error message may quote or suggest.
pub struct ErrorContext<'a> {
    /// The script that ran.
    pub main: &'a Rc<Source>,
    /// All other scripts in use.
    pub sources: &'a Sources,
    /// The limits of the run.
    pub limits: &'a Limits,
    /// Variables of the session.
    pub variables: Vec<String>,
    /// Fields and figures of the design at the bench.
    pub fields: Vec<String>,
    /// Functions that scripts define, each with its number of parameters.
    pub functions: Vec<(String, usize)>,
}
