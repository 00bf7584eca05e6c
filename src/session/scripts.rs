//! The script engines of a session: one for lines and files, one for house styles, both made when first needed.

use std::borrow::Cow;
use std::cell::{Cell, OnceCell, RefCell};
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::{Rc, Weak};
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use super::files::{Grants, ScriptFiles};
use super::handle::Handle;
use super::house::ReadStyle;
use super::names::Known;
use super::question::Question;
use super::reply::Planned;
use super::reply::StyleRow;
use super::script_book::ScriptBook;
use super::session::fresh;
use super::shelf::Shelf;
use super::style::{Asked, ENDING};
use super::style_check::Checked;
use super::stylist::{Asks, carry_over, quoted};
use super::trail::Stand;
use super::{planning, stock};
use crate::diag::{Diagnostic, near};
use crate::fact::fact;
use crate::host::Host;
use crate::lang::{
    Aside, BookHandle, DesignHandle, Engine, FileHandle, Limits, Listener, Memory, Mode, Outside, Prepared, Value,
    Watch, prepass,
};
use crate::measure::write::Manner;
use crate::plan::Whole;
use crate::rules::{Design, Finding};
use crate::shop::{Part, Settings};

/// What puts a design on paper for scripts that print one.
pub trait Paper {
    /// The whole sheet as plain text.
    fn sheet(&self, design: &Design) -> String;
    /// A cutting plan as plain text.
    fn plan(&self, planned: &Planned, manner: &Manner) -> String;
}

/// What a session's scripts share.
pub(super) struct Shared {
    pub(super) host: Rc<dyn Host>,
    pub(super) shelf: Rc<Shelf>,
    paper: Rc<dyn Paper>,
    bench: Rc<Handle>,
    pub(super) settings: RefCell<Settings>,
    /// The folders that scripts may read and write.
    pub(super) grants: RefCell<Grants>,
    /// Who hears what scripts say while they run.
    listener: RefCell<Option<Listener>>,
    /// Lines printed since they were last taken.
    printed: RefCell<Vec<String>>,
    /// Whether a sheet was made of a design that cannot be made as it is.
    stopped: RefCell<bool>,
    stop: Arc<AtomicBool>,
    /// Holds the framer's scripts and the styles that they ask for to one set of limits.
    watch: Rc<Watch>,
    /// The variables of the prompt.
    variables: RefCell<Vec<String>>,
    /// Designs beside the one at the bench, as long as a script holds them.
    handles: RefCell<Vec<Weak<Handle>>>,
    /// What a fresh design starts with while a style runs.
    pub(super) work: RefCell<Option<Design>>,
    /// How many styles run, one inside the other.
    pub(super) deep: Cell<usize>,
    /// The engine of styles, made when one is first asked for.
    pub(super) styles: RefCell<Option<Rc<Engine>>>,
    /// Styles that were read before, by name.
    pub(super) read: RefCell<BTreeMap<String, Rc<ReadStyle>>>,
    /// A style that was handed over as a text, before all others of its name.
    pub(super) handed: RefCell<Option<(String, String)>>,
}

/// What a script may reach beside designs, styles and plans.
///
/// The framer's own scripts, `run` and the lines of the prompt, reach the design book, and the files of the folders that
/// were granted. A house style reaches neither, whoever wrote it and whoever asks for it: it turns a work into a design.
/// This is the one place that says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Powers {
    /// The design book and the folders that were granted.
    OfTheFramer,
    /// Nothing beside.
    OfAStyle,
}

/// The scripts of one session.
pub struct Scripts {
    shared: Rc<Shared>,
    bench: Rc<Handle>,
    engine: OnceCell<Engine>,
    memory: Memory,
}

impl Scripts {
    /// For a bench; nothing is made yet.
    pub fn new(
        host: Rc<dyn Host>,
        paper: Rc<dyn Paper>,
        bench: Rc<Handle>,
        shelf: Rc<Shelf>,
        settings: &Settings,
    ) -> Self {
        let stop = Arc::<AtomicBool>::default();
        let shared = Shared {
            host,
            shelf,
            paper,
            bench: bench.clone(),
            settings: RefCell::new(settings.clone()),
            grants: RefCell::default(),
            listener: RefCell::default(),
            printed: RefCell::default(),
            stopped: RefCell::default(),
            watch: Rc::new(Watch::new(limits(settings), Arc::clone(&stop))),
            stop,
            variables: RefCell::default(),
            handles: RefCell::default(),
            work: RefCell::default(),
            deep: Cell::default(),
            styles: RefCell::default(),
            read: RefCell::default(),
            handed: RefCell::default(),
        };
        Self { shared: Rc::new(shared), bench, engine: OnceCell::new(), memory: Memory::default() }
    }

    /// Lets scripts read and write these folders, and no others.
    pub fn grant(&self, grants: Grants) {
        *self.shared.grants.borrow_mut() = grants;
    }

    /// Tells `listener` what scripts say while they run.
    pub fn listen(&self, listener: Listener) {
        *self.shared.listener.borrow_mut() = Some(listener);
    }

    /// The flag that stops what is running.
    pub fn stop_flag(&self) -> Arc<AtomicBool> {
        Arc::clone(&self.shared.stop)
    }

    /// Lines printed since they were last taken, and whether a design was shown that cannot be made.
    pub fn take_printed(&self) -> (Vec<String>, bool) {
        (self.shared.printed.take(), self.shared.stopped.take())
    }

    /// Whether the name is a variable of the prompt.
    pub fn is_variable(&self, name: &str) -> bool {
        self.shared.variables.borrow().iter().any(|variable| variable == name)
    }

    /// Puts other settings in force.
    pub fn refit(&mut self, settings: &Settings) {
        *self.shared.settings.borrow_mut() = settings.clone();
        // Styles keep nothing between two runs, so their engine is simply made again.
        *self.shared.styles.borrow_mut() = None;
        self.shared.watch.set_limits(limits(settings));
        self.shared.read.borrow_mut().clear();
        if let Some(engine) = self.engine.get_mut() {
            engine.set_manner(settings.manner());
            engine.set_limits(limits(settings));
        }
    }

    fn engine(&self) -> &Engine {
        self.engine.get_or_init(|| {
            let design: Rc<dyn DesignHandle> = self.bench.clone();
            Engine::new(self.shared.clone().engine_settings(design, Powers::OfTheFramer))
        })
    }

    /// Runs a line of the prompt. Variables that a failed line made or changed are as before it.
    ///
    /// # Errors
    /// Every finding against the line, or what went wrong.
    pub fn line(&mut self, text: &str) -> Result<Value, Vec<Diagnostic>> {
        let script = self.engine().compile("", text)?;
        let others = self.shared.held();
        let mut memory = self.memory.clone();
        match self.engine().run(&mut memory, &script) {
            Ok(value) => {
                *self.shared.variables.borrow_mut() = memory.variables();
                self.memory = memory;
                Ok(value)
            }
            Err(found) => {
                for (handle, before) in others {
                    handle.replace(before);
                }
                Err(vec![found])
            }
        }
    }

    /// The value of a formula that stands where a value is wanted.
    ///
    /// # Errors
    /// As [`Scripts::line`].
    pub fn formula(&mut self, text: &str) -> Result<Value, Vec<Diagnostic>> {
        let script = self.engine().compile("", text)?;
        let mut memory = self.memory.clone();
        self.engine().run(&mut memory, &script).map_err(|found| vec![found])
    }

    /// Runs a script file with its arguments, apart from the variables of the prompt.
    ///
    /// # Errors
    /// The file cannot be read, or what went wrong in it.
    pub fn run_file(&mut self, file: &Path, args: &[String]) -> Result<Value, Vec<Diagnostic>> {
        let text = self.shared.host.read(file).map_err(|fault| vec![fault.into()])?;
        if text.trim().is_empty() {
            return Err(vec![Diagnostic::new(format!("{} is empty", file.display()))]);
        }
        // Reading and running share one set of limits.
        self.shared.watch.during(|| {
            let script = self.engine().compile(&file.display().to_string(), &text)?;
            let mut memory = Memory::default();
            memory.set("args", Value::List(args.iter().cloned().map(Value::Text).collect()));
            self.engine().run(&mut memory, &script).map_err(|found| vec![found])
        })
    }

    /// Frames the work of a design by a style.
    ///
    /// # Errors
    /// No such style, a fault in it, a value that it does not take.
    pub fn styled(&self, asked: &Asked, design: &Design) -> Result<Stand, Vec<Diagnostic>> {
        let mut asks = BTreeMap::new();
        for pair in &asked.pairs {
            asks.insert(pair.key.clone(), pair.value.clone());
        }
        self.shared.watch.during(|| self.shared.clone().styled(&asked.name, design, Asks::Texts(&asks)))
    }

    /// Puts the judgement of the house that framed it on the design at the bench.
    pub(super) fn judge(&self) {
        if self.bench.is_unjudged() {
            let mut stand = self.bench.stand();
            self.judge_stand(&mut stand);
            self.bench.replace(stand);
        }
    }

    /// Puts the judgement of the house that framed it on a design that has none as it is.
    pub(super) fn judge_stand(&self, stand: &mut Stand) {
        self.shared.judge(stand);
    }

    /// Checks a style: one of the shop's or of the program's by its name, or the file of one.
    ///
    /// # Errors
    /// Every fault that it has; no such style or file.
    pub(super) fn check_style(&self, what: &str) -> Result<Checked, Vec<Diagnostic>> {
        if what.is_empty() {
            let found = Diagnostic::new("style check takes the name of a style, or the file of one");
            return Err(vec![found.hint("style check narrow-float")]);
        }
        let shared = &self.shared;
        let rows = shared.style_rows();
        let is_style = rows.iter().any(|row| row.name == what);
        let (name, text) = if is_style {
            (what, shared.style_text(what).map_err(|found| vec![found])?)
        } else {
            let text = shared.host.read(Path::new(what)).map_err(|fault| {
                let near = near(what, rows.iter().map(|row| row.name.as_str()));
                let hint = near.first().map(|near| format!("style check {near}"));
                vec![Diagnostic { hint, ..Diagnostic::from(fault) }]
            })?;
            (what.strip_suffix(ENDING).unwrap_or(what), text)
        };
        shared.check_style(name, &text)
    }

    /// What a style asks for, nothing where it does not say.
    ///
    /// # Errors
    /// No such style, a fault in it.
    pub(super) fn questions(&self, name: &str) -> Result<Vec<Question>, Vec<Diagnostic>> {
        let text = self.shared.style_text(name).map_err(|found| vec![found])?;
        let engine = self.shared.clone().style_engine();
        Ok(self.shared.read_style(&engine, name, &text)?.questions.clone().unwrap_or_default())
    }

    /// Frames the work of a design by the style of that name, told these keys and the texts of their values.
    ///
    /// # Errors
    /// As [`Scripts::styled`].
    pub(super) fn framed(
        &self,
        name: &str,
        design: &Design,
        asks: &BTreeMap<String, String>,
    ) -> Result<Stand, Vec<Diagnostic>> {
        self.shared.clone().styled(name, design, Asks::Texts(asks))
    }

    /// Puts a style before all others of its name.
    pub(super) fn hand_over(&self, name: &str, text: &str) {
        *self.shared.handed.borrow_mut() = Some((name.into(), text.into()));
    }

    /// The name of the style that was handed over, if one was.
    pub(super) fn handed_name(&self) -> Option<String> {
        self.shared.handed.borrow().as_ref().map(|(name, _)| name.clone())
    }

    /// Whether a style asks for a name; one that cannot be read may, so that its rows tell what is wrong with it.
    pub(super) fn asks_for(&self, style: &str, name: &str) -> bool {
        let Ok(text) = self.shared.style_text(style) else { return false };
        let engine = self.shared.clone().style_engine();
        let read = self.shared.watch.during(|| self.shared.read_style(&engine, style, &text));
        read.map_or_else(|_| quoted(&text, name).is_some(), |style| style.asks_for(name))
    }

    /// A mark of all texts that a style hangs on.
    ///
    /// # Errors
    /// There is no such style.
    pub(super) fn style_mark(&self, name: &str) -> Result<String, Diagnostic> {
        self.shared.style_mark(name)
    }

    /// Every style with its first line and where it comes from.
    pub fn style_rows(&self) -> Vec<StyleRow> {
        self.shared.style_rows()
    }
}

impl Shared {
    pub(super) fn engine_settings(
        self: Rc<Self>,
        design: Rc<dyn DesignHandle>,
        powers: Powers,
    ) -> crate::lang::Settings {
        let framer = powers == Powers::OfTheFramer;
        let settings = self.settings.borrow().clone();
        let shared = || Rc::clone(&self);
        let (names, library, print, make, frame, paper) = (shared(), shared(), shared(), shared(), shared(), shared());
        let (judge, planner, drafter, rules, ear) = (shared(), shared(), shared(), shared(), shared());
        let lister = shared();
        let outside = Outside {
            read: Some(Rc::new(|text| Ok(crate::measure::read::read(text, None)?.into()))),
            new_design: Some(Rc::new(move || make.hold(Stand { design: make.fresh(), style: None }))),
            rules: Some(Rc::new(move || rules.settings.borrow().rules.clone())),
            book: framer.then(|| -> Rc<dyn BookHandle> { Rc::new(ScriptBook(shared())) }),
            files: framer.then(|| -> Rc<dyn FileHandle> { Rc::new(ScriptFiles(shared())) }),
            listen: Some(Rc::new(move |said: &Aside| {
                if let Some(listener) = &*ear.listener.borrow() {
                    listener(said);
                }
            })),
            styled: Some(Rc::new(move |design, name, asks| {
                let design = design_of(design)?;
                let framed =
                    frame.clone().styled(name, &design, Asks::Values(asks)).map_err(|mut found| found.remove(0))?;
                let handle: Rc<dyn DesignHandle> = frame.hold(framed);
                Ok(handle)
            })),
            sheet: Some(Rc::new(move |design| {
                let mut stand = stand_of(design)?;
                paper.judge(&mut stand);
                let design = stand.design;
                *paper.stopped.borrow_mut() |= design.is_stopped();
                Ok(paper.paper.sheet(&design))
            })),
            parts: Some(Rc::new(move |design| {
                let parts = crate::shop::parts(&design_of(design)?);
                let manner = lister.settings.borrow().manner();
                Ok(parts.iter().map(|part| Value::of_fact(&*fact::<Part>(part), &manner)).collect())
            })),
            checks: Some(Rc::new(move |design| {
                let mut stand = stand_of(design)?;
                judge.judge(&mut stand);
                let (findings, manner) = (stand.design.findings(), judge.settings.borrow().manner());
                let value = |one| Value::of_fact(&*fact::<Finding>(Cow::Borrowed(one)), &manner);
                Ok(findings.iter().map(value).collect())
            })),
            plan: Some(Rc::new(move |designs, stop| {
                let planned = planner.planned(designs, stop)?;
                Ok(planner.paper.plan(&planned, &planner.settings.borrow().manner()))
            })),
            planned: Some(Rc::new(move |designs, stop| {
                let planned = drafter.planned(designs, stop)?;
                let manner = drafter.settings.borrow().manner();
                Ok(Value::of_fact(&*fact::<Whole>((&planned.whole, planned.seconds)), &manner))
            })),
        };
        crate::lang::Settings {
            limits: limits(&settings),
            watch: Some(Rc::clone(&self.watch)),
            manner: settings.manner(),
            prepass: Some(Rc::new(move |text, mode| names.prepare(text, mode))),
            library: Some(Rc::new(move |name| library.script(name))),
            print: Some(Rc::new(move |text| print.printed.borrow_mut().push(text.to_string()))),
            design: Some(design),
            outside,
            stop: Arc::clone(&self.stop),
        }
    }

    /// A plan for designs of a script, within so many steps.
    fn planned(&self, designs: &[Rc<dyn DesignHandle>], stop: &dyn Fn() -> bool) -> Result<Planned, Diagnostic> {
        let named =
            designs.iter().map(|design| design_of(&**design).map(|design| (planning::name_of(&design), design)));
        let named = named.collect::<Result<Vec<_>, _>>()?;
        let mut found = Vec::new();
        let shop = fresh(&self.settings.borrow());
        let rack = stock::read_rack(&*self.host, &shop, &mut found)?;
        let limits = crate::cut::Limits { steps: planning::SCRIPT_STEPS, stop };
        let whole = planning::plan_of(&named, rack, &shop, &limits)?;
        Ok(Planned { whole, seconds: 0.0, found, stops: planning::stops(&named, named.len() > 1) })
    }

    /// A design of a script's own.
    pub(super) fn hold(&self, stand: Stand) -> Rc<Handle> {
        let handle = Rc::new(Handle::of(stand));
        self.handles.borrow_mut().push(Rc::downgrade(&handle));
        handle
    }

    /// Every design that a script still holds, with what it is now, so that a failed line can be taken back.
    fn held(&self) -> Vec<(Rc<Handle>, Stand)> {
        let mut handles = self.handles.borrow_mut();
        handles.retain(|handle| handle.strong_count() > 0);
        handles.iter().filter_map(Weak::upgrade).map(|handle| (handle.clone(), handle.stand())).collect()
    }

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

    /// A fresh design; while a style runs, with the work already on it.
    pub(super) fn fresh(&self) -> Design {
        let mut design = fresh(&self.settings.borrow());
        if let Some(work) = &*self.work.borrow() {
            carry_over(work, &mut design);
        }
        design
    }
}

pub(super) fn design_of(handle: &dyn DesignHandle) -> Result<Design, Diagnostic> {
    stand_of(handle).map(|stand| stand.design)
}

pub(super) fn stand_of(handle: &dyn DesignHandle) -> Result<Stand, Diagnostic> {
    handle
        .as_any()
        .downcast_ref::<Handle>()
        .map(Handle::stand)
        .ok_or_else(|| Diagnostic::new("this is no design of the bench"))
}

/// The limits of scripts that the settings ask for.
pub fn limits(settings: &Settings) -> Limits {
    Limits::of(settings)
}
