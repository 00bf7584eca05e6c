//! The parser that the grammar of lines and code becomes.

use pest_derive::Parser;

/// Reads the first words of a line, and stretches of code.
#[derive(Parser)]
#[grammar = "../grammar/prompt.pest"]
pub(super) struct Prompt;

/// One node of a parsed text.
pub(super) type Pair<'i> = pest::iterators::Pair<'i, Rule>;
