//! The words that the script language keeps for itself.

/// Words that begin or join statements; the names of the bench and of scripts are none of them.
const KEYWORDS: &[&str] = &[
    "let", "const", "if", "else", "switch", "do", "while", "until", "loop", "for", "in", "fn", "private", "return",
    "throw", "try", "catch", "break", "continue", "import", "export", "as", "true", "false", "this", "global",
];

/// Whether `word` is one of them.
pub(super) fn is_keyword(word: &str) -> bool {
    KEYWORDS.contains(&word)
}

/// Whether `word` may follow a value: `5 in list`, `5 if y => 1`, `import "a" as b`, `do { 5 } while x`.
pub(super) fn joins(word: &str) -> bool {
    matches!(word, "in" | "is" | "if" | "as" | "else" | "while" | "until")
}
