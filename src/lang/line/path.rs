//! Names of the design in a script: `opening.width` becomes `design["opening.width"]`.

use super::names::Names;
use super::prepass::Mode;
use super::scope::Scope;
use super::srcmap::Edit;
use super::token::{Token, TokenKind, is_keyword};
use crate::diag::Span;

/// The edits that turn names into lookups in the design.
pub(super) fn edits(text: &str, tokens: &[Token], mode: Mode, names: &dyn Names) -> Vec<Edit> {
    let mut pass = Pass { text, tokens, mode, names, edits: Vec::new() };
    let mut scope = Scope::default();
    for (index, token) in tokens.iter().enumerate() {
        let declared = scope.take(token, text);
        if token.kind == TokenKind::Word && !declared {
            pass.word(index, &scope);
        } else if token.kind == TokenKind::Close {
            pass.behind(index, 0);
        }
    }
    pass.edits
}

/// More words than any name of a design has, so that a path of thousands is not looked up from each word.
const MOST_WORDS: usize = 8;

struct Pass<'a> {
    text: &'a str,
    tokens: &'a [Token],
    mode: Mode,
    names: &'a dyn Names,
    edits: Vec<Edit>,
}

impl Pass<'_> {
    fn word(&mut self, index: usize, scope: &Scope) {
        let path = self.path(index);
        let Some(first) = path.first() else { return };
        let word = self.slice(first.clone());
        let bare = self.mode == Mode::Prompt && self.may_be_bare(index, &path, word, scope);
        let longest = if bare { self.longest(&path, 1) } else { None };
        match longest {
            Some(span) => self.edit(span.clone(), format!("design[\"{}\"]", self.slice(span))),
            None => self.behind(index, 1),
        }
    }

    /// The name of the design after a receiver: the longest of two words or more, at the first place that has one.
    fn behind(&mut self, index: usize, skipped: usize) {
        let path = self.path(index);
        let found = (skipped..path.len()).find_map(|from| self.longest(path.get(from..)?, 2));
        if let Some(span) = found {
            let name = self.slice(span.clone());
            // The edit covers the dot, which cannot precede an index.
            self.edit(span.start - 1..span.end, format!("[\"{name}\"]"));
        }
    }

    fn edit(&mut self, typed: Span, script: String) {
        self.edits.push(Edit { typed, script });
    }

    fn slice(&self, span: Span) -> &str {
        self.text.get(span).unwrap_or_default()
    }

    /// The words of the dotted path at `index`, without the name of a method at its end.
    ///
    /// After a closing bracket the path is what follows.
    fn path(&self, index: usize) -> Vec<Span> {
        let mut path = Vec::new();
        let mut last = index;
        if let Some(token) = self.tokens.get(index).filter(|token| token.kind == TokenKind::Word) {
            path.push(token.span.clone());
        }
        while let (Some(token), Some(dot), Some(member)) =
            (self.tokens.get(last), self.tokens.get(last + 1), self.tokens.get(last + 2))
        {
            let joined =
                token.span.end == dot.span.start && dot.kind == TokenKind::Dot && member.kind == TokenKind::Member;
            if !joined {
                break;
            }
            path.push(member.span.clone());
            last += 2;
        }
        if self.next(last).is_some_and(|next| next.of(self.text) == "(" && next.kind == TokenKind::Open) {
            path.pop();
        }
        path
    }

    /// The longest prefix of at least `least` words that is a name of the design.
    fn longest(&self, path: &[Span], least: usize) -> Option<Span> {
        let start = path.first()?.start;
        let ends = path.get(least - 1..path.len().min(MOST_WORDS))?.iter().rev();
        ends.map(|word| start..word.end).find(|span| self.names.is_design_name(self.slice(span.clone())))
    }

    /// Whether a name may appear without `design.`: at the prompt, unless it is a variable, a property, a part of a
    /// module or a key of a map.
    fn may_be_bare(&self, index: usize, path: &[Span], word: &str, scope: &Scope) -> bool {
        let after = self.tokens.get(..index).and_then(|before| before.iter().rev().find(|token| token.counts()));
        let before = self.next(index + 2 * (path.len() - 1));
        let is =
            |token: Option<&Token>, signs: &[&str]| token.is_some_and(|token| signs.contains(&token.of(self.text)));
        let key = path.len() == 1 && is(before, &[":"]);
        !(scope.declares(word)
            || self.names.is_variable(word)
            || path.len() == 1 && is_keyword(word)
            || key
            || is(after, &["?.", "::"])
            || is(before, &["::"]))
    }

    fn next(&self, index: usize) -> Option<&Token> {
        self.tokens.get(index + 1..)?.iter().find(|token| token.counts())
    }
}
