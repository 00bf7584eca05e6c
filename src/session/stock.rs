//! What the shop has: `stock` shown, added to, dropped from, given units; `plan take` and `plan put back`.
//!
//! Whoever changes the table holds it from reading to writing, so that no change of another shell is lost. A take writes
//! its record, with the stock before and after, before it writes the stock: the next program that looks at the stock
//! finishes a take that was cut short.

use std::path::PathBuf;

use super::reply::{Faults, Reply};
use super::session::Session;
use crate::diag::{Diagnostic, codes, count};
use crate::host::{Hold, Host, Trouble};
use crate::measure::Unit;
use crate::plan::{Booking, Pending, Rack, Takes};
use crate::rules::Design;
use crate::table::{self, capped};
use crate::word::{Args, Kind};

/// The table of what the shop has, in the folder of its settings.
pub const STOCK: &str = "stock.csv";
/// What plans that were taken booked, beside it: before and after of each change.
const TAKES: &str = "stock.takes.json";

impl Session {
    pub(super) fn host(&self) -> &dyn Host {
        self.shelf.host()
    }

    fn bare(&self) -> Option<&'static Unit> {
        Unit::named(self.settings.unit())
    }

    fn hold_stock(&self) -> Result<Hold, Diagnostic> {
        finish_takes(self.host())?;
        Ok(self.host().hold(&file(self.host(), STOCK)?)?)
    }

    /// The text of the stock, if there is any, with no take unfinished.
    pub(super) fn stock_text(&self) -> Result<Option<String>, Diagnostic> {
        finish_takes(self.host())?;
        text_of(self.host(), STOCK)
    }

    /// What the shop has, to be changed and written back: nothing while a row cannot be read, which would be lost.
    pub(super) fn whole_rack(&self) -> Result<Rack, Faults> {
        let Some(text) = text_of(self.host(), STOCK)? else { return Ok(Rack::default()) };
        let mut found = Vec::new();
        let rack = self.bench.look(|design| rack_of(&text, design, &mut found))?;
        if found.is_empty() { Ok(rack) } else { Err(capped(found, STOCK).into()) }
    }

    /// Books the last plan's stock out and its offcuts in, if the plan is still the one that would be made.
    pub(super) fn plan_take(&mut self, _: &Args) -> Result<Reply, Faults> {
        let Some(made) = &self.planned else {
            return Err(Diagnostic::of(&codes::stock::PLAN, "there is no plan to take yet").hint("help plan").into());
        };
        let whole = &made.planned.whole;
        if !whole.is_recorded {
            let message = "there is no stock on record to take from";
            return Err(Diagnostic::of(&codes::stock::NOT_RECORDED, message).hint("help stock").into());
        }
        if whole.pieces() == 0 {
            let message = "this plan takes nothing out of stock, so there is nothing to take";
            return Err(Diagnostic::of(&codes::stock::PLAN, message).hint("stock").into());
        }
        let hold = self.hold_stock()?;
        let old = |what: &str| {
            let message = format!("{what} since the plan was made, so it is not taken; plan again and look");
            Err(Diagnostic::of(&codes::stock::PLAN, message).hint(made.asked.line()).into())
        };
        if text_of(self.host(), STOCK)? != made.stock {
            return old("the stock was changed");
        }
        let designs = self.designs_of(&made.asked)?;
        if !self.bench.look(|shop| made.is_of(&designs, shop)) {
            return old("the design, or how the shop saws, was changed");
        }
        let before = self.whole_rack()?;
        let taken = whole.taken();
        let added = match whole.offcuts() {
            0 => String::new(),
            more => format!(", added {}", count(more, "offcut")),
        };
        let said = format!("took {} from stock{added}; `plan put back` undoes it", whole.pieces());
        let mut takes = read_takes(self.host())?;
        takes.bookings.push(Booking::between(&before, &taken));
        book(self.host(), takes, &taken)?;
        drop(hold);
        self.planned = None;
        Ok(Reply::Stock { rack: taken, said: Some(said) })
    }

    /// Puts back what the last take still booked out of stock took, and nothing else.
    pub(super) fn plan_put_back(&mut self, _: &Args) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let mut takes = read_takes(self.host())?;
        let Some(booking) = takes.bookings.pop() else {
            return Err(Diagnostic::of(&codes::stock::PLAN, "there is no take left to put back")
                .hint("help plan")
                .into());
        };
        let rack = booking.put_back(&self.whole_rack()?)?;
        let left = takes.bookings.len();
        book(self.host(), takes, &rack)?;
        let more = match left {
            0 => String::new(),
            more => format!("; {} before it can be put back too", count(more, "take")),
        };
        Ok(Reply::Stock {
            rack,
            said: Some(format!("what the plan took is back in stock, and its offcuts are out{more}")),
        })
    }

    /// What the shop has; of a table without units both readings.
    pub(super) fn stock(&mut self, _: &Args) -> Result<Reply, Faults> {
        if let Some(text) = self.stock_text()?
            && self.bench.look(|design| is_bare(&text, design))?
        {
            return Ok(Reply::BareStock(Rack::readings(STOCK, &text)?));
        }
        Ok(Reply::Stock { rack: self.whole_rack()?, said: None })
    }

    pub(super) fn stock_add(&mut self, args: &Args) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let mut rack = self.whole_rack()?;
        let start = args.span(Kind::Cells).start;
        self.add(&mut rack, args.text(Kind::Cells))
            .map_err(|Faults(found)| found.into_iter().map(|fault| fault.shifted(start)).collect::<Vec<_>>())?;
        write(self.host(), STOCK, &rack.text())?;
        Ok(Reply::Stock { rack, said: None })
    }

    pub(super) fn stock_drop(&mut self, args: &Args) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let mut rack = self.whole_rack()?;
        let row = args.number(Kind::Row);
        if row == 0 || row > rack.items.len() {
            let rows = rack.items.len();
            let message = match rows {
                0 => "the stock has no rows to drop".to_string(),
                1 => format!("the stock has one row; there is no row {row}"),
                rows => format!("the stock has rows 1 to {rows}; there is no row {row}"),
            };
            return Err(Diagnostic::of(&codes::stock::ROW, message).at(args.span(Kind::Row)).hint("stock").into());
        }
        rack.items.remove(row - 1);
        write(self.host(), STOCK, &rack.text())?;
        Ok(Reply::Stock { rack, said: None })
    }

    /// Gives lengths without a unit this one.
    pub(super) fn stock_unit(&mut self, unit: &str) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let (Some(text), Some(unit)) = (text_of(self.host(), STOCK)?, Unit::named(unit)) else {
            return Err(Diagnostic::of(&codes::stock::NOT_RECORDED, "there is no stock yet").hint("help stock").into());
        };
        if !self.bench.look(|design| is_bare(&text, design))? {
            return Err(Diagnostic::of(&codes::stock::UNIT, "every length in stock has a unit already")
                .hint("stock")
                .into());
        }
        let text = Rack::with_units(STOCK, &text, unit).map_err(|found| capped(found, STOCK))?;
        if self.bench.look(|design| is_bare(&text, design))? {
            let message = format!("a size in {STOCK} has a unit at its first part alone; write one at each part there");
            return Err(Diagnostic::of(&codes::stock::UNIT, message).hint("stock").into());
        }
        let mut found = Vec::new();
        let rack = self.bench.look(|design| rack_of(&text, design, &mut found))?;
        if !found.is_empty() {
            return Err(capped(found, STOCK).into());
        }
        write(self.host(), STOCK, &rack.text())?;
        Ok(Reply::Stock { rack, said: None })
    }

    /// Whether a row could be added to the stock as it is.
    pub(super) fn takes_row(&self, cells: &str) -> bool {
        self.whole_rack().is_ok_and(|mut rack| self.add(&mut rack, cells).is_ok())
    }

    /// The line that adds a row, with a unit at every length.
    fn add_line(&self, row: &str) -> String {
        let whole = format!("{}\n{row}\n", Rack::head());
        let settled = self.bare().and_then(|unit| Rack::with_units(STOCK, &whole, unit).ok());
        let row = settled.as_ref().and_then(|text| text.lines().last()).unwrap_or(row);
        format!("stock add {}", row.trim_end_matches([',', ' ']))
    }

    /// Adds a row to the rack; what is wrong with a cell has its place in `cells`.
    fn add(&self, rack: &mut Rack, cells: &str) -> Result<(), Faults> {
        let lacking = Rack::columns().count().saturating_sub(table::cells(cells).len());
        let row = format!("{cells}{}", ",".repeat(lacking));
        let mut wrong = Vec::new();
        let more = Rack::read(STOCK, format!("{}\n{row}\n", Rack::head()), self.bare(), &mut wrong)?;
        if !wrong.is_empty() {
            let here = |fault: Diagnostic| {
                // A cell that is not there is missing behind all others.
                let span = fault.span.clone().filter(|span| span.end <= cells.len() && span.start < span.end);
                let line = fault.line().filter(|row| row.contains(',')).map(|row| self.add_line(&row));
                Diagnostic { span, source: None, ..fault }.hint(line.unwrap_or_else(|| "help stock".into()))
            };
            return Err(wrong.into_iter().map(here).collect::<Vec<_>>().into());
        }
        for item in more.items {
            rack.may_take(&item)?;
            rack.items.push(item);
        }
        Ok(())
    }
}

fn file(host: &dyn Host, name: &str) -> Result<PathBuf, Diagnostic> {
    let folder = host
        .config()
        .ok_or_else(|| Diagnostic::of(&codes::file::MISSING, "there is no folder for the stock of the shop"))?;
    Ok(folder.join(name))
}

/// The text of a file of the shop, if it is there.
fn text_of(host: &dyn Host, name: &str) -> Result<Option<String>, Diagnostic> {
    match host.read(&file(host, name)?) {
        Ok(text) => Ok(Some(text)),
        Err(fault) if fault.trouble == Trouble::Missing => Ok(None),
        Err(fault) => Err(fault.into()),
    }
}

/// Writes a file of the shop, whole or not at all, and safe on disk when this returns.
fn write(host: &dyn Host, name: &str, text: &str) -> Result<(), Diagnostic> {
    Ok(host.writing(&file(host, name)?, &mut |out| out.write_all(text.as_bytes()))?)
}

pub(super) fn read_takes(host: &dyn Host) -> Result<Takes, Diagnostic> {
    let Some(text) = text_of(host, TAKES)? else { return Ok(Takes::default()) };
    let folder = host.config().map(|folder| folder.display().to_string()).unwrap_or_default();
    Takes::read(&text).map_err(|fault| {
        let context = format!(
            "{TAKES} in {folder} cannot be read, and only with it can a plan be taken or undone; move it out of there, or \
             put a copy in its place"
        );
        fault.within(context)
    })
}

/// Makes the stock what a take, or a put back, makes of it. Whatever ends the program on the way, the record says what the
/// stock was and what it is to be.
fn book(host: &dyn Host, takes: Takes, stock: &Rack) -> Result<(), Diagnostic> {
    let pending = Pending { before: text_of(host, STOCK)?, after: stock.text() };
    let after = pending.after.clone();
    write(host, TAKES, &Takes { pending: Some(pending), ..takes.clone() }.text())?;
    write(host, STOCK, &after)?;
    write(host, TAKES, &Takes { pending: None, ..takes }.text())
}

/// Finishes a take, or a put back, that was cut short. Whoever looks at the stock does this first.
///
/// # Errors
/// The record cannot be read; the stock was changed by hand since, so that nobody knows whether it was taken.
fn finish_takes(host: &dyn Host) -> Result<(), Diagnostic> {
    // A record that cannot be read keeps nobody from the stock: only `plan take` and `plan put back` need it.
    if host.config().is_none() || read_takes(host).is_ok_and(|takes| takes.pending.is_none()) {
        return Ok(());
    }
    if read_takes(host).is_err() {
        return Ok(());
    }
    let _hold = host.hold(&file(host, STOCK)?)?;
    let takes = read_takes(host)?;
    let Some(pending) = &takes.pending else { return Ok(()) };
    let stock = text_of(host, STOCK)?;
    let changed = stock.as_ref() != Some(&pending.after) && stock != pending.before;
    if stock == pending.before {
        write(host, STOCK, &pending.after)?;
    }
    write(host, TAKES, &Takes { pending: None, ..takes }.text())?;
    if changed {
        let message = format!("`plan take` was interrupted and {STOCK} has changed since; check it against the rack");
        return Err(Diagnostic::of(&codes::stock::CUT_SHORT, message).hint("stock"));
    }
    Ok(())
}

/// What the shop has, if it says so, with no take unfinished; rows that cannot be read go to `found`.
///
/// # Errors
/// The table cannot be read at all; its lengths have no unit.
pub fn read_rack(host: &dyn Host, bench: &Design, found: &mut Vec<Diagnostic>) -> Result<Option<Rack>, Diagnostic> {
    if host.config().is_none() {
        return Ok(None);
    }
    finish_takes(host)?;
    let Some(text) = text_of(host, STOCK)? else { return Ok(None) };
    rack_of(&text, bench, found).map(Some)
}

/// Whether lengths of a table of stock have no unit.
fn is_bare(text: &str, bench: &Design) -> Result<bool, Diagnostic> {
    Ok(Rack::read(STOCK, text, Some(bench.bare_unit()), &mut Vec::new())?.is_bare)
}

/// The rack of a table's text.
///
/// # Errors
/// The table cannot be read at all; its lengths have no unit.
pub(super) fn rack_of(text: &str, bench: &Design, found: &mut Vec<Diagnostic>) -> Result<Rack, Diagnostic> {
    let mut own = Vec::new();
    let rack = Rack::read(STOCK, text, Some(bench.bare_unit()), &mut own)?;
    if rack.is_bare {
        let message = format!("lengths in {STOCK} have no unit, and inches and millimeters give different stock");
        return Err(
            Diagnostic::of(&codes::stock::UNIT, message).hint(format!("stock unit {}", Rack::likely_unit(STOCK, text)))
        );
    }
    found.extend(own);
    Ok(rack)
}

#[cfg(test)]
mod tests;
