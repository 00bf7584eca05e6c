//! Functions that turn values into text and text into values.

use std::fmt;

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::texts::made;
use super::want::Want;
use crate::diag::Fault;
use crate::lang::script::literal::shown;
use crate::lang::script::sort::Sort;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{Value, to_dynamic, to_quantity};
use crate::measure::write::exactly;
use crate::measure::{self, Kind, Quantity};

const TEXT: Param = param("text", Want::Text, "");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "text",
        params: &[param("x", Want::Anything, "")],
        returns: Want::Text,
        brief: "A value as text, as the bench shows it: a length on the tape.",
        examples: &[("text(11 3/8\")", "11 3/8\""), ("\"cut \" + text(5)", "cut 5")],
        run: text,
        ..PLAIN
    },
    Builtin {
        name: "to_string",
        params: &[param("x", Want::Anything, "")],
        returns: Want::Text,
        brief: "A value as text, like text(x); templates call it by this name.",
        examples: &[("to_string(5)", "5")],
        run: text,
        ..PLAIN
    },
    Builtin {
        name: "exact",
        params: &[param("x", Want::Quantity, "")],
        returns: Want::Text,
        brief: "A quantity as text that reads back as exactly the same value.",
        examples: &[("exact(1/3in)", "1/3in"), ("exact(400mm)", "400mm")],
        run: |call| Ok(exactly(&call.quantity(0)?).into()),
        ..PLAIN
    },
    Builtin {
        name: "parse",
        params: &[TEXT],
        returns: Want::Anything,
        brief: "The quantity or size written in a text.",
        examples: &[("parse(\"11 3/8\\\"\")", "11 3/8\"")],
        run: |call| Ok(read(call)?.into_dynamic()),
        ..PLAIN
    },
    Builtin {
        name: "number",
        params: &[param("x", Want::Either(&[Want::Text, Want::Quantity]), "text, or a plain number")],
        returns: Want::NUMBER,
        brief: "The plain number written in a text.",
        examples: &[("number(\"3/4\")", "3/4"), ("number(5)", "5")],
        run: number,
        ..PLAIN
    },
    Builtin {
        name: "kind",
        params: &[param("x", Want::Anything, "")],
        returns: Want::Text,
        brief: "The kind of a value: number, length, area, mass, angle, text, yes/no, list and so on.",
        examples: &[("kind(5\")", "length"), ("kind(5\" * 2\")", "area"), ("kind([])", "list")],
        run: |call| Ok(Sort::of(call.value(0)?).to_string().into()),
        ..PLAIN
    },
];

fn text(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = call.bench(|bench| shown(call.value(0)?, &bench.manner.borrow()).map_err(Trouble::from))??;
    made(call, text)
}

/// The fault for a value that is not a plain number, with a line that makes it one.
#[derive(Debug)]
struct NotPlain(Sort, Option<String>);

impl fmt::Display for NotPlain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is not a plain number: name the unit to count in", self.0.with_article())
    }
}

impl Fault for NotPlain {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        self.1.clone()
    }

    fn argument(&self) -> Option<usize> {
        Some(0)
    }
}

fn read(call: &mut Call<'_, '_, '_>) -> Result<Value, Trouble> {
    let text = call.text(0)?;
    Ok(measure::read::read(&text, None)?.into())
}

fn number(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let value = match to_quantity(call.value(0)?) {
        Some(quantity) => to_dynamic(quantity),
        None => read(call)?.into_dynamic(),
    };
    match to_quantity(&value) {
        Some(Quantity { kind: Kind::NUMBER, .. }) => Ok(value),
        Some(quantity) => Err(no_number(&quantity).into()),
        None => Err(NotPlain(Sort::of(&value), None).into()),
    }
}

fn no_number(quantity: &Quantity) -> NotPlain {
    let hint = (quantity.kind == Kind::LENGTH).then(|| format!("inches({})", exactly(quantity)));
    NotPlain(Sort::Kind(quantity.kind), hint)
}
