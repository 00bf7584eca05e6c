//! A text that comes line by line, and may end with any of them.

use super::bracket::closing;
use super::lex::{Within, lex};
use super::token::TokenKind;

/// Follows a text as it grows, so that a long one is not read anew for every line of it.
#[derive(Debug, Default)]
pub struct Growing {
    /// What would close the brackets that are open, outermost first.
    open: Vec<&'static str>,
    /// How far the text is known; a comment that is open begins behind that.
    read: usize,
}

impl Growing {
    /// Whether `text`, some lines longer than when last asked, may be complete; if not, no one need look.
    pub fn may_end(&mut self, text: &str) -> bool {
        let fresh = text.get(self.read..).unwrap_or_default();
        let lexed = lex(fresh);
        match lexed.within {
            Some(Within::Comment) => return false,
            // A text that does not end is wrong, and no line behind it makes it right.
            Some(Within::Text) => return true,
            None => self.read = text.len(),
        }
        for token in &lexed.tokens {
            if token.kind == TokenKind::Open {
                self.open.push(closing(token.of(fresh)));
            } else if token.kind == TokenKind::Close && self.open.pop() != Some(token.of(fresh)) {
                // A bracket that closes another than the last one is wrong as well.
                return true;
            }
        }
        self.open.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Line by line: whether the text may end there.
    #[track_caller]
    fn check(lines: &[&str], expected: &[bool]) {
        let mut growing = Growing::default();
        let mut text = String::new();
        let may_end: Vec<bool> = lines
            .iter()
            .map(|line| {
                text += line;
                text.push('\n');
                growing.may_end(&text)
            })
            .collect();
        assert_eq!(may_end, expected, "{lines:?}");
    }

    #[test]
    fn a_text_ends_with_its_last_bracket() {
        check(&["fn f(a) {", "  g(a)[1];", "}"], &[false, false, true]);
        check(&["let m = #{ a: [", "1, 2], b: `${", "f(3) }` }"], &[false, true, true]);
        check(&["1 + 1"], &[true]);
    }

    #[test]
    fn brackets_in_texts_and_comments_do_not_count() {
        check(&["f(\"(\", // (", "'(')"], &[false, true]);
        check(&["f( /* (", "(( */", "1)"], &[false, false, true]);
        check(&["/* a", "b", "*/ ("], &[false, false, false]);
    }

    #[test]
    fn what_is_wrong_ends_at_once() {
        check(&["(", "]"], &[false, true]);
        check(&["(", "\"a"], &[false, true]);
        check(&[")"], &[true]);
    }
}
