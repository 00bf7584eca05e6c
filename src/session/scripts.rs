//! The scripts of a session: lines of the prompt, script files, and house styles.

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use super::files::Grants;
use super::handle::Handle;
use super::house::quoted;
use super::powers::FramerPowers;
use super::question::Question;
use super::reply::{Checked, StyleRow};
use super::shelf::Shelf;
use super::style::{Asked, ENDING};
use super::stylist::Asks;
use super::trail::Framed;
use super::workshop::{Paper, Workshop};
use crate::diag::{Diagnostic, codes, near};
use crate::host::Host;
use crate::lang::{Engine, Limits, Listener, Memory, Value, builtin, calls_of};
use crate::rules::Design;
use crate::shop::Settings;
use crate::table::Holds;

/// The scripts of one session.
pub struct Scripts {
    workshop: Rc<Workshop>,
    bench: Rc<Handle>,
    /// The engine of the framer's own lines and files, made for the first of them.
    engine: OnceCell<Engine>,
    /// Variables, functions and imports of earlier lines.
    memory: Memory,
}

impl Scripts {
    /// For a bench, without an engine yet.
    pub fn new(
        host: Rc<dyn Host>,
        paper: Rc<dyn Paper>,
        bench: Rc<Handle>,
        shelf: Rc<Shelf>,
        settings: &Settings,
    ) -> Self {
        let workshop = Workshop::new(host, paper, bench.clone(), shelf, settings);
        Self { workshop, bench, engine: OnceCell::new(), memory: Memory::default() }
    }

    /// Lets scripts read and write these folders, and no others.
    pub fn grant(&self, grants: Grants) {
        *self.workshop.grants.borrow_mut() = grants;
    }

    /// Passes what scripts report while they run on to `listener`.
    pub fn listen(&self, listener: Listener) {
        *self.workshop.listener.borrow_mut() = Some(listener);
    }

    /// The flag that stops a running script.
    pub fn stop_flag(&self) -> Arc<AtomicBool> {
        Arc::clone(&self.workshop.stop)
    }

    /// Lines printed since the last call, and whether a design was shown that cannot be made.
    pub fn take_printed(&self) -> (Vec<String>, bool) {
        self.workshop.take_printed()
    }

    /// Whether the name is a variable of the prompt.
    pub fn is_variable(&self, name: &str) -> bool {
        self.workshop.variables.borrow().iter().any(|variable| variable == name)
    }

    /// Applies other settings.
    pub fn refit(&mut self, settings: &Settings) {
        self.workshop.refit(settings);
        if let Some(engine) = self.engine.get_mut() {
            engine.set_manner(settings.manner());
            engine.set_limits(Limits::of(settings));
        }
    }

    fn engine(&self) -> &Engine {
        self.engine.get_or_init(|| {
            let powers = FramerPowers { workshop: Rc::clone(&self.workshop), bench: Rc::clone(&self.bench) };
            Engine::new(self.workshop.engine_settings(Rc::new(powers)))
        })
    }

    /// Runs a line of the prompt. A line that fails changes no variables.
    ///
    /// # Errors
    /// The faults of the line.
    pub fn line(&mut self, text: &str) -> Result<Value, Vec<Diagnostic>> {
        let script = self.engine().compile("", text)?;
        let others = self.workshop.designs();
        let mut memory = self.memory.clone();
        match self.engine().run(&mut memory, &script) {
            Ok(value) => {
                *self.workshop.variables.borrow_mut() = memory.variables();
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

    /// The value of a formula in place of a plain value.
    ///
    /// # Errors
    /// As [`Scripts::line`].
    pub fn formula(&mut self, text: &str) -> Result<Value, Vec<Diagnostic>> {
        let script = self.engine().compile("", text)?;
        let mut memory = self.memory.clone();
        self.engine().run(&mut memory, &script).map_err(|found| vec![found])
    }

    /// Whether a line runs, as far as can be known without doing more than set variables and the bench. One that may go
    /// round has to be read first.
    pub(super) fn runs(&mut self, text: &str) -> bool {
        let Some(calls) = calls_of(text) else { return false };
        if calls.iter().all(|name| builtin::only_computes(name)) {
            return self.formula(text).is_ok();
        }
        let own = self.memory.functions();
        let exists = |name: &&str| builtin::named(name).is_some() || own.iter().any(|(own, _)| own == name);
        calls.iter().all(exists) && self.engine().compile("", text).is_ok()
    }

    /// Runs a script file with its arguments, apart from the variables of the prompt.
    ///
    /// # Errors
    /// The file cannot be read, or has faults.
    pub fn run_file(&mut self, file: &Path, args: &[String]) -> Result<Value, Vec<Diagnostic>> {
        let text = self.workshop.host.read(file).map_err(|fault| vec![fault.into()])?;
        if text.trim().is_empty() {
            return Err(vec![Diagnostic::of(&codes::word::VALUE_MISSING, format!("{} is empty", file.display()))]);
        }
        // Reading and running share one set of limits.
        self.workshop.watch.during(|| {
            let script = self.engine().compile(&file.display().to_string(), &text)?;
            let mut memory = Memory::default();
            memory.set("args", Value::List(args.iter().cloned().map(Value::Text).collect()));
            self.engine().run(&mut memory, &script).map_err(|found| vec![found])
        })
    }

    /// Frames the work of a design by a style.
    ///
    /// # Errors
    /// The style does not exist, has a fault, or does not take a value.
    pub fn styled(&self, asked: &Asked, design: &Design) -> Result<Framed, Vec<Diagnostic>> {
        let mut asks = BTreeMap::new();
        for pair in &asked.pairs {
            asks.insert(pair.key.clone(), pair.value.clone());
        }
        self.workshop.watch.during(|| self.workshop.styled(&asked.name, design, Asks::Texts(&asks)))
    }

    /// Judges the design at the bench by the style that framed it, if it was changed since.
    pub(super) fn judge(&self) {
        if self.bench.is_unjudged() {
            let mut framed = self.bench.framed();
            self.judge_framed(&mut framed);
            self.bench.replace(framed);
        }
    }

    /// Judges a design by the style that framed it, if it was changed since.
    pub(super) fn judge_framed(&self, framed: &mut Framed) {
        self.workshop.judge(framed);
    }

    /// Checks a style: one of the shop's or of the program's by its name, or the file of one.
    ///
    /// # Errors
    /// The faults of the style, or it does not exist.
    pub(super) fn check_style(&self, what: &str) -> Result<Checked, Vec<Diagnostic>> {
        if what.is_empty() {
            let found =
                Diagnostic::of(&codes::word::VALUE_MISSING, "`style check` needs the name or the file of a style");
            return Err(vec![found.hint("style check narrow-float")]);
        }
        let workshop = &self.workshop;
        let rows = workshop.style_rows();
        let is_style = rows.iter().any(|row| row.name == what);
        let (name, text) = if is_style {
            (what, workshop.style_text(what).map_err(|found| vec![found])?)
        } else {
            let text = workshop.host.read(Path::new(what)).map_err(|fault| {
                let near = near(what, rows.iter().map(|row| row.name.as_str()));
                let hint = near.first().map(|near| format!("style check {near}"));
                vec![Diagnostic::from(fault).only(hint)]
            })?;
            (what.strip_suffix(ENDING).unwrap_or(what), text)
        };
        workshop.check_style(name, &text)
    }

    /// The questions of a style.
    ///
    /// # Errors
    /// The style does not exist, or has a fault.
    pub(super) fn questions(&self, name: &str) -> Result<Vec<Question>, Vec<Diagnostic>> {
        let text = self.workshop.style_text(name).map_err(|found| vec![found])?;
        let engine = self.workshop.style_engine();
        Ok(self.workshop.read_style(&engine, name, &text)?.questions.clone().unwrap_or_default())
    }

    /// Frames the work of a design by a style, with these keys and the texts of their values.
    ///
    /// # Errors
    /// As [`Scripts::styled`].
    pub(super) fn framed(
        &self,
        name: &str,
        design: &Design,
        asks: &BTreeMap<String, String>,
    ) -> Result<Framed, Vec<Diagnostic>> {
        self.workshop.styled(name, design, Asks::Texts(asks))
    }

    /// Adds a style that replaces all others of its name.
    pub(super) fn hand_over(&self, name: &str, text: &str) {
        *self.workshop.styles.handed.borrow_mut() = Some((name.into(), text.into()));
    }

    /// The name of the added style, if there is one.
    pub(super) fn handed_name(&self) -> Option<String> {
        self.workshop.styles.handed.borrow().as_ref().map(|(name, _)| name.clone())
    }

    /// What a column for a question of a style holds, if the style asks it; a style that cannot be read counts as asking, so
    /// that its rows report its faults.
    pub(super) fn asked(&self, style: &str, name: &str) -> Option<Holds> {
        let text = self.workshop.style_text(style).ok()?;
        let engine = self.workshop.style_engine();
        let read = self.workshop.watch.during(|| self.workshop.read_style(&engine, style, &text));
        read.map_or_else(|_| quoted(&text, name).map(|_| Holds::Any), |style| style.asked(name))
    }

    /// A mark of all texts that a style depends on.
    ///
    /// # Errors
    /// The style does not exist.
    pub(super) fn style_mark(&self, name: &str) -> Result<String, Diagnostic> {
        self.workshop.style_mark(name)
    }

    /// Every style with its first line and where it comes from.
    pub fn style_rows(&self) -> Vec<StyleRow> {
        self.workshop.style_rows()
    }
}
