//! A word of a script, with its place.

use crate::diag::Span;

/// What a stretch of code is, as far as notation and names must be told from the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    /// A name or a keyword.
    Word,
    /// The dot before a property, a method or a numbered place.
    Dot,
    /// What stands behind such a dot.
    Member,
    /// Notation, or a number of the script language; the index of what was read.
    Number(usize),
    /// An opening bracket, `#{` and the `${` of a template included.
    Open,
    /// A closing bracket.
    Close,
    /// An operator or another sign.
    Op,
    /// A string, a character, or the text of a template up to a `${` or its end.
    Text,
    /// A comment.
    Comment,
    /// The end of a line.
    Newline,
    /// A sign that the script language has no use for.
    Other,
}

/// One word.
#[derive(Clone, Debug)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    pub(super) span: Span,
}

impl Token {
    /// The token as it was typed.
    pub(super) fn of<'t>(&self, text: &'t str) -> &'t str {
        text.get(self.span.clone()).unwrap_or_default()
    }

    /// Whether it counts: blanks, ends of lines and comments do not.
    pub(super) fn counts(&self) -> bool {
        !matches!(self.kind, TokenKind::Comment | TokenKind::Newline)
    }
}

/// Words that begin or join statements; the names of the bench and of scripts are none of them.
const KEYWORDS: &[&str] = &[
    "let", "const", "if", "else", "switch", "do", "while", "until", "loop", "for", "in", "fn", "private", "return",
    "throw", "try", "catch", "break", "continue", "import", "export", "as", "true", "false", "this", "global",
];

/// Whether the script language keeps `word` for itself.
pub(super) fn is_keyword(word: &str) -> bool {
    KEYWORDS.contains(&word)
}

/// Whether `word` may follow a value: `5 in list`, `5 if y => 1`, `import "a" as b`, `do { 5 } while x`.
pub(super) fn joins(word: &str) -> bool {
    matches!(word, "in" | "is" | "if" | "as" | "else" | "while" | "until")
}
