//! Functions that print, log and report progress.

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, param};
use super::want::Want;
use crate::lang::script::literal::shown;
use crate::lang::script::powers::Aside;
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
        brief: "Shows a value in full on a line of its own, to find faults in a script.",
        examples: &[("debug([1, 2])", "")],
        run: print,
        ..PLAIN
    },
    Builtin {
        name: "log",
        params: &[param("x", Want::Anything, "")],
        returns: Want::Nothing,
        brief: "Writes a value to standard error, apart from the script's answers.",
        examples: &[("log(\"three of twelve\")", "")],
        run: |call| {
            let text = call.bench(|bench| shown(call.value(0)?, &bench.manner.borrow()).map_err(Trouble::from))??;
            aside(call, Aside::Log(text))
        },
        ..PLAIN
    },
    Builtin {
        name: "progress",
        params: &[param("done", Want::Whole, "how many are done"), param("of", Want::Whole, "how many there are")],
        returns: Want::Nothing,
        brief: "Shows the progress of a long script at a terminal.",
        examples: &[("progress(3, 12)", "")],
        run: |call| {
            let count = |argument| Ok::<_, Trouble>(u64::try_from(call.whole(argument)?).unwrap_or(0));
            let (done, of) = (count(0)?, count(1)?);
            aside(call, Aside::Progress(done.min(of), of))
        },
        ..PLAIN
    },
];

/// Passes on what a script reports while it runs; it counts as printed.
fn aside(call: &Call<'_, '_, '_>, aside: Aside) -> Result<Dynamic, Trouble> {
    let bytes = if let Aside::Log(text) = &aside { text.len() } else { 0 };
    call.bench(|bench| bench.watch.text(bytes).and_then(|()| bench.watch.print(bytes + LINE)))??;
    call.bench(|bench| bench.workshop().hear(&aside))?;
    Ok(Dynamic::UNIT)
}

/// Memory of a line beside its letters.
const LINE: usize = 32;

/// Returns the text; the engine passes it to the printer.
fn print(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = match call.count() {
        0 => String::new(),
        _ => call.bench(|bench| shown(call.value(0)?, &bench.manner.borrow()).map_err(Trouble::from))??,
    };
    // Even an empty line takes memory.
    call.bench(|bench| bench.watch.text(text.len()).and_then(|()| bench.watch.print(text.len() + LINE)))??;
    Ok(text.into())
}
