//! Parts of designs, plans for them, and the stock of the shop.

use std::path::{Path, PathBuf};
use std::sync::atomic::Ordering;
use std::time::Instant;

use super::book::{on_bench, revision};
use super::command::BookDeed;
use super::reply::{Planned, Reply};
use super::session::{Session, fresh};
use super::shelf::Shelf;
use crate::book::{Address, BookFault};
use crate::cut::Limits;
use crate::diag::Diagnostic;
use crate::host::{Host, Trouble};
use crate::measure::{Real, Unit};
use crate::plan::{Nature, Rack, Ripping, Saw, Wanted, WantedSheet, Whole, Yard, wanted, whole};
use crate::rules::{Answer, Design};
use crate::shop::{Part, on_wall, parts};

/// The table of what the shop has, in the folder of its settings.
pub const STOCK: &str = "stock.csv";
/// The same as it was before a plan was taken.
const BEFORE: &str = "stock.before.csv";

/// So long a plan is looked for at the prompt, in seconds.
const SECONDS: f64 = 10.0;

/// The most designs that are planned together.
const MOST: usize = 10_000;

impl Session {
    /// The designs that a line names: none for the one at the bench, `all` for every one in the book, or names with commas
    /// or blanks between.
    pub(super) fn named(&self, word: &str, text: &str) -> Result<Vec<(String, Design)>, Diagnostic> {
        let text = text.trim();
        if text.is_empty() {
            let design = self.bench.look(Clone::clone);
            return Ok(vec![(name_of(&design), design)]);
        }
        let told = |fault: BookFault| {
            let found = self.refused(fault.into(), BookDeed::Open, text);
            let hint = found.hint.map(|line| line.replacen("open", word, 1));
            Diagnostic { hint, ..found }
        };
        let names: Vec<String> = if text == "all" {
            let (entries, _) = self.shelf.look(|book| book.list(false, MOST)).map_err(told)?;
            entries.into_iter().map(|entry| entry.name).collect()
        } else {
            text.split([',', ' ']).filter(|name| !name.is_empty()).map(Into::into).collect()
        };
        if names.is_empty() {
            return Err(Diagnostic::new("there is no design in the book yet").hint("keep NAME"));
        }
        names
            .into_iter()
            .map(|name| {
                let revision = revision(&self.shelf, &name).map_err(told)?;
                let (design, _) = on_bench(&revision, fresh(&self.settings));
                Ok((Address::read(&name).map_or(name.clone(), |address| address.name), design))
            })
            .collect()
    }

    /// `parts [NAMES | all] [to FILE]`.
    pub(super) fn parts_line(&self, text: &str) -> Result<Reply, Diagnostic> {
        let (names, file) = match text.strip_prefix("to ").map(|file| ("", file)).or_else(|| text.split_once(" to ")) {
            Some((names, file)) => (names, Some(file.trim())),
            None => (text, None),
        };
        let designs = self.named("parts", names)?;
        let many = designs.len() > 1;
        let mut all: Vec<Part> = Vec::new();
        for (name, design) in &designs {
            all.extend(parts(design).into_iter().map(|part| {
                let called = if many { format!("{name}/{}", part.name) } else { part.name.clone() };
                Part { name: called, ..part }
            }));
        }
        let all = merged(all);
        if let Some(file) = file {
            self.host().write(Shelf::file(file), &crate::plan::parts_csv(&all))?;
            return Ok(Reply::Written { what: format!("{} kinds of part", all.len()), file: file.to_string() });
        }
        Ok(Reply::Parts(all))
    }

    /// `hang [NAMES]`: the design at the bench or another, or several, on the wall that the bench tells of.
    pub(super) fn hang(&self, names: &str) -> Result<Reply, Diagnostic> {
        let wall = self.bench.look(Clone::clone);
        let named = self.named("hang", names)?;
        if named.len() > 1 && wall.made("wall.width").is_none() {
            return Err(Diagnostic::new("the wall is not known yet").hint("wall.width 12ft"));
        }
        let pieces: Vec<(String, &Design)> = named.iter().map(|(name, design)| (name.clone(), design)).collect();
        let places = on_wall(&wall, &pieces)?;
        let designs = named.into_iter().map(|(_, design)| design).collect();
        Ok(Reply::Hang { designs, places })
    }

    /// `plan [NAMES | all]`, `plan take`, `plan put back`.
    pub(super) fn plan_line(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        match text {
            "take" => return self.take(),
            "put back" => return self.put_back(),
            _ => {}
        }
        let designs = self.named("plan", text)?;
        let mut found = Vec::new();
        let rack = self.rack(&mut found)?;
        let shop = self.bench.look(Clone::clone);
        // A plan that was stopped before stops no other.
        let flag = self.stop_flag();
        flag.store(false, Ordering::Relaxed);
        let start = Instant::now();
        let over = || flag.load(Ordering::Relaxed) || start.elapsed().as_secs_f64() >= SECONDS;
        let limits = Limits { steps: u64::MAX, stop: &over };
        let made = plan_of(&designs, rack, &shop, &limits)?;
        let seconds = start.elapsed().as_secs_f64();
        self.planned = Some(made.clone());
        Ok(Reply::Plan(Box::new(Planned { whole: made, seconds, found })))
    }

    fn bare(&self) -> Option<&'static Unit> {
        Unit::named(self.settings.unit())
    }

    fn stock_file(&self, name: &str) -> Result<PathBuf, Diagnostic> {
        let folder =
            self.host().config().ok_or_else(|| Diagnostic::new("there is no folder for the stock of the shop"))?;
        Ok(folder.join(name))
    }

    fn stock_text(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        text_of(self.host(), &self.stock_file(name)?)
    }

    /// What the shop has, if it says so; rows that cannot be read go to `found`.
    fn rack(&self, found: &mut Vec<Diagnostic>) -> Result<Option<Rack>, Diagnostic> {
        self.bench.look(|design| read_rack(self.host(), design, found))
    }

    /// Books the last plan's stock out and its offcuts in.
    fn take(&mut self) -> Result<Reply, Diagnostic> {
        let Some(planned) = &self.planned else {
            return Err(Diagnostic::new("there is no plan to take yet").hint("plan"));
        };
        if !planned.is_said {
            return Err(Diagnostic::new("the shop has not said what stock it has, so none is booked out")
                .hint("stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2"));
        }
        let before = self.stock_text(STOCK)?.unwrap_or_default();
        let taken = planned.taken();
        let (out, offcuts) = (planned.pieces(), planned.offcuts());
        self.host().write(&self.stock_file(BEFORE)?, &before)?;
        self.host().write(&self.stock_file(STOCK)?, &taken.text())?;
        self.planned = None;
        Ok(Reply::Stock {
            rack: taken,
            said: Some(format!("{out} out of stock, {offcuts} offcuts in; `plan put back` undoes it")),
        })
    }

    /// Puts the stock back as it was before the last plan was taken.
    fn put_back(&mut self) -> Result<Reply, Diagnostic> {
        let Some(before) = self.stock_text(BEFORE)? else {
            return Err(Diagnostic::new("no plan was taken that could be put back"));
        };
        let now = self.stock_text(STOCK)?.unwrap_or_default();
        // Doing it twice does it again: the two change places.
        self.host().write(&self.stock_file(STOCK)?, &before)?;
        self.host().write(&self.stock_file(BEFORE)?, &now)?;
        let rack = self.rack(&mut Vec::new())?.unwrap_or_default();
        Ok(Reply::Stock { rack, said: Some("the stock is as it was before".into()) })
    }

    /// `stock`, `stock add CELLS`, `stock drop ROW`.
    pub(super) fn stock_line(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        const EXAMPLE: &str = "stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2";
        let text = text.trim();
        let mut found = Vec::new();
        let old = self.rack(&mut found)?;
        if let Some(first) = found.into_iter().next() {
            return Err(first);
        }
        let mut rack = old.unwrap_or_default();
        if text.is_empty() {
            return Ok(Reply::Stock { rack, said: None });
        }
        if let Some(cells) = text.strip_prefix("add").map(str::trim).filter(|cells| !cells.is_empty()) {
            let mut wrong = Vec::new();
            let table = format!("{}\n{cells}\n", Rack::HEAD);
            let more = Rack::read(&table, self.bare(), &mut wrong)?;
            if let Some(fault) = wrong.into_iter().next() {
                return Err(Diagnostic { span: None, ..fault }.hint(EXAMPLE));
            }
            for item in more.items {
                rack.may_take(&item).map_err(|fault| {
                    let line = fault.hint.clone().map(|row| format!("stock add {row}"));
                    Diagnostic { hint: line, ..fault }
                })?;
                rack.items.push(item);
            }
        } else if let Some(row) = text.strip_prefix("drop").map(str::trim) {
            let row: usize = row.parse().unwrap_or(0);
            if row == 0 || row > rack.items.len() {
                let message = format!("stock has rows 1 to {}, and {text} names none of them", rack.items.len());
                return Err(Diagnostic::new(message).hint("stock"));
            }
            rack.items.remove(row - 1);
        } else {
            return Err(Diagnostic::new("stock is shown, or takes add and cells, or drop and a row").hint(EXAMPLE));
        }
        self.host().write(&self.stock_file(STOCK)?, &rack.text())?;
        Ok(Reply::Stock { rack, said: None })
    }

    fn host(&self) -> &dyn Host {
        self.shelf.host()
    }

    /// Whether a file of the stock is there, for those who show the settings.
    pub fn stock_path(&self) -> Option<PathBuf> {
        self.stock_file(STOCK).ok().filter(|file| Path::exists(file))
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
    let mut own = Vec::new();
    let rack = Rack::read(&text, Some(bench.bare_unit()), &mut own).map_err(|one| one.inside(STOCK, text.clone()))?;
    found.extend(own.into_iter().map(|one| one.inside(STOCK, text.clone())));
    Ok(Some(rack))
}

/// So many steps a plan takes at most in a script, about a second: scripts are held to their time.
pub(super) const SCRIPT_STEPS: u64 = 200_000_000;

/// Plans the parts of designs out of a rack, with the saw and the allowances that `shop` tells of.
pub(super) fn plan_of(
    designs: &[(String, Design)],
    rack: Option<Rack>,
    shop: &Design,
    limits: &Limits,
) -> Result<Whole, Diagnostic> {
    let pieces: Vec<(String, Vec<Part>)> = designs.iter().map(|(name, design)| (name.clone(), parts(design))).collect();
    plan_of_parts(&pieces, rack, shop, limits)
}

/// The same for parts at hand, those of each design under its name.
pub(super) fn plan_of_parts(
    designs: &[(String, Vec<Part>)],
    rack: Option<Rack>,
    shop: &Design,
    limits: &Limits,
) -> Result<Whole, Diagnostic> {
    let (mut sticks, mut sheets): (Vec<Wanted>, Vec<WantedSheet>) = (Vec::new(), Vec::new());
    for (name, parts) in designs {
        let (more, sheet) = wanted(name, parts, designs.len() > 1);
        sticks.extend(more);
        sheets.extend(sheet);
    }
    if sticks.is_empty() && sheets.is_empty() {
        return Err(Diagnostic::new("there is nothing to cut yet; the work is not set").hint("art 16\" x 20\" x 3/4\""));
    }
    let (saw, ripping) = (Saw::of(shop), ripping(shop));
    let natures = Nature::all(shop.book());
    let yard = Yard { saw: &saw, ripping: &ripping, natures: &natures, bare: Some(shop.bare_unit()), limits };
    Ok(whole(sticks, sheets, rack, &yard))
}

/// What a design is called where it stands among others.
pub(super) fn name_of(design: &Design) -> String {
    match design.answer("name") {
        Ok(Answer::Text(name)) => name.to_string(),
        Ok(_) | Err(_) => "this".into(),
    }
}

/// A setting of the shop that is a length, in inches.
fn setting(shop: &Design, name: &str) -> Real {
    shop.made(name).map_or(Real::ZERO, |length| length.amount)
}

fn ripping(shop: &Design) -> Ripping {
    let yields = shop.book().table("roughs").into_iter().flat_map(|table| {
        let column = table.column("yields");
        table.words.iter().enumerate().filter_map(move |(row, word)| match column?.cells.get(row)?.as_ref()? {
            crate::rules::book::Cell::Amount(amount) => Some((word.clone(), amount.clone())),
            crate::rules::book::Cell::Word(_) => None,
        })
    });
    Ripping { edge: setting(shop, "shop.edge"), mill: setting(shop, "mill.section"), yields: yields.collect() }
}

/// Parts that are alike in all but their names, as one row with all the names.
fn merged(parts: Vec<Part>) -> Vec<Part> {
    let mut rows: Vec<Part> = Vec::new();
    for part in parts {
        match rows.iter_mut().find(|row| row.is_like(&part)) {
            Some(row) => {
                row.quantity += part.quantity;
                row.name = format!("{}, {}", row.name, part.name);
            }
            None => rows.push(part),
        }
    }
    rows
}
