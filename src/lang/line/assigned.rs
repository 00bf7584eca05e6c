//! The names that a script sets and reads on its designs, found in its text.

use super::lex::lex;
use super::token::{Token, TokenKind};
use crate::diag::Span;

/// A dotted name in a script, and its place.
pub type Placed = (String, Span);

/// The names that a script sets on variables that hold a fresh design, `d.reveal = …` after `let d = new_design()`, in
/// the order of the text.
pub fn assigned(text: &str) -> Vec<Placed> {
    let tokens = counting(text);
    let is = |token: Option<&Token>, word: &str| token.is_some_and(|token| token.of(text) == word);
    let fresh: Vec<&str> = tokens
        .windows(3)
        .filter(|three| three[0].kind == TokenKind::Word && is(three.get(1), "=") && is(three.get(2), "new_design"))
        .map(|three| three[0].of(text))
        .collect();
    let on_fresh = |token: &Token| fresh.contains(&token.of(text));
    paths(text, &tokens, &on_fresh).filter(|(next, _)| is(tokens.get(*next), "=")).map(|(_, placed)| placed).collect()
}

/// The names that a script reads from a variable, `asks.gap`: the first after the dot, in the order of the text.
pub fn read_of(text: &str, variable: &str) -> Vec<Placed> {
    let tokens = counting(text);
    let first = |(name, span): Placed| {
        let head = name.split('.').next().unwrap_or_default().to_string();
        let end = span.start + head.len();
        (head, span.start..end)
    };
    let of_it = |token: &Token| token.of(text) == variable;
    paths(text, &tokens, &of_it).map(|(_, placed)| first(placed)).collect()
}

fn counting(text: &str) -> Vec<Token> {
    lex(text).tokens.into_iter().filter(Token::counts).collect()
}

/// The dotted names after certain words, each with the index of the token that follows it.
fn paths<'t>(
    text: &'t str,
    tokens: &'t [Token],
    wanted: &'t dyn Fn(&Token) -> bool,
) -> impl Iterator<Item = (usize, Placed)> + 't {
    let begins = move |(at, token): (usize, &'t Token)| {
        let mut at = at + 1;
        let is_word = token.kind == TokenKind::Word && wanted(token);
        let start = tokens.get(at + 1).filter(|_| is_word)?.span.start;
        let mut parts = Vec::new();
        while tokens.get(at).is_some_and(|token| token.kind == TokenKind::Dot)
            && let Some(member) = tokens.get(at + 1).filter(|token| token.kind == TokenKind::Member)
        {
            parts.push(member.of(text));
            at += 2;
        }
        let end = tokens.get(at - 1)?.span.end;
        (!parts.is_empty()).then(|| (at, (parts.join("."), start..end)))
    };
    tokens.iter().enumerate().filter_map(begins)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_are_set_are_found() {
        let text = "fn f(art) {\n  let d = new_design(); // d.none = 1\n  d.mat.1.border = 2in;\n  if d.face == 1in {}\n  \
                    e.what = 5; d.say(\"d.other = 1\"); d.wood = art.wood;\n}";
        let found = assigned(text);
        let names: Vec<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["mat.1.border", "wood"]);
        assert_eq!(&text[found[0].1.clone()], "mat.1.border");
    }

    #[test]
    fn names_that_are_read_are_found() {
        let found = read_of("fn f(asks) { asks.gap ?? asks.lean.more; tasks.no }", "asks");
        let names: Vec<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["gap", "lean"]);
    }
}
