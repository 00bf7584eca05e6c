//! A text that grows line by line, and may be complete after any line.

use super::bracket::closing;
use super::lex::{Within, lex};
use super::token::TokenKind;

/// Follows a text as it grows, so that a long one is not read again for every line.
#[derive(Debug, Default)]
pub struct Growing {
    /// The closing brackets that are missing, outermost first.
    open: Vec<&'static str>,
    /// The part of the text that is read; an open comment begins after it.
    read: usize,
}

impl Growing {
    /// Whether `text`, longer than in the last call, may be complete; if not, there is no need to parse it.
    pub fn may_end(&mut self, text: &str) -> bool {
        let fresh = text.get(self.read..).unwrap_or_default();
        let lexed = lex(fresh);
        match lexed.within {
            Some(Within::Comment) => return false,
            // An unclosed text is a fault that no later line mends.
            Some(Within::Text) => return true,
            None => self.read = text.len(),
        }
        for token in &lexed.tokens {
            if token.kind == TokenKind::Open {
                self.open.push(closing(token.of(fresh)));
            } else if token.kind == TokenKind::Close && self.open.pop() != Some(token.of(fresh)) {
                // So is a bracket that closes another one than the last.
                return true;
            }
        }
        self.open.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// For each line, whether the text may end there.
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
