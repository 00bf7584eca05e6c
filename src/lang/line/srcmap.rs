//! The way from a place in the script back to the typed text.

use super::bracket::Brackets;
use super::token::{Token, TokenKind};
use crate::diag::Span;

/// A change to a script: a stretch of the text, and what runs in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Edit {
    /// The typed stretch.
    pub(super) typed: Span,
    /// The script that runs.
    pub(super) script: String,
}

/// The typed place of everything in a script.
///
/// The engine reports a line and a column, both from 1, the column in characters: for a call the place of the name, for
/// an operator the place of its sign. The map returns a range of bytes in the typed text.
#[derive(Clone, Debug)]
pub struct SourceMap {
    pub(super) typed: String,
    script: String,
    pub(super) pieces: Vec<Piece>,
}

/// A token of the text, or the tokens that one edit replaced.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) kind: TokenKind,
    pub(super) typed: Span,
    script: Span,
    /// For a bracket, the index of its partner.
    pub(super) partner: Option<usize>,
}

impl SourceMap {
    pub(super) fn new(typed: &str, script: &str, tokens: &[Token], brackets: &Brackets, edits: &[Edit]) -> Self {
        let mut builder = Builder { edits, edit: 0, grown: 0, shrunk: 0, pieces: Vec::with_capacity(tokens.len()) };
        let place: Vec<usize> = tokens.iter().map(|token| builder.piece(token)).collect();
        for (index, piece) in place.iter().enumerate() {
            if let (Some(partner), Some(piece)) = (brackets.partner(index), builder.pieces.get_mut(*piece)) {
                piece.partner = place.get(partner).copied();
            }
        }
        Self { typed: typed.to_string(), script: script.to_string(), pieces: builder.pieces }
    }

    /// The typed range for a place that the engine reports, always inside the text.
    pub fn place(&self, line: usize, column: usize) -> Span {
        let offset = self.offset(line, column);
        let piece = self.piece_over(offset).and_then(|index| self.pieces.get(index));
        piece.map_or_else(|| self.between(offset), |piece| piece.typed.clone())
    }

    /// The typed text.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// The byte of the script at a line and a column, at most its end.
    fn offset(&self, line: usize, column: usize) -> usize {
        let mut start = 0;
        for _ in 1..line {
            match self.script.get(start..).and_then(|rest| rest.find('\n')) {
                Some(newline) => start += newline + 1,
                None => return self.script.len(),
            }
        }
        let rest = self.script.get(start..).unwrap_or_default();
        let skipped: usize =
            rest.chars().take(column.saturating_sub(1)).take_while(|c| *c != '\n').map(char::len_utf8).sum();
        start + skipped
    }

    /// The piece at a line and a column.
    pub(super) fn piece(&self, line: usize, column: usize) -> Option<usize> {
        self.piece_over(self.offset(line, column))
    }

    fn piece_over(&self, offset: usize) -> Option<usize> {
        self.piece_at(offset).filter(|index| self.pieces.get(*index).is_some_and(|piece| offset < piece.script.end))
    }

    /// The last piece that begins at or before a byte of the script.
    fn piece_at(&self, offset: usize) -> Option<usize> {
        self.pieces.partition_point(|piece| piece.script.start <= offset).checked_sub(1)
    }

    /// A place between two pieces: as far after the first as in the script.
    fn between(&self, offset: usize) -> Span {
        let (typed, script) = match self.piece_at(offset).and_then(|index| self.pieces.get(index)) {
            Some(piece) => (piece.typed.end, piece.script.end),
            None => (0, 0),
        };
        let mut at = (typed + offset.saturating_sub(script)).min(self.typed.len());
        while !self.typed.is_char_boundary(at) {
            at -= 1;
        }
        let len = self.typed.get(at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        at..at + len
    }
}

/// Walks tokens and edits together, counting how much the script grew and shrank.
struct Builder<'a> {
    edits: &'a [Edit],
    edit: usize,
    grown: usize,
    shrunk: usize,
    pieces: Vec<Piece>,
}

impl Builder<'_> {
    /// The piece of a token: a new one, unless the token is inside an edit that has a piece.
    fn piece(&mut self, token: &Token) -> usize {
        while let Some(edit) = self.edits.get(self.edit).filter(|edit| edit.typed.end <= token.span.start) {
            self.grown += edit.script.len();
            self.shrunk += edit.typed.len();
            self.edit += 1;
        }
        let shift = |at: usize| at + self.grown - self.shrunk;
        match self.edits.get(self.edit).filter(|edit| edit.typed.start < token.span.end) {
            Some(edit) if token.span.start > edit.typed.start => self.pieces.len().saturating_sub(1),
            Some(edit) => {
                let script = shift(edit.typed.start)..shift(edit.typed.start) + edit.script.len();
                let kind = if token.kind == TokenKind::Dot { TokenKind::Member } else { token.kind };
                self.push(kind, edit.typed.clone(), script)
            }
            None => self.push(token.kind, token.span.clone(), shift(token.span.start)..shift(token.span.end)),
        }
    }

    fn push(&mut self, kind: TokenKind, typed: Span, script: Span) -> usize {
        self.pieces.push(Piece { kind, typed, script, partner: None });
        self.pieces.len() - 1
    }
}
