//! Functions that sort and compare values, under the rules of `<`.

use std::cmp::Ordering;
use std::fmt;

use rhai::{Array, Dynamic};

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::diag::Fault;
use crate::lang::script::compare::order;
use crate::lang::script::trouble::Trouble;

const ORDERED: Want = Want::Either(&[Want::Quantity, Want::Text, Want::List]);
const LIST: Param = param("list", Want::List, "");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "min",
        params: &[param("x", ORDERED, "several values of one kind, or a list of them")],
        many: true,
        returns: Want::Anything,
        brief: "The smallest of several values or of a list.",
        examples: &[("min(11 3/8\", 300mm)", "11 3/8\""), ("min([3, 1, 2])", "1")],
        run: |call| most(call, Ordering::Less),
        ..PLAIN
    },
    Builtin {
        name: "max",
        params: &[param("x", ORDERED, "several values of one kind, or a list of them")],
        many: true,
        returns: Want::Anything,
        brief: "The largest of several values or of a list.",
        examples: &[("max(1/2\", 3/8\")", "1/2\""), ("max([3, 1, 2])", "3")],
        run: |call| most(call, Ordering::Greater),
        ..PLAIN
    },
    Builtin {
        name: "sort",
        params: &[LIST, param("less", Want::Function, "returns true if its first value comes before its second")],
        least: 1,
        changes: true,
        returns: Want::List,
        brief: "Sorts a list, smallest first, and returns it; all values must be of one kind.",
        examples: &[("sort([3\", 1\", 2\"])", "[1\", 2\", 3\"]"), ("sort([1, 2], |a, b| a > b)", "[2, 1]")],
        run: sort,
        ..PLAIN
    },
    Builtin {
        name: "reverse",
        params: &[LIST],
        changes: true,
        returns: Want::List,
        brief: "Reverses a list and returns it.",
        examples: &[("reverse([1, 2])", "[2, 1]")],
        run: |call| {
            call.change_list(0, |list| {
                list.reverse();
                Ok(Dynamic::from_array(list.clone()))
            })
        },
        ..PLAIN
    },
];

/// The fault for an empty list, which has no least and no greatest entry.
#[derive(Debug)]
struct Empty(&'static str);

impl fmt::Display for Empty {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "an empty list has no {}", self.0)
    }
}

impl Fault for Empty {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn argument(&self) -> Option<usize> {
        Some(0)
    }
}

fn most(call: &mut Call<'_, '_, '_>, wanted: Ordering) -> Result<Dynamic, Trouble> {
    if call.count() == 1 && call.value(0)?.is_array() {
        return call.with_list(0, |list| extreme(call, list.iter(), wanted));
    }
    extreme(call, call.arguments.iter().map(|value| &**value), wanted)
}

fn extreme<'a>(
    call: &Call<'_, '_, '_>,
    mut values: impl Iterator<Item = &'a Dynamic>,
    wanted: Ordering,
) -> Result<Dynamic, Trouble> {
    let word = if wanted.is_lt() { "least" } else { "greatest" };
    let mut found = values.next().ok_or(Empty(word))?;
    for value in values {
        call.spend(1)?;
        if order(value, found, "<")? == wanted {
            found = value;
        }
    }
    Ok(found.clone())
}

/// Sorts the list by merging: a comparison that contradicts itself gives some order, and never a panic.
fn sort(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let function = if call.count() > 1 { Some(call.function(1)?) } else { None };
    let list = call.change_list(0, |list| Ok(std::mem::take(list)))?;
    let sorted = merge_sort(&list, &|left, right| match &function {
        Some(function) => Ok(call.back_for_truth(function, [right.clone(), left.clone()])?),
        None => {
            call.spend(1)?;
            Ok(order(right, left, "<")?.is_lt())
        }
    });
    // On failure the list returns unchanged.
    let kept = sorted.as_ref().map_or_else(|_| list.clone(), Array::clone);
    call.change_list(0, |list| {
        *list = kept;
        Ok(())
    })?;
    Ok(Dynamic::from_array(sorted?))
}

fn merge_sort(list: &[Dynamic], after: &dyn Fn(&Dynamic, &Dynamic) -> Result<bool, Trouble>) -> Result<Array, Trouble> {
    if list.len() < 2 {
        return Ok(list.to_vec());
    }
    let (left, right) = list.split_at(list.len() / 2);
    let mut left = merge_sort(left, after)?.into_iter().peekable();
    let mut right = merge_sort(right, after)?.into_iter().peekable();
    let mut merged = Array::with_capacity(list.len());
    loop {
        let take_right = match (left.peek(), right.peek()) {
            (Some(one), Some(other)) => after(one, other)?,
            (None, Some(_)) => true,
            (_, None) => false,
        };
        match if take_right { right.next() } else { left.next() } {
            Some(value) => merged.push(value),
            None => return Ok(merged),
        }
    }
}
