//! Second methods: the same figures by another road, from the fields as they are typed. Nothing here comes from the program.

mod captured;
mod fixing;
mod hanging;
mod open;
mod wood;

use num_traits::ToPrimitive;

use crate::arithmetic::printed;

/// The fields of a design as they are typed.
pub struct Fields<'t>(&'t [(&'t str, &'t str)]);

impl<'t> Fields<'t> {
    /// Those of a row.
    pub fn new(fields: &'t [(&'t str, &'t str)]) -> Self {
        Self(fields)
    }

    /// The text of a field.
    pub fn text(&self, name: &str) -> Option<&'t str> {
        self.0.iter().rev().find(|(one, _)| *one == name).map(|(_, text)| *text)
    }

    /// A number of a field; where the design does not set it, `usual`.
    pub fn number(&self, name: &str, usual: f64) -> f64 {
        self.text(name).map_or(usual, number)
    }

    /// The numbers of a size: `16 x 20 x 3/4`.
    pub fn size(&self, name: &str) -> Vec<f64> {
        self.text(name).map(|text| text.split(" x ").map(number).collect()).unwrap_or_default()
    }
}

/// A number as it is typed, with or without its unit.
pub fn number(text: &str) -> f64 {
    let bare = text.trim_end_matches(|letter: char| letter.is_alphabetic() || "° ".contains(letter));
    printed(bare).and_then(|exact| exact.to_f64()).unwrap_or_else(|| panic!("{text} is not a number"))
}

/// A second method: the figure from the fields and the name of the figure.
pub type Method = fn(&Fields, &str) -> f64;

/// Every second method by its name.
pub fn methods() -> impl Iterator<Item = &'static (&'static str, Method)> {
    [open::METHODS, captured::METHODS, fixing::METHODS, hanging::METHODS, wood::METHODS].into_iter().flatten()
}
