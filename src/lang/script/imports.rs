//! Scripts that are imported: found by name, within bounds, each once.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

use rhai::{Dynamic, Engine, EvalAltResult, Module, ModuleResolver, Position, Scope, Shared};

use super::limits::Reached;
use super::lower::{Known, lower};
use super::scripts::{Script, Scripts};
use super::source::Source;
use super::trouble::{Raised, Trouble};
use crate::diag::Fault;

/// What was imported, and what is being imported.
#[derive(Default)]
pub struct Imports {
    open: RefCell<Vec<String>>,
    done: RefCell<BTreeMap<String, Imported>>,
}

/// A script that was imported, and what must be kept with it.
struct Imported {
    text: String,
    module: Shared<Module>,
    // Its functions' errors are shown in its text.
    _source: Rc<Source>,
}

/// A script that cannot be imported.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Refused {
    /// Its name leads elsewhere.
    Name(String),
    /// It imports itself, by way of these.
    Circle(Vec<String>),
    /// There is none.
    Missing(String),
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Name(name) => {
                write!(f, "`{name}` is no name of a script: letters, digits, `_`, `-` and `/` make one")
            }
            Self::Circle(names) => write!(f, "these scripts import one another: {}", names.join(", ")),
            Self::Missing(name) => write!(f, "there is no script `{name}`"),
        }
    }
}

impl Fault for Refused {}

impl Scripts {
    fn import(&self, engine: &Engine, name: &str) -> Result<Shared<Module>, Trouble> {
        let limits = self.bench.watch.limits();
        check(name)?;
        if self.imports.open.borrow().iter().any(|one| one == name) {
            return Err(Refused::Circle(self.imports.open.borrow().clone()).into());
        }
        if self.imports.open.borrow().len() >= limits.imports {
            return Err(Reached::Imports(limits.imports).into());
        }
        let text = self.bench.workshop().script(name)?.ok_or_else(|| Refused::Missing(name.to_string()))?;
        if let Some(known) = self.imports.done.borrow().get(name)
            && known.text == text
        {
            return Ok(Shared::clone(&known.module));
        }
        self.imports.open.borrow_mut().push(name.to_string());
        let module = self.load(engine, name, &text);
        self.imports.open.borrow_mut().pop();
        module
    }

    fn load(&self, engine: &Engine, name: &str, text: &str) -> Result<Shared<Module>, Trouble> {
        let script = self.compile(engine, name, text).map_err(|mut found| found.remove(0))?;
        let module = Module::eval_ast_as_new(Scope::new(), &script.ast, engine);
        let module: Shared<Module> = module.map_err(|error| self.failed(&error, &script))?.into();
        let imported =
            Imported { text: text.to_string(), module: Shared::clone(&module), _source: Rc::clone(&script.source) };
        self.imports.done.borrow_mut().insert(name.to_string(), imported);
        Ok(module)
    }

    /// What went wrong in an imported script; a limit stays a limit, which no script can catch.
    fn failed(&self, error: &EvalAltResult, script: &Script) -> Trouble {
        let known = Known {
            main: &script.source,
            sources: &self.sources,
            limits: &self.bench.watch.limits(),
            variables: Vec::new(),
            fields: Vec::new(),
            functions: script.functions(),
        };
        let raised = Raised::from(lower(error, &known));
        if let EvalAltResult::ErrorTerminated(..) = error {
            return Trouble::from(Box::new(EvalAltResult::ErrorTerminated(Dynamic::from(raised), Position::NONE)));
        }
        raised.into()
    }
}

/// Whether a name stays within the folders of scripts, on every kind of machine.
fn check(name: &str) -> Result<(), Refused> {
    let letter = |letter: char| letter.is_alphanumeric() || matches!(letter, '_' | '-' | ' ');
    let part = |part: &str| !part.is_empty() && part.chars().all(letter) && part.trim() == part;
    let fine = name.len() <= 200 && name.split('/').all(part);
    if fine { Ok(()) } else { Err(Refused::Name(name.to_string())) }
}

/// The scripts as the engine asks for them.
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
        self.0.import(engine, path).map_err(|trouble| {
            let mut error = trouble.into_error();
            if error.position().is_none() {
                error.set_position(position);
            }
            error
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stay_in_their_folder() {
        for fine in ["float", "gallery/float frame", "größe", "a-b_c/d2"] {
            assert_eq!(check(fine), Ok(()), "{fine}");
        }
        let bad = ["", "..", "../a", "a/../b", "/a", "a//b", "a/", "C:a", "a\\b", "a.rhai", ".", "~/a", " a", "a\0"];
        for name in bad {
            assert_eq!(check(name), Err(Refused::Name(name.into())), "{name}");
        }
    }
}
