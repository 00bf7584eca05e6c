//! The names that a script declares, and where: these are not names of the bench.

use super::token::{Token, TokenKind, is_keyword};

/// The names declared so far, as the pass walks the tokens in order.
#[derive(Debug, Default)]
pub(super) struct Scope<'t> {
    depth: usize,
    names: Vec<Name<'t>>,
    expects: Expects,
    /// Whether the last token ended a value, so that `|` is an operator and does not open a closure.
    after_value: bool,
}

#[derive(Debug)]
struct Name<'t> {
    name: &'t str,
    depth: usize,
    holds: Holds,
}

/// The extent of a declared name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Holds {
    /// From the end of the statement: `let reveal = reveal * 2;` reads the bench's.
    AfterStatement,
    /// From the next block on: parameters, the variable of a loop.
    InBlock,
    /// Until the bracket around it closes.
    Now,
    /// Until the closure ends.
    InClosure,
}

/// The role of the next words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Expects {
    #[default]
    Anything,
    Variable,
    FunctionName(usize),
    Parameters(usize),
    LoopVariables(usize),
    CatchVariable(usize),
    ClosureParameters,
    Alias,
}

impl<'t> Scope<'t> {
    /// Whether `name` is declared here.
    pub(super) fn declares(&self, name: &str) -> bool {
        self.names.iter().any(|one| one.name == name && matches!(one.holds, Holds::Now | Holds::InClosure))
    }

    /// Takes the next token; returns whether it is a name that is being declared.
    pub(super) fn take(&mut self, token: &Token, text: &'t str) -> bool {
        let word = token.of(text);
        let declared = match token.kind {
            TokenKind::Word => self.word(word),
            TokenKind::Open => self.open(word),
            TokenKind::Close => self.close(),
            TokenKind::Op => self.operator(word),
            TokenKind::Dot
            | TokenKind::Member
            | TokenKind::Number(_)
            | TokenKind::Text
            | TokenKind::Comment
            | TokenKind::Newline
            | TokenKind::Other => false,
        };
        self.after_value = match token.kind {
            TokenKind::Word => !is_keyword(word) || matches!(word, "true" | "false" | "this"),
            TokenKind::Member | TokenKind::Number(_) | TokenKind::Text | TokenKind::Close => true,
            TokenKind::Comment | TokenKind::Newline => self.after_value,
            TokenKind::Dot | TokenKind::Open | TokenKind::Op | TokenKind::Other => false,
        };
        declared
    }

    fn word(&mut self, word: &'t str) -> bool {
        if is_keyword(word) {
            self.expects = match (word, self.expects) {
                ("let" | "const", _) => Expects::Variable,
                ("fn", _) => Expects::FunctionName(self.depth),
                ("for", _) => Expects::LoopVariables(self.depth),
                ("catch", _) => Expects::CatchVariable(self.depth),
                ("as", _) => Expects::Alias,
                ("in", _) => Expects::Anything,
                (_, expects) => expects,
            };
            return false;
        }
        let (depth, holds, then) = match self.expects {
            Expects::Anything | Expects::CatchVariable(_) => return false,
            Expects::FunctionName(depth) => {
                self.expects = Expects::Parameters(depth);
                return true;
            }
            Expects::Variable => (self.depth, Holds::AfterStatement, Expects::Anything),
            Expects::Alias => (self.depth, Holds::Now, Expects::Anything),
            Expects::Parameters(depth) => (depth, Holds::InBlock, self.expects),
            Expects::LoopVariables(depth) => (depth, Holds::InBlock, self.expects),
            Expects::ClosureParameters => (self.depth, Holds::InClosure, self.expects),
        };
        self.expects = then;
        self.names.push(Name { name: word, depth, holds });
        true
    }

    fn open(&mut self, bracket: &str) -> bool {
        if let (Expects::CatchVariable(depth), "(") = (self.expects, bracket) {
            self.expects = Expects::Parameters(depth);
        }
        self.depth += 1;
        if bracket == "{" {
            for name in
                self.names.iter_mut().filter(|name| name.holds == Holds::InBlock && name.depth + 1 == self.depth)
            {
                name.holds = Holds::Now;
                name.depth += 1;
            }
        }
        false
    }

    fn close(&mut self) -> bool {
        self.depth = self.depth.saturating_sub(1);
        let depth = self.depth;
        self.names.retain(|name| name.depth <= depth);
        if matches!(self.expects, Expects::Parameters(at) if at >= depth) {
            self.expects = Expects::Anything;
        }
        false
    }

    fn operator(&mut self, sign: &str) -> bool {
        let depth = self.depth;
        match sign {
            ";" | "," => {
                self.names.retain(|name| name.holds != Holds::InClosure || name.depth < depth);
                for name in
                    self.names.iter_mut().filter(|name| name.holds == Holds::AfterStatement && name.depth == depth)
                {
                    name.holds = if sign == ";" { Holds::Now } else { name.holds };
                }
            }
            "|" if self.expects == Expects::ClosureParameters => self.expects = Expects::Anything,
            "|" if !self.after_value => self.expects = Expects::ClosureParameters,
            _ => {}
        }
        false
    }
}
