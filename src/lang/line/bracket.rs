//! Pairs of brackets.

use super::token::{Token, TokenKind};
use crate::diag::says;
use crate::measure::read::Misread;

/// The brackets of a text.
#[derive(Debug, Default)]
pub(super) struct Brackets {
    /// For each token that is a matched bracket, the index of its partner.
    partners: Vec<Option<usize>>,
    /// Brackets that are not closed, outermost first.
    pub(super) open: Vec<usize>,
    /// Brackets that close nothing, or close a bracket of another kind.
    pub(super) faults: Vec<Misread>,
}

/// More faults of one sort than this help nobody.
const MOST_FAULTS: usize = 8;

impl Brackets {
    /// Matches the brackets among `tokens`.
    pub(super) fn of(text: &str, tokens: &[Token]) -> Self {
        let mut brackets = Self { partners: vec![None; tokens.len()], ..Self::default() };
        for (index, token) in tokens.iter().enumerate() {
            if token.kind == TokenKind::Open {
                brackets.open.push(index);
            } else if token.kind == TokenKind::Close {
                brackets.close(text, tokens, index);
            }
        }
        brackets
    }

    /// The partner of the bracket at `index`.
    pub(super) fn partner(&self, index: usize) -> Option<usize> {
        self.partners.get(index).copied().flatten()
    }

    fn close(&mut self, text: &str, tokens: &[Token], index: usize) {
        let Some(token) = tokens.get(index) else { return };
        let close = token.of(text);
        let fits = |open: &usize| tokens.get(*open).is_some_and(|open| closing(open.of(text)) == close);
        let Some(place) = self.open.iter().rposition(fits) else {
            self.fault(Misread::new(token.span.clone(), says!("{} closes nothing", close)).or(""));
            return;
        };
        for unclosed in self.open.split_off(place + 1) {
            self.fault(not_closed(text, tokens, unclosed));
        }
        if let Some(open) = self.open.pop() {
            self.join(open, index);
        }
    }

    fn join(&mut self, open: usize, close: usize) {
        for (one, other) in [(open, close), (close, open)] {
            if let Some(partner) = self.partners.get_mut(one) {
                *partner = Some(other);
            }
        }
    }

    fn fault(&mut self, misread: Misread) {
        if self.faults.len() < MOST_FAULTS {
            self.faults.push(misread);
        }
    }

    /// The findings for brackets that are still open at the end.
    pub(super) fn unclosed(&self, text: &str, tokens: &[Token]) -> Vec<Misread> {
        self.open.iter().rev().take(MOST_FAULTS).map(|open| not_closed(text, tokens, *open)).collect()
    }
}

/// The closing bracket for an opening one.
pub(super) fn closing(open: &str) -> &'static str {
    match open {
        "(" => ")",
        "[" | "?[" => "]",
        _ => "}",
    }
}

fn not_closed(text: &str, tokens: &[Token], open: usize) -> Misread {
    let span = tokens.get(open).map_or(text.len()..text.len(), |token| token.span.clone());
    let shown = text.get(span.clone()).unwrap_or_default();
    Misread::new(span, format!("{shown} is not closed"))
}
