//! Designs of a run on their way into the book.

use std::collections::BTreeSet;

use crate::book::Draft;
use crate::diag::{Diagnostic, Says, codes, says};
use crate::session::Framer;

/// Puts designs into the book.
pub(super) struct Keeper<'a> {
    framer: &'a Framer,
    names: BTreeSet<String>,
}

impl<'a> Keeper<'a> {
    /// Nothing is kept yet.
    pub(super) fn new(framer: &'a Framer) -> Self {
        Self { framer, names: BTreeSet::new() }
    }

    /// Keeps a design under its name, blanks made `-`, for names in the book have none.
    ///
    /// # Errors
    /// It cannot be called so; another row of this run is.
    pub(super) fn keep(&mut self, draft: &Draft, called: &str) -> Result<(), Diagnostic> {
        let name = called.split_whitespace().collect::<Vec<_>>().join("-");
        let not = |why: Says| {
            Diagnostic::of(&codes::batch::NOT_SAVED, why.within(says!("{} is not kept in the book", called)))
        };
        if !self.names.insert(name.clone()) {
            return Err(not(says!("another row is {} there", name)));
        }
        self.framer.keep(draft, &name).map_err(|found| not(found.says))
    }
}
