//! Functions of maps, and one that works on lists too.

use std::fmt;

use rhai::{Array, Dynamic};

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::diag::Fault;
use crate::lang::script::sort::Sort;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::to_text;

const MAP: Param = param("map", Want::Map, "");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "keys",
        params: &[MAP],
        returns: Want::List,
        brief: "The names in a map, in alphabetical order.",
        examples: &[("keys(#{b: 1, a: 2})", "[\"a\", \"b\"]")],
        run: |call| {
            call.with_map(0, |map| {
                call.spend(map.len())?;
                Ok(Dynamic::from_array(map.keys().map(|name| name.to_string().into()).collect::<Array>()))
            })
        },
        ..PLAIN
    },
    Builtin {
        name: "values",
        params: &[MAP],
        returns: Want::List,
        brief: "The values in a map, ordered by name.",
        examples: &[("values(#{b: 1, a: 2})", "[2, 1]")],
        run: |call| {
            call.with_map(0, |map| {
                call.spend(map.len())?;
                Ok(Dynamic::from_array(map.values().cloned().collect::<Array>()))
            })
        },
        ..PLAIN
    },
    Builtin {
        name: "remove",
        params: &[
            param("x", Want::Either(&[Want::List, Want::Map]), ""),
            param("which", Want::Either(&[Want::Whole, Want::Text]), "position in a list, or name in a map"),
        ],
        changes: true,
        returns: Want::Anything,
        brief: "Removes a value from a list or map and returns it; nothing if it is not there.",
        examples: &[("let l = [1, 2]; l.remove(0)", "1")],
        run: remove,
        ..PLAIN
    },
];

/// The fault for a name in a list, or a position in a map.
#[derive(Debug)]
struct Which(Sort, Sort);

impl fmt::Display for Which {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let by = if self.0 == Sort::Map { "a name" } else { "a position" };
        write!(f, "{} is asked by {by}, not by {}", self.0.with_article(), self.1.with_article())
    }
}

impl Fault for Which {
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

fn remove(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let which = Which(Sort::of(call.value(0)?), Sort::of(call.value(1)?));
    if call.value(0)?.is_array() {
        let position = call.value(1)?.as_int().map_err(|_| which)?;
        return call.change_list(0, |list| {
            let from_end = usize::try_from(position.unsigned_abs()).ok();
            let at = if position < 0 {
                from_end.and_then(|back| list.len().checked_sub(back))
            } else {
                from_end.filter(|at| *at < list.len())
            };
            Ok(at.map_or(Dynamic::UNIT, |at| list.remove(at)))
        });
    }
    let name = to_text(call.value(1)?).ok_or(which)?;
    let removed = call.value_mut(0)?.as_map_mut().map(|mut map| map.remove(name.as_str()));
    Ok(removed.ok().flatten().unwrap_or(Dynamic::UNIT))
}
