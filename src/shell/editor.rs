//! What the line editor asks the session: is the line complete, what may the word become, what is it about.

use std::cell::RefCell;
use std::rc::Rc;

use rustyline::completion::{Completer, Pair};
use rustyline::highlight::Highlighter;
use rustyline::hint::Hinter;
use rustyline::validate::{ValidationContext, ValidationResult, Validator};
use rustyline::{Context, Helper, Result};

use crate::lang::is_complete;
use crate::session::offer::Offer;
use crate::session::{Session, command, complete};
use crate::show::columns::{cut, width};

/// The session as the line editor sees it.
pub struct Bench {
    session: Rc<RefCell<Session>>,
    /// How many columns the terminal has.
    width: Rc<dyn Fn() -> usize>,
}

impl Bench {
    /// Asks this session, for a terminal of so many columns.
    pub fn new(session: Rc<RefCell<Session>>, width: Rc<dyn Fn() -> usize>) -> Self {
        Self { session, width }
    }
}

impl Helper for Bench {}

impl Highlighter for Bench {}

impl Completer for Bench {
    type Candidate = Pair;

    fn complete(&self, line: &str, cursor: usize, _: &Context<'_>) -> Result<(usize, Vec<Pair>)> {
        let (start, offers) = complete::complete(&mut self.session.borrow_mut(), line, cursor);
        Ok((start, pairs(offers, (self.width)())))
    }
}

/// Offers as they are listed: each with what it means, as much of that as the terminal has room for.
fn pairs(offers: Vec<Offer>, columns: usize) -> Vec<Pair> {
    let room = columns.saturating_sub(1);
    let longest = offers.iter().map(|offer| width(&offer.text)).max().unwrap_or_default();
    let pair = |offer: Offer| {
        let gap = longest + 2 - width(&offer.text);
        let whole = format!("{}{}{}", offer.text, " ".repeat(gap), offer.doc);
        let display = if offer.doc.is_empty() { offer.text.clone() } else { cut(&whole, room) };
        Pair { display, replacement: offer.text }
    };
    offers.into_iter().map(pair).collect()
}

impl Hinter for Bench {
    type Hint = String;

    /// What follows a word, once it is typed in full.
    fn hint(&self, line: &str, cursor: usize, _: &Context<'_>) -> Option<String> {
        if cursor < line.len() {
            return None;
        }
        let word = command::word(line.strip_suffix(' ')?)?;
        word.usage().strip_prefix(word.name).map(|rest| rest.trim_start().to_string()).filter(|rest| !rest.is_empty())
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
