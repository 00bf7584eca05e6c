//! The value of a field.

use std::borrow::Cow;

use super::table::{Fact, Instance, fact};
use crate::diag::Says;
use crate::measure::{Quantity, Real, Size};

/// Values one after another, worked out as they are asked for: a plan of a million parts is never held twice.
pub type Items<'a, T> = Box<dyn Iterator<Item = T> + 'a>;

/// The value of a field, in no format yet.
pub enum Datum<'a> {
    /// No value.
    Nothing,
    /// Yes or no.
    Truth(bool),
    /// A whole number.
    Count(u64),
    /// A number of seconds.
    Seconds(f64),
    /// A text.
    Text(Cow<'a, str>),
    /// A message, whose text walkers alone take out.
    Message(Cow<'a, Says>),
    /// A quantity as drawn, and as made where that is another.
    Quantity(Quantity, Option<Real>),
    /// A share, shown in percent.
    Share(Quantity),
    /// Two or three lengths.
    Size(Size),
    /// A cost in cents, or a number of pieces.
    Cost {
        /// How many cents or pieces.
        amount: u64,
        /// Whether it is money.
        money: bool,
    },
    /// No value yet: the fields to set, or the reason.
    Missing {
        /// Names of fields.
        fields: Vec<&'a str>,
        /// The reason, where no field is missing.
        because: Option<Says>,
    },
    /// A design, which has no form of its own here.
    Design,
    /// Another fact.
    Fact(Box<dyn Instance<'a> + 'a>),
    /// A list.
    Each(Items<'a, Datum<'a>>),
    /// Values by name.
    Named(Items<'a, (Cow<'a, str>, Datum<'a>)>),
}

impl<'a> Datum<'a> {
    /// A text.
    pub fn text(text: impl Into<Cow<'a, str>>) -> Self {
        Self::Text(text.into())
    }

    /// A text, or nothing where it is empty.
    pub fn text_if_any(text: &'a str) -> Self {
        if text.is_empty() { Self::Nothing } else { Self::text(text) }
    }

    /// A length in inches.
    pub fn inches(inches: &Real) -> Self {
        Self::Quantity(Quantity::inches(inches.clone()), None)
    }

    /// A quantity that is made as it is drawn.
    pub fn quantity(quantity: &Quantity) -> Self {
        Self::Quantity(quantity.clone(), None)
    }

    /// A whole number; what is below 0 counts as 0.
    pub fn count(count: impl TryInto<u64>) -> Self {
        Self::Count(count.try_into().unwrap_or_default())
    }

    /// What `some` makes of a value that may not be there.
    pub fn maybe<T>(value: Option<T>, some: impl FnOnce(T) -> Self) -> Self {
        value.map_or(Self::Nothing, some)
    }

    /// A fact.
    pub fn fact<F: Fact>(of: F::Of<'a>) -> Self {
        Self::Fact(fact::<F>(of))
    }

    /// Facts of one shape.
    pub fn facts<F: Fact>(all: impl Iterator<Item = F::Of<'a>> + 'a) -> Self {
        Self::Each(Box::new(all.map(Self::fact::<F>)))
    }

    /// Texts.
    pub fn texts<T: Into<Cow<'a, str>> + 'a>(all: impl Iterator<Item = T> + 'a) -> Self {
        Self::Each(Box::new(all.map(Self::text)))
    }

    /// Values by name.
    pub fn named<N: Into<Cow<'a, str>> + 'a>(all: impl Iterator<Item = (N, Self)> + 'a) -> Self {
        Self::Named(Box::new(all.map(|(name, value)| (name.into(), value))))
    }

    /// Whether there is no value.
    pub fn is_nothing(&self) -> bool {
        matches!(self, Self::Nothing)
    }
}
