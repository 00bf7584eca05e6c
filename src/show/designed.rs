//! A design and its values as JSON, written straight from where they stand: a run over many works writes thousands.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use serde_json::value::{RawValue, to_raw_value};

use crate::diag::Fault;
use crate::measure::write::{Manner, millimetres, percent};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::{Absent, Answer, Datum, Design, Finding, Known, Slot, Type};
use crate::show::spoken;

/// A whole design: its name and build, every field and figure that applies, and what its checks say.
pub struct Designed<'a> {
    /// The design.
    pub design: &'a Design,
    /// What its checks say.
    pub findings: &'a [Finding],
    /// How values were written before, for those who write many designs.
    pub memo: Option<&'a Memo>,
}

/// So many values are written once and kept, some hundred bytes each.
const MOST: usize = 1 << 14;

/// Values as they were written before, by one tape: sizes on a tape, and all that belongs to the shop, come again and
/// again.
#[derive(Debug, Default)]
pub struct Memo(RefCell<HashMap<(Kind, i64, i64), Rc<RawValue>>>);

impl Memo {
    /// An exact amount as it is written.
    fn written(&self, one: &Measured) -> Option<Rc<RawValue>> {
        let (n, d) = one.amount.to_parts().filter(|_| one.cut.is_none())?;
        let mut memo = self.0.borrow_mut();
        if let Some(written) = memo.get(&(one.kind, n, d)) {
            return Some(Rc::clone(written));
        }
        let written: Rc<RawValue> = to_raw_value(one).ok()?.into();
        if memo.len() < MOST {
            memo.insert((one.kind, n, d), Rc::clone(&written));
        }
        Some(written)
    }
}

/// The fields of a design, or its figures.
struct Names<'a> {
    design: &'a Design,
    memo: Option<&'a Memo>,
    fields: bool,
}

/// A value, or the reason why there is none.
pub(super) struct Found<'a> {
    pub(super) design: &'a Design,
    pub(super) memo: Option<&'a Memo>,
    pub(super) slot: Slot,
    pub(super) value: &'a Result<Known, Absent>,
}

/// A value with its kind.
pub(super) struct Valued<'a> {
    pub(super) design: &'a Design,
    pub(super) memo: Option<&'a Memo>,
    pub(super) slot: Slot,
    pub(super) known: &'a Known,
}

/// A quantity with its kind, its exact value in the unit of storage, and as it is shown.
pub(super) struct Measured<'a> {
    pub(super) amount: &'a Real,
    pub(super) kind: Kind,
    pub(super) cut: Option<&'a Real>,
    /// Whether it is shown in percent.
    pub(super) share: bool,
    pub(super) manner: &'a Manner,
}

/// Several quantities of one kind.
struct Several<'a> {
    list: &'a [Real],
    memo: Option<&'a Memo>,
    kind: Kind,
    manner: &'a Manner,
}

/// What checks say.
pub(super) struct Checks<'a>(pub(super) Vec<&'a Finding>);

impl Serialize for Designed<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { design, findings, memo } = *self;
        let mut map = serializer.serialize_map(Some(5))?;
        match design.answer("name") {
            Ok(Answer::Text(text)) => map.serialize_entry("name", &*text)?,
            Ok(_) | Err(_) => map.serialize_entry("name", &())?,
        }
        map.serialize_entry("build", design.build_name())?;
        map.serialize_entry("fields", &Names { design, memo, fields: true })?;
        map.serialize_entry("figures", &Names { design, memo, fields: false })?;
        map.serialize_entry("checks", &Checks(findings.iter().collect()))?;
        map.end()
    }
}

impl Serialize for Names<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { design, memo, fields } = *self;
        let book = design.book();
        let mut map = serializer.serialize_map(None)?;
        for slot in book.builds[usize::from(design.build())].order.iter().copied() {
            let name = book.name(slot);
            let gathered = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
            // Sizes are told by their extents, what a function found by its parts.
            if gathered || matches!(name.of, Type::Size | Type::Record(_)) || design.is_field(slot) != fields {
                continue;
            }
            let value = &design.known(slot);
            if !matches!(value, Err(Absent::Idle)) {
                map.serialize_entry(&name.text, &Found { design, memo, slot, value })?;
            }
        }
        map.end()
    }
}

impl Serialize for Found<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { design, memo, slot, value } = *self;
        match value {
            Ok(known) => Valued { design, memo, slot, known }.serialize(serializer),
            Err(Absent::Idle) => serializer.serialize_unit(),
            Err(Absent::Missing(slots)) => {
                let names: Vec<&str> = slots.iter().map(|slot| design.book().name(*slot).text.as_str()).collect();
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry("missing", &names)?;
                map.end()
            }
            Err(why) => {
                let mut map = serializer.serialize_map(Some(2))?;
                map.serialize_entry("missing", &[(); 0])?;
                map.serialize_entry("because", &spoken(&design.refusal(slot, why.clone()).says()))?;
                map.end()
            }
        }
    }
}

impl Serialize for Valued<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let manner = self.design.manner();
        let of = self.design.book().name(self.slot).of;
        let text = |serializer: S, text: &str| {
            let mut map = serializer.serialize_map(Some(2))?;
            map.serialize_entry("kind", "text")?;
            map.serialize_entry("value", text)?;
            map.end()
        };
        match &self.known.drawn {
            Datum::Amount(amount) => {
                let kind = if let Type::Quantity(kind) = of { kind } else { Kind::NUMBER };
                let cut = self.known.cut.as_ref().and_then(Datum::amount);
                Measured { amount, kind, cut, share: of == Type::Share, manner }.remembered(self.memo, serializer)
            }
            Datum::Word(word) => text(serializer, word),
            Datum::Truth(truth) => text(serializer, if *truth { "true" } else { "false" }),
            Datum::List(list) => {
                let kind = if let Type::List(kind) = of { kind } else { Kind::NUMBER };
                let mut map = serializer.serialize_map(Some(2))?;
                map.serialize_entry("kind", "list")?;
                map.serialize_entry("value", &Several { list, memo: self.memo, kind, manner })?;
                map.end()
            }
            Datum::Record(_) => text(serializer, "found"),
        }
    }
}

impl Serialize for Several<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        /// One of them.
        struct Each<'a>(Measured<'a>, Option<&'a Memo>);
        impl Serialize for Each<'_> {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                self.0.remembered(self.1, serializer)
            }
        }
        let Self { list, memo, kind, manner } = *self;
        serializer.collect_seq(
            list.iter().map(|amount| Each(Measured { amount, kind, cut: None, share: false, manner }, memo)),
        )
    }
}

impl Measured<'_> {
    fn remembered<S: Serializer>(&self, memo: Option<&Memo>, serializer: S) -> Result<S::Ok, S::Error> {
        match memo.filter(|_| !self.share).and_then(|memo| memo.written(self)) {
            Some(written) => written.serialize(serializer),
            None => self.serialize(serializer),
        }
    }
}

impl Serialize for Measured<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self { amount, kind, cut, share, manner } = *self;
        let mut map = serializer.serialize_map(None)?;
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
        let shown = if share { percent(amount) } else { manner.short(&Quantity::new(amount.clone(), kind)) };
        map.serialize_entry("shown", &shown)?;
        if kind == Kind::LENGTH {
            map.serialize_entry("mm", &millimetres(amount).to_f64())?;
        }
        if amount.is_approximate() {
            map.serialize_entry("approximate", &true)?;
        }
        if let Some(cut) = cut {
            map.serialize_entry("cut", &cut.to_text())?;
        }
        map.end()
    }
}

impl Serialize for Checks<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        /// One of them.
        struct Check<'a>(&'a Finding);
        impl Serialize for Check<'_> {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let mut map = serializer.serialize_map(None)?;
                map.serialize_entry("level", &self.0.level.to_string())?;
                map.serialize_entry("name", &self.0.name)?;
                map.serialize_entry("says", &spoken(&self.0.says))?;
                if let Some(line) = &self.0.mend {
                    map.serialize_entry("mend", line)?;
                }
                map.end()
            }
        }
        serializer.collect_seq(self.0.iter().map(|finding| Check(finding)))
    }
}
