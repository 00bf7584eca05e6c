//! A token of a script, with its place.

use crate::diag::Span;

/// The kind of a token, as far as the pass separates notation and names from the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    /// A name or a keyword.
    Word,
    /// The dot before a property, a method or a numbered place.
    Dot,
    /// The name after such a dot.
    Member,
    /// Notation, or a number of the script language; the index of its value.
    Number(usize),
    /// An opening bracket, `#{` and the `${` of a template included.
    Open,
    /// A closing bracket.
    Close,
    /// An operator or another sign.
    Op,
    /// A string, a character, or text of a template up to a `${` or its end.
    Text,
    /// A comment.
    Comment,
    /// The end of a line.
    Newline,
    /// A sign that the script language does not use.
    Other,
}

/// One token.
#[derive(Clone, Debug)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    pub(super) span: Span,
}

impl Token {
    /// The token as typed.
    pub(super) fn of<'t>(&self, text: &'t str) -> &'t str {
        text.get(self.span.clone()).unwrap_or_default()
    }

    /// Whether the token is more than a line end or a comment.
    pub(super) fn counts(&self) -> bool {
        !matches!(self.kind, TokenKind::Comment | TokenKind::Newline)
    }
}

/// The words that begin or join statements. No name of the bench or of a script may be one of these.
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
