//! Functions of angles.

use super::call::Call;
use super::row::{Builtin, PLAIN, param};
use super::want::Want;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::to_dynamic;
use crate::measure::{Kind, Turn};
use rhai::Dynamic;

const ANGLE: Want = Want::Of(Kind::ANGLE);

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "sin",
        params: &[param("angle", ANGLE, "")],
        returns: Want::NUMBER,
        brief: "The sine: exact at 0°, 30° and 90°, and at the same angles in the other quarters.",
        examples: &[("sin(30deg)", "1/2")],
        run: |call| turn(call, Turn::Sine),
        ..PLAIN
    },
    Builtin {
        name: "cos",
        params: &[param("angle", ANGLE, "")],
        returns: Want::NUMBER,
        brief: "The cosine: exact at 0°, 60° and 90°, and at the same angles in the other quarters.",
        examples: &[("cos(60deg)", "1/2")],
        run: |call| turn(call, Turn::Cosine),
        ..PLAIN
    },
    Builtin {
        name: "tan",
        params: &[param("angle", ANGLE, "")],
        returns: Want::NUMBER,
        brief: "The tangent: exact at 0° and 45°, and at the same angles in the other quarters.",
        examples: &[("tan(45deg)", "1")],
        run: |call| turn(call, Turn::Tangent),
        ..PLAIN
    },
    Builtin {
        name: "asin",
        params: &[param("x", Want::NUMBER, "from -1 to 1")],
        returns: ANGLE,
        brief: "The angle from -90° to 90° with this sine.",
        examples: &[("asin(1/2)", "30°")],
        run: |call| turn_back(call, Turn::Sine),
        ..PLAIN
    },
    Builtin {
        name: "acos",
        params: &[param("x", Want::NUMBER, "from -1 to 1")],
        returns: ANGLE,
        brief: "The angle from 0° to 180° with this cosine.",
        examples: &[("acos(-1/2)", "120°")],
        run: |call| turn_back(call, Turn::Cosine),
        ..PLAIN
    },
    Builtin {
        name: "atan",
        params: &[param("x", Want::NUMBER, "rise divided by run")],
        returns: ANGLE,
        brief: "The angle from -90° to 90° with this tangent.",
        examples: &[("atan(1)", "45°"), ("atan(3\" / 3\")", "45°")],
        run: |call| turn_back(call, Turn::Tangent),
        ..PLAIN
    },
];

fn turn(call: &mut Call<'_, '_, '_>, function: Turn) -> Result<Dynamic, Trouble> {
    Ok(to_dynamic(call.quantity(0)?.turn(function)?))
}

fn turn_back(call: &mut Call<'_, '_, '_>, function: Turn) -> Result<Dynamic, Trouble> {
    Ok(to_dynamic(call.quantity(0)?.turn_back(function)?))
}
