//! Texts of scripts, and the way from a place in the script to the text.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::{Rc, Weak};

use rhai::Position;

use super::insertions::Insertions;
use crate::diag::Span;
use crate::lang::line::SourceMap;

/// The way from a place in the script to the typed text.
pub trait Places {
    /// The typed range at `position` of the script.
    fn at(&self, position: Position) -> Option<Span>;

    /// An argument of the call at `position`, or a side of the operator there, counted from 0.
    fn argument(&self, position: Position, argument: usize) -> Option<Span> {
        let _ = (position, argument);
        None
    }
}

impl<F: Fn(Position) -> Option<Span>> Places for F {
    fn at(&self, position: Position) -> Option<Span> {
        self(position)
    }
}

/// A text after the notation pass.
pub struct Prepared {
    /// The script for the engine.
    pub script: String,
    /// The way from its places to the text.
    pub places: Rc<dyn Places>,
}

impl Prepared {
    /// A text that needs no pass.
    pub fn plain(text: &str) -> Self {
        Self { script: text.into(), places: Rc::new(Plain(text.into())) }
    }
}

impl Places for SourceMap {
    fn at(&self, position: Position) -> Option<Span> {
        Some(self.place(position.line()?, position.position().unwrap_or(1)))
    }

    fn argument(&self, position: Position, argument: usize) -> Option<Span> {
        let call = self.call(position.line()?, position.position().unwrap_or(1))?;
        call.arguments.get(argument).cloned()
    }
}

/// The places of a text that needs no pass.
#[derive(Debug)]
pub struct Plain(pub String);

impl Places for Plain {
    fn at(&self, position: Position) -> Option<Span> {
        let start = offset(&self.0, position)?;
        let rest = self.0.get(start..)?;
        let word = |letter: char| letter.is_alphanumeric() || letter == '_';
        let end = match rest.chars().next() {
            None => 0,
            Some(first) if word(first) => rest.find(|letter| !word(letter)).unwrap_or(rest.len()),
            Some(first) => first.len_utf8(),
        };
        Some(start..start + end)
    }
}

/// The byte in `text` at `position`, a line and a column in characters.
pub fn offset(text: &str, position: Position) -> Option<usize> {
    let line = position.line()?;
    let column = position.position().unwrap_or(1);
    let mut start = 0;
    for _ in 1..line {
        start += text.get(start..)?.find('\n')? + 1;
    }
    let rest = text.get(start..)?;
    Some(rest.char_indices().nth(column - 1).map_or(text.len(), |(index, _)| start + index))
}

/// The text of a script.
pub struct Source {
    /// The id by which the engine knows it.
    pub id: String,
    /// The name of the script, empty for a line at the prompt.
    pub name: String,
    /// The typed text.
    pub text: String,
    /// The way from places of the script to the text.
    pub places: Rc<dyn Places>,
    /// The text that guards added.
    pub insertions: Insertions,
}

impl fmt::Debug for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Source({})", self.id)
    }
}

impl Source {
    /// The typed range at `position` of the script, or of an argument of the call there.
    pub fn span(&self, position: Position, argument: Option<usize>) -> Option<Span> {
        if position.is_none() {
            return None;
        }
        let position = self.insertions.take_out(position);
        argument
            .and_then(|argument| self.places.argument(position, argument))
            .or_else(|| self.places.at(position))
            .filter(|span| span.end <= self.text.len())
    }
}

/// The texts of all scripts in use.
#[derive(Debug, Default)]
pub struct Sources(RefCell<BTreeMap<String, Weak<Source>>>);

impl Sources {
    /// Remembers a source as long as anyone holds it.
    pub fn remember(&self, source: &Rc<Source>) {
        let mut sources = self.0.borrow_mut();
        // Lines without functions are dropped at once; this sweeps up their entries now and then.
        if sources.len() % 64 == 63 {
            sources.retain(|_, source| source.strong_count() > 0);
        }
        sources.insert(source.id.clone(), Rc::downgrade(source));
    }

    /// The source with this id.
    pub fn named(&self, id: &str) -> Option<Rc<Source>> {
        self.0.borrow().get(id).and_then(Weak::upgrade)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_counted_in_characters() {
        let text = "é = 5\n ñx + y";
        assert_eq!(offset(text, Position::new(1, 1)), Some(0));
        assert_eq!(offset(text, Position::new(1, 5)), Some(5));
        assert_eq!(offset(text, Position::new(2, 2)), Some(8));
        assert_eq!(offset(text, Position::new(9, 1)), None);
        assert_eq!(Plain(text.into()).at(Position::new(2, 2)), Some(8..11));
        assert_eq!(Plain(text.into()).at(Position::new(2, 5)), Some(12..13));
    }
}
