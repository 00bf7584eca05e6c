//! Facts as JSON, written field by field as they are asked for: a large plan or a run over many works is never held as a
//! whole.

#![expect(clippy::wildcard_enum_match_arm, reason = "most kinds hold a value directly")]

use std::cell::Cell;

use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use serde_json::Value as Json;

use super::measured::{Measured, Memo};
use crate::fact::rows::{cell, spoken};
use crate::fact::{Datum, Instance, Items, Kind};
use crate::measure::Quantity;
use crate::measure::write::Manner;

/// How values are written.
#[derive(Clone, Copy)]
pub struct Manners<'a> {
    /// How quantities are shown.
    pub manner: &'a Manner,
    /// How values were written before, for those who write many designs.
    pub memo: Option<&'a Memo>,
}

/// A fact as a JSON object.
pub struct Object<'f, 'a> {
    /// The fact.
    pub fact: &'f dyn Instance<'a>,
    /// How its values are written.
    pub manners: Manners<'a>,
}

/// A fact as an answer: its name under `reply`, its fields, and what was printed on the way.
pub struct Reply<'f, 'a> {
    /// The fact.
    pub fact: &'f dyn Instance<'a>,
    /// Lines that a script printed.
    pub printed: &'f [String],
    /// How its values are written.
    pub manners: Manners<'a>,
}

/// The key of an answer's name.
pub const REPLY: &str = "reply";
/// The key of what a script printed.
pub const PRINTED: &str = "printed";

/// A value of a field, to be written once.
struct Written<'a> {
    datum: Cell<Datum<'a>>,
    kind: &'static Kind,
    manners: Manners<'a>,
}

/// A fact as a JSON value.
pub fn json<'a>(fact: &dyn Instance<'a>, manner: &'a Manner) -> Json {
    let manners = Manners { manner, memo: None };
    // Texts and numbers under text keys, all of which JSON can hold.
    serde_json::to_value(Object { fact, manners }).unwrap_or_default()
}

impl Serialize for Object<'_, '_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        fields(self.fact, self.manners, &mut map)?;
        map.end()
    }
}

impl Serialize for Reply<'_, '_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry(REPLY, self.fact.shape().name())?;
        fields(self.fact, self.manners, &mut map)?;
        if !self.printed.is_empty() {
            map.serialize_entry(PRINTED, self.printed)?;
        }
        map.end()
    }
}

/// The fields of a fact as entries of an object.
fn fields<'a, M: SerializeMap>(fact: &dyn Instance<'a>, manners: Manners<'a>, map: &mut M) -> Result<(), M::Error> {
    for (at, head) in fact.shape().heads().enumerate() {
        let datum = fact.get(at, manners.manner);
        if head.is_spread() {
            entries(datum, manners, map)?;
        } else if !(head.optional && datum.is_nothing()) {
            map.serialize_entry(head.name, &Written { datum: Cell::new(datum), kind: &head.kind, manners })?;
        }
    }
    Ok(())
}

impl Serialize for Written<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let manners = self.manners;
        let datum = self.datum.replace(Datum::Nothing);
        let kind = match self.kind {
            Kind::OrNothing(_) if datum.is_nothing() => return serializer.serialize_unit(),
            Kind::OrNothing(inner) => inner,
            kind => kind,
        };
        let is_value = matches!(kind, Kind::Value | Kind::Known);
        match datum {
            Datum::Quantity(drawn, made) => {
                let measured = Measured { drawn, made, share: false, manner: manners.manner };
                match manners.memo.and_then(|memo| memo.written(&measured)) {
                    Some(written) => written.serialize(serializer),
                    None => measured.serialize(serializer),
                }
            }
            Datum::Share(_) | Datum::Size(_) | Datum::Missing { .. } | Datum::Design => {
                tagged(datum, manners, serializer)
            }
            Datum::Fact(fact) => Object { fact: &*fact, manners }.serialize(serializer),
            _ if is_value => tagged(datum, manners, serializer),
            Datum::Nothing => serializer.serialize_unit(),
            Datum::Truth(truth) => serializer.serialize_bool(truth),
            Datum::Count(count) => serializer.serialize_u64(count),
            Datum::Seconds(seconds) => serializer.serialize_f64(seconds),
            Datum::Text(text) => serializer.serialize_str(&text),
            Datum::Cost { .. } | Datum::Message(_) => serializer.serialize_str(&cell(datum)),
            Datum::Each(each) => list(each, kind.inner(), manners, serializer),
            Datum::Named(each) => {
                let inner = kind.inner();
                let mut map = serializer.serialize_map(None)?;
                for (name, datum) in each {
                    map.serialize_entry(&name, &Written { datum: Cell::new(datum), kind: inner, manners })?;
                }
                map.end()
            }
        }
    }
}

fn list<'a, S: Serializer>(
    each: Items<'a, Datum<'a>>,
    kind: &'static Kind,
    manners: Manners<'a>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(each.map(|datum| Written { datum: Cell::new(datum), kind, manners }))
}

/// A value with its kind.
fn tagged<'a, S: Serializer>(datum: Datum<'a>, manners: Manners<'a>, serializer: S) -> Result<S::Ok, S::Error> {
    let mut map = serializer.serialize_map(None)?;
    entries(datum, manners, &mut map)?;
    map.end()
}

/// The keys of a value with its kind.
fn entries<'a, M: SerializeMap>(datum: Datum<'a>, manners: Manners<'a>, map: &mut M) -> Result<(), M::Error> {
    const VALUE: &Kind = &Kind::Value;
    let manner = manners.manner;
    let quantity =
        |quantity: Quantity| Written { datum: Cell::new(Datum::Quantity(quantity, None)), kind: VALUE, manners };
    match datum {
        Datum::Quantity(drawn, made) => Measured { drawn, made, share: false, manner }.entries(map),
        Datum::Share(drawn) => Measured { drawn, made: None, share: true, manner }.entries(map),
        Datum::Size(size) => {
            map.serialize_entry("kind", "size")?;
            map.serialize_entry("width", &quantity(size.width))?;
            map.serialize_entry("height", &quantity(size.height))?;
            size.depth.map_or(Ok(()), |depth| map.serialize_entry("depth", &quantity(depth)))
        }
        Datum::Missing { fields, because } => {
            map.serialize_entry("missing", &fields)?;
            because.map_or(Ok(()), |because| map.serialize_entry("because", &spoken(&because)))
        }
        Datum::Design => map.serialize_entry("kind", "design"),
        Datum::Nothing => map.serialize_entry("kind", "nothing"),
        Datum::Truth(truth) => {
            map.serialize_entry("kind", "bool")?;
            map.serialize_entry("value", &truth)
        }
        Datum::Text(_) | Datum::Message(_) => {
            map.serialize_entry("kind", "text")?;
            map.serialize_entry("value", &cell(datum))
        }
        Datum::Each(each) => {
            /// A list of values.
            struct List<'a>(Cell<Option<Items<'a, Datum<'a>>>>, Manners<'a>);
            impl Serialize for List<'_> {
                fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                    list(self.0.take().unwrap_or_else(|| Box::new(std::iter::empty())), VALUE, self.1, serializer)
                }
            }
            map.serialize_entry("kind", "list")?;
            map.serialize_entry("value", &List(Cell::new(Some(each)), manners))
        }
        Datum::Named(_) => {
            map.serialize_entry("kind", "map")?;
            map.serialize_entry("value", &Written { datum: Cell::new(datum), kind: &Kind::Named(VALUE), manners })
        }
        Datum::Fact(fact) => fields(&*fact, manners, map),
        Datum::Count(_) | Datum::Seconds(_) | Datum::Cost { .. } => {
            map.serialize_entry("kind", "number")?;
            map.serialize_entry("exact", &cell(datum))
        }
    }
}
