//! Frames one work after another without a bench, for runs over a table.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use super::handle::Handle;
use super::names::field;
use super::planning::SCRIPT_STEPS;
use super::reply::Planned;
use super::scripts::Scripts;
use super::shelf::Shelf;
use super::trail::Framed;
use super::workshop::Paper;
use super::{stock, stored};
use crate::book::Draft;
use crate::cut::Limits;
use crate::diag::Diagnostic;
use crate::host::Host;
use crate::plan::{Saw, Work};
use crate::rules::{BUILD, Book, Design, Input, Rules, Type};
use crate::shop::Settings;
use crate::table::Holds;

/// The shop's settings, its styles and its design book, for one thread: a script engine cannot move to another.
pub struct Framer {
    settings: Settings,
    book: Rules,
    scripts: Scripts,
    shelf: Rc<Shelf>,
    /// A fresh design of each build used so far, with everything worked out that holds for all.
    blanks: BTreeMap<String, Design>,
    /// Marks of styles, by name.
    marks: RefCell<BTreeMap<String, String>>,
}

impl Framer {
    /// For a shop with these settings; styles are read when they are used. `style` is the name and text of a style that
    /// replaces all others of its name.
    pub fn new(host: Rc<dyn Host>, settings: Settings, paper: Rc<dyn Paper>, style: Option<(&str, &str)>) -> Self {
        let shelf = Rc::new(Shelf::new(host.clone()));
        let bench = settings.fresh();
        let book = bench.book().clone();
        let bench = Rc::new(Handle::new(bench));
        let scripts = Scripts::new(host, paper, bench, shelf.clone(), &settings);
        if let Some((name, text)) = style {
            scripts.hand_over(name, text);
        }
        Self { settings, book, scripts, shelf, blanks: BTreeMap::new(), marks: RefCell::default() }
    }

    /// A fresh design of this build, or of the first build.
    ///
    /// # Errors
    /// The build does not exist.
    pub fn blank(&mut self, build: &str) -> Result<Design, Diagnostic> {
        if let Some(blank) = self.blanks.get(build) {
            return Ok(blank.clone());
        }
        let mut blank = self.settings.fresh();
        if !build.is_empty() {
            blank.set(BUILD, Input::Text(build.into()))?;
        }
        // Figures that depend on no field are the same in every design and are worked out here once.
        blank.work_out();
        self.blanks.insert(build.into(), blank.clone());
        Ok(blank)
    }

    /// Frames the work of a design by a style, with these keys and the texts of their values.
    ///
    /// # Errors
    /// The style does not exist, has a fault, or does not take a value.
    pub fn framed(
        &self,
        style: &str,
        work: &Design,
        asks: &BTreeMap<String, String>,
    ) -> Result<Framed, Vec<Diagnostic>> {
        let framed = self.scripts.framed(style, work, asks);
        // Nobody reads what a style prints here.
        self.scripts.take_printed();
        framed
    }

    /// Judges a design by the style that framed it, if it was changed since.
    pub fn judge(&self, framed: &mut Framed) {
        self.scripts.judge_framed(framed);
        self.scripts.take_printed();
    }

    /// A mark of all texts that a style depends on, as they were when first asked for; nothing without a style.
    ///
    /// # Errors
    /// The style does not exist.
    pub fn style_mark(&self, name: &str) -> Result<String, Diagnostic> {
        if name.is_empty() {
            return Ok(String::new());
        }
        if let Some(mark) = self.marks.borrow().get(name) {
            return Ok(mark.clone());
        }
        let mark = self.scripts.style_mark(name)?;
        self.marks.borrow_mut().insert(name.into(), mark.clone());
        Ok(mark)
    }

    /// Whether a name is a field of some build.
    pub fn is_field(&self, name: &str) -> bool {
        field(&self.book, name).is_some()
    }

    /// The rules for designs.
    pub fn book(&self) -> &Book {
        &self.book
    }

    /// What a column of this name holds, if the name is a field of a build or a question of a style.
    pub fn holds(&self, name: &str) -> Option<Holds> {
        if self.is_field(name) {
            return Some(self.book.slot(name).map_or(Holds::Text, |slot| match self.book.name(slot).of {
                Type::Quantity(_) | Type::Whole | Type::Share | Type::Size => Holds::Amount,
                Type::List(_) => Holds::Amounts,
                Type::Word | Type::Text | Type::Record(_) | Type::Truth | Type::Nothing => Holds::Text,
            }));
        }
        let handed = self.scripts.handed_name();
        let mut styles = self.scripts.style_rows().into_iter().map(|row| row.name).chain(handed);
        styles.find_map(|style| self.scripts.asked(&style, name))
    }

    /// Saves a design in the book under a name.
    ///
    /// # Errors
    /// The name is not allowed, or the book cannot be written.
    pub fn keep(&self, draft: &Draft, name: &str) -> Result<(), Diagnostic> {
        let kept = stored::keep(&self.shelf, draft, name, None);
        kept.map(|_| ()).map_err(|fault| Diagnostic { fixes: Vec::new(), ..fault.into() })
    }

    /// Plans the work of several designs together from the shop's stock, in a fixed number of steps, so that the same parts
    /// give the same plan on any machine; `stop` ends the search early.
    ///
    /// # Errors
    /// The stock cannot be read.
    pub fn plan(&self, work: Work, stop: &dyn Fn() -> bool) -> Result<Planned, Diagnostic> {
        let mut found = Vec::new();
        let shop = self.settings.fresh();
        let rack = stock::read_rack(self.shelf.host(), &shop, &mut found)?;
        let limits = Limits { steps: SCRIPT_STEPS, stop };
        let planned = Planned::of(work, rack, &shop, &Saw::of(&shop), &limits);
        // The stops of a row were reported with the row.
        Ok(Planned { seconds: 0.0, found, ..planned })
    }
}
