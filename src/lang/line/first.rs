//! The first word of a line, and what follows it: they decide what sort of line it is.

use pest::Parser;

use super::lex::{Prompt, Rule, lex};
use super::names::{Names, Takes};
use super::prompt::{Line, meant};
use super::token::{TokenKind, is_keyword};
use crate::diag::{Span, says};
use crate::measure::read::Misread;

/// How a line starts.
pub(super) enum Start<'t> {
    Blank,
    Word(First<'t>),
    Other,
}

/// The first word of a line, dotted, and what sort of thing follows it.
pub(super) struct First<'t> {
    pub(super) subject: &'t str,
    pub(super) span: Span,
    pub(super) follow: Follow,
    /// Where what follows begins.
    pub(super) at: usize,
}

/// What may follow the first word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Follow {
    /// Nothing.
    Ended,
    /// `=`
    Assign,
    /// A sign between blanks, or one that has no other use: `+ `, `==`.
    Operator,
    /// A minus that touches what follows it.
    Minus,
    /// `in`, `is`
    Asks,
    /// An opening bracket behind a blank.
    Bracket,
    /// Another sign that touches what follows it: `./a`, `--all`.
    Symbol,
    /// Anything else behind a blank.
    Operand,
    /// Anything that touches the word.
    Joined,
}

const FOLLOWS: &[(Rule, Follow)] = &[
    (Rule::ended, Follow::Ended),
    (Rule::assign, Follow::Assign),
    (Rule::operator, Follow::Operator),
    (Rule::minus, Follow::Minus),
    (Rule::asks, Follow::Asks),
    (Rule::bracket, Follow::Bracket),
    (Rule::symbol, Follow::Symbol),
    (Rule::operand, Follow::Operand),
];

impl<'t> Start<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        Self::parsed(text).unwrap_or(Self::Other)
    }

    fn parsed(text: &'t str) -> Option<Self> {
        let mut parts = Prompt::parse(Rule::line, text).ok()?.next()?.into_inner();
        let first = parts.next()?;
        if first.as_rule() == Rule::nothing {
            return Some(Self::Blank);
        }
        let behind = parts.next()?;
        let follow = FOLLOWS.iter().find(|row| row.0 == behind.as_rule()).map_or(Follow::Joined, |row| row.1);
        let span = first.as_span().start()..first.as_span().end();
        Some(Self::Word(First { subject: first.as_str(), span, follow, at: behind.as_span().start() }))
    }
}

impl<'t> First<'t> {
    /// What sort of line the word and what follows it make.
    pub(super) fn line(&self, text: &'t str, names: &dyn Names) -> Result<Line<'t>, Misread> {
        if is_keyword(self.subject) {
            return Ok(Line::Expression);
        }
        if let Some(takes) = names.word(self.subject) {
            return Ok(self.command(text, takes));
        }
        if let Some(takes) = names.field(self.subject) {
            return self.setting(text, takes, names);
        }
        match self.follow {
            Follow::Ended if names.is_figure(self.subject) => Ok(self.show()),
            Follow::Operand if names.is_figure(self.subject) => Err(self.derived(text)),
            Follow::Operand => Err(self.unknown(text, names)),
            Follow::Ended
            | Follow::Assign
            | Follow::Operator
            | Follow::Minus
            | Follow::Asks
            | Follow::Bracket
            | Follow::Symbol
            | Follow::Joined => Ok(Line::Expression),
        }
    }

    fn show(&self) -> Line<'t> {
        Line::Show { name: self.subject, at: self.span.clone() }
    }

    /// Whether what follows goes with a registered word, which is never a value itself.
    fn command(&self, text: &'t str, takes: Takes) -> Line<'t> {
        let goes_on = match self.follow {
            Follow::Ended | Follow::Operand => true,
            Follow::Minus => takes != Takes::Nothing,
            Follow::Asks => takes == Takes::Name || takes.is_free(),
            Follow::Bracket => takes.is_free() || takes.is_value(),
            Follow::Symbol => takes.is_free(),
            Follow::Operator => takes.is_free() && !self.compares(text),
            Follow::Assign | Follow::Joined => false,
        };
        if !goes_on {
            return Line::Expression;
        }
        let rest =
            if self.follow == Follow::Ended { self.span.end..self.span.end } else { self.rest(text, self.at, takes) };
        Line::Command { word: self.subject, at: self.span.clone(), rest }
    }

    fn setting(&self, text: &'t str, takes: Takes, names: &dyn Names) -> Result<Line<'t>, Misread> {
        let sets = match self.follow {
            Follow::Ended => return Ok(self.show()),
            Follow::Assign => return self.assigned(text, takes),
            Follow::Minus if takes.is_value() => return Err(self.two_ways(text, names)),
            Follow::Operand => true,
            Follow::Bracket => {
                takes.is_free() || takes.is_value() && text.get(self.at..).is_some_and(|rest| rest.starts_with('('))
            }
            Follow::Asks => !takes.is_value(),
            Follow::Minus | Follow::Symbol => takes.is_free(),
            Follow::Operator => takes.is_free() && !self.compares(text),
            Follow::Joined => false,
        };
        let line = || Line::Set { field: self.subject, at: self.span.clone(), value: self.rest(text, self.at, takes) };
        Ok(if sets { line() } else { Line::Expression })
    }

    fn assigned(&self, text: &'t str, takes: Takes) -> Result<Line<'t>, Misread> {
        let value = self.rest(text, self.at + 1, takes);
        if value.is_empty() {
            return Err(Misread::new(self.at..self.at + 1, "a value is missing after the ="));
        }
        Ok(Line::Set { field: self.subject, at: self.span.clone(), value })
    }

    /// A text may begin with a sign; only these say that an expression is meant.
    fn compares(&self, text: &str) -> bool {
        let rest = text.get(self.at..).unwrap_or_default();
        ["==", "!=", "+"].iter().any(|sign| rest.starts_with(sign))
    }

    /// What follows from `at`, without the blanks around it and without a comment where it is not a text.
    fn rest(&self, text: &str, at: usize, takes: Takes) -> Span {
        let rest = text.get(at..).unwrap_or_default();
        let kept = if takes.is_free() { rest } else { uncommented(rest) };
        let start = at + rest.len() - rest.trim_start().len();
        start..(at + kept.trim_end().len()).max(start)
    }

    fn two_ways(&self, text: &str, names: &dyn Names) -> Misread {
        let rest = self.rest(text, self.at, Takes::Value);
        let value = text.get(rest.clone()).unwrap_or_default();
        let amount = value.trim_start_matches(['-', '−']);
        let (subject, span) = (self.subject, self.span.start..rest.end);
        let message = says!("{} {} can be read two ways: set {}, or subtract from it", subject, value, subject);
        names.below(subject, amount).into_iter().fold(Misread::new(span, message), Misread::or)
    }

    fn derived(&self, text: &str) -> Misread {
        let whole = self.span.start..self.rest(text, self.at, Takes::Value).end;
        let message = says!("{} is worked out from other values and cannot be set", self.subject);
        Misread::new(whole, message).or(format!("help {}", self.subject))
    }

    fn unknown(&self, text: &str, names: &dyn Names) -> Misread {
        let rest = self.rest(text, self.at, Takes::Value);
        let shown = text.get(rest.clone()).unwrap_or_default();
        if names.is_variable(self.subject) {
            let message = says!("nothing joins {} and {}; `=` sets the variable", self.subject, shown);
            return Misread::new(self.span.start..rest.end, message).or(format!("{} = {shown}", self.subject));
        }
        let message = says!("there is no word or field called {}", self.subject);
        // What is offered must take what follows.
        let takes =
            |name: &String| names.word(name).or_else(|| names.field(name)).is_some_and(|takes| takes != Takes::Nothing);
        meant(Misread::new(self.span.clone(), message), self.subject, names.all().into_iter().filter(takes))
    }
}

/// A line up to its comment, if it has one outside of strings.
fn uncommented(rest: &str) -> &str {
    if !rest.contains("//") && !rest.contains("/*") {
        return rest;
    }
    let lexed = lex(rest);
    let comment = lexed.tokens.iter().find(|token| token.kind == TokenKind::Comment);
    comment.and_then(|comment| rest.get(..comment.span.start)).unwrap_or(rest)
}
