//! Functions of numbers and of quantities of any kind.

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::lang::script::compare::Mismatch;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{to_dynamic, to_quantity};
use crate::measure::{Quantity, Real, Toward};

const X: Param = param("x", Want::Quantity, "a plain number; with a step, any quantity");
const STEP: Param = param("step", Want::Quantity, "of the same kind, above zero");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "abs",
        params: &[param("x", Want::Quantity, "")],
        returns: Want::Quantity,
        brief: "A quantity without its sign.",
        examples: &[("abs(-3/8\")", "3/8\""), ("abs(2)", "2")],
        run: |call| Ok(to_dynamic(call.quantity(0)?.absolute()?)),
        ..PLAIN
    },
    Builtin {
        name: "sum",
        params: &[param("list", Want::List, "quantities of one kind")],
        returns: Want::Quantity,
        brief: "The sum of a list; 0 if it is empty.",
        examples: &[("sum([5\", 3 1/2\"])", "8 1/2\""), ("sum([])", "0")],
        run: sum,
        ..PLAIN
    },
    Builtin {
        name: "round",
        params: &[X, STEP],
        least: 1,
        returns: Want::Quantity,
        brief: "The nearest whole number, or the nearest multiple of a step; halves round up.",
        examples: &[("round(7/2)", "4"), ("round(11 13/32\", 1/16\")", "11 7/16\"")],
        run: |call| stepped(call, Toward::Nearest, "round"),
        ..PLAIN
    },
    Builtin {
        name: "nearest",
        params: &[X, STEP],
        returns: Want::Quantity,
        brief: "The nearest multiple of a step; halves round up.",
        examples: &[("nearest(11.37in, 1/16\")", "11 3/8\"")],
        run: |call| stepped(call, Toward::Nearest, "nearest"),
        ..PLAIN
    },
    Builtin {
        name: "up",
        params: &[X, STEP],
        returns: Want::Quantity,
        brief: "The smallest multiple of a step that is not below x.",
        examples: &[("up(16 49/64\", 1/16\")", "16 13/16\"")],
        run: |call| stepped(call, Toward::Up, "up"),
        ..PLAIN
    },
    Builtin {
        name: "down",
        params: &[X, STEP],
        returns: Want::Quantity,
        brief: "The largest multiple of a step that is not above x.",
        examples: &[("down(16 49/64\", 1/16\")", "16 3/4\"")],
        run: |call| stepped(call, Toward::Down, "down"),
        ..PLAIN
    },
    Builtin {
        name: "floor",
        params: &[param("x", Want::Quantity, "a plain number")],
        returns: Want::NUMBER,
        brief: "The largest whole number that is not above x.",
        examples: &[("floor(7/2)", "3"), ("floor(-1/2)", "-1")],
        run: |call| whole(call, Toward::Down, "floor"),
        ..PLAIN
    },
    Builtin {
        name: "ceil",
        params: &[param("x", Want::Quantity, "a plain number")],
        returns: Want::NUMBER,
        brief: "The smallest whole number that is not below x.",
        examples: &[("ceil(7/2)", "4")],
        run: |call| whole(call, Toward::Up, "ceil"),
        ..PLAIN
    },
    Builtin {
        name: "sqrt",
        params: &[param("x", Want::Quantity, "a number or an area")],
        returns: Want::Quantity,
        brief: "The square root: exact where it is a fraction, approximate elsewhere.",
        examples: &[("sqrt(9/16)", "3/4"), ("sqrt(144in2)", "12\"")],
        run: |call| Ok(to_dynamic(call.quantity(0)?.root()?)),
        ..PLAIN
    },
];

fn sum(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    call.with_list(0, |list| {
        let mut sum: Option<Quantity> = None;
        for value in list {
            call.spend(1)?;
            let next = to_quantity(value).ok_or_else(|| Mismatch::of("add", &0.into(), value))?;
            sum = Some(match sum {
                Some(sum) => sum.add(&next)?,
                None => next,
            });
        }
        Ok(to_dynamic(sum.unwrap_or(Quantity::number(Real::ZERO))))
    })
}

/// Rounds to a whole number.
fn whole(call: &mut Call<'_, '_, '_>, toward: Toward, name: &'static str) -> Result<Dynamic, Trouble> {
    Ok(to_dynamic(call.quantity(0)?.stepped(None, toward, name)?))
}

fn stepped(call: &mut Call<'_, '_, '_>, toward: Toward, name: &'static str) -> Result<Dynamic, Trouble> {
    let step = if call.count() > 1 { Some(call.quantity(1)?) } else { None };
    Ok(to_dynamic(call.quantity(0)?.stepped(step.as_ref(), toward, name)?))
}
