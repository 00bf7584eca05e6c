//! What the form that reads a line takes from it: typed values with their places.

use super::form::Arg;
use super::kind::Kind;
use crate::diag::Span;

/// The arguments of a line.
#[derive(Clone, Debug, Default)]
pub struct Args<'t> {
    given: Vec<Given<'t>>,
    literals: Vec<&'static str>,
    span: Span,
}

/// An argument as it was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given<'t> {
    /// Which argument.
    pub arg: &'static Arg,
    /// Its value.
    pub value: Value<'t>,
    /// The place of the value in the line, without its quotes.
    pub span: Span,
}

/// The value of an argument.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Value<'t> {
    /// A name or a text, without its quotes.
    Text(&'t str),
    /// A whole number.
    Number(usize),
    /// `KEY=VALUE`.
    Pair {
        /// The key.
        key: &'t str,
        /// Its value, as typed; empty where it is missing.
        value: &'t str,
    },
}

impl<'t> Given<'t> {
    /// The text; of a pair its value.
    pub fn text(&self) -> &'t str {
        match self.value {
            Value::Text(text) | Value::Pair { value: text, .. } => text,
            Value::Number(_) => "",
        }
    }
}

impl<'t> Args<'t> {
    pub(super) fn new(span: Span) -> Self {
        Self { span, ..Self::default() }
    }

    pub(super) fn push(&mut self, given: Given<'t>) {
        self.given.push(given);
    }

    pub(super) fn len(&self) -> usize {
        self.given.len()
    }

    pub(super) fn pop(&mut self) {
        self.given.pop();
    }

    pub(super) fn push_literal(&mut self, literal: &'static str) {
        self.literals.push(literal);
    }

    pub(super) fn pop_literal(&mut self) {
        self.literals.pop();
    }

    /// Every argument, in the order of the line.
    pub fn iter(&self) -> impl Iterator<Item = &Given<'t>> {
        self.given.iter()
    }

    /// The first argument of a kind.
    pub fn one(&self, kind: Kind) -> Option<&Given<'t>> {
        self.all(kind).next()
    }

    /// Every argument of a kind, in the order of the line.
    pub fn all(&self, kind: Kind) -> impl Iterator<Item = &Given<'t>> {
        self.given.iter().filter(move |given| given.arg.kind == kind)
    }

    /// The text of the first argument of a kind; empty without one.
    pub fn text(&self, kind: Kind) -> &'t str {
        self.one(kind).map_or("", Given::text)
    }

    /// The first whole number of a kind; 0 without one.
    pub fn number(&self, kind: Kind) -> usize {
        self.one(kind).map_or(0, |given| if let Value::Number(number) = given.value { number } else { 0 })
    }

    /// The place of the first argument of a kind; without one, all that was typed after the word.
    pub fn span(&self, kind: Kind) -> Span {
        self.one(kind).map_or_else(|| self.span.clone(), |given| given.span.clone())
    }

    /// Whether a literal was typed.
    pub fn has(&self, literal: &str) -> bool {
        self.literals.contains(&literal)
    }
}
