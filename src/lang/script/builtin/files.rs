//! Functions for the files in granted folders.

use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::diag::{Diagnostic, Fault, codes, list};
use crate::lang::script::json::{read_json, write_json};
use crate::lang::script::powers::FileHandle;
use crate::lang::script::tables::{read_table, write_table};
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::Value;

const PATH: Param = param("path", Want::Text, "path of the file, below a granted folder");
const OPTIONS: Param = param("options", Want::Map, "#{replace: true} replaces an existing file");

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "read_text",
        params: &[PATH],
        returns: Want::Text,
        brief: "The text of a file below the current folder, or below those of --read.",
        run: |call| Ok(read(call)?.1.into()),
        ..PLAIN
    },
    Builtin {
        name: "write_text",
        params: &[PATH, param("text", Want::Text, "what to write"), OPTIONS],
        least: 2,
        returns: Want::Nothing,
        brief: "Writes a text file below a folder of --write or --out, whole or not at all.",
        run: |call| {
            let text = call.text(1)?;
            write(call, &text, &["replace"])
        },
        ..PLAIN
    },
    Builtin {
        name: "read_table",
        params: &[PATH],
        returns: Want::List,
        brief: "The rows of a table (commas, semicolons or tabs), each a map from column to quantity, number or text.",
        run: table,
        ..PLAIN
    },
    Builtin {
        name: "write_table",
        params: &[
            PATH,
            param("rows", Want::List, "rows, each a map from column to value"),
            param(
                "options",
                Want::Map,
                "#{replace: true} replaces an existing file; #{columns: [\"name\"]} picks the columns in order",
            ),
        ],
        least: 2,
        returns: Want::Nothing,
        brief: "Writes rows to a table with commas; no cell runs as a formula in a spreadsheet.",
        run: put_table,
        ..PLAIN
    },
    Builtin {
        name: "read_json",
        params: &[PATH],
        returns: Want::Anything,
        brief: "The value in a JSON file: maps, lists, exact numbers, text.",
        run: |call| {
            let (path, text) = read(call)?;
            held(call, text.len())?;
            Ok(read_json(&path, &text)?.into_dynamic())
        },
        ..PLAIN
    },
    Builtin {
        name: "write_json",
        params: &[PATH, param("value", Want::Anything, "what to write"), OPTIONS],
        least: 2,
        returns: Want::Nothing,
        brief: "Writes a value to a JSON file; a quantity becomes text that parse() reads back.",
        run: |call| {
            let text = write_json(&Value::try_from(call.value(1)?)?)?;
            write(call, &text, &["replace"])
        },
        ..PLAIN
    },
];

/// The fault if no folder is granted.
#[derive(Debug)]
struct NoFiles;

impl fmt::Display for NoFiles {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a house style cannot reach files")
    }
}

impl Fault for NoFiles {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::file::OUTSIDE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

fn files(call: &Call<'_, '_, '_>) -> Result<Rc<dyn FileHandle>, Trouble> {
    Ok(call.bench(|bench| bench.powers.files())?.ok_or(NoFiles)?)
}

/// The path of a file as given, and its text.
fn read(call: &Call<'_, '_, '_>) -> Result<(String, String), Trouble> {
    let path = call.text(0)?;
    let most = call.bench(|bench| bench.watch.limits().read)?;
    let text = files(call)?.read(&path, most)?;
    call.spend(text.len() / BYTES_A_STEP)?;
    Ok((path.to_string(), text))
}

/// Bytes read or written for one step.
const BYTES_A_STEP: usize = 64;

/// Memory for each byte of a text read as values: a digit and a comma become a cell with a name.
const HELD_A_BYTE: usize = 16;

/// Checks that the values of a text of so many bytes may be held.
fn held(call: &Call<'_, '_, '_>, bytes: usize) -> Result<(), Trouble> {
    Ok(call.bench(|bench| bench.watch.hold(bytes.saturating_mul(HELD_A_BYTE)))??)
}

fn table(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let (path, text) = read(call)?;
    held(call, text.len())?;
    let rows = read_table(&path, &text)?;
    call.bench(|bench| bench.watch.entries(rows.len()))??;
    call.spend(rows.iter().map(BTreeMap::len).sum())?;
    Ok(Value::List(rows.into_iter().map(Value::Map).collect()).into_dynamic())
}

fn put_table(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let Value::List(rows) = Value::try_from(call.value(1)?)? else { return Err(NoFiles.into()) };
    let row = |(at, row): (usize, Value)| {
        let wrong = format!("row {} is {}, but a row is a map from column to value", at + 1, row.what());
        if let Value::Map(row) = row { Ok(row) } else { Err(Diagnostic::of(&codes::script::ARGUMENT, wrong)) }
    };
    let rows = rows.into_iter().enumerate().map(row).collect::<Result<Vec<_>, _>>()?;
    let columns = match option(call, 2, "columns")? {
        None => None,
        Some(Value::List(columns)) => {
            let names: Option<Vec<String>> = columns.iter().map(|column| column.text().map(Into::into)).collect();
            Some(names.ok_or_else(|| Diagnostic::of(&codes::script::ARGUMENT, "columns takes a list of names"))?)
        }
        Some(other) => {
            return Err(Diagnostic::of(
                &codes::script::ARGUMENT,
                format!("columns takes a list of names, not {}", other.what()),
            )
            .into());
        }
    };
    let text = write_table(&rows, columns)?;
    write(call, &text, &["columns", "replace"])
}

/// An option of a call, if it is given.
fn option(call: &Call<'_, '_, '_>, argument: usize, name: &str) -> Result<Option<Value>, Trouble> {
    if call.count() <= argument {
        return Ok(None);
    }
    call.with_map(argument, |map| Ok(map.get(name).map(Value::try_from).transpose()?))
}

/// Writes a text to the file in the first argument, with the options in the third.
fn write(call: &Call<'_, '_, '_>, text: &str, known: &[&str]) -> Result<Dynamic, Trouble> {
    if call.count() > 2 {
        let other = call.with_map(2, |map| Ok(map.keys().find(|key| !known.contains(&key.as_str())).cloned()))?;
        if let Some(other) = other {
            let message = format!("there is no option `{other}`; choose from {}", list(known, "and"));
            return Err(Diagnostic::of(&codes::script::ARGUMENT, message).into());
        }
    }
    let replace = match option(call, 2, "replace")? {
        None => false,
        Some(Value::Truth(replace)) => replace,
        Some(other) => {
            return Err(Diagnostic::of(
                &codes::script::ARGUMENT,
                format!("replace takes true or false, not {}", other.what()),
            )
            .into());
        }
    };
    call.spend(text.len() / BYTES_A_STEP)?;
    call.bench(|bench| bench.watch.write(text.len()))??;
    files(call)?.write(&call.text(0)?, text, replace)?;
    Ok(Dynamic::UNIT)
}
