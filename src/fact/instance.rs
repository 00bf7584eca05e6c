//! Facts and their tables, and both as walkers see them.

use std::fmt;
use std::marker::PhantomData;

use super::{Datum, Field, Head};
use crate::measure::write::Manner;

/// A kind of thing that is answered, with its table of fields.
pub trait Fact: Sized + 'static {
    /// What the fields are read from.
    type Of<'a>: 'a;
    /// What it is called: `part`, `stick`, `design`.
    const NAME: &'static str;
    /// What it is, in one line.
    const DOC: &'static str;
    /// Its fields, in their order.
    const FIELDS: &'static [Field<Self>];
    /// The table for those who do not know its type.
    const SHAPE: &'static dyn Shape = &Table::<Self>(PhantomData);
}

/// A table of fields as walkers see it.
pub trait Shape: Sync {
    /// What the fact is called.
    fn name(&self) -> &'static str;
    /// What it is, in one line.
    fn doc(&self) -> &'static str;
    /// How many fields there are.
    fn len(&self) -> usize;
    /// Whether there are none.
    fn is_empty(&self) -> bool {
        self.len() == 0
    }
    /// The field at a place.
    fn head(&self, at: usize) -> &'static Head;
    /// All fields.
    fn heads(&self) -> Box<dyn Iterator<Item = &'static Head> + '_> {
        Box::new((0..self.len()).map(|at| self.head(at)))
    }
}

impl fmt::Debug for dyn Shape {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// The table of a fact, which needs no fact to be read.
struct Table<F>(PhantomData<fn() -> F>);

impl<F: Fact> Shape for Table<F> {
    fn name(&self) -> &'static str {
        F::NAME
    }

    fn doc(&self) -> &'static str {
        F::DOC
    }

    fn len(&self) -> usize {
        F::FIELDS.len()
    }

    fn head(&self, at: usize) -> &'static Head {
        &F::FIELDS[at].head
    }
}

/// One fact as walkers see it.
pub trait Instance<'a> {
    /// Its table.
    fn shape(&self) -> &'static dyn Shape;
    /// The value of the field at a place.
    fn get(&self, at: usize, manner: &'a Manner) -> Datum<'a>;
}

struct Held<'a, F: Fact>(F::Of<'a>);

impl<'a, F: Fact> Instance<'a> for Held<'a, F> {
    fn shape(&self) -> &'static dyn Shape {
        F::SHAPE
    }

    fn get(&self, at: usize, manner: &'a Manner) -> Datum<'a> {
        (F::FIELDS[at].get)(&self.0, manner)
    }
}

/// A fact for walkers.
pub fn fact<'a, F: Fact>(of: F::Of<'a>) -> Box<dyn Instance<'a> + 'a> {
    Box::new(Held::<F>(of))
}

/// Every shape that stands in a field of these, or of those in turn, each once.
pub fn shapes(of: &[&'static dyn Shape]) -> Vec<&'static dyn Shape> {
    let mut all: Vec<&'static dyn Shape> = Vec::new();
    let mut open = of.to_vec();
    while let Some(shape) = open.pop() {
        for inner in shape.heads().filter_map(|head| head.kind.shape()) {
            if !all.iter().any(|one| one.name() == inner.name()) {
                all.push(inner);
                open.push(inner);
            }
        }
    }
    all
}
