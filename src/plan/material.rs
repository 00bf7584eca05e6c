//! What a part and its stick must have in common.

use super::units::spread;
use crate::diag::{Diagnostic, codes};
use crate::measure::write::exactly;
use crate::measure::{Quantity, Real, Unit, read};

/// Wood and section, as far as they are known.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Material {
    /// As it is written, blanks folded.
    pub wood: String,
    /// As it is written, blanks folded.
    pub section: String,
}

fn folded(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Material {
    /// Of a table's cells.
    pub fn new(wood: &str, section: &str) -> Self {
        Self { wood: folded(wood), section: folded(section) }
    }

    /// What decides whether two are the same: letters' size is nothing, and a size is what it measures.
    pub(super) fn key(&self, bare: Option<&Unit>) -> (String, String) {
        let section = match sides(&self.section, bare) {
            Ok((width, thickness)) => format!("{} x {}", width.to_text(), thickness.to_text()),
            Err(_) => self.section.to_lowercase(),
        };
        (self.wood.to_lowercase(), section)
    }

    /// The same with width and thickness of its section the other way round.
    pub(super) fn turned(&self, bare: Option<&Unit>) -> Option<Self> {
        sides(&self.section, bare).ok()?;
        let (width, thickness) = self.section.split_once(['x', 'X', '×'])?;
        Some(Self::new(&self.wood, &format!("{} x {}", thickness.trim(), width.trim())))
    }

    /// Whether another is the same but for its section, which is the other way round.
    pub fn is_turned(&self, other: &Self, bare: Option<&Unit>) -> bool {
        self.key(bare) != other.key(bare) && self.turned(bare).is_some_and(|turned| turned.key(bare) == other.key(bare))
    }

    /// In words: `cherry 3/4 x 1 1/2`.
    pub fn words(&self) -> String {
        [self.wood.as_str(), self.section.as_str()]
            .into_iter()
            .filter(|word| !word.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// A width and a thickness as the section that they make.
pub(super) fn sides_text(width: &Quantity, thickness: &Quantity) -> String {
    format!("{} x {}", exactly(width), exactly(thickness))
}

/// Width and thickness of a section written as a size, in inches.
pub(super) fn sides(section: &str, bare: Option<&Unit>) -> Result<(Real, Real), Diagnostic> {
    match read::read(&spread(section), bare)? {
        read::Reading::Size(size) => Ok((size.width.amount.clone(), size.height.amount.clone())),
        read::Reading::Quantity(_) => Err(Diagnostic::of(&codes::table::CELL, "a section is a width and a thickness")),
    }
}
