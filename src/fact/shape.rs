//! Tables of fields as walkers see them.

use std::fmt;

use super::kind::Kind;

/// How much room a field deserves on a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Always shown.
    Key,
    /// Shown where there is room.
    Plain,
    /// The same, but a value of 0 is not worth showing.
    Extra,
    /// Not on a page.
    Detail,
}

/// What a field is, apart from where its value comes from.
pub struct Head {
    /// The one name that it has in every format.
    pub name: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// What it means, in one line.
    pub doc: &'static str,
    /// How much room it deserves on a page.
    pub level: Level,
    /// What a page shows in place of a missing value.
    pub blank: &'static str,
    /// Whether it is left out where it has no value.
    pub optional: bool,
    /// What scripts called it in earlier versions.
    pub formerly: &'static [&'static str],
}

impl Head {
    /// Whether the keys of the value are keys of the object itself: such a field has no name.
    pub fn is_spread(&self) -> bool {
        self.name.is_empty()
    }

    /// The shape whose fields are fields of the object itself.
    pub fn spread_shape(&self) -> Option<&'static dyn Shape> {
        self.kind.shape().filter(|_| self.is_spread())
    }
}

/// A table of fields as walkers see it.
pub trait Shape: Sync {
    /// What the fact is called.
    fn name(&self) -> &'static str;
    /// What it is, in one line.
    fn doc(&self) -> &'static str;
    /// How many fields there are.
    fn len(&self) -> usize;
    /// Whether it has no fields.
    fn is_empty(&self) -> bool {
        self.len() == 0
    }
    /// The field at a place.
    fn head(&self, at: usize) -> &'static Head;
    /// All fields.
    fn heads(&self) -> Box<dyn Iterator<Item = &'static Head> + '_> {
        Box::new((0..self.len()).map(|at| self.head(at)))
    }
    /// All fields, with those of a spread shape in place of the field that spreads it.
    fn flat_heads(&self) -> Box<dyn Iterator<Item = &'static Head> + '_> {
        Box::new(self.heads().flat_map(|head| match head.spread_shape() {
            Some(inner) => inner.flat_heads(),
            None => Box::new(std::iter::once(head)),
        }))
    }
}

impl fmt::Debug for dyn Shape {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Every shape in a field of these shapes, or of those in turn, each once.
pub fn shapes(of: &[&'static dyn Shape]) -> Vec<&'static dyn Shape> {
    let mut all: Vec<&'static dyn Shape> = Vec::new();
    let mut open = of.to_vec();
    while let Some(shape) = open.pop() {
        for inner in shape.flat_heads().filter_map(|head| head.kind.shape()) {
            if !all.iter().any(|one| one.name() == inner.name()) {
                all.push(inner);
                open.push(inner);
            }
        }
    }
    all
}
