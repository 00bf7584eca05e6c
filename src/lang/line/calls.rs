//! The functions that a line calls.

use super::lex::lex;
use super::token::{Token, TokenKind, is_keyword};

/// Signs that set something or begin a function.
const SETS: &[&str] = &["=", "+=", "-=", "*=", "/=", "%=", ";", "|", "||", "=>"];

/// The names of the functions that a line calls, where it only works out a value; none where it has statements or sets
/// something.
pub fn calls_of(text: &str) -> Option<Vec<&str>> {
    let tokens: Vec<Token> = lex(text).tokens.into_iter().filter(Token::counts).collect();
    let acts = |token: &Token| match token.kind {
        TokenKind::Word => is_keyword(token.of(text)) && !matches!(token.of(text), "true" | "false" | "in"),
        TokenKind::Op => SETS.contains(&token.of(text)),
        TokenKind::Dot
        | TokenKind::Member
        | TokenKind::Number(_)
        | TokenKind::Open
        | TokenKind::Close
        | TokenKind::Text
        | TokenKind::Comment
        | TokenKind::Newline
        | TokenKind::Other => false,
    };
    if tokens.iter().any(acts) {
        return None;
    }
    let calls = tokens
        .windows(2)
        .filter(|two| matches!(two[0].kind, TokenKind::Word | TokenKind::Member) && two[1].of(text) == "(");
    Some(calls.map(|two| two[0].of(text)).collect())
}

#[cfg(test)]
mod tests {
    use super::calls_of;

    #[test]
    fn what_only_works_out_a_value_names_its_calls() {
        assert_eq!(calls_of("mm(11 3/8\") + 3.round()"), Some(vec!["mm", "round"]));
        assert_eq!(calls_of("5in in [5in]"), Some(vec![]));
        for text in ["let x = 3", "x = 3", "while true { }", "1; 2", "[1].map(|x| x)"] {
            assert_eq!(calls_of(text), None, "{text}");
        }
    }
}
