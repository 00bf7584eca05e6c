//! Rows over threads, in bounded chunks, returned in their order.

use std::any::Any;
use std::cell::RefCell;
use std::collections::HashSet;
use std::hash::{BuildHasherDefault, Hasher};
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;
use std::sync::atomic::{AtomicBool, Ordering};

use rayon::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};

use super::journal::Journal;
use super::made::{COLUMNS, Hand, Made, Wants, failed, make, remake, style_of};
use super::row::{NAME, Row};
use super::table::Rows;
use crate::diag::{Diagnostic, codes};
use crate::host::Host;
use crate::lang::{Limits, settle, stack_for};
use crate::session::Framer;
use crate::session::style::hash;
use crate::shop::Settings;
use crate::show::{Memo, Press};

/// So many rows are made before they are given out: enough to keep every thread busy, few enough to hold.
const CHUNK: usize = 256;
/// Gives a thread its way to files: what is shared within one goes to no other.
pub type HostMaker = Box<dyn Fn() -> Rc<dyn Host> + Send + Sync>;

/// What every thread needs to frame works.
pub struct Shop {
    /// The settings of the shop.
    pub settings: Settings,
    /// Gives a thread its way to files.
    pub host: HostMaker,
    /// The name and text of a style that was handed over.
    pub handed: Option<(String, String)>,
    /// The style of rows that name none; empty for none.
    pub usual: String,
}

/// A framer for the thread that asks.
pub fn framer(shop: &Shop) -> Framer {
    let handed = shop.handed.as_ref().map(|(name, text)| (name.as_str(), text.as_str()));
    Framer::new((shop.host)(), shop.settings.clone(), Rc::new(Press { width: COLUMNS }), handed)
}

thread_local! {
    /// Script engines stay on their thread; a pool is of one run, and so are its threads.
    static HAND: RefCell<Option<Hand>> = const { RefCell::new(None) };
}

/// Hashes are as good as any hash of them.
#[derive(Clone, Copy, Debug, Default)]
struct AsItIs(u64);

impl Hasher for AsItIs {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        self.0 = hash(bytes.iter().copied());
    }

    fn write_u64(&mut self, hash: u64) {
        self.0 = hash;
    }
}

/// A table on its way through the threads.
pub struct Run<'a> {
    rows: Rows<'a>,
    source: String,
    shop: &'a Shop,
    pool: ThreadPool,
    wants: Wants,
    done: Journal,
    stop: &'a AtomicBool,
    /// The hashes of the names so far: eight bytes each, however long they are.
    names: HashSet<u64, BuildHasherDefault<AsItIs>>,
}

impl<'a> Run<'a> {
    /// Frames `rows` of a table called `source` on `threads` threads, as many as there are cores for 0; rows that are
    /// `done` are not framed again. When `stop` is raised, no other row is begun.
    ///
    /// # Errors
    /// No threads were to be had.
    pub fn new(
        rows: Rows<'a>,
        source: &str,
        shop: &'a Shop,
        threads: usize,
        wants: Wants,
        done: Journal,
        stop: &'a AtomicBool,
    ) -> io::Result<Self> {
        let memory = Limits::of(&shop.settings).memory;
        let pool = ThreadPoolBuilder::new()
            .num_threads(threads)
            .stack_size(stack_for(memory))
            .start_handler(move |_| settle(memory))
            .build()
            .map_err(io::Error::other)?;
        Ok(Self { rows, source: source.into(), shop, pool, wants, done, stop, names: HashSet::default() })
    }

    /// What was not read as it is written in the table, each once.
    pub fn notes(&self) -> Vec<String> {
        self.rows.notes()
    }

    /// Bytes of the table read so far.
    pub fn bytes(&self) -> u64 {
        self.rows.bytes()
    }

    /// What came of the next rows, in their order; none at the end. With each goes whether it was done before.
    ///
    /// # Errors
    /// The table cannot be read.
    pub fn next_chunk(&mut self) -> io::Result<Option<Vec<(Made, bool)>>> {
        let mut rows = Vec::with_capacity(CHUNK);
        while rows.len() < CHUNK
            && !self.stop.load(Ordering::Relaxed)
            && let Some(row) = self.rows.next_row()?
        {
            rows.push(self.named_once(row));
        }
        if rows.is_empty() {
            return Ok(None);
        }
        let (shop, source, wants, done, stop) = (self.shop, self.source.as_str(), self.wants, &self.done, self.stop);
        let made = |row: &Row| (!stop.load(Ordering::Relaxed)).then(|| one(row, shop, source, wants, done));
        let made: Vec<Option<_>> = self.pool.install(|| rows.par_iter().map(made).collect());
        // What was finished behind a row that was not begun is let go, so that the order is kept.
        Ok(Some(made.into_iter().map_while(|one| one).collect()))
    }

    /// Refuses a row whose name an earlier one has.
    fn named_once(&mut self, row: Row) -> Row {
        if row.faults.is_empty() && !self.names.insert(hash(row.called().bytes())) {
            let name = row.called();
            let mut others = (2..).map(|number| format!("{name} {number}"));
            let free = others.find(|other| !self.names.contains(&hash(other.bytes()))).unwrap_or_default();
            let mut found =
                Diagnostic::of(&codes::batch::ROW, format!("an earlier row is called {name} already")).hint(free);
            if let Some(cell) = row.cell(NAME) {
                found = found.at(cell.span.clone());
            }
            return Row { faults: vec![found], ..row };
        }
        row
    }
}

/// What came of a row, and whether it was done before. What breaks inside is the row's own.
fn one(row: &Row, shop: &Shop, source: &str, wants: Wants, done: &Journal) -> (Made, bool) {
    HAND.with_borrow_mut(|mine| {
        let hand = mine.get_or_insert_with(|| Hand { framer: framer(shop), memo: Memo::default() });
        let made = catch_unwind(AssertUnwindSafe(|| match again(row, hand, shop, source, wants, done) {
            Some(made) => (made, true),
            None => (make(row, hand, source, &shop.usual, wants), false),
        }));
        made.unwrap_or_else(|broken| {
            // Nobody knows what it left behind.
            *mine = None;
            (failed(row, vec![internal_error(&*broken)], source, wants), false)
        })
    })
}

/// A panic, with its own message.
fn internal_error(broken: &(dyn Any + Send)) -> Diagnostic {
    let said = broken.downcast_ref::<String>().map(String::as_str).or_else(|| broken.downcast_ref::<&str>().copied());
    let what = said.map_or_else(String::new, |said| format!(": {said}"));
    Diagnostic::of(&codes::batch::ROW, format!("internal error in this row{what}"))
}

/// A row that was done before, if it and its style are still the same.
fn again(row: &Row, hand: &mut Hand, shop: &Shop, source: &str, wants: Wants, done: &Journal) -> Option<Made> {
    let done = done.done(row.number, row.mark()).filter(|done| row.faults.is_empty() && (done.kept || !wants.draft))?;
    let style = style_of(row, &shop.usual);
    let is_same = match style {
        "" => done.style.is_empty(),
        name => hand.framer.style_mark(name).is_ok_and(|version| done.style == name && done.version == version),
    };
    let wants = Wants { json: wants.json_again, sheet: false, fields: false, draft: false, ..wants };
    if is_same { remake(row, hand, done, source, wants) } else { None }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_is_an_internal_error() {
        assert_eq!(internal_error(&"a slot".to_string()).message(), "internal error in this row: a slot");
        assert_eq!(internal_error(&"by hand").message(), "internal error in this row: by hand");
        assert_eq!(internal_error(&1).message(), "internal error in this row");
    }
}
