//! What a column is called, and what its cells hold.

use std::sync::Arc;

/// What the cells of a column hold, which decides what is done about decimal commas and spreadsheet dates.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Words and names, taken as they are.
    Text,
    /// A length, a size, a number, an amount of money: something that is measured or counted.
    Amount,
    /// Several amounts with commas between them.
    Amounts,
    /// Whatever it reads as: a table of a script does not say.
    Any,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Column {
    /// Its name, and what its cells hold.
    Named(Arc<str>, Holds),
    /// It has no heading, so it must stay empty.
    Unnamed,
    /// Nothing here reads it; its cells may say what they like.
    Ignored,
}
