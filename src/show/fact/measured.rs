//! A quantity in JSON, and those that were written before.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use serde_json::value::{RawValue, to_raw_value};

use crate::measure::write::{Manner, millimetres, percent};
use crate::measure::{Kind, Quantity, Real};

/// So many values are written once and kept, some hundred bytes each.
const MOST: usize = 1 << 14;

/// Values as they were written before, by one tape: sizes on a tape, and all that belongs to the shop, come again and
/// again.
#[derive(Debug, Default)]
pub struct Memo(RefCell<HashMap<(Kind, i64, i64), Rc<RawValue>>>);

impl Memo {
    /// An amount that is made as it is drawn, as it is written.
    pub(super) fn written(&self, one: &Measured) -> Option<Rc<RawValue>> {
        let (n, d) = one.drawn.amount.identity().filter(|_| one.made.is_none() && !one.share)?;
        let mut memo = self.0.borrow_mut();
        if let Some(written) = memo.get(&(one.drawn.kind, n, d)) {
            return Some(Rc::clone(written));
        }
        let written: Rc<RawValue> = to_raw_value(one).ok()?.into();
        if memo.len() < MOST {
            memo.insert((one.drawn.kind, n, d), Rc::clone(&written));
        }
        Some(written)
    }
}

/// A quantity with its kind, its exact value in the unit of storage, and as it is shown.
pub(super) struct Measured<'a> {
    pub(super) drawn: Quantity,
    /// The amount that is made, where it is another.
    pub(super) made: Option<Real>,
    /// Whether it is shown in percent.
    pub(super) share: bool,
    pub(super) manner: &'a Manner,
}

impl Measured<'_> {
    /// Its keys.
    pub(super) fn entries<M: SerializeMap>(&self, map: &mut M) -> Result<(), M::Error> {
        let Self { drawn, made, share, manner } = self;
        let (amount, kind) = (&drawn.amount, drawn.kind);
        match kind.row() {
            Some(row) => map.serialize_entry("kind", row.name)?,
            None => map.serialize_entry("kind", &kind.to_string())?,
        }
        map.serialize_entry("exact", &amount.to_text())?;
        if kind != Kind::NUMBER {
            match kind.row() {
                Some(row) => map.serialize_entry("unit", row.unit)?,
                None => map.serialize_entry("unit", &kind.unit())?,
            }
        }
        map.serialize_entry("shown", &if *share { percent(amount) } else { manner.short(drawn) })?;
        if kind == Kind::LENGTH {
            map.serialize_entry("mm", &millimetres(amount).to_f64())?;
        }
        if amount.is_approximate() {
            map.serialize_entry("approximate", &true)?;
        }
        if let Some(made) = made {
            map.serialize_entry("cut", &made.to_text())?;
        }
        Ok(())
    }
}

impl Serialize for Measured<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        self.entries(&mut map)?;
        map.end()
    }
}
