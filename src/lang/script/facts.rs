//! Facts as maps for scripts, and values of scripts as facts have them.

use std::collections::BTreeMap;

use super::value::Value;
use crate::fact::rows::cell;
use crate::fact::{Datum, Instance};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};

impl Value {
    /// A fact as a map of its fields.
    pub fn of_fact<'a>(fact: &dyn Instance<'a>, manner: &'a Manner) -> Self {
        let mut map = BTreeMap::new();
        for (at, head) in fact.shape().heads().enumerate() {
            let datum = fact.get(at, manner);
            // Reading a name that a map does not have gives nothing, too.
            if head.optional && datum.is_nothing() {
                continue;
            }
            let value = Self::of_datum(datum, manner);
            if head.is_spread()
                && let Self::Map(inner) = value
            {
                map.extend(inner);
            } else {
                map.insert(head.name.to_string(), value);
            }
        }
        Self::Map(map)
    }

    /// The value of a field. A size is as made.
    pub fn of_datum<'a>(datum: Datum<'a>, manner: &'a Manner) -> Self {
        match datum {
            Datum::Nothing | Datum::Missing { .. } | Datum::Design => Self::Nothing,
            Datum::Truth(truth) => Self::Truth(truth),
            Datum::Count(count) => Self::count(i64::try_from(count).unwrap_or(i64::MAX)),
            Datum::Seconds(seconds) => Self::Quantity(Quantity::number(Real::approximate(seconds))),
            Datum::Text(_) | Datum::Message(_) => Self::Text(cell(datum)),
            Datum::Quantity(drawn, made) => {
                let kind = drawn.kind;
                Self::Quantity(made.map_or(drawn, |made| Quantity::new(made, kind)))
            }
            Datum::Share(share) => Self::Quantity(share),
            Datum::Size(size) => Self::Size(size),
            Datum::Cost { amount, money } => {
                let amount = Real::whole(i64::try_from(amount).unwrap_or(i64::MAX));
                Self::Quantity(match money {
                    true => Quantity::new(amount / Real::whole(100), Kind::MONEY),
                    false => Quantity::number(amount),
                })
            }
            Datum::Fact(fact) => Self::of_fact(&*fact, manner),
            Datum::Each(each) => Self::List(each.map(|one| Self::of_datum(one, manner)).collect()),
            Datum::Named(each) => Self::Map(
                each.map(|(name, one)| (name.into_owned(), Self::of_datum(one, manner))).collect::<BTreeMap<_, _>>(),
            ),
        }
    }

    /// The value as that of a field.
    pub fn datum(&self) -> Datum<'_> {
        match self {
            Self::Nothing => Datum::Nothing,
            Self::Truth(truth) => Datum::Truth(*truth),
            Self::Quantity(quantity) => Datum::quantity(quantity),
            Self::Size(size) => Datum::Size(size.clone()),
            Self::Text(text) | Self::Shown(text) => Datum::text(text.as_str()),
            Self::List(several) => Datum::Each(Box::new(several.iter().map(Self::datum))),
            Self::Map(entries) => Datum::named(entries.iter().map(|(name, value)| (name.as_str(), value.datum()))),
            Self::Design(_) => Datum::Design,
        }
    }
}
