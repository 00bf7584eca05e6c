//! The script engine: texts in, values or findings out.

use std::cell::RefCell;
use std::fmt;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use rhai::{Dynamic, EvalAltResult};

use super::bench::{Bench, Carried};
use super::builtin;
use super::context::ErrorContext;
use super::design::{DESIGN, Design};
use super::limits::{Limits, Reached};
use super::lower::lower;
use super::memory::Memory;
use super::powers::{Alone, Powers};
use super::registry;
use super::resolver::Resolver;
use super::scripts::{Script, Scripts};
use super::tokens::{Renamed, Tokens};
use super::trouble::Raised;
use super::value::Value;
use super::watch::Watch;
use crate::diag::Diagnostic;
use crate::fact::{Shape, shapes};
use crate::measure::write::Manner;

/// The settings of an engine. All have defaults.
#[derive(Clone, Default)]
pub struct Settings {
    /// The limits of a script.
    pub limits: Limits,
    /// The watch of another engine whose scripts call this one's: both share the limits of one run. Without it the
    /// engine makes its own from `limits` and `stop`.
    pub watch: Option<Rc<Watch>>,
    /// How quantities are shown.
    pub manner: Manner,
    /// What its scripts may reach; without them nothing.
    pub powers: Option<Rc<dyn Powers>>,
    /// A flag that stops the running script; any thread may set it.
    pub stop: Arc<AtomicBool>,
}

impl fmt::Debug for Settings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Settings").field("limits", &self.limits).field("manner", &self.manner).finish_non_exhaustive()
    }
}

/// The script engine. It belongs to its thread; each thread makes its own.
pub struct Engine {
    rhai: rhai::Engine,
    bench: Rc<Bench>,
    scripts: Rc<Scripts>,
    design: Option<Design>,
}

impl fmt::Debug for Engine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Engine").field("bench", &self.bench).finish_non_exhaustive()
    }
}

impl Engine {
    /// An engine with all functions of the table.
    pub fn new(settings: Settings) -> Self {
        let Settings { limits, watch, manner, powers, stop } = settings;
        let watch = watch.unwrap_or_else(|| Rc::new(Watch::new(limits, stop)));
        let powers = powers.unwrap_or_else(|| Rc::new(Alone));
        let design = powers.bench().map(Design);
        let bench = Rc::new(Bench { watch, manner: RefCell::new(manner), powers });
        let tokens = Rc::new(Tokens::new(Rc::clone(&bench), renamed()));
        let scripts = Rc::new(Scripts::new(Rc::clone(&bench), Rc::clone(&tokens)));
        let mut rhai = rhai::Engine::new_raw();
        rhai.set_default_tag(Dynamic::from(Carried(Rc::clone(&bench))));
        rhai.register_global_module(registry::module());
        if let Some(design) = &design {
            lay_out(&mut rhai, design.clone());
        }
        rhai.set_module_resolver(Resolver(Rc::clone(&scripts)));
        restrict(&mut rhai);
        watch_over(&mut rhai, &bench, tokens);
        hear(&mut rhai, &bench);
        let mut engine = Self { rhai, bench, scripts, design };
        engine.apply_limits();
        engine
    }

    /// The limits in force.
    pub fn limits(&self) -> Limits {
        self.bench.watch.limits()
    }

    /// Runs `work` under one set of limits, however many scripts it runs.
    pub fn within<T>(&self, limits: Limits, work: impl FnOnce() -> T) -> T {
        let usual = self.limits();
        self.bench.watch.set_limits(limits);
        let made = self.bench.watch.during(work);
        self.bench.watch.set_limits(usual);
        made
    }

    /// Whether the current run has used up its limits.
    pub fn is_spent(&self) -> bool {
        self.bench.watch.spend(0).and_then(|()| self.bench.watch.glance(true)).is_err()
    }

    /// Sets the limits.
    pub fn set_limits(&mut self, limits: Limits) {
        self.bench.watch.set_limits(limits);
        self.apply_limits();
    }

    fn apply_limits(&mut self) {
        let limits = self.limits();
        // The engine counts one level for the call and one for the function, and a few for callbacks.
        self.rhai.set_max_call_levels(limits.depth.saturating_mul(2));
        self.rhai.set_max_expr_depths(limits.nesting, limits.nesting);
        self.rhai.set_max_modules(limits.modules);
        self.rhai.set_max_functions(limits.functions);
    }

    /// Sets how quantities are shown from now on.
    pub fn set_manner(&self, manner: Manner) {
        *self.bench.manner.borrow_mut() = manner;
    }

    /// Compiles `text`. `name` is the name of the script, empty for a line at the prompt.
    ///
    /// # Errors
    /// The text cannot be read.
    pub fn compile(&self, name: &str, text: &str) -> Result<Script, Vec<Diagnostic>> {
        self.scripts.compile(&self.rhai, name, text)
    }

    /// Runs a script on what earlier scripts left, and adds its own variables, functions and imports.
    ///
    /// # Errors
    /// The script fails; the finding has its place. What ran before keeps its effect on `memory`.
    pub fn run(&self, memory: &mut Memory, script: &Script) -> Result<Value, Diagnostic> {
        let answer = self.bench.watch.during(|| memory.run(&self.rhai, script).and_then(|value| to_value(&value)));
        answer.map_err(|error| self.lowered(&error, memory, script))
    }

    /// Calls a function of `script`, which has run on `memory`.
    ///
    /// # Errors
    /// There is no such function, or it fails.
    pub fn call(
        &self,
        memory: &mut Memory,
        script: &Script,
        function: &str,
        arguments: Vec<Value>,
    ) -> Result<Value, Diagnostic> {
        let arguments = arguments.into_iter().map(Value::into_dynamic).collect();
        let answer = self.bench.watch.during(|| {
            let value = memory.call(&self.rhai, script, function, arguments)?;
            to_value(&value)
        });
        answer.map_err(|error| self.lowered(&error, memory, script))
    }

    fn lowered(&self, error: &EvalAltResult, memory: &Memory, script: &Script) -> Diagnostic {
        let mut functions = memory.functions();
        functions.extend(script.functions());
        functions.sort();
        functions.dedup();
        let context = ErrorContext {
            main: &script.source,
            sources: &self.scripts.sources,
            limits: &self.limits(),
            variables: memory.variables(),
            fields: self.design.as_ref().map(|design| design.0.names()).unwrap_or_default(),
            functions,
        };
        lower(error, &context)
    }
}

fn to_value(value: &Dynamic) -> Result<Value, Box<EvalAltResult>> {
    Value::try_from(value).map_err(|limit| terminated(limit).into())
}

/// A reached limit as an error that no script can catch.
fn terminated(limit: Reached) -> EvalAltResult {
    EvalAltResult::ErrorTerminated(Dynamic::from(Raised::from(limit)), rhai::Position::NONE)
}

/// The fields that maps of the table of functions had under another name.
fn renamed() -> Vec<Renamed> {
    let given: Vec<&'static dyn Shape> = builtin::all().filter_map(|row| row.shape).collect();
    let inner = shapes(&given);
    let heads = given.into_iter().chain(inner).flat_map(|shape| (0..shape.len()).map(move |at| shape.head(at)));
    heads.flat_map(|head| head.formerly.iter().map(|old| Renamed { old, new: head.name })).collect()
}

/// Turns off what the engine would answer in place of the program.
fn restrict(rhai: &mut rhai::Engine) {
    rhai.set_fast_operators(false);
    rhai.disable_symbol("eval");
    // It returns the engine's names of types; `kind` is the program's.
    rhai.disable_symbol("type_of");
}

#[expect(deprecated, reason = "marked so because these may change, not because they will go")]
fn watch_over(rhai: &mut rhai::Engine, bench: &Rc<Bench>, tokens: Rc<Tokens>) {
    let watching = Rc::clone(bench);
    rhai.on_progress(move |_| watching.watch.step().map(|limit| Dynamic::from(Raised::from(limit))));
    rhai.on_parse_token(move |token, place, _| tokens.pass(token, place));
    rhai.on_def_var(|_, variable, _| Ok(variable.name() != DESIGN));
}

/// Lets scripts see the design at the bench, even inside functions; a parameter may have the same name.
#[expect(deprecated, reason = "marked so because it may change, not because it will go")]
fn lay_out(rhai: &mut rhai::Engine, design: Design) {
    rhai.on_var(move |name, _, context| {
        let wanted = name == DESIGN && !context.scope().contains(DESIGN);
        Ok(wanted.then(|| Dynamic::from(design.clone())))
    });
}

/// Passes on what scripts print.
fn hear(rhai: &mut rhai::Engine, bench: &Rc<Bench>) {
    let (print, debug) = (Rc::clone(bench), Rc::clone(bench));
    rhai.on_print(move |text| print.workshop().print(text));
    rhai.on_debug(move |text, _, _| debug.workshop().print(text));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With any of these set the engine measures the whole list after every push, so that filling a list is quadratic.
    #[test]
    fn no_value_is_measured_as_a_whole() {
        let engine = Engine::new(Settings::default());
        let sizes = [engine.rhai.max_array_size(), engine.rhai.max_map_size(), engine.rhai.max_string_size()];
        assert_eq!(sizes, [0; 3]);
    }
}
