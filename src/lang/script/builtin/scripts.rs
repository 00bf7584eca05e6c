//! Functions that reach out of the script.

use rhai::Dynamic;

use super::{Builtin, Call, PLAIN, Want, param};
use crate::lang::script::literal::shown;
use crate::lang::script::trouble::Trouble;

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "print",
        params: &[param("x", Want::Anything, "")],
        least: 0,
        returns: Want::Nothing,
        brief: "Shows a value on a line of its own.",
        examples: &[("print(\"cut list\")", "")],
        run: print,
        ..PLAIN
    },
    Builtin {
        name: "debug",
        params: &[param("x", Want::Anything, "")],
        least: 0,
        returns: Want::Nothing,
        brief: "Shows a value on a line of its own, for looking into a script.",
        examples: &[("debug([1, 2])", "")],
        run: print,
        ..PLAIN
    },
];

/// What a line takes beside its letters.
const LINE: usize = 32;

/// The text alone: the engine itself hands it to where lines go.
fn print(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = match call.count() {
        0 => String::new(),
        _ => call.bench(|bench| shown(call.value(0)?, &bench.manner.borrow()).map_err(Trouble::from))??,
    };
    // Each line takes room of its own, an empty one too.
    call.bench(|bench| bench.watch.text(text.len()).and_then(|()| bench.watch.print(text.len() + LINE)))??;
    Ok(text.into())
}
