//! Values of fields and figures, and what a function of the program finds.

use std::sync::Arc;

use super::sentence::{Sentence, in_lengths, sentence};
use crate::measure::Real;
use crate::measure::write::Manner;

/// A value of a field or a figure; its kind belongs to the name.
#[derive(Clone, Debug)]
pub enum Datum {
    /// A quantity in storage units.
    Amount(Real),
    /// A word or a text.
    Word(Arc<str>),
    /// Yes or no.
    Truth(bool),
    /// Several amounts.
    List(Arc<[Real]>),
    /// What a function of the program found.
    Record(Arc<Record>),
}

impl Datum {
    /// Same value and same mark.
    pub fn same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Amount(a), Self::Amount(b)) => a.same(b),
            (Self::Word(a), Self::Word(b)) => a == b,
            (Self::Truth(a), Self::Truth(b)) => a == b,
            (Self::List(a), Self::List(b)) => a.len() == b.len() && a.iter().zip(b.iter()).all(|(a, b)| a.same(b)),
            (Self::Record(a), Self::Record(b)) => a.parts.iter().zip(&b.parts).all(|pair| match pair {
                (Some(a), Some(b)) => a.same(b),
                (a, b) => a.is_none() && b.is_none(),
            }),
            _ => false,
        }
    }

    /// The word it is, if it is one.
    pub fn word(&self) -> Option<&Arc<str>> {
        match self {
            Self::Word(word) => Some(word),
            Self::Amount(_) | Self::Truth(_) | Self::List(_) | Self::Record(_) => None,
        }
    }

    /// The amount it is, if it is one.
    pub fn amount(&self) -> Option<&Real> {
        match self {
            Self::Amount(amount) => Some(amount),
            Self::Word(_) | Self::Truth(_) | Self::List(_) | Self::Record(_) => None,
        }
    }
}

/// What a function found.
#[derive(Clone, Debug, Default)]
pub struct Record {
    /// In the order of what it gives; nothing where that does not apply.
    pub parts: Vec<Option<Datum>>,
    /// Why it is so and not otherwise.
    pub reasons: Vec<Sentence>,
}

/// Why a function found nothing.
#[derive(Clone, Debug)]
pub struct Fault(pub Sentence);

impl Fault {
    /// The fault that another part of the program reports.
    pub(super) fn of(why: impl std::fmt::Display) -> Self {
        Self(in_lengths(&why.to_string()))
    }
}

impl PartialEq for Fault {
    fn eq(&self, other: &Self) -> bool {
        let manner = Manner::default();
        sentence(&self.0, &manner) == sentence(&other.0, &manner)
    }
}

impl Eq for Fault {}

/// A record shared by all that read it.
pub fn shared(record: Record) -> Datum {
    Datum::Record(Arc::new(record))
}
