//! Parts of designs, and plans for them.

use std::path::Path;
use std::sync::atomic::Ordering;
use std::time::Instant;

use super::made_plan::{Asked, MadePlan};
use super::reply::{Faults, Planned, Reply};
use super::session::Session;
use super::stock::rack_of;
use super::stored::{on_bench, revision};
use crate::book::BookFault;
use crate::cut::Limits;
use crate::diag::{Diagnostic, codes, says};
use crate::fact::rows;
use crate::host::{named_otherwise, write_table};
use crate::measure::Manner;
use crate::plan::{Rack, Saw, Work};
use crate::rules::{Answer, Design, Finding, Level};
use crate::shop::{Part, cautions_of_all, incomplete, on_wall, parts};
use crate::word::{Args, Given, Kind};

/// So long a plan is looked for at the prompt, in seconds.
const SECONDS: f64 = 10.0;

/// The most designs that are planned together.
const MOST: usize = 10_000;

impl Session {
    /// The designs that a line names: the one at the bench where it names none, or every one in the book for `all`.
    pub(super) fn designs(&self, args: &Args) -> Result<Vec<(String, Design)>, Diagnostic> {
        if args.has("all") {
            return self.designs_of(&Asked::All);
        }
        let mut designs = Vec::new();
        for given in args.all(Kind::Design) {
            let found = self.design_of(given.text()).map_err(|fault| self.refused(fault, given, args))?;
            designs.push(found);
        }
        if designs.is_empty() { self.designs_of(&Asked::Bench) } else { Ok(designs) }
    }

    /// The same, asked for before.
    pub(super) fn designs_of(&self, asked: &Asked) -> Result<Vec<(String, Design)>, Diagnostic> {
        let names: Vec<String> = match asked {
            Asked::Bench => {
                let design = self.bench.look(Clone::clone);
                return Ok(vec![(name_of(&design), design)]);
            }
            Asked::All => {
                let (entries, _) = self.shelf.look(|book| book.list(false, MOST))?;
                if entries.is_empty() {
                    return Err(Diagnostic::of(&codes::book::NONE, "there is no design in the book yet")
                        .hint(self.line_toward()));
                }
                entries.into_iter().map(|entry| entry.name).collect()
            }
            Asked::Named(names) => names.clone(),
        };
        names.iter().map(|name| Ok(self.design_of(name)?)).collect()
    }

    fn design_of(&self, name: &str) -> Result<(String, Design), BookFault> {
        let revision = revision(&self.shelf, name)?;
        let (design, _) = on_bench(&revision, self.blank());
        Ok((revision.name, design))
    }

    pub(super) fn parts(&mut self, args: &Args) -> Result<Reply, Faults> {
        let designs = self.designs(args)?;
        let is_named = Asked::of(args) != Asked::Bench;
        let many = designs.len() > 1;
        let mut all: Vec<Part> = Vec::new();
        for (name, design) in &designs {
            all.extend(parts(design).into_iter().map(|part| {
                let called = if many { format!("{name}/{}", part.name) } else { part.name.clone() };
                Part { name: called, ..part }
            }));
        }
        if all.is_empty() {
            return Err(nothing(&designs).into());
        }
        let (all, stops) = (merged(all), stops(&designs, is_named));
        if let Some(file) = args.one(Kind::File).map(Given::text) {
            if let Some(other) = named_otherwise(Path::new(file)) {
                let message = format!("parts are written as a table, and {file} is named like another file");
                let found = Diagnostic::of(&codes::file::OTHER, message).at(args.span(Kind::File));
                return Err(found.instead(other.display().to_string()).into());
            }
            write_table(
                self.shelf.host(),
                Path::new(file),
                &rows::csv::<Part>(all.iter(), &Manner::default()),
                "table of parts",
            )?;
            let what = format!("{} kinds of part", all.len());
            return Ok(Reply::Written { what, file: file.to_string(), stops });
        }
        let cautions = cautions_of_all(designs.iter().map(|(_, design)| design), "parts");
        Ok(Reply::Parts(all, stops, cautions))
    }

    /// The design at the bench or another, or several, on the wall that the bench knows of.
    pub(super) fn hang(&mut self, args: &Args) -> Result<Reply, Faults> {
        let wall = self.bench.look(Clone::clone);
        let named = self.designs(args)?;
        if named.len() > 1 && wall.made("wall.width").is_none() {
            return Err(Diagnostic::of(&codes::wall::HANGING, "the wall is not known yet")
                .hint("help wall.width")
                .into());
        }
        let pieces: Vec<(String, &Design)> = named.iter().map(|(name, design)| (name.clone(), design)).collect();
        let places = on_wall(&wall, &pieces)?;
        let designs = named.into_iter().map(|(_, design)| design).collect();
        Ok(Reply::Hang { designs, places })
    }

    pub(super) fn plan(&mut self, args: &Args) -> Result<Reply, Faults> {
        let asked = Asked::of(args);
        let designs = self.designs(args)?;
        let shop = self.bench.look(Clone::clone);
        let mut found = Vec::new();
        let stock = if self.shelf.host().config().is_some() { self.stock_text()? } else { None };
        let rack = stock.as_ref().map(|text| rack_of(text, &shop, &mut found)).transpose()?;
        // A plan that was stopped before stops no other.
        let flag = self.stop_flag();
        flag.store(false, Ordering::Relaxed);
        let start = Instant::now();
        let over = || flag.load(Ordering::Relaxed) || start.elapsed().as_secs_f64() >= SECONDS;
        let limits = Limits { steps: u64::MAX, stop: &over };
        let is_named = asked != Asked::Bench;
        let planned = Planned::of(work_of(&designs)?, rack, &shop, &Saw::of(&shop), &limits);
        let planned = Planned { found, stops: stops(&designs, is_named), ..planned };
        self.planned = Some(MadePlan::new(planned.clone(), asked, stock, (&designs, &shop)));
        Ok(Reply::Plan(Box::new(planned)))
    }
}

/// Why designs cannot be made as they are, `named` where they are not at the bench: what stops them, and the pieces that wait
/// for a field.
pub(super) fn stops(designs: &[(String, Design)], named: bool) -> Vec<Finding> {
    let of = |(name, design): &(String, Design)| {
        let found = design.findings().into_iter().chain(incomplete(design));
        let stops = found.filter(|finding| finding.level == Level::Stop);
        let placed = |finding: Finding| {
            if !named {
                return finding;
            }
            // The line that mends it is one for the bench.
            Finding { says: finding.says.within(says!("{}", name)), mend: None, ..finding }
        };
        stops.map(placed).collect::<Vec<_>>()
    };
    designs.iter().flat_map(of).collect()
}

/// So many steps a plan takes at most in a script, about a second: scripts are held to their time.
pub(super) const SCRIPT_STEPS: u64 = 200_000_000;

/// The parts of designs as a piece of work, with their cautions.
pub(super) fn work_of(designs: &[(String, Design)]) -> Result<Work, Diagnostic> {
    let pieces: Vec<(String, Vec<Part>)> = designs.iter().map(|(name, design)| (name.clone(), parts(design))).collect();
    let work = Work::of_designs(&pieces, cautions_of_all(designs.iter().map(|(_, design)| design), "plan"));
    if work.is_empty() { Err(nothing(designs)) } else { Ok(work) }
}

/// Says what the first design that is not whole waits for. The work is measured, so no value is offered for it.
fn nothing(designs: &[(String, Design)]) -> Diagnostic {
    let fields = |design: &Design| -> Vec<String> {
        design.missing().iter().map(|slot| design.book().name(*slot).text.clone()).collect()
    };
    let missing = designs.iter().map(|(_, design)| fields(design)).find(|missing| !missing.is_empty());
    match missing.as_deref() {
        Some(all @ [first, ..]) => {
            let message = format!("no parts yet; still to set: {}", all.join(", "));
            Diagnostic::of(&codes::plan::NOTHING, message).hint(format!("help {first}"))
        }
        _ => Diagnostic::of(&codes::plan::NOTHING, "no parts yet; set the work first").hint("help art"),
    }
}

impl Planned {
    /// Plans a piece of work and finds its cautions: the one way in for the prompt, scripts, batches and the command line.
    pub fn of(work: Work, rack: Option<Rack>, shop: &Design, saw: &Saw, limits: &Limits) -> Self {
        let cautions = work.cautions(shop);
        let start = Instant::now();
        let whole = work.plan(rack, shop, saw, limits);
        let seconds = start.elapsed().as_secs_f64();
        Self { whole, seconds, found: Vec::new(), notes: Vec::new(), stops: Vec::new(), cautions }
    }
}

/// What a design is called where it stands among others.
pub(super) fn name_of(design: &Design) -> String {
    match design.answer("name") {
        Ok(Answer::Text(name)) => name.to_string(),
        Ok(_) | Err(_) => "this".into(),
    }
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
