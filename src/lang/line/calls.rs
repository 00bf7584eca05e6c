//! Functions that a line calls.

use super::lex::lex;
use super::token::{Token, TokenKind, is_keyword};

/// Keywords of what goes round, of functions, and of other files.
const OTHER: &[&str] = &["do", "while", "until", "loop", "for", "fn", "private", "import", "export"];

/// The names of the functions that a line calls, where it runs once from its beginning to its end; none where it may go
/// round, defines functions or brings in other files.
pub fn calls_of(text: &str) -> Option<Vec<&str>> {
    let tokens: Vec<Token> = lex(text).tokens.into_iter().filter(Token::counts).collect();
    if tokens.iter().any(|token| OTHER.contains(&token.of(text))) {
        return None;
    }
    let calls = tokens
        .windows(2)
        .filter(|two| matches!(two[0].kind, TokenKind::Word | TokenKind::Member) && two[1].of(text) == "(");
    Some(calls.map(|two| two[0].of(text)).filter(|name| !is_keyword(name)).collect())
}

#[cfg(test)]
mod tests {
    use super::calls_of;

    #[test]
    fn a_line_that_runs_once_names_its_calls() {
        assert_eq!(calls_of("mm(11 3/8\") + 3.round()"), Some(vec!["mm", "round"]));
        assert_eq!(calls_of("5in in [5in]"), Some(vec![]));
        assert_eq!(calls_of("let x = if (gap(1) > 2) { made(d) }; x"), Some(vec!["gap", "made"]));
        for text in ["while true { }", "loop { }", "fn f() { }", "import \"a\" as b", "for x in y { }"] {
            assert_eq!(calls_of(text), None, "{text}");
        }
    }
}
