//! What the line editor asks the session: is the line complete, what may the word become, what is it about.

use std::cell::RefCell;
use std::rc::Rc;

use rustyline::completion::Completer;
use rustyline::highlight::Highlighter;
use rustyline::hint::Hinter;
use rustyline::validate::{ValidationContext, ValidationResult, Validator};
use rustyline::{Context, Helper, Result};

use crate::lang::is_complete;
use crate::session::{Session, command, complete};

/// The session as the line editor sees it.
pub struct Bench {
    session: Rc<RefCell<Session>>,
}

impl Bench {
    /// Asks this session.
    pub fn new(session: Rc<RefCell<Session>>) -> Self {
        Self { session }
    }
}

impl Helper for Bench {}

impl Highlighter for Bench {}

impl Completer for Bench {
    type Candidate = String;

    fn complete(&self, line: &str, cursor: usize, _: &Context<'_>) -> Result<(usize, Vec<String>)> {
        Ok(complete::complete(&mut self.session.borrow_mut(), line, cursor))
    }
}

impl Hinter for Bench {
    type Hint = String;

    /// How a word goes on, once it stands there in full.
    fn hint(&self, line: &str, cursor: usize, _: &Context<'_>) -> Option<String> {
        if cursor < line.len() {
            return None;
        }
        let word = command::word(line.strip_suffix(' ')?)?;
        word.usage.strip_prefix(word.name).map(|rest| rest.trim_start().to_string()).filter(|rest| !rest.is_empty())
    }
}

impl Validator for Bench {
    fn validate(&self, context: &mut ValidationContext) -> Result<ValidationResult> {
        Ok(if is_complete(context.input(), &*self.session.borrow()) {
            ValidationResult::Valid(None)
        } else {
            ValidationResult::Incomplete
        })
    }
}
