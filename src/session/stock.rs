//! What the shop has: `stock` shown, added to, dropped from; `plan take` and `plan put back`.
//!
//! Whoever changes the table holds it from reading to writing, so that no change of another shell is lost.

use std::path::{Path, PathBuf};

use super::planning::{Asked, basis};
use super::reply::{Faults, Planned, Reply};
use super::session::Session;
use crate::diag::{Diagnostic, says};
use crate::host::{Hold, Host, Trouble};
use crate::measure::Unit;
use crate::plan::{Booking, Rack};
use crate::rules::Design;
use crate::word::{Args, Kind};

/// The table of what the shop has, in the folder of its settings.
pub const STOCK: &str = "stock.csv";
/// What the last plan that was taken booked, beside it.
const TAKEN: &str = "stock.taken.csv";

const EXAMPLE: &str = "stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2";

/// A plan that may be taken, and what it was made from.
pub struct Made {
    /// The plan, and what was wrong with the stock.
    pub(super) planned: Planned,
    /// What was asked to be planned.
    pub(super) asked: Asked,
    /// All that the plan hangs on but the stock, as text.
    pub(super) basis: String,
    /// The table of the stock, if it was there.
    pub(super) stock: Option<String>,
}

impl Session {
    fn host(&self) -> &dyn Host {
        self.shelf.host()
    }

    fn bare(&self) -> Option<&'static Unit> {
        Unit::named(self.settings.unit())
    }

    fn stock_file(&self, name: &str) -> Result<PathBuf, Diagnostic> {
        let folder =
            self.host().config().ok_or_else(|| Diagnostic::new("there is no folder for the stock of the shop"))?;
        Ok(folder.join(name))
    }

    pub(super) fn stock_text(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        text_of(self.host(), &self.stock_file(name)?)
    }

    fn write_stock(&self, name: &str, text: &str) -> Result<(), Diagnostic> {
        Ok(self.host().write(&self.stock_file(name)?, text)?)
    }

    fn hold_stock(&self) -> Result<Hold, Diagnostic> {
        Ok(self.host().hold(&self.stock_file(STOCK)?)?)
    }

    /// What the shop has, to be changed and written back: nothing while a row cannot be read, which would be lost.
    fn whole_rack(&self) -> Result<Rack, Diagnostic> {
        let mut found = Vec::new();
        let rack = self.bench.look(|design| read_rack(self.host(), design, &mut found))?;
        found.into_iter().next().map_or(Ok(rack.unwrap_or_default()), Err)
    }

    /// Books the last plan's stock out and its offcuts in, if the plan is still the one that would be made.
    pub(super) fn plan_take(&mut self, _: &Args) -> Result<Reply, Faults> {
        let Some(made) = &self.planned else {
            return Err(Diagnostic::new("there is no plan to take yet").hint("plan").into());
        };
        let whole = &made.planned.whole;
        if !whole.is_said {
            return Err(Diagnostic::new("the shop has not said what stock it has, so none is booked out")
                .hint(EXAMPLE)
                .into());
        }
        let hold = self.hold_stock()?;
        let old = |what: &str| {
            let message = format!("{what} since the plan was made, so it is not taken; plan again and look");
            Err(Diagnostic::new(message).hint(made.asked.line()).into())
        };
        if self.stock_text(STOCK)? != made.stock {
            return old("the stock was changed");
        }
        let designs = self.designs_of(&made.asked)?;
        if self.bench.look(|shop| basis(&designs, shop)) != made.basis {
            return old("the design, or how the shop saws, was changed");
        }
        let before = self.whole_rack()?;
        let taken = whole.taken();
        let booking = Booking::between(&before, &taken);
        let offcuts = whole.offcuts();
        let word = if offcuts == 1 { "offcut" } else { "offcuts" };
        let said = format!("{} out of stock, {offcuts} {word} in; `plan put back` undoes it", whole.pieces());
        // Whatever ends the program in between: nothing can be put back that was not taken.
        self.write_stock(TAKEN, "")?;
        self.write_stock(STOCK, &taken.text())?;
        self.write_stock(TAKEN, &booking.text())?;
        drop(hold);
        self.planned = None;
        Ok(Reply::Stock { rack: taken, said: Some(said) })
    }

    /// Puts back what the last plan that was taken booked, and nothing else.
    pub(super) fn plan_put_back(&mut self, _: &Args) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let text = self.stock_text(TAKEN)?.unwrap_or_default();
        let booking = Booking::read(&text, self.bare())
            .map_err(|fault| fault.within(says!("{} cannot be read, so nothing is put back", TAKEN)))?;
        let Some(booking) = booking else {
            return Err(Diagnostic::new("no plan was taken that could be put back").hint("plan").into());
        };
        let rack = booking.put_back(&self.whole_rack()?)?;
        self.write_stock(TAKEN, "")?;
        self.write_stock(STOCK, &rack.text())?;
        Ok(Reply::Stock { rack, said: Some("what the plan took is back in stock, and its offcuts are out".into()) })
    }

    pub(super) fn stock(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Stock { rack: self.whole_rack()?, said: None })
    }

    pub(super) fn stock_add(&mut self, args: &Args) -> Result<Reply, Faults> {
        let _hold = self.hold_stock()?;
        let mut rack = self.whole_rack()?;
        let cells = args.text(Kind::Cells);
        self.add(&mut rack, cells).map_err(|found| found.shifted(args.span(Kind::Cells).start))?;
        self.write_stock(STOCK, &rack.text())?;
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
            return Err(Diagnostic::new(message).at(args.span(Kind::Row)).hint("stock").into());
        }
        rack.items.remove(row - 1);
        self.write_stock(STOCK, &rack.text())?;
        Ok(Reply::Stock { rack, said: None })
    }

    /// Adds a row to the rack; what is wrong with a cell has its place in `cells`.
    fn add(&self, rack: &mut Rack, cells: &str) -> Result<(), Diagnostic> {
        let mut wrong = Vec::new();
        let head = format!("{}\n", Rack::HEAD);
        let more = Rack::read(&format!("{head}{cells}\n"), self.bare(), &mut wrong)?;
        if let Some(fault) = wrong.into_iter().next() {
            let within = |at: usize| at.saturating_sub(head.len()).min(cells.len());
            let span = fault.span.map(|span| within(span.start)..within(span.end));
            // A cell that is not there is missing behind all others.
            let span = span.filter(|span| span.start < span.end);
            return Err(Diagnostic { span, ..fault }.hint(EXAMPLE));
        }
        for item in more.items {
            rack.may_take(&item).map_err(|fault| fault.lines(|row| format!("stock add {row}")))?;
            rack.items.push(item);
        }
        Ok(())
    }
}

/// The text of a file, if it is there.
fn text_of(host: &dyn Host, file: &Path) -> Result<Option<String>, Diagnostic> {
    match host.read(file) {
        Ok(text) => Ok(Some(text)),
        Err(fault) if fault.trouble == Trouble::Missing => Ok(None),
        Err(fault) => Err(fault.into()),
    }
}

/// What the shop has, if it says so, bare numbers in the unit of a bench; rows that cannot be read go to `found`.
pub(super) fn read_rack(
    host: &dyn Host,
    bench: &Design,
    found: &mut Vec<Diagnostic>,
) -> Result<Option<Rack>, Diagnostic> {
    let Some(folder) = host.config() else { return Ok(None) };
    let Some(text) = text_of(host, &folder.join(STOCK))? else { return Ok(None) };
    rack_of(&text, bench, found).map(Some)
}

/// The rack of a table's text.
pub(super) fn rack_of(text: &str, bench: &Design, found: &mut Vec<Diagnostic>) -> Result<Rack, Diagnostic> {
    let mut own = Vec::new();
    let rack = Rack::read(text, Some(bench.bare_unit()), &mut own).map_err(|one| one.inside(STOCK, text))?;
    found.extend(own.into_iter().map(|one| one.inside(STOCK, text)));
    Ok(rack)
}
