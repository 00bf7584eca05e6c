//! The bench of a shell, written down after each line and picked up by the next shell.

use std::path::Path;

use crate::book::Journal;
use crate::diag::{Diagnostic, codes};
use crate::session::{Reply, Session};

/// The bench of a shell, as it is written down.
pub struct Saved {
    journal: Option<Journal>,
    /// Whether it was said that the last try failed.
    complained: bool,
}

impl Saved {
    /// Takes a bench that no other shell holds, and puts on `session` what was left there.
    ///
    /// What was picked up, if anything was; or why nothing is written down from now on.
    pub fn take(folder: Option<&Path>, session: &mut Session) -> (Self, Result<Option<Reply>, Diagnostic>) {
        match folder.map(Journal::take) {
            Some(Ok((journal, left))) => {
                (Self { journal: Some(journal), complained: false }, Ok(session.pick_up(&left)))
            }
            Some(Err(why)) => (Self { journal: None, complained: true }, Err(not_written(&why))),
            None => (Self { journal: None, complained: true }, Ok(None)),
        }
    }

    /// Writes down what the last line did. On disk when this returns.
    ///
    /// # Errors
    /// It cannot be written; said once and not after every line.
    pub fn follow(&mut self, session: &Session) -> Result<(), Diagnostic> {
        let Some(journal) = &mut self.journal else {
            return Ok(());
        };
        let trail = session.trail();
        let written = journal.follow(&trail.numbers(), trail.number(), &|number| trail.written(number), session.now());
        match written {
            Ok(()) => self.complained = false,
            Err(_) if self.complained => {}
            Err(why) => {
                self.complained = true;
                return Err(not_written(&why));
            }
        }
        Ok(())
    }
}

fn not_written(why: &str) -> Diagnostic {
    Diagnostic::of(&codes::file::OTHER, format!("the bench is not saved, and a crash would lose it: {why}"))
        .hint("keep moth-07")
}
