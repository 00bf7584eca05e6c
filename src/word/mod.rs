//! What is typed: a word, and forms made of literals and typed arguments.
//!
//! One table of [`Word`]s gives everything that must agree about a line: how it is read ([`Word::read`]), what it is missing
//! ([`Stuck`]), how it is written ([`Word::usage`]), what fits at the cursor ([`Word::expected`]), and which names a new
//! design may not have ([`reserved`]). What a word does is a type of whoever owns the table.
//!
//! Invariant: nothing here knows a design, a book or a script; a kind of argument says only how its text is found in the line.

mod args;
mod expected;
mod form;
mod kind;
mod read;
mod reserved;
mod stuck;
#[cfg(test)]
mod tests;

pub use args::{Args, Given, Value};
pub use expected::{Expected, Next};
pub use form::{Arg, Form, Part, Tested, Word, arg};
pub use kind::Kind;
pub use reserved::reserved;
pub use stuck::Stuck;
