//! `benchrule plan`: tables in, a plan out.

use std::io::{self, Read};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

use crate::args::PlanArgs;
use crate::cut::Limits;
use crate::diag::{Diagnostic, Says, says};
use crate::drive::Driver;
use crate::fact::rows;
use crate::host::{Host, LARGEST, write_table};
use crate::lang::cells::table as table_of;
use crate::measure::{Kind, Manner, Real, Unit, read};
use crate::plan::{Boarding, Cutting, Order, Rack, Saw, Stick, Whole, cutting, read_parts, read_stock};
use crate::rules::Design;
use crate::session::Planned;
use crate::show::answer::Asked;

/// So many findings of a table are told in full.
const MOST_TOLD: usize = 50;

/// Reads the tables, plans until the plan is proven, the time is over or `stop` is raised, and writes what came of it.
pub(super) fn plan(
    asked: &PlanArgs,
    host: &dyn Host,
    shop: &Design,
    stop: &AtomicBool,
    driver: &mut Driver,
) -> io::Result<()> {
    let manner = shop.manner();
    let bare = Some(shop.bare_unit());
    let mut found = Vec::new();
    let ready = saw(asked, shop).and_then(|saw| Ok((order(asked, host, bare, &mut found)?, saw)));
    let (order, saw) = match ready {
        Ok(ready) => ready,
        Err(one) => {
            found.insert(0, one);
            return driver.no_plan(&found);
        }
    };
    let start = Instant::now();
    let over = || stop.load(Ordering::Relaxed) || start.elapsed() >= asked.limit;
    let made = cutting(order, saw, bare, &Limits { steps: u64::MAX, stop: &over });
    let seconds = start.elapsed().as_secs_f64();
    if let Some(file) = &asked.out {
        let wrong = if same(file, &asked.parts) || same(file, &asked.stock) {
            Some(Diagnostic::new(format!("{} is one of the tables, and is not written over", file.display())))
        } else {
            write_table(host, file, &csv(&made, manner), "cutting plan").err().map(Diagnostic::from)
        };
        found.extend(wrong);
    }
    let whole = Whole {
        rack: Rack::default(),
        is_said: true,
        rows: (0..made.order.stock.len()).collect(),
        sticks: made,
        boards: Boarding::default(),
        sheets: Vec::new(),
        sheeting: Vec::new(),
    };
    driver.plan(Planned { whole, seconds, found, stops: Vec::new(), cautions: Vec::new() }, Asked::Tables, manner)
}

/// The plan as a table: a row for each part in a stick, in the order of cutting.
fn csv(cutting: &Cutting, manner: &Manner) -> String {
    let sticks = cutting.sticks.iter().enumerate().map(|(at, stick)| (cutting, at, stick));
    table_of(rows::table::<Stick>(sticks, manner))
}

fn same(left: &Path, right: &Path) -> bool {
    left == right
}

/// The saw of the shop, but for what is told.
fn saw(asked: &PlanArgs, shop: &Design) -> Result<Saw, Diagnostic> {
    let mut saw = Saw::of(shop);
    let bare = Some(shop.bare_unit());
    let set = |to: &mut Real, name: &str, text: &Option<String>| -> Result<(), Diagnostic> {
        let Some(text) = text else { return Ok(()) };
        let wanted = |says: Says| Diagnostic::new(says).hint(format!("--{name} 1/8in"));
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

/// Both tables; what is wrong with their cells goes to `found`.
fn order(
    asked: &PlanArgs,
    host: &dyn Host,
    bare: Option<&Unit>,
    found: &mut Vec<Diagnostic>,
) -> Result<Order, Diagnostic> {
    let (parts, parts_tell) = table(&asked.parts, host, found, |text, found| read_parts(text, bare, found))?;
    let (stock, stock_tells, pricing) = table(&asked.stock, host, found, |text, found| read_stock(text, bare, found))?;
    let both = |at: usize| parts_tell[at] && stock_tells[at];
    Ok(Order { parts, stock, by_wood: both(0), by_section: both(1), pricing })
}

fn table<T>(
    path: &Path,
    host: &dyn Host,
    found: &mut Vec<Diagnostic>,
    read: impl FnOnce(&str, &mut Vec<Diagnostic>) -> Result<T, Diagnostic>,
) -> Result<T, Diagnostic> {
    let text = if path == Path::new("-") { piped()? } else { host.read(path)? };
    let name = path.display().to_string();
    let mut own = Vec::new();
    let table = read(&text, &mut own);
    let more = own.len().saturating_sub(MOST_TOLD);
    own.truncate(MOST_TOLD);
    // Only what is told takes the whole text along.
    found.extend(own.into_iter().map(|one| one.inside(name.clone(), text.clone())));
    if more > 0 {
        found.push(Diagnostic::new(format!("{name} has {more} more cells or rows like these")));
    }
    table.map_err(|one| one.inside(name, text))
}

/// Standard input as text.
fn piped() -> Result<String, Diagnostic> {
    let mut bytes = Vec::new();
    let read = io::stdin().lock().take(LARGEST + 1).read_to_end(&mut bytes);
    read.map_err(|error| Diagnostic::new(format!("standard input cannot be read: {error}")))?;
    if u64::try_from(bytes.len()).unwrap_or(u64::MAX) > LARGEST {
        return Err(Diagnostic::new(format!("standard input is larger than {} MiB", LARGEST >> 20)));
    }
    let text = String::from_utf8(bytes).map_err(|_| Diagnostic::new("standard input is not UTF-8 text"))?;
    Ok(text.trim_start_matches('\u{feff}').to_string())
}
