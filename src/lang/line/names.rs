//! What the lines and the pass must know of the tables: the registered words, the fields, the figures, the variables.

use crate::measure::Unit;

/// The names that are known where a line is read.
pub trait Names {
    /// What the registered word takes, if `name` is one.
    fn word(&self, name: &str) -> Option<Takes>;

    /// What the field takes, if `name` is one: a value, a name or a text.
    fn field(&self, name: &str) -> Option<Takes>;

    /// Whether `name` is a figure.
    fn is_figure(&self, name: &str) -> bool;

    /// Whether `name` is a variable or a constant of the session.
    fn is_variable(&self, name: &str) -> bool;

    /// Every registered word, field and figure, for "did you mean".
    fn all(&self) -> Vec<String>;

    /// What `field -amount` may have been meant as, in lines that would do: set below zero, less by that much.
    fn below(&self, field: &str, amount: &str) -> Vec<String> {
        vec![format!("{field} = -{amount}"), format!("{field} - {amount}")]
    }

    /// The function that counts a quantity in `unit`: `mm` in `mm(11 3/8")`.
    fn counting_in(&self, _: &Unit) -> Option<&'static str> {
        None
    }

    /// Whether `dotted` is a name of the design: a field or a figure.
    fn is_design_name(&self, dotted: &str) -> bool {
        self.field(dotted).is_some() || self.is_figure(dotted)
    }
}

/// What a registered word or a field takes behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// Nothing: `sheet`, `undo`.
    Nothing,
    /// A value or an expression: `reveal 5/8`, `tape 15 7/16`.
    Value,
    /// A name, letters of any script: `build float`, `why outside.width`.
    Name,
    /// Other things and a value or a formula among them: `aim outside.width 20" by face`, `figure a = face * 2`.
    Formula,
    /// The rest of the line as it stands: `note fragile (glass)`, `run ./a.rhai`.
    Text,
}

impl Takes {
    /// Whether the rest of the line is taken as it stands, signs and comments included.
    pub const fn is_free(self) -> bool {
        matches!(self, Self::Text)
    }

    /// Whether an expression stands somewhere in what follows, and may go on in the next line.
    pub const fn is_formula(self) -> bool {
        matches!(self, Self::Value | Self::Formula)
    }

    /// Whether all that follows is a value.
    pub const fn is_value(self) -> bool {
        matches!(self, Self::Value)
    }
}
