//! The values that scripts take and return.

use std::collections::BTreeMap;

use rhai::{Array, Dynamic, FnPtr, ImmutableString, Map};

use super::design::Design;
use super::limits::Reached;
use super::stack;
use super::trouble::Raised;
use crate::measure::read::Reading;
use crate::measure::{Kind, Quantity, Real, Size};

/// A value that a script takes or returns.
#[derive(Clone, Debug)]
pub enum Value {
    /// No value.
    Nothing,
    /// Yes or no.
    Truth(bool),
    /// A quantity, which may be a plain number.
    Quantity(Quantity),
    /// Two or three lengths.
    Size(Size),
    /// Text.
    Text(String),
    /// A list.
    List(Vec<Value>),
    /// A map.
    Map(BTreeMap<String, Value>),
    /// A design.
    Design(Design),
    /// Anything else as shown text: a function, a range, a caught error.
    Shown(String),
}

/// A quantity as scripts hold it: a whole plain number is an integer of the engine, so that it can count and index.
pub fn to_dynamic(quantity: Quantity) -> Dynamic {
    match quantity.amount.to_whole() {
        Some(whole) if quantity.kind == Kind::NUMBER => whole.into(),
        _ => Dynamic::from(quantity),
    }
}

/// The quantity in a script value, if it is one.
pub fn to_quantity(value: &Dynamic) -> Option<Quantity> {
    match value.as_int() {
        Ok(whole) => Some(Quantity::number(Real::whole(whole))),
        Err(_) => value.read_lock::<Quantity>().map(|quantity| quantity.clone()),
    }
}

/// The text in a script value, if it is one; a single letter is text.
pub fn to_text(value: &Dynamic) -> Option<ImmutableString> {
    match value.as_char() {
        Ok(letter) => Some(letter.to_string().into()),
        Err(_) => value.as_immutable_string_ref().ok().map(|text| text.clone()),
    }
}

impl Value {
    /// A map.
    pub fn map<const N: usize>(entries: [(&str, Self); N]) -> Self {
        Self::Map(entries.into_iter().map(|(name, value)| (name.to_string(), value)).collect())
    }

    /// A plain whole number.
    pub fn count(number: impl Into<i64>) -> Self {
        Self::Quantity(Quantity::number(Real::whole(number.into())))
    }

    /// The value as scripts hold it.
    pub fn into_dynamic(self) -> Dynamic {
        match self {
            Self::Nothing => Dynamic::UNIT,
            Self::Truth(truth) => truth.into(),
            Self::Quantity(quantity) => to_dynamic(quantity),
            Self::Size(size) => Dynamic::from(size),
            Self::Text(text) | Self::Shown(text) => text.into(),
            Self::List(values) => Dynamic::from_array(values.into_iter().map(Self::into_dynamic).collect::<Array>()),
            Self::Map(entries) => {
                let entries = entries.into_iter().map(|(name, value)| (name.into(), value.into_dynamic()));
                Dynamic::from_map(entries.collect::<Map>())
            }
            Self::Design(design) => Dynamic::from(design),
        }
    }
}

impl From<Reading> for Value {
    fn from(reading: Reading) -> Self {
        match reading {
            Reading::Quantity(quantity) => Self::Quantity(quantity),
            Reading::Size(size) => Self::Size(size),
        }
    }
}

impl TryFrom<&Dynamic> for Value {
    type Error = Reached;

    fn try_from(value: &Dynamic) -> Result<Self, Reached> {
        if stack::is_used_up() {
            return Err(Reached::Stack);
        }
        if let Some(quantity) = to_quantity(value) {
            return Ok(Self::Quantity(quantity));
        }
        if let Some(text) = to_text(value) {
            return Ok(Self::Text(text.into()));
        }
        if let Ok(truth) = value.as_bool() {
            return Ok(Self::Truth(truth));
        }
        if let Some(size) = value.read_lock::<Size>() {
            return Ok(Self::Size(size.clone()));
        }
        if let Some(design) = value.read_lock::<Design>() {
            return Ok(Self::Design(design.clone()));
        }
        if let Ok(list) = value.as_array_ref() {
            return Ok(Self::List(list.iter().map(Self::try_from).collect::<Result<_, _>>()?));
        }
        if let Ok(map) = value.as_map_ref() {
            let entry = |(name, value): (_, &Dynamic)| Ok((ToString::to_string(name), Self::try_from(value)?));
            return Ok(Self::Map(map.iter().map(entry).collect::<Result<_, _>>()?));
        }
        Ok(Self::of_the_rest(value))
    }
}

impl Value {
    /// The sort of the value with its article, for messages.
    pub fn what(&self) -> String {
        match self {
            Self::Nothing => "nothing".into(),
            Self::Truth(_) => "yes or no".into(),
            Self::Quantity(quantity) => quantity.kind.with_article(),
            Self::Size(_) => "a size".into(),
            Self::Text(_) => "text".into(),
            Self::List(_) => "a list".into(),
            Self::Map(_) => "a map".into(),
            Self::Design(_) => "a design".into(),
            Self::Shown(_) => "something else".into(),
        }
    }

    /// The quantity, if the value is one.
    pub fn quantity(&self) -> Option<&Quantity> {
        if let Self::Quantity(quantity) = self { Some(quantity) } else { None }
    }

    /// The text, if the value is one.
    pub fn text(&self) -> Option<&str> {
        if let Self::Text(text) = self { Some(text) } else { None }
    }

    fn of_the_rest(value: &Dynamic) -> Self {
        if let Some(function) = value.read_lock::<FnPtr>() {
            let name = if function.is_anonymous() { "function" } else { function.fn_name() };
            return Self::Shown(name.to_string());
        }
        if let Some(raised) = value.read_lock::<Raised>() {
            return Self::Shown(raised.to_string());
        }
        if value.is_unit() { Self::Nothing } else { Self::Shown(value.to_string()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_whole_number_can_index_and_others_keep_their_kind() {
        let number = |n, d| to_dynamic(Quantity::number(Real::ratio(n, d)));
        assert!(number(6, 3).is_int());
        assert!(!number(1, 3).is_int());
        assert!(!to_dynamic(Quantity::inches(Real::ONE)).is_int());
        assert!(!to_dynamic(Quantity::number(Real::approximate(2.0))).is_int());
        let big = Real::whole(i64::MAX) + Real::ONE;
        assert!(!to_dynamic(Quantity::number(big)).is_int());
    }

    #[test]
    fn values_go_in_and_come_out() {
        let map = BTreeMap::from([("width".to_string(), Value::Quantity(Quantity::inches(Real::ratio(91, 8))))]);
        let value = Value::List(vec![Value::Nothing, Value::Truth(true), Value::Text("a".into()), Value::Map(map)]);
        let back = Value::try_from(&value.clone().into_dynamic()).unwrap();
        assert_eq!(format!("{back:?}"), format!("{value:?}"));
    }
}
