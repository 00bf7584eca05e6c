//! Which sort of line it is: a setting, a command, a name to show, or an expression.

use super::bracket::Brackets;
use super::first::{Follow, Start};
use super::lex::{Within, lex};
use super::names::Names;
use super::token::is_keyword;
use crate::diag::{Diagnostic, Span, near, says};
use crate::measure::read::Misread;

/// A line at the prompt, sorted by its first word and by what follows that.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line<'t> {
    /// Nothing but blanks and comments.
    Blank,
    /// A field is set.
    Set {
        /// The field, dotted.
        field: &'t str,
        /// Where the field stands.
        at: Span,
        /// Where its value stands, blanks around it left out.
        value: Span,
    },
    /// A registered word.
    Command {
        /// The word.
        word: &'t str,
        /// Where the word stands.
        at: Span,
        /// Where what it takes stands, blanks around it left out; empty where nothing does.
        rest: Span,
    },
    /// A field or a figure alone.
    Show {
        /// Its name, dotted.
        name: &'t str,
        /// Where it stands.
        at: Span,
    },
    /// A statement or an expression.
    Expression,
}

/// The sort of line that `text` is.
///
/// # Errors
/// A line that can be read two ways, a first word that is unknown.
pub fn read_line<'t>(text: &'t str, names: &dyn Names) -> Result<Line<'t>, Diagnostic> {
    sorted(text, names).map_err(|misread| misread.found())
}

/// Whether `text` can be run as it stands: an open bracket goes on in the next line, anything else does not.
///
/// A text that does not end is complete, and wrong; a setting or a command that takes no value never goes on.
pub fn is_complete(text: &str, names: &dyn Names) -> bool {
    if let Start::Word(first) = Start::of(text) {
        let takes = names.word(first.subject).or_else(|| names.field(first.subject));
        if takes.is_some_and(|takes| !takes.is_formula()) && !matches!(first.line(text, names), Ok(Line::Expression)) {
            return true;
        }
    }
    let lexed = lex(text);
    let brackets = Brackets::of(text, &lexed.tokens);
    match lexed.within {
        Some(Within::Text) => true,
        Some(Within::Comment) => false,
        None => brackets.open.is_empty() || !brackets.faults.is_empty(),
    }
}

/// The finding for a name that nothing has, with the names it may have meant; `span` is its place in `text`.
pub fn unknown_name(text: &str, span: Span, names: &dyn Names) -> Diagnostic {
    let name = text.get(span.clone()).unwrap_or_default();
    meant(Misread::new(span.clone(), says!("there is nothing called {}", name)), name, names.all()).found()
}

/// The place of the name that an expression line consists of, if that is all there is: `shete`.
pub fn lone_name(text: &str) -> Option<Span> {
    match Start::of(text) {
        Start::Word(word) if word.follow == Follow::Ended && !is_keyword(word.subject) => Some(word.span),
        Start::Blank | Start::Word(_) | Start::Other => None,
    }
}

fn sorted<'t>(text: &'t str, names: &dyn Names) -> Result<Line<'t>, Misread> {
    match Start::of(text) {
        Start::Blank => Ok(Line::Blank),
        Start::Other => Ok(Line::Expression),
        Start::Word(first) => first.line(text, names),
    }
}

/// The fault, with the names that are near to `name` in its place.
pub(super) fn meant(misread: Misread, name: &str, names: impl IntoIterator<Item = String>) -> Misread {
    let names: Vec<String> = names.into_iter().collect();
    near(name, names.iter().map(String::as_str)).into_iter().fold(misread, Misread::or)
}
