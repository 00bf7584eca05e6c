//! Functions on lists; some work on texts and maps too.

use std::fmt;

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::diag::Fault;
use crate::lang::script::compare::{Mismatch, equal};
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{to_quantity, to_text};
use crate::measure::Kind;

const LIST: Param = param("list", Want::List, "");
const POSITION: Param = param("position", Want::Whole, "counted from 0; a negative one counts from the end");
const HOLDER: Want = Want::Either(&[Want::List, Want::Text, Want::Map]);

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "len",
        params: &[param("x", HOLDER, "")],
        returns: Want::Whole,
        brief: "The number of values in a list or map, or of letters in a text.",
        examples: &[("len([1, 2])", "2"), ("\"oak\".len()", "3")],
        run: len,
        ..PLAIN
    },
    Builtin {
        name: "is_empty",
        params: &[param("x", HOLDER, "")],
        returns: Want::Truth,
        brief: "Whether a list, map or text is empty.",
        examples: &[("is_empty([])", "true")],
        run: |call| Ok((size_of(call.value(0)?) == 0).into()),
        ..PLAIN
    },
    Builtin {
        name: "contains",
        params: &[
            param("x", Want::Either(&[Want::List, Want::Text, Want::Map, Want::Range]), ""),
            param("value", Want::Anything, "of the same kind as the values in the list"),
        ],
        returns: Want::Truth,
        brief: "Whether a value is in a list, a part in a text or a name in a map; `value in list` does the same.",
        examples: &[("contains([1\", 2\"], 2\")", "true"), ("\"a\" in \"oak\"", "true")],
        run: contains,
        ..PLAIN
    },
    Builtin {
        name: "index_of",
        params: &[
            param("x", Want::Either(&[Want::List, Want::Text]), ""),
            param("value", Want::Anything, "of the same kind as the values in the list"),
        ],
        returns: Want::Whole,
        brief: "The first position of a value in a list or of a part in a text, from 0; -1 if it is not there.",
        examples: &[("index_of([1\", 2\"], 2\")", "1")],
        run: index_of,
        ..PLAIN
    },
    Builtin {
        name: "push",
        params: &[LIST, param("value", Want::Anything, "")],
        changes: true,
        returns: Want::Nothing,
        brief: "Adds a value to the end of a list.",
        examples: &[("let l = [1]; l.push(2); l", "[1, 2]")],
        run: push,
        ..PLAIN
    },
    Builtin {
        name: "pop",
        params: &[LIST],
        changes: true,
        returns: Want::Anything,
        brief: "Removes the last value of a list and returns it; nothing if the list is empty.",
        examples: &[("let l = [1, 2]; l.pop()", "2")],
        run: |call| call.change_list(0, |list| Ok(list.pop().unwrap_or(Dynamic::UNIT))),
        ..PLAIN
    },
    Builtin {
        name: "insert",
        params: &[LIST, POSITION, param("value", Want::Anything, "")],
        changes: true,
        returns: Want::Nothing,
        brief: "Inserts a value into a list before a position.",
        examples: &[("let l = [1, 3]; l.insert(1, 2); l", "[1, 2, 3]")],
        run: insert,
        ..PLAIN
    },
    Builtin {
        name: "clear",
        params: &[LIST],
        changes: true,
        returns: Want::Nothing,
        brief: "Empties a list.",
        examples: &[("let l = [1]; l.clear(); l", "[]")],
        run: |call| {
            call.change_list(0, |list| {
                list.clear();
                Ok(Dynamic::UNIT)
            })
        },
        ..PLAIN
    },
    Builtin {
        name: "extract",
        params: &[param("x", Want::Either(&[Want::List, Want::Text]), ""), POSITION, param("count", Want::Whole, "")],
        least: 2,
        returns: Want::Anything,
        brief: "Part of a list or text, starting at a position.",
        examples: &[("extract([1, 2, 3], 1)", "[2, 3]"), ("extract(\"rail\", 0, 2)", "ra")],
        run: extract,
        ..PLAIN
    },
];

/// The fault for a position that the list does not have.
#[derive(Debug)]
struct Outside(i64, usize);

impl fmt::Display for Outside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (position, len) = (self.0, self.1);
        write!(f, "there is no position {position} in a list of {len}")
    }
}

impl Fault for Outside {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn argument(&self) -> Option<usize> {
        Some(1)
    }
}

fn size_of(value: &Dynamic) -> usize {
    if let Ok(list) = value.as_array_ref() {
        return list.len();
    }
    if let Ok(map) = value.as_map_ref() {
        return map.len();
    }
    to_text(value).map_or(0, |text| text.chars().count())
}

fn whole(count: usize) -> Dynamic {
    i64::try_from(count).unwrap_or(i64::MAX).into()
}

fn len(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    Ok(whole(size_of(call.value(0)?)))
}

fn contains(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let (holder, value) = (call.value(0)?, call.value(1)?);
    if holder.is_array() {
        return Ok(position(call)?.is_some().into());
    }
    if let Ok(map) = holder.as_map_ref() {
        let name = to_text(value).ok_or_else(|| Mismatch::of("look in a map by", holder, value))?;
        return Ok(map.contains_key(name.as_str()).into());
    }
    if let Some(text) = to_text(holder) {
        let part = to_text(value).ok_or_else(|| Mismatch::of("compare", holder, value))?;
        return Ok(text.contains(part.as_str()).into());
    }
    let number = to_quantity(value).filter(|value| value.kind == Kind::NUMBER);
    let number = number.ok_or_else(|| Mismatch::of("compare", &0.into(), value))?.amount;
    let whole = number.to_whole();
    if let Some(range) = holder.read_lock::<std::ops::Range<i64>>() {
        return Ok(whole.is_some_and(|whole| range.contains(&whole)).into());
    }
    let range = holder.read_lock::<std::ops::RangeInclusive<i64>>();
    Ok(range.is_some_and(|range| whole.is_some_and(|whole| range.contains(&whole))).into())
}

/// The first position of the value in the list.
fn position(call: &Call<'_, '_, '_>) -> Result<Option<usize>, Trouble> {
    let value = call.value(1)?;
    call.with_list(0, |list| {
        for (index, entry) in list.iter().enumerate() {
            call.spend(1)?;
            if equal(value, entry, "==")? {
                return Ok(Some(index));
            }
        }
        Ok(None)
    })
}

fn index_of(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let found = match to_text(call.value(0)?) {
        Some(text) => {
            let value = call.value(1)?;
            let part = to_text(value).ok_or_else(|| Mismatch::of("compare", call.value(0).unwrap_or(value), value))?;
            text.split_once(part.as_str()).map(|(before, _)| before.chars().count())
        }
        None => position(call)?,
    };
    Ok(found.map_or((-1).into(), whole))
}

fn push(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let value = call.value_mut(1)?.take();
    let len = call.with_list(0, |list| Ok(list.len()))?;
    call.bench(|bench| bench.watch.entries(len.saturating_add(1)))??;
    call.change_list(0, |list| {
        list.push(value);
        Ok(Dynamic::UNIT)
    })
}

fn insert(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let (position, value) = (call.whole(1)?, call.value_mut(2)?.take());
    let len = call.with_list(0, |list| Ok(list.len()))?;
    call.bench(|bench| bench.watch.entries(len.saturating_add(1)))??;
    call.spend(len / 64)?;
    let at = place(position, len).ok_or(Outside(position, len))?;
    call.change_list(0, |list| {
        list.insert(at, value);
        Ok(Dynamic::UNIT)
    })
}

/// A position counted from the front or, below zero, from the end; the end itself counts.
fn place(position: i64, len: usize) -> Option<usize> {
    let distance = usize::try_from(position.unsigned_abs()).ok()?;
    if position < 0 { len.checked_sub(distance) } else { (distance <= len).then_some(distance) }
}

fn extract(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let len = size_of(call.value(0)?);
    let position = call.whole(1)?;
    let from = place(position, len).ok_or(Outside(position, len))?;
    let count = if call.count() > 2 { usize::try_from(call.whole(2)?).unwrap_or(0) } else { len };
    if let Some(text) = to_text(call.value(0)?) {
        return Ok(text.chars().skip(from).take(count).collect::<String>().into());
    }
    call.with_list(0, |list| {
        call.spend(list.len() / 16)?;
        Ok(Dynamic::from_array(list.iter().skip(from).take(count).cloned().collect()))
    })
}
