//! What fits a place of a line.

use super::args::Args;
use super::form::{Arg, Item};

/// What fits a place of a line, and what came before it there.
#[derive(Clone, Debug)]
pub struct Expected<'t> {
    /// The place.
    pub at: usize,
    /// What fits there.
    pub next: Next,
    /// The word and the literals up to there.
    pub(super) head: Vec<&'static str>,
    /// What must follow that.
    pub(super) rest: Vec<Item>,
    /// The arguments up to there.
    pub args: Args<'t>,
}

/// What fits a place of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// This very word, and what it means there.
    Literal(&'static str, &'static str),
    /// An argument.
    Arg(&'static Arg),
    /// The end of the line.
    End,
}
