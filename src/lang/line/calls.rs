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
    (!tokens.iter().any(acts)).then(|| calls(text, &tokens))
}

/// The names of the functions that a line calls and does not define itself.
pub fn calls_out(text: &str) -> Vec<&str> {
    let tokens: Vec<Token> = lex(text).tokens.into_iter().filter(Token::counts).collect();
    let defined: Vec<&str> =
        tokens.windows(2).filter(|two| two[0].of(text) == "fn").map(|two| two[1].of(text)).collect();
    let mut calls = calls(text, &tokens);
    calls.retain(|name| !defined.contains(name) && !is_keyword(name));
    calls
}

fn calls<'t>(text: &'t str, tokens: &[Token]) -> Vec<&'t str> {
    let calls = tokens
        .windows(2)
        .filter(|two| matches!(two[0].kind, TokenKind::Word | TokenKind::Member) && two[1].of(text) == "(");
    calls.map(|two| two[0].of(text)).collect()
}

#[cfg(test)]
mod tests {
    use super::{calls_of, calls_out};

    #[test]
    fn what_only_works_out_a_value_names_its_calls() {
        assert_eq!(calls_of("mm(11 3/8\") + 3.round()"), Some(vec!["mm", "round"]));
        assert_eq!(calls_of("5in in [5in]"), Some(vec![]));
        for text in ["let x = 3", "x = 3", "while true { }", "1; 2", "[1].map(|x| x)"] {
            assert_eq!(calls_of(text), None, "{text}");
        }
    }

    #[test]
    fn a_line_calls_what_it_does_not_define() {
        assert_eq!(
            calls_out("let x = gap(3); fn half(n) { n / 2 } half(x); if (x > 2) { print(x) }"),
            ["gap", "print"]
        );
    }
}
