//! Files as scripts reach them, and what scripts say while they run.

use std::rc::Rc;

use crate::diag::Diagnostic;

/// The folders that were granted to scripts.
pub trait FileHandle {
    /// The text of a file, of at most so many bytes.
    ///
    /// # Errors
    /// It is not below a folder that may be read, not there, no text, too large.
    fn read(&self, path: &str, most: usize) -> Result<String, Diagnostic>;

    /// Puts a text in a file, whole or not at all.
    ///
    /// # Errors
    /// It is not below a folder that may be written; it is there already and is not to be replaced.
    fn write(&self, path: &str, text: &str, replace: bool) -> Result<(), Diagnostic>;
}

/// What a script says while it runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Aside {
    /// A line for whoever watches, apart from what the script answers.
    Log(String),
    /// So much is done, of so much.
    Progress(u64, u64),
}

/// Takes what a script reports while it runs.
pub type Listener = Rc<dyn Fn(&Aside)>;
