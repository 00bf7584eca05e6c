//! `benchrule plan`: tables in, a plan out.

use std::io::{self, Read};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use crate::args::PlanArgs;
use crate::cut::Limits;
use crate::diag::{Diagnostic, Says, codes, says};
use crate::drive::Driver;
use crate::host::{Host, LARGEST, named_otherwise, write_table};
use crate::measure::{Kind, Real, read};
use crate::plan::{Rack, Saw, Work, plan_csv, read_parts};
use crate::rules::Design;
use crate::session::{Planned, read_rack};
use crate::show::answer::Asked;
use crate::table::capped;

/// Reads the tables, plans until the plan is proven, the time is over or `stop` is raised, and writes what came of it.
pub(super) fn plan(
    asked: &PlanArgs,
    host: &dyn Host,
    shop: &Design,
    stop: &AtomicBool,
    driver: &mut Driver,
) -> io::Result<()> {
    let manner = shop.manner();
    let mut found = Vec::new();
    if let Some(other) = asked.out.as_deref().and_then(named_otherwise) {
        let file = asked.out.as_deref().map(|file| file.display().to_string()).unwrap_or_default();
        let message = format!("a cutting plan is written as a table, and {file} is named like another file");
        return driver
            .no_plan(&[Diagnostic::of(&codes::file::OTHER, message).hint(format!("--out {}", other.display()))]);
    }
    let ready = saw(asked, shop).and_then(|saw| Ok((tables(asked, host, shop, &mut found)?, saw)));
    let ((work, rack, notes), saw) = match ready {
        Ok(ready) => ready,
        Err(one) => {
            found.insert(0, one);
            return driver.no_plan(&found);
        }
    };
    if work.is_empty() {
        // Rows with faults say so themselves.
        if found.is_empty() {
            let message = format!("{} has no parts to plan", name_of(&asked.parts));
            found.push(Diagnostic::of(&codes::plan::NOTHING, message).hint("rail,16 1/2,2"));
        }
        return driver.no_plan(&found);
    }
    let start = Instant::now();
    let over = || stop.load(Ordering::Relaxed) || start.elapsed() >= asked.limit;
    let planned = Planned::of(work, rack, shop, &saw, &Limits { steps: u64::MAX, stop: &over });
    if let Some(file) = &asked.out {
        let is_table = *file == asked.parts || asked.stock.as_ref() == Some(file);
        let wrong = if is_table {
            Some(Diagnostic::of(
                &codes::file::OTHER,
                format!("{} is one of the input tables; not overwritten", file.display()),
            ))
        } else {
            write_table(host, file, &plan_csv(&planned.whole, manner), "cutting plan").err().map(Diagnostic::from)
        };
        found.extend(wrong);
    }
    let place = if asked.stock.is_some() { Asked::Tables } else { Asked::Bench };
    driver.plan(&Planned { found, notes, ..planned }, place, manner)
}

/// The saw of the shop, with the options of the run.
fn saw(asked: &PlanArgs, shop: &Design) -> Result<Saw, Diagnostic> {
    let mut saw = Saw::of(shop);
    let bare = Some(shop.bare_unit());
    let set = |to: &mut Real, name: &str, text: &Option<String>| -> Result<(), Diagnostic> {
        let Some(text) = text else { return Ok(()) };
        let wanted = |says: Says| Diagnostic::of(&codes::setting::VALUE, says).hint(format!("--{name} 1/8in"));
        let length = read::quantity(text, bare).map_err(|one| wanted(one.says.within(says!("--{} {}", name, text))))?;
        if length.kind != Kind::LENGTH || length.amount.is_negative() {
            return Err(wanted(says!("--{} takes a length from 0, not {}", name, text)));
        }
        *to = length.amount;
        Ok(())
    };
    set(&mut saw.kerf, "kerf", &asked.kerf)?;
    set(&mut saw.trim, "trim", &asked.trim)?;
    set(&mut saw.offcut, "offcut", &asked.offcut)?;
    Ok(saw)
}

/// What is planned, out of what, and what was not read as it is written.
type Tables = (Work, Option<Rack>, Vec<String>);

/// The parts, and the stock: a table of the run, or what the shop has. What is wrong with their cells goes to `found`.
fn tables(asked: &PlanArgs, host: &dyn Host, shop: &Design, found: &mut Vec<Diagnostic>) -> Result<Tables, Diagnostic> {
    let bare = Some(shop.bare_unit());
    let (work, mut notes) = table(&asked.parts, host, found, |name, text, own| read_parts(name, text, bare, own))?;
    let rack = match &asked.stock {
        Some(stock) => Some(table(stock, host, found, |name, text, own| Rack::read(name, text, bare, own))?),
        None => read_rack(host, shop, found)?,
    };
    notes.extend(rack.iter().flat_map(|rack| rack.notes.iter().cloned()));
    Ok((work, rack, notes))
}

fn table<T>(
    path: &Path,
    host: &dyn Host,
    found: &mut Vec<Diagnostic>,
    read: impl FnOnce(&str, &[u8], &mut Vec<Diagnostic>) -> Result<T, Diagnostic>,
) -> Result<T, Diagnostic> {
    let name = name_of(path);
    let text = bytes(if is_pipe(path) { Box::new(io::stdin().lock()) } else { host.reading(path)? }, &name)?;
    let mut own = Vec::new();
    let table = read(&name, &text, &mut own);
    found.extend(capped(own, &name));
    table
}

/// Whether a table comes from standard input.
fn is_pipe(path: &Path) -> bool {
    path == Path::new("-")
}

/// What a table is called in messages.
fn name_of(path: &Path) -> String {
    if is_pipe(path) { "standard input".into() } else { path.display().to_string() }
}

/// All bytes of a table, which need not be text: a line that is not is a fault of its own.
fn bytes(input: impl Read, name: &str) -> Result<Vec<u8>, Diagnostic> {
    let mut bytes = Vec::new();
    let read = input.take(LARGEST + 1).read_to_end(&mut bytes);
    read.map_err(|error| Diagnostic::of(&codes::file::OTHER, format!("{name} cannot be read: {error}")))?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > LARGEST {
        return Err(Diagnostic::of(&codes::file::OTHER, format!("{name} is larger than {} MiB", LARGEST >> 20)));
    }
    Ok(bytes)
}
