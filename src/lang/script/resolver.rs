//! Loads the scripts that the engine asks for with `import`.

use std::rc::Rc;

use rhai::{Dynamic, Engine, EvalAltResult, Module, ModuleResolver, Position, Scope, Shared};

use super::context::ErrorContext;
use super::lower::lower;
use super::scripts::{Script, Scripts};
use super::source::Source;
use super::trouble::{Raised, Trouble};

/// The scripts, as the engine asks for them.
#[derive(Debug)]
pub struct Resolver(pub Rc<Scripts>);

impl ModuleResolver for Resolver {
    fn resolve(
        &self,
        engine: &Engine,
        _source: Option<&str>,
        path: &str,
        position: Position,
    ) -> Result<Shared<Module>, Box<EvalAltResult>> {
        self.import(engine, path).map_err(|trouble| {
            let mut error = trouble.into_error();
            if error.position().is_none() {
                error.set_position(position);
            }
            error
        })
    }
}

impl Resolver {
    fn import(&self, engine: &Engine, name: &str) -> Result<Shared<Module>, Trouble> {
        let imports = &self.0.imports;
        let text = imports.text(&*self.0.bench.workshop(), name, self.0.bench.watch.limits().imports)?;
        match imports.loaded(name, &text) {
            Some(module) => Ok(module),
            None => imports.load(name, text, |text| self.run(engine, name, text)),
        }
    }

    fn run(&self, engine: &Engine, name: &str, text: &str) -> Result<(Shared<Module>, Rc<Source>), Trouble> {
        let script = self.0.compile(engine, name, text).map_err(|mut found| found.remove(0))?;
        let module = Module::eval_ast_as_new(Scope::new(), &script.ast, engine);
        let module = module.map_err(|error| self.failed(&error, &script))?;
        Ok((module.into(), script.source))
    }

    /// The error of an imported script. A limit stays a limit, which no script can catch.
    fn failed(&self, error: &EvalAltResult, script: &Script) -> Trouble {
        let context = ErrorContext {
            main: &script.source,
            sources: &self.0.sources,
            limits: &self.0.bench.watch.limits(),
            variables: Vec::new(),
            fields: Vec::new(),
            functions: script.functions(),
        };
        let raised = Raised::from(lower(error, &context));
        if let EvalAltResult::ErrorTerminated(..) = error {
            return Trouble::from(Box::new(EvalAltResult::ErrorTerminated(Dynamic::from(raised), Position::NONE)));
        }
        raised.into()
    }
}
