//! How far a line could be read, and what was missing there.

use super::args::Args;
use super::expected::{Expected, Next};
use super::form::{Arg, Item};
use super::kind::Kind;
use crate::diag::{Span, list};

/// A line up to the place is repeated if it has at most so many bytes.
const LONGEST: usize = 48;

/// Why no form of a word fits a line.
#[derive(Clone, Debug)]
pub struct Stuck<'t> {
    line: &'t str,
    /// The place that no form came past.
    at: usize,
    /// Where the line ends.
    end: usize,
    /// What fits there, in the order of the forms.
    expected: Vec<Expected<'t>>,
}

impl<'t> Stuck<'t> {
    pub(super) fn new(expected: Vec<Expected<'t>>, line: &'t str, end: usize) -> Self {
        let at = expected.iter().map(|one| one.at).max().unwrap_or(end);
        Self { line, at, end, expected }
    }

    /// The text there that does not fit: a word, or all that is too much.
    pub fn span(&self) -> Span {
        let text = self.line.get(self.at..self.end).unwrap_or_default();
        let word = text.split(char::is_whitespace).next().unwrap_or_default();
        if self.needs_quotes() || self.nexts().all(|next| next == Next::End) {
            return self.at..self.at + text.trim_end().len();
        }
        // What is missing is missing right behind what is there.
        if word.is_empty() {
            let end = self.line.get(..self.end).unwrap_or_default().trim_end().len();
            return end..end;
        }
        self.at..self.at + word.len()
    }

    /// What is wrong, in one clause.
    pub fn message(&self) -> String {
        if self.needs_quotes() {
            return "names cannot contain spaces; put the note in quotes".into();
        }
        let (head, found) = (self.head(), self.found());
        let args =
            self.nexts().filter_map(|next| if let Next::Arg(arg) = next { Some(arg.doc.to_string()) } else { None });
        let literals = self.expected.iter().filter_map(|one| match one.next {
            Next::Literal(text, _) => Some(self.literal(text, &one.rest)),
            Next::Arg(_) | Next::End => None,
        });
        let wanted: Vec<String> = args.chain(literals).collect();
        if wanted.is_empty() {
            let before = self.before().trim_start();
            return format!("nothing can follow `{}`", if before.len() > LONGEST { &head } else { before });
        }
        let verb = if self.may_end() { "takes" } else { "needs" };
        let not = if found.is_empty() { String::new() } else { format!(", not `{found}`") };
        format!("`{head}` {verb} {}{not}", list(&wanted, "or"))
    }

    /// A literal, with what it must be followed by where that is all there is to say.
    fn literal(&self, text: &str, rest: &[Item]) -> String {
        match rest.first() {
            Some(Item::Arg(arg)) if self.found().is_empty() => format!("`{text}` and {}", arg.doc),
            _ => format!("`{text}`"),
        }
    }

    /// The line up to there.
    pub fn before(&self) -> &'t str {
        self.line.get(..self.at).unwrap_or_default().trim_end()
    }

    /// The text there.
    pub fn found(&self) -> &'t str {
        self.line.get(self.span()).unwrap_or_default()
    }

    /// The line behind what does not fit.
    pub fn behind(&self) -> &'t str {
        self.line.get(self.span().end..self.end).unwrap_or_default()
    }

    /// Whether the line could end there.
    pub fn may_end(&self) -> bool {
        self.nexts().any(|next| next == Next::End)
    }

    /// The literals that fit there.
    pub fn literals(&self) -> impl Iterator<Item = &'static str> {
        self.nexts().filter_map(|next| if let Next::Literal(text, _) = next { Some(text) } else { None })
    }

    /// Whether an argument of such a kind fits there, or must follow.
    pub fn needs(&self, is_such: impl Fn(Kind) -> bool) -> bool {
        let of = |item: &Item| matches!(item, Item::Arg(arg) | Item::Many(arg, _) if is_such(arg.kind));
        let first = self.expected.iter().find(|one| one.next != Next::End);
        first.is_some_and(|one| matches!(one.next, Next::Arg(arg) if is_such(arg.kind)) || one.rest.iter().any(of))
    }

    /// The arguments before it, by the first form that came there.
    pub fn args(&self) -> Option<&Args<'t>> {
        self.expected.first().map(|one| &one.args)
    }

    /// Whether a note there lacks its quotes.
    pub fn needs_quotes(&self) -> bool {
        let note = |next| matches!(next, Next::Arg(arg) if arg.kind == Kind::Note);
        self.at < self.end && self.nexts().any(note)
    }

    /// What must stand from there on for the line to be whole, by the first form that came there: `example` knows what fits
    /// an argument, after those before it.
    pub fn rest(&self, example: &mut dyn FnMut(&'static Arg, &Args<'t>) -> Option<String>) -> Option<String> {
        let one = self.expected.iter().find(|one| one.next != Next::End)?;
        let mut text = Vec::new();
        let mut put = |item: Item| {
            text.push(match item {
                Item::Literal(literal, _) => literal.to_string(),
                Item::Quiet(_) => return Some(()),
                Item::Arg(arg) | Item::Many(arg, _) => example(arg, &one.args)?,
            });
            Some(())
        };
        match one.next {
            Next::Literal(literal, doc) => put(Item::Literal(literal, doc))?,
            Next::Arg(arg) => put(Item::Arg(arg))?,
            Next::End => {}
        }
        for item in &one.rest {
            put(*item)?;
        }
        Some(text.join(" "))
    }

    fn head(&self) -> String {
        self.expected.first().map_or_else(String::new, |one| one.head.join(" "))
    }

    fn nexts(&self) -> impl Iterator<Item = Next> {
        self.expected.iter().map(|one| one.next)
    }
}
