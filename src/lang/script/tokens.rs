//! Watches a script while it is read: what the engine's reader would take too long or too deep for.

use std::cell::RefCell;
use std::rc::Rc;

use rhai::{LexError, Position, Token};

use super::bench::Bench;
use super::limits::Reached;

/// The most values in a call. The engine tries every mixture of types for up to sixteen of them.
const MOST_VALUES: usize = 32;

/// Tokens between two looks at the clock.
const TOKENS_A_LOOK: usize = 64;

/// Watches a script while it is read.
#[derive(Debug)]
pub struct Tokens {
    bench: Rc<Bench>,
    renamed: Vec<Renamed>,
    state: RefCell<State>,
}

#[derive(Debug, Default)]
struct State {
    /// For each bracket open, the commas in it; none are counted but those of round ones.
    open: Vec<Option<usize>>,
    count: usize,
    reached: Option<Reached>,
    /// Whether a dot came last.
    after_dot: bool,
    renamed: Option<(Renamed, Position)>,
}

/// A field of the maps that scripts get, by the name that it had in earlier versions and the one that it has now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Renamed {
    /// The name before.
    pub old: &'static str,
    /// The name now.
    pub new: &'static str,
}

impl Tokens {
    /// Watches for `bench`, and for names of fields that are `renamed`.
    pub fn new(bench: Rc<Bench>, renamed: Vec<Renamed>) -> Self {
        Self { bench, renamed, state: RefCell::default() }
    }

    /// Begins with a text anew.
    pub fn begin(&self) {
        *self.state.borrow_mut() = State::default();
    }

    /// The limit that ended the reading, if one did.
    pub fn reached(&self) -> Option<Reached> {
        self.state.borrow().reached.clone()
    }

    /// The first field that is read under a name that it no longer has, and where.
    pub fn renamed(&self) -> Option<(Renamed, Position)> {
        self.state.borrow().renamed
    }

    /// Lets a token pass, or puts an end to the reading.
    pub fn pass(&self, token: Token, place: Position) -> Token {
        let mut state = self.state.borrow_mut();
        if let Token::Identifier(name) = &token
            && state.after_dot
            && state.renamed.is_none()
        {
            let renamed = self.renamed.iter().find(|one| one.old == name.as_str());
            state.renamed = renamed.map(|one| (*one, place));
        }
        state.after_dot = token == Token::Period;
        match state.look(&token, &self.bench) {
            Ok(()) => token,
            Err(limit) => {
                state.reached = Some(limit);
                // The one error that the engine's reader expects everywhere, inside a template too.
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
