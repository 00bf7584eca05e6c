//! Functions that call a function for each entry of a list, or make a list to walk.

use rhai::{Array, Dynamic};

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::to_dynamic;
use crate::measure::{Quantity, Real, Toward};

const LIST: Param = param("list", Want::List, "");
const TEST: Param = param("test", Want::Function, "returns true or false for a value");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "map",
        params: &[LIST, param("change", Want::Function, "returns the new value for an old one")],
        returns: Want::List,
        brief: "A list of the results of a function for each value.",
        examples: &[("map([1\", 2\"], |x| x * 2)", "[2\", 4\"]")],
        run: map,
        ..PLAIN
    },
    Builtin {
        name: "filter",
        params: &[LIST, TEST],
        returns: Want::List,
        brief: "The values of a list for which a function returns true.",
        examples: &[("filter([1, 2, 3], |x| x > 1)", "[2, 3]")],
        run: filter,
        ..PLAIN
    },
    Builtin {
        name: "find",
        params: &[LIST, TEST],
        returns: Want::Anything,
        brief: "The first value of a list for which a function returns true; nothing if there is none.",
        examples: &[("find([1, 2, 3], |x| x > 1)", "2")],
        run: |call| first(call, true, |found| found.cloned().unwrap_or(Dynamic::UNIT)),
        ..PLAIN
    },
    Builtin {
        name: "some",
        params: &[LIST, TEST],
        returns: Want::Truth,
        brief: "Whether a function returns true for any value of a list.",
        examples: &[("some([1, 2], |x| x > 1)", "true")],
        run: |call| first(call, true, |found| found.is_some().into()),
        ..PLAIN
    },
    Builtin {
        name: "all",
        params: &[LIST, TEST],
        returns: Want::Truth,
        brief: "Whether a function returns true for every value of a list.",
        examples: &[("all([1, 2], |x| x > 1)", "false")],
        run: |call| first(call, false, |found| found.is_none().into()),
        ..PLAIN
    },
    Builtin {
        name: "reduce",
        params: &[
            LIST,
            param("join", Want::Function, "combines the result so far with the next value"),
            param("start", Want::Anything, "first result; nothing by default"),
        ],
        least: 2,
        returns: Want::Anything,
        brief: "One result from a whole list, combined value by value.",
        examples: &[("reduce([1, 2, 3], |a, b| a + b, 0)", "6")],
        run: reduce,
        ..PLAIN
    },
    Builtin {
        name: "range",
        params: &[
            param("from", Want::Quantity, ""),
            param("to", Want::Quantity, "end of the range, not included"),
            param("step", Want::Quantity, "step above zero; 1 by default"),
        ],
        least: 2,
        returns: Want::List,
        brief: "A list of quantities from one up to another, without the last.",
        examples: &[("range(1\", 2\", 1/2\")", "[1\", 1 1/2\"]"), ("range(0, 3)", "[0, 1, 2]")],
        run: range,
        ..PLAIN
    },
];

fn map(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let function = call.function(1)?;
    let made = call.with_list(0, |list| {
        list.iter().map(|value| call.back(&function, [value.clone()])).collect::<Result<Array, _>>()
    })?;
    Ok(Dynamic::from_array(made))
}

fn filter(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let function = call.function(1)?;
    call.with_list(0, |list| {
        let mut kept = Array::new();
        for value in list {
            if call.back_for_truth(&function, [value.clone()])? {
                kept.push(value.clone());
            }
        }
        Ok(Dynamic::from_array(kept))
    })
}

/// Runs `answer` on the first value for which the function returns `wanted`.
fn first(call: &Call<'_, '_, '_>, wanted: bool, answer: fn(Option<&Dynamic>) -> Dynamic) -> Result<Dynamic, Trouble> {
    let function = call.function(1)?;
    call.with_list(0, |list| {
        for value in list {
            if call.back_for_truth(&function, [value.clone()])? == wanted {
                return Ok(answer(Some(value)));
            }
        }
        Ok(answer(None))
    })
}

fn reduce(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let function = call.function(1)?;
    let start = if call.count() > 2 { call.value(2)?.clone() } else { Dynamic::UNIT };
    call.with_list(0, |list| list.iter().try_fold(start, |sum, value| call.back(&function, [sum, value.clone()])))
}

fn range(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let (from, to) = (call.quantity(0)?, call.quantity(1)?);
    let step = if call.count() > 2 { call.quantity(2)? } else { Quantity::number(Real::ONE) };
    let span = to.subtract(&from)?;
    let steps = span.stepped(Some(&step), Toward::Up, "range")?.divide(&step)?.amount;
    let count = steps.to_whole().and_then(|steps| usize::try_from(steps.max(0)).ok()).unwrap_or(usize::MAX);
    call.bench(|bench| bench.watch.entries(count))??;
    let mut list = Array::new();
    let mut next = from;
    for _ in 0..count {
        call.spend(1)?;
        let value = next.clone();
        next = next.add(&step)?;
        list.push(to_dynamic(value));
    }
    Ok(Dynamic::from_array(list))
}
