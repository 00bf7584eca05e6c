//! The parser that the grammar of the notation becomes.

use pest_derive::Parser;

/// Reads notation at the beginning of a text.
#[derive(Parser)]
#[grammar = "../grammar/notation.pest"]
pub(super) struct Notation;

/// One node of a parsed text.
pub(super) type Pair<'i> = pest::iterators::Pair<'i, Rule>;
