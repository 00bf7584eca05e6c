//! The calls of a script, with their arguments as typed.

use super::srcmap::{Piece, SourceMap};
use super::token::{TokenKind, is_keyword};
use crate::diag::Span;

/// A call as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// The name of the function.
    pub name: Span,
    /// The whole call, from the receiver of a method or the name to the closing bracket.
    pub whole: Span,
    /// The arguments as the function counts them: the receiver of a method first.
    pub arguments: Vec<Span>,
}

impl SourceMap {
    /// The call whose name is at the place that the engine reports.
    pub fn call(&self, line: usize, column: usize) -> Option<Call> {
        let name = self.piece(line, column)?;
        let open = self.next(name)?;
        let piece = self.pieces.get(name)?;
        let called = self.is(open, TokenKind::Open, "(") && self.is_name(piece);
        let close = self.pieces.get(open).filter(|_| called)?.partner?;
        let receiver = self.receiver(name);
        let mut arguments: Vec<Span> = receiver.clone().into_iter().collect();
        arguments.extend(self.arguments(open, close));
        let start = receiver.map_or(piece.typed.start, |receiver| receiver.start);
        Some(Call { name: piece.typed.clone(), whole: start..self.pieces.get(close)?.typed.end, arguments })
    }

    /// The argument, counted from 0, of the call that the engine reports; without one, the call.
    pub fn argument(&self, line: usize, column: usize, argument: Option<usize>) -> Span {
        let Some(call) = self.call(line, column) else {
            return self.place(line, column);
        };
        argument.and_then(|index| call.arguments.get(index).cloned()).unwrap_or(call.whole)
    }

    /// The text between two brackets, split at the commas that no inner bracket holds.
    fn arguments(&self, open: usize, close: usize) -> Vec<Span> {
        let mut arguments = Vec::new();
        let mut current: Option<Span> = None;
        let mut index = open + 1;
        while let Some(piece) = self.pieces.get(index).filter(|_| index < close) {
            let last = self.last_of(index, current.is_none());
            let end = self.pieces.get(last).map_or(piece.typed.end, |last| last.typed.end);
            if self.is(index, TokenKind::Op, ",") {
                arguments.extend(current.take());
            } else if self.counts(index) {
                let start = current.map_or(piece.typed.start, |span| span.start);
                current = Some(start..end);
            }
            index = last + 1;
        }
        arguments.extend(current);
        arguments
    }

    /// The last piece of what starts at a piece: a bracket and its partner, the parameters of a closure, or the piece.
    fn last_of(&self, index: usize, first: bool) -> usize {
        let Some(piece) = self.pieces.get(index) else {
            return index;
        };
        let parameters = || (index + 1..self.pieces.len()).find(|at| self.is(*at, TokenKind::Op, "|"));
        let last = match piece.partner {
            None if first && self.is(index, TokenKind::Op, "|") => parameters(),
            partner => partner,
        };
        last.filter(|last| *last > index).unwrap_or(index)
    }

    /// The receiver of a method: back over properties, calls and indices.
    fn receiver(&self, method: usize) -> Option<Span> {
        let is_dot = |at: &usize| self.is(*at, TokenKind::Dot, ".") || self.is(*at, TokenKind::Op, "?.");
        let last = self.before(self.before(method).filter(is_dot)?)?;
        let mut first = last;
        while let Some(further) = self.further(&mut first) {
            first = further;
        }
        Some(self.pieces.get(first)?.typed.start..self.pieces.get(last)?.typed.end)
    }

    /// The piece before `at` in the same chain; a closing bracket counts from its opening one.
    fn further(&self, at: &mut usize) -> Option<usize> {
        let piece = self.pieces.get(*at)?;
        if piece.kind == TokenKind::Close {
            *at = piece.partner?;
            let callee = self.before(*at).filter(|callee| self.touches(*callee, *at))?;
            return self
                .pieces
                .get(callee)
                .filter(|piece| self.is_name(piece) || piece.kind == TokenKind::Close)
                .map(|_| callee);
        }
        let before = self.before(*at).filter(|_| piece.kind == TokenKind::Member)?;
        // The edit for a name of the design covers the dot too.
        let dotted = self.shown(piece).starts_with('.');
        if dotted { Some(before) } else { self.before(before).filter(|_| self.is(before, TokenKind::Dot, ".")) }
    }

    fn is(&self, index: usize, kind: TokenKind, text: &str) -> bool {
        self.pieces.get(index).is_some_and(|piece| piece.kind == kind && self.shown(piece) == text)
    }

    fn shown(&self, piece: &Piece) -> &str {
        self.typed.get(piece.typed.clone()).unwrap_or_default()
    }

    fn is_name(&self, piece: &Piece) -> bool {
        piece.kind == TokenKind::Member || piece.kind == TokenKind::Word && !is_keyword(self.shown(piece))
    }

    fn next(&self, index: usize) -> Option<usize> {
        (index + 1..self.pieces.len()).find(|next| self.counts(*next))
    }

    fn before(&self, index: usize) -> Option<usize> {
        (0..index).rev().find(|before| self.counts(*before))
    }

    fn counts(&self, index: usize) -> bool {
        let kind = self.pieces.get(index).map(|piece| piece.kind);
        !matches!(kind, Some(TokenKind::Comment | TokenKind::Newline))
    }

    fn touches(&self, left: usize, right: usize) -> bool {
        match (self.pieces.get(left), self.pieces.get(right)) {
            (Some(left), Some(right)) => left.typed.end == right.typed.start,
            _ => false,
        }
    }
}
