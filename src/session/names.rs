//! What the reader of lines and scripts must know of the rules: fields, figures, what a field takes.

use crate::lang::{Names, Takes};
use crate::rules::{Book, Type};

/// What a field takes at the prompt, if the name is a field in any build.
pub fn field(book: &Book, name: &str) -> Option<Takes> {
    if name == "build" {
        return Some(Takes::Name);
    }
    let slot = book.slot(name)?;
    let is_set = (0..book.builds.len())
        .filter_map(|build| u8::try_from(build).ok())
        .any(|build| book.rule(build, slot).is_some_and(|rule| rule.given));
    if !is_set {
        return None;
    }
    Some(match book.name(slot).of {
        Type::Text => Takes::Text,
        Type::Word => Takes::Name,
        Type::Quantity(_)
        | Type::Whole
        | Type::Share
        | Type::Truth
        | Type::Size
        | Type::List(_)
        | Type::Record(_)
        | Type::Nothing => Takes::Value,
    })
}

/// The names that a script or a line is rewritten by: those of the rules, and the variables that hide them.
#[derive(Debug)]
pub struct Known<'a> {
    /// The rules.
    pub book: &'a Book,
    /// The variables of the prompt.
    pub variables: &'a [String],
}

impl Names for Known<'_> {
    fn word(&self, _: &str) -> Option<Takes> {
        None
    }

    fn field(&self, name: &str) -> Option<Takes> {
        field(self.book, name)
    }

    fn is_figure(&self, name: &str) -> bool {
        self.book.slot(name).is_some() && self.field(name).is_none()
    }

    fn is_variable(&self, name: &str) -> bool {
        self.variables.iter().any(|variable| variable == name)
    }

    fn all(&self) -> Vec<String> {
        self.book.all_names().map(Into::into).collect()
    }
}
