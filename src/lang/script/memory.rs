//! What a script leaves to the next: variables, functions, imports.

use std::fmt;
use std::rc::Rc;

use rhai::{
    AST, Caches, Dynamic, Engine, EvalAltResult, FnPtr, GlobalRuntimeState, Module, NativeCallContext, Position, Scope,
    Shared,
};

use super::scripts::{Script, functions};
use super::source::Source;

thread_local! {
    static FLOOR: Shared<Module> = Shared::new({
        let mut module = Module::new();
        module.set_var("__", ());
        module
    });
}

/// What a script leaves to the next. A copy is a state to return to; copies share the values that closures share.
#[derive(Clone, Default)]
pub struct Memory {
    scope: Scope<'static>,
    /// Imports, and the constants that functions see.
    global: Option<GlobalRuntimeState>,
    /// Libraries of functions, each with its text for error messages.
    kept: Vec<(Shared<Module>, Rc<Source>)>,
}

impl fmt::Debug for Memory {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Memory").field("variables", &self.variables()).finish_non_exhaustive()
    }
}

impl Memory {
    /// The names of all variables.
    pub fn variables(&self) -> Vec<String> {
        self.scope.iter().map(|(name, _, _)| name.to_string()).collect()
    }

    /// All functions, each with its number of parameters.
    pub fn functions(&self) -> Vec<(String, usize)> {
        self.kept.iter().flat_map(|(lib, _)| functions(lib)).collect()
    }

    /// Sets a variable for scripts, such as `args`.
    pub fn set(&mut self, name: &str, value: super::value::Value) {
        self.scope.set_value(name.to_string(), value.into_dynamic());
    }

    pub(super) fn run(&mut self, engine: &Engine, script: &Script) -> Result<Dynamic, Box<EvalAltResult>> {
        let mut global = self.begin(engine, &script.ast);
        if script.ast.has_functions() {
            self.kept.push((Shared::clone(script.ast.shared_lib()), Rc::clone(&script.source)));
            self.forget_replaced();
        }
        #[expect(deprecated, reason = "the only way to run a script on several libraries of functions")]
        let answer =
            engine.eval_statements_raw(&mut global, &mut Caches::new(), &mut self.scope, script.ast.statements());
        self.global = Some(global);
        answer
    }

    pub(super) fn call(
        &mut self,
        engine: &Engine,
        script: &Script,
        function: &str,
        arguments: Vec<Dynamic>,
    ) -> Result<Dynamic, Box<EvalAltResult>> {
        let global = self.begin(engine, &script.ast);
        let context = NativeCallContext::from((engine, function, None, &global, Position::NONE));
        let answer = FnPtr::new(function).and_then(|function| function.call_raw(&context, None, arguments));
        self.global = Some(global);
        answer
    }

    /// The state at the start of a run: what earlier runs left, their functions, and last the functions of the script.
    fn begin(&mut self, engine: &Engine, ast: &AST) -> GlobalRuntimeState {
        let mut global = self.global.take().unwrap_or_else(|| engine.new_global_runtime_state());
        global.num_modules_loaded = 0;
        global.source = ast.source().map(Into::into);
        global.lib.clear();
        // The engine passes constants to functions only if there is a library; later lines may add functions.
        global.lib.push(FLOOR.with(Shared::clone));
        global.lib.extend(self.kept.iter().map(|(lib, _)| Shared::clone(lib)));
        global.lib.push(Shared::clone(ast.shared_lib()));
        global
    }

    /// Drops functions that later ones of the same name and number of parameters replace.
    fn forget_replaced(&mut self) {
        let Some((newest, _)) = self.kept.last() else {
            return;
        };
        let newer = functions(newest);
        let last = self.kept.len() - 1;
        let mut index = 0;
        self.kept.retain(|(lib, _)| {
            index += 1;
            // A variable may still hold an anonymous function.
            index > last
                || lib.iter_script_fn_info().any(|(_, _, name, count, _)| {
                    name.starts_with("anon$") || !newer.iter().any(|(newer, values)| newer == name && *values == count)
                })
        });
    }
}
