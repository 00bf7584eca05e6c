//! A script as a list of tokens, with notation already read.

use pest::Parser;
use pest_derive::Parser;

use super::token::{Token, TokenKind};
use crate::measure::read::{Misread, Stretch, stretch};

/// The parser for the first words of a line and for stretches of code.
#[derive(Parser)]
#[grammar = "../grammar/prompt.pest"]
pub(super) struct Prompt;

/// One node of a parsed text.
pub(super) type Pair<'i> = pest::iterators::Pair<'i, Rule>;

/// The tokens of a text.
#[derive(Debug, Default)]
pub(super) struct Lexed {
    pub(super) tokens: Vec<Token>,
    /// The values of number tokens; none for a number that only the script language knows.
    pub(super) numbers: Vec<Option<Stretch>>,
    pub(super) faults: Vec<Misread>,
    /// The construct that the text breaks off in.
    pub(super) within: Option<Within>,
}

/// A construct that continues past the end of the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Within {
    /// A string, a character or a template.
    Text,
    /// A comment between `/*` and `*/`.
    Comment,
}

/// Reads all of `text`, right or wrong.
pub(super) fn lex(text: &str) -> Lexed {
    let mut lexer = Lexer { text, at: 0, templates: Vec::new(), lexed: Lexed::default() };
    while lexer.step() {}
    if let Some(template) = lexer.templates.first() {
        lexer.lexed.within = Some(Within::Text);
        lexer
            .lexed
            .faults
            .push(Misread::new(template.start..template.start + 1, "the template that begins here is not closed"));
    }
    lexer.lexed
}

struct Lexer<'t> {
    text: &'t str,
    at: usize,
    templates: Vec<Template>,
    lexed: Lexed,
}

/// A template whose `${` is open: its start, and the open brackets inside.
struct Template {
    start: usize,
    braces: usize,
}

impl<'t> Lexer<'t> {
    /// Reads the next stretch of code and the text or comment after it; false at the end.
    fn step(&mut self) -> bool {
        let rest = self.rest();
        self.at += rest.len() - rest.trim_start_matches([' ', '\t']).len();
        // The parser is slower than this check, and would find nothing.
        if self.rest().starts_with(|first: char| !first.is_ascii_digit()) {
            self.code();
        }
        match self.rest().chars().next() {
            None => false,
            Some('`') => self.template(self.at),
            Some('}') if !self.templates.is_empty() => self.interpolation_end(),
            Some('/') => self.block_comment(),
            Some('"' | '\'' | '#') => self.unclosed(),
            Some(first) => self.number(first),
        }
    }

    fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn push(&mut self, kind: TokenKind, len: usize) {
        if len == 0 {
            return;
        }
        self.lexed.tokens.push(Token { kind, span: self.at..self.at + len });
        self.at += len;
    }

    fn code(&mut self) {
        let rule = if self.templates.is_empty() { Rule::code } else { Rule::inner };
        let start = self.at;
        // The rule also matches an empty text, so it cannot fail.
        let Some(code) = Prompt::parse(rule, self.rest()).ok().and_then(|mut pairs| pairs.next()) else {
            return;
        };
        self.at = start + code.as_span().end();
        for pair in code.into_inner() {
            if pair.as_rule() == Rule::member {
                pair.into_inner().for_each(|part| self.word(&part, start));
            } else {
                self.word(&pair, start);
            }
        }
    }

    fn word(&mut self, pair: &Pair, start: usize) {
        let kind = KINDS.iter().find(|row| row.0 == pair.as_rule()).map_or(TokenKind::Other, |row| row.1);
        let span = start + pair.as_span().start()..start + pair.as_span().end();
        let after_dot =
            self.lexed.tokens.last().is_some_and(|last| last.kind == TokenKind::Dot && last.span.end == span.start);
        if let (TokenKind::Open, Some(template), "{" | "#{") = (kind, self.templates.last_mut(), pair.as_str()) {
            template.braces += 1;
        }
        let kind = if kind == TokenKind::Word && after_dot { TokenKind::Member } else { kind };
        self.lexed.tokens.push(Token { kind, span });
    }

    /// Reads notation, or else a number that only the script language knows, such as `0x18`.
    fn number(&mut self, first: char) -> bool {
        let rest = self.rest();
        let found = stretch(rest, None);
        let len = match &found {
            Some(found) => found.len,
            None if first.is_ascii_digit() => {
                rest.find(|next: char| !(next.is_ascii_alphanumeric() || next == '_')).unwrap_or(rest.len())
            }
            None => first.len_utf8(),
        };
        let index = self.lexed.numbers.len();
        let kind = if found.is_some() || first.is_ascii_digit() { TokenKind::Number(index) } else { TokenKind::Other };
        if let Some(Err(misread)) = found.as_ref().map(|found| &found.reading) {
            self.lexed.faults.push(misread.clone().shifted(self.at));
        }
        self.lexed.numbers.push(found);
        self.push(kind, len);
        true
    }

    /// Reads the text of a template from `start`, its opening mark or the end of a `${…}`, to its end or the next `${`.
    fn template(&mut self, start: usize) -> bool {
        let (at, rest) = (self.at, self.rest());
        let body = rest.get(1..).unwrap_or_default();
        let len = Prompt::parse(Rule::template_text, body).map_or(body.len(), |pairs| pairs.as_str().len());
        let end = body.get(len..).unwrap_or_default();
        // The end of a ${…} is a bracket of its own, not part of the text after it.
        let mark = usize::from(rest.starts_with('}'));
        self.at += mark;
        if end.starts_with('`') {
            self.push(TokenKind::Text, len + 2 - mark);
        } else {
            self.push(TokenKind::Text, len + 1 - mark);
            self.templates.push(Template { start: if mark == 1 { start } else { at }, braces: 0 });
            if end.starts_with("${") {
                self.push(TokenKind::Open, 2);
            }
        }
        true
    }

    fn interpolation_end(&mut self) -> bool {
        let Some(template) = self.templates.last_mut() else {
            return false;
        };
        if template.braces > 0 {
            template.braces -= 1;
            self.push(TokenKind::Close, 1);
            return true;
        }
        let start = template.start;
        self.templates.pop();
        self.lexed.tokens.push(Token { kind: TokenKind::Close, span: self.at..self.at + 1 });
        self.template(start)
    }

    fn block_comment(&mut self) -> bool {
        let rest = self.rest();
        let (mut depth, mut len) = (0_usize, 0);
        while let Some(found) = rest.get(len..).and_then(|rest| rest.find(['/', '*'])).map(|at| len + at) {
            let mark = rest.get(found..found + 2);
            depth = match mark {
                Some("/*") => depth + 1,
                Some("*/") => depth - 1,
                _ => depth,
            };
            len = found + if matches!(mark, Some("/*" | "*/")) { 2 } else { 1 };
            if depth == 0 {
                self.push(TokenKind::Comment, len);
                return true;
            }
        }
        let start = self.at;
        self.lexed.faults.push(Misread::new(start..start + 2, "the comment that begins here is not closed"));
        self.lexed.within = Some(Within::Comment);
        self.push(TokenKind::Comment, rest.len());
        false
    }

    /// Reports an unclosed string or character; nothing after its start can be read.
    fn unclosed(&mut self) -> bool {
        let rest = self.rest();
        let begun = rest.lines().next().unwrap_or_default();
        let hashes = rest.len() - rest.trim_start_matches('#').len();
        let (what, mark) = if rest.starts_with('\'') {
            ("character", "'".to_string())
        } else {
            ("text", format!("\"{}", "#".repeat(hashes)))
        };
        let misread =
            Misread::new(self.at..self.at + begun.len(), format!("the {what} that begins here is not closed"));
        // Single quotes take one letter.
        let fits = mark != "'" || begun.chars().count() == 2;
        let closes = fits && begun.len() > 1 && !begun.ends_with('\\');
        self.lexed.faults.push(if closes { misread.or(format!("{begun}{mark}")) } else { misread });
        self.lexed.within = Some(Within::Text);
        self.push(TokenKind::Text, rest.len());
        false
    }
}

/// The grammar rules that are one token each.
const KINDS: &[(Rule, TokenKind)] = &[
    (Rule::name, TokenKind::Word),
    (Rule::op, TokenKind::Op),
    (Rule::dot, TokenKind::Dot),
    (Rule::open, TokenKind::Open),
    (Rule::close, TokenKind::Close),
    (Rule::place, TokenKind::Member),
    (Rule::string, TokenKind::Text),
    (Rule::raw_string, TokenKind::Text),
    (Rule::character, TokenKind::Text),
    (Rule::line_comment, TokenKind::Comment),
    (Rule::newline, TokenKind::Newline),
];
