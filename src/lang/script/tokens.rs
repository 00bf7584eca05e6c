//! Watches a script while the engine parses it, for texts that would take too long or nest too deep.

use std::cell::RefCell;
use std::rc::Rc;

use rhai::{LexError, Position, Token};

use super::bench::Bench;
use super::limits::Reached;

/// The most arguments of a call. The engine tries every mixture of types for up to sixteen.
const MOST_VALUES: usize = 32;

/// Tokens between two looks at the clock.
const TOKENS_A_LOOK: usize = 64;

/// Watches a script while the engine parses it.
#[derive(Debug)]
pub struct Tokens {
    bench: Rc<Bench>,
    renamed: Vec<Renamed>,
    state: RefCell<State>,
}

#[derive(Debug, Default)]
struct State {
    /// For each open bracket the commas in it; only round brackets count theirs.
    open: Vec<Option<usize>>,
    count: usize,
    reached: Option<Reached>,
    /// What the tokens so far lead up to.
    before: Before,
    renamed: Option<(Renamed, Position, usize)>,
}

/// What may follow the tokens that were read last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Before {
    /// Nothing that reads a field.
    #[default]
    Other,
    /// A bracket that reads a field: `x[`.
    Bracket,
    /// The name of a field: `x.`.
    Name,
    /// The name of a field in quotes: `x["`.
    Quoted,
}

impl Before {
    /// What follows once a token was read.
    #[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
    fn after(self, token: &Token) -> Self {
        match token {
            Token::Period | Token::Elvis => Self::Name,
            Token::LeftBracket if self == Self::Bracket => Self::Quoted,
            Token::QuestionBracket => Self::Quoted,
            Token::Identifier(_) | Token::RightParen | Token::RightBracket => Self::Bracket,
            _ => Self::Other,
        }
    }

    /// The name of a field that a token reads here, and how far behind the token's beginning it begins.
    fn field(self, token: &Token) -> Option<(&str, usize)> {
        match (self, token) {
            (Self::Name, Token::Identifier(name)) => Some((name.as_str(), 0)),
            (Self::Quoted, Token::StringConstant(name)) => Some((name.as_str(), 1)),
            _ => None,
        }
    }
}

/// A field of the maps that scripts get, by its former name and its name today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Renamed {
    /// The former name.
    pub old: &'static str,
    /// The name today.
    pub new: &'static str,
}

impl Tokens {
    /// A watch for the scripts of `bench`, and for fields that are `renamed`.
    pub fn new(bench: Rc<Bench>, renamed: Vec<Renamed>) -> Self {
        Self { bench, renamed, state: RefCell::default() }
    }

    /// Starts on a new text.
    pub fn begin(&self) {
        *self.state.borrow_mut() = State::default();
    }

    /// The limit that ended the parsing, if any.
    pub fn reached(&self) -> Option<Reached> {
        self.state.borrow().reached.clone()
    }

    /// The first field that is read under its former name, the place of the token, and how far behind it the name begins.
    pub fn renamed(&self) -> Option<(Renamed, Position, usize)> {
        self.state.borrow().renamed
    }

    /// Passes a token on, or ends the parsing.
    pub fn pass(&self, token: Token, place: Position) -> Token {
        let mut state = self.state.borrow_mut();
        if let Some((name, behind)) = state.before.field(&token)
            && state.renamed.is_none()
        {
            let renamed = self.renamed.iter().find(|one| one.old == name);
            state.renamed = renamed.map(|one| (*one, place, behind));
        }
        state.before = state.before.after(&token);
        match state.look(&token, &self.bench) {
            Ok(()) => token,
            Err(limit) => {
                state.reached = Some(limit);
                // The one error that the engine's parser expects everywhere, even inside a template.
                Token::LexError(Box::new(LexError::UnterminatedString))
            }
        }
    }
}

impl State {
    #[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
    fn look(&mut self, token: &Token, bench: &Bench) -> Result<(), Reached> {
        match token {
            Token::LeftParen => self.open.push(Some(0)),
            Token::LeftBracket | Token::LeftBrace | Token::MapStart => self.open.push(None),
            Token::RightParen | Token::RightBracket | Token::RightBrace => {
                self.open.pop();
            }
            Token::Comma => {
                if let Some(Some(commas)) = self.open.last_mut() {
                    *commas += 1;
                    if *commas >= MOST_VALUES {
                        return Err(Reached::Values(MOST_VALUES));
                    }
                }
            }
            _ => {}
        }
        self.count += 1;
        bench.watch.glance(self.count.is_multiple_of(TOKENS_A_LOOK))
    }
}
