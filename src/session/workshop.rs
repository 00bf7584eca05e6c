//! What the scripts of one session have in common: settings, designs, styles, and where their output goes.

use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::mem::take;
use std::path::PathBuf;
use std::rc::{Rc, Weak};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use super::files::Grants;
use super::fresh::fresh;
use super::handle::Handle;
use super::house::ReadStyle;
use super::names::Known;
use super::reply::Planned;
use super::shelf::Shelf;
use super::style::FOLDER;
use super::stylist::{Asks, carry_over};
use super::trail::Stand;
use super::{planning, stock};
use crate::diag::Diagnostic;
use crate::fact::fact;
use crate::host::Host;
use crate::lang::{self, Aside, DesignHandle, Engine, Limits, Listener, Mode, Powers, Prepared, Value, Watch, prepass};
use crate::measure::write::Manner;
use crate::plan::Whole;
use crate::rules::{Book, Design, Finding};
use crate::shop::{Part, Settings};

/// What puts a design on paper for scripts that print one.
pub trait Paper {
    /// The whole sheet as plain text.
    fn sheet(&self, design: &Design) -> String;
    /// A cutting plan as plain text.
    fn plan(&self, planned: &Planned, manner: &Manner) -> String;
}

/// The workshop that the scripts of one session share.
pub(super) struct Workshop {
    /// Itself, for the engine of styles.
    pub(super) me: Weak<Workshop>,
    pub(super) host: Rc<dyn Host>,
    pub(super) shelf: Rc<Shelf>,
    paper: Rc<dyn Paper>,
    /// The design at the bench, whose own figures have names at the prompt.
    bench: Rc<Handle>,
    pub(super) settings: RefCell<Settings>,
    /// The folders that scripts may read and write.
    pub(super) grants: RefCell<Grants>,
    /// Who hears what scripts report while they run.
    pub(super) listener: RefCell<Option<Listener>>,
    output: RefCell<Output>,
    /// Stops what is running when it is raised.
    pub(super) stop: Arc<AtomicBool>,
    /// Holds the framer's scripts and the styles that they ask for to one set of limits.
    pub(super) watch: Rc<Watch>,
    /// The variables of the prompt.
    pub(super) variables: RefCell<Vec<String>>,
    /// Designs beside the one at the bench, as long as a script holds them.
    handles: RefCell<Vec<Weak<Handle>>>,
    pub(super) styles: Styles,
}

/// What scripts printed since it was last taken.
#[derive(Default)]
struct Output {
    lines: Vec<String>,
    /// Whether a sheet was made of a design that cannot be made as it is.
    stopped: bool,
}

/// The house styles of a session.
#[derive(Default)]
pub(super) struct Styles {
    /// Their engine, made when one is first asked for.
    pub(super) engine: RefCell<Option<Rc<Engine>>>,
    /// Those that were read before, by name.
    pub(super) read: RefCell<BTreeMap<String, Rc<ReadStyle>>>,
    /// Name and text of one that was handed over, before all others of its name.
    pub(super) handed: RefCell<Option<(String, String)>>,
    /// The design that a running style frames; a fresh one begins with its work.
    pub(super) work: RefCell<Option<Design>>,
    /// How many styles run, one inside the other.
    pub(super) depth: Cell<usize>,
}

impl Workshop {
    /// For a bench; nothing is made yet.
    pub(super) fn new(
        host: Rc<dyn Host>,
        paper: Rc<dyn Paper>,
        bench: Rc<Handle>,
        shelf: Rc<Shelf>,
        settings: &Settings,
    ) -> Rc<Self> {
        let stop = Arc::<AtomicBool>::default();
        Rc::new_cyclic(|me| Self {
            me: me.clone(),
            host,
            shelf,
            paper,
            bench,
            settings: RefCell::new(settings.clone()),
            grants: RefCell::default(),
            listener: RefCell::default(),
            output: RefCell::default(),
            watch: Rc::new(Watch::new(Limits::of(settings), Arc::clone(&stop))),
            stop,
            variables: RefCell::default(),
            handles: RefCell::default(),
            styles: Styles::default(),
        })
    }

    /// What an engine with these powers is made with.
    pub(super) fn engine_settings(&self, powers: Rc<dyn Powers>) -> lang::Settings {
        let settings = self.settings.borrow();
        lang::Settings {
            limits: Limits::of(&settings),
            watch: Some(Rc::clone(&self.watch)),
            manner: settings.manner(),
            powers: Some(powers),
            stop: Arc::clone(&self.stop),
        }
    }

    /// Applies other settings.
    pub(super) fn refit(&self, settings: &Settings) {
        *self.settings.borrow_mut() = settings.clone();
        // Styles keep nothing between two runs, so their engine is simply made again.
        *self.styles.engine.borrow_mut() = None;
        self.styles.read.borrow_mut().clear();
        self.watch.set_limits(Limits::of(settings));
    }

    /// Lines printed since they were last taken, and whether a design was shown that cannot be made.
    pub(super) fn take_printed(&self) -> (Vec<String>, bool) {
        let Output { lines, stopped } = take(&mut *self.output.borrow_mut());
        (lines, stopped)
    }

    /// A design of a script's own.
    pub(super) fn hold(&self, stand: Stand) -> Rc<Handle> {
        let handle = Rc::new(Handle::of(stand));
        self.handles.borrow_mut().push(Rc::downgrade(&handle));
        handle
    }

    /// Every design that a script still holds, as it is now, so that a line that fails can be undone.
    pub(super) fn designs(&self) -> Vec<(Rc<Handle>, Stand)> {
        let mut handles = self.handles.borrow_mut();
        handles.retain(|handle| handle.strong_count() > 0);
        handles.iter().filter_map(Weak::upgrade).map(|handle| (handle.clone(), handle.stand())).collect()
    }

    /// A fresh design; while a style runs, with the work already on it.
    pub(super) fn fresh(&self) -> Design {
        let mut design = fresh(&self.settings.borrow());
        if let Some(work) = &*self.styles.work.borrow() {
            carry_over(work, &mut design);
        }
        design
    }

    /// The folder of the shop's own styles.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.host.config().map(|folder| folder.join(FOLDER))
    }

    /// A plan for designs of a script, within a fixed number of steps.
    fn planned(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<Planned, Diagnostic> {
        let named = designs.iter().map(|design| {
            let design = design_of(&**design)?;
            Ok((planning::name_of(&design), Design::clone(&design)))
        });
        let named = named.collect::<Result<Vec<_>, Diagnostic>>()?;
        let mut found = Vec::new();
        let shop = fresh(&self.settings.borrow());
        let rack = stock::read_rack(&*self.host, &shop, &mut found)?;
        let limits = crate::cut::Limits { steps: planning::SCRIPT_STEPS, stop };
        let whole = planning::plan_of(&named, rack, &shop, &limits)?;
        Ok(Planned { whole, seconds: 0.0, found, stops: planning::stops(&named, named.len() > 1) })
    }
}

impl lang::Workshop for Workshop {
    fn prepare(&self, text: &str, mode: Mode) -> Result<Prepared, Vec<Diagnostic>> {
        // At the prompt the design's own figures have names too.
        let book = match mode {
            Mode::Prompt => self.bench.look(|design| design.book().clone()),
            Mode::Script => self.settings.borrow().rules.clone(),
        };
        let variables = self.variables.borrow();
        let names = Known { book: &book, variables: &variables };
        let rewritten = prepass(text, mode, &names)?;
        Ok(Prepared { script: rewritten.script, places: Rc::new(rewritten.map) })
    }

    fn script(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        self.style_or_none(name)
    }

    fn print(&self, line: &str) {
        self.output.borrow_mut().lines.push(line.into());
    }

    fn hear(&self, aside: &Aside) {
        if let Some(listener) = &*self.listener.borrow() {
            listener(aside);
        }
    }

    fn rules(&self) -> Arc<Book> {
        self.settings.borrow().rules.clone()
    }

    fn new_design(&self) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        Ok(self.hold(Stand { design: self.fresh().into(), style: None }))
    }

    fn styled(
        &self,
        work: &dyn DesignHandle,
        style: &str,
        asks: &BTreeMap<String, Value>,
    ) -> Result<Rc<dyn DesignHandle>, Diagnostic> {
        let work = design_of(work)?;
        let framed = self.styled(style, &work, Asks::Values(asks));
        Ok(self.hold(framed.map_err(|mut found| found.remove(0))?))
    }

    fn sheet(&self, design: &dyn DesignHandle) -> Result<String, Diagnostic> {
        let mut stand = stand_of(design)?;
        self.judge(&mut stand);
        self.output.borrow_mut().stopped |= stand.design.is_stopped();
        Ok(self.paper.sheet(&stand.design))
    }

    fn parts(&self, design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        let design = design_of(design)?;
        let (parts, manner) = (crate::shop::parts(&design), self.settings.borrow().manner());
        Ok(parts.iter().map(|part| Value::of_fact(&*fact::<Part>(part), &manner)).collect())
    }

    fn checks(&self, design: &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic> {
        let mut stand = stand_of(design)?;
        self.judge(&mut stand);
        let (findings, manner) = (stand.design.findings(), self.settings.borrow().manner());
        let value = |one| Value::of_fact(&*fact::<Finding>(Cow::Borrowed(one)), &manner);
        Ok(findings.iter().map(value).collect())
    }

    fn plan(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<String, Diagnostic> {
        let planned = self.planned(designs, stop)?;
        Ok(self.paper.plan(&planned, &self.settings.borrow().manner()))
    }

    fn planned(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<Value, Diagnostic> {
        let planned = self.planned(designs, stop)?;
        let manner = self.settings.borrow().manner();
        Ok(Value::of_fact(&*fact::<Whole>((&planned.whole, planned.seconds)), &manner))
    }
}

/// The design behind a handle of a script.
pub(super) fn design_of(handle: &dyn DesignHandle) -> Result<Rc<Design>, Diagnostic> {
    stand_of(handle).map(|stand| stand.design)
}

/// The same with the style that framed it.
pub(super) fn stand_of(handle: &dyn DesignHandle) -> Result<Stand, Diagnostic> {
    handle
        .as_any()
        .downcast_ref::<Handle>()
        .map(Handle::stand)
        .ok_or_else(|| Diagnostic::new("this is no design of the bench"))
}
