//! The design book for scripts.

use std::fmt;
use std::rc::Rc;

use rhai::{Array, Dynamic};

use super::call::Call;
use super::row::{Builtin, PLAIN, param};
use super::want::Want;
use crate::book::Entry;
use crate::diag::Fault;
use crate::fact::Fact;
use crate::lang::script::design::Design;
use crate::lang::script::powers::BookHandle;
use crate::lang::script::trouble::Trouble;

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "keep",
        params: &[
            param("d", Want::Design, "the design"),
            param("name", Want::Text, "name of the design in the book"),
            param("note", Want::Text, "note to save with it"),
        ],
        least: 2,
        returns: Want::Text,
        brief: "Saves a design in the book and returns its name and revision once it is on disk.",
        examples: &[],
        run: keep,
        ..PLAIN
    },
    Builtin {
        name: "open_design",
        params: &[param("name", Want::Text, "name of the design, or one revision: moth-07@2")],
        returns: Want::Design,
        brief: "Opens a design of the book, separate from the one at the bench.",
        examples: &[],
        run: open,
        ..PLAIN
    },
    Builtin {
        name: "book",
        params: &[param("what", Want::Text, "words to find, or if and a condition, as with `find`")],
        least: 0,
        returns: Want::List,
        shape: Some(Entry::SHAPE),
        brief: "Designs of the book, newest first, each a map.",
        examples: &[],
        run: book,
        ..PLAIN
    },
];

/// There is no book where the script runs.
#[derive(Debug)]
struct NoBook;

impl fmt::Display for NoBook {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the design book is not available here")
    }
}

impl Fault for NoBook {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::NOT_HERE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

fn shelf(call: &Call<'_, '_, '_>) -> Result<Rc<dyn BookHandle>, Trouble> {
    Ok(call.bench(|bench| bench.powers.book())?.ok_or(NoBook)?)
}

fn keep(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let design = call.value(0)?.read_lock::<Design>().map(|design| Rc::clone(&design.0)).ok_or(NoBook)?;
    let (name, note) = (call.text(1)?, if call.count() > 2 { Some(call.text(2)?) } else { None });
    Ok(shelf(call)?.keep(&*design, &name, note.as_deref())?.into())
}

fn open(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let name = call.text(0)?;
    Ok(Dynamic::from(Design(shelf(call)?.open(&name)?)))
}

fn book(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let what = if call.count() > 0 { Some(call.text(0)?) } else { None };
    let entries = shelf(call)?.list(what.as_deref())?;
    call.spend(entries.len())?;
    call.bench(|bench| bench.watch.entries(entries.len()))??;
    Ok(Dynamic::from_array(entries.into_iter().map(crate::lang::Value::into_dynamic).collect::<Array>()))
}
