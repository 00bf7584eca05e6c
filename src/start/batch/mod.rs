//! `benchrule batch`: a table of works in, and everything needed to make them out.

use std::io;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::args::BatchArgs;
use crate::batch::{HostMaker, Journal, Keys, Made, Rows, Run, Shop, State, Tables, Wants, framer};
use crate::diag::{Diagnostic, codes};
use crate::drive::Driver;
use crate::host::Host;
use crate::shop::Settings;

mod ending;
mod folder;
mod progress;

use folder::{Folder, Keeper};
use progress::Progress;

/// The ending of the file of a style.
const STYLE: &str = ".rhai";
/// The name of standard input.
const PIPE: &str = "-";

/// The number of rows with each result.
#[derive(Clone, Copy, Debug, Default)]
struct Count {
    all: u64,
    stopped: u64,
    failed: u64,
    before: u64,
}

/// Frames the rows of a table and writes the results: files in a folder, or without one a table of all rows, or with JSON
/// an object for each row.
///
/// # Errors
/// An answer cannot be written.
pub(super) fn batch(
    asked: &BatchArgs,
    settings: Settings,
    host: HostMaker,
    stop: &AtomicBool,
    driver: &mut Driver,
) -> io::Result<()> {
    let own = host();
    match shop(asked, settings, host, &*own) {
        Ok(shop) => Task { asked, shop: &shop, host: &*own, stop }.work(driver),
        Err(found) => refuse(driver, &[found]),
    }
}

/// The shop, with the style of the command line.
fn shop(asked: &BatchArgs, settings: Settings, make: HostMaker, host: &dyn Host) -> Result<Shop, Diagnostic> {
    let mut shop = Shop { settings, host: make, handed: None, usual: String::new() };
    let Some(style) = &asked.style else { return Ok(shop) };
    let path = Path::new(style);
    if style.ends_with(STYLE) {
        let text = host.read(path)?;
        let name = path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        shop.usual.clone_from(&name);
        shop.handed = Some((name, text));
    } else {
        shop.usual.clone_from(style);
        framer(&shop).style_mark(style)?;
    }
    Ok(shop)
}

/// Reports why a run cannot begin or end.
fn refuse(driver: &mut Driver, found: &[Diagnostic]) -> io::Result<()> {
    driver.no_plan(found)
}

struct Task<'a> {
    asked: &'a BatchArgs,
    shop: &'a Shop,
    host: &'a dyn Host,
    stop: &'a AtomicBool,
}

impl Task<'_> {
    fn work(&self, driver: &mut Driver) -> io::Result<()> {
        let framer = framer(self.shop);
        let keys = Keys::new(&framer);
        let source = self.source();
        let rows = match self.rows(&source, &keys)? {
            Ok(rows) => rows,
            Err(found) => return refuse(driver, &found),
        };
        let (mut folder, done) = match self.folder() {
            Ok(both) => both,
            Err(found) => return refuse(driver, &[found]),
        };
        let wants = self.wants(driver.manners().json);
        let size = if self.is_piped() { None } else { self.host.size(&self.asked.jobs) };
        let progress = Progress::new(size);
        let mut run = Run::new(rows, &source, self.shop, self.asked.threads, wants, done, self.stop)?;
        let (mut tables, mut count) = (Tables::default(), Count::default());
        let mut keeper = Keeper::new(&framer);
        while !self.stopped()
            && let Some(chunk) = run.next_chunk()?
        {
            for (mut made, before) in chunk {
                count.add(&made, before);
                let kept = match self.finish(&mut made, before, &mut keeper, &mut folder, driver, &progress)? {
                    Ok(kept) => kept,
                    Err(found) => {
                        progress.end();
                        return refuse(driver, &[self.with_resume(found)]);
                    }
                };
                count.failed += u64::from(!kept);
                tables.add(made, wants.tables);
            }
            progress.show(count.all, run.bytes());
        }
        if self.stopped() {
            progress.end();
            return self.halted(count, &tables, driver);
        }
        if count.all == 0 {
            progress.end();
            return refuse(
                driver,
                &[Diagnostic::of(&codes::batch::FOLDER, format!("{source} has no rows")).hint("heron,16 x 20 x 3/4")],
            );
        }
        let notes = run.notes();
        let planned = if self.asked.plan {
            progress.say("planning");
            Some(match tables.parts.is_empty() {
                true => Err(Diagnostic::of(&codes::plan::NOTHING, "no row can be made, so there is nothing to plan")),
                false => framer.plan(tables.work(), &|| self.stopped()),
            })
        } else {
            None
        };
        progress.end();
        if self.stopped() {
            return self.halted(count, &tables, driver);
        }
        self.end(count, &tables, planned, (folder, &notes), driver)
    }

    fn is_piped(&self) -> bool {
        self.asked.jobs == Path::new(PIPE)
    }

    /// The name of the table.
    fn source(&self) -> String {
        if self.is_piped() { "standard input".into() } else { self.asked.jobs.display().to_string() }
    }

    fn stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }

    fn rows<'k>(&self, source: &str, keys: &'k Keys<'k>) -> io::Result<Result<Rows<'k>, Vec<Diagnostic>>> {
        if self.is_piped() {
            return Rows::open(source, Box::new(io::BufReader::new(io::stdin())), keys);
        }
        match self.host.reading(&self.asked.jobs) {
            Ok(input) => Rows::open(source, input, keys),
            Err(fault) => Ok(Err(vec![fault.into()])),
        }
    }

    fn folder(&self) -> Result<(Option<Folder<'_>>, Journal), Diagnostic> {
        let Some(out) = &self.asked.out else { return Ok((None, Journal::default())) };
        let (folder, done) = Folder::open(self.host, out, self.asked.resume, &self.shop.settings)?;
        Ok((Some(folder), done))
    }

    fn wants(&self, json: bool) -> Wants {
        let out = self.asked.out.is_some();
        Wants {
            json: json || out,
            json_again: json,
            sheet: out,
            tables: out || self.asked.plan || !json,
            draft: self.asked.keep,
            fields: out,
        }
    }

    /// Writes and saves the result of a row, and reports its faults. Gives whether the design was saved.
    ///
    /// # Errors
    /// In the inner result: a file of the folder cannot be written.
    fn finish(
        &self,
        made: &mut Made,
        before: bool,
        keeper: &mut Keeper,
        folder: &mut Option<Folder>,
        driver: &mut Driver,
        progress: &Progress,
    ) -> io::Result<Result<bool, Diagnostic>> {
        if made.state != State::Made {
            driver.fail();
        }
        let json = driver.manners().json;
        if json {
            driver.text(&made.json)?;
        } else if !made.found.is_empty() {
            progress.aside(|| made.found.iter().try_for_each(|one| driver.complain(one, "")))?;
        }
        let mut kept = true;
        if let Some(draft) = made.draft.take()
            && let Err(found) = keeper.keep(&draft, &made.name)
        {
            kept = false;
            driver.fail();
            progress.aside(|| driver.complain(&found, ""))?;
        }
        Ok(match folder {
            Some(folder) if before => {
                folder.done(made);
                Ok(kept)
            }
            Some(folder) if made.state != State::Failed => folder.row(made, self.asked.keep && kept).map(|()| kept),
            Some(_) | None => Ok(kept),
        })
    }

    /// Ends a run that was stopped; finished rows are kept.
    fn halted(&self, count: Count, tables: &Tables, driver: &mut Driver) -> io::Result<()> {
        if self.asked.out.is_none() && !driver.manners().json {
            driver.page(&tables.page())?;
        }
        driver.flush()?;
        let found = Diagnostic::of(&codes::batch::FOLDER, format!("stopped after {} rows", count.all));
        driver.fail();
        driver.complain(&self.with_resume(found), "")
    }

    /// A finding with the line that continues the run, if the run can continue.
    fn with_resume(&self, found: Diagnostic) -> Diagnostic {
        let Some(out) = self.asked.out.as_ref().filter(|_| !self.is_piped()) else { return found };
        let mut line = format!("benchrule batch {} --out {} --resume", self.asked.jobs.display(), out.display());
        if let Some(style) = &self.asked.style {
            line += &format!(" --style {style}");
        }
        for (_, flag) in [(self.asked.plan, " --plan"), (self.asked.keep, " --keep")].iter().filter(|(on, _)| *on) {
            line += flag;
        }
        found.hint(line)
    }
}

impl Count {
    fn add(&mut self, made: &Made, before: bool) {
        self.all += 1;
        self.before += u64::from(before);
        match made.state {
            State::Made => {}
            State::Stopped => self.stopped += 1,
            State::Failed => self.failed += 1,
        }
    }
}
