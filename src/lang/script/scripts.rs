//! From texts to compiled scripts.

use std::cell::Cell;
use std::fmt;
use std::rc::Rc;

use rhai::{AST, Engine, Module};

use super::bench::Bench;
use super::guard::guarded;
use super::imports::Imports;
use super::limits::Reached;
use super::source::{Source, Sources};
use super::syntax::{reading, sign};
use super::tokens::Tokens;
use crate::diag::codes::script::RENAMED;
use crate::diag::{Diagnostic, says};
use crate::lang::line::Mode;

/// A compiled script.
#[derive(Clone, Debug)]
pub struct Script {
    pub(super) ast: AST,
    /// The text that it comes from.
    pub source: Rc<Source>,
}

impl Script {
    /// The functions that it defines, each with its number of parameters.
    pub fn functions(&self) -> Vec<(String, usize)> {
        functions(self.ast.shared_lib())
    }
}

/// The functions that a compiled script defines.
pub fn functions(lib: &Module) -> Vec<(String, usize)> {
    let named = lib.iter_script_fn_info().filter(|(_, _, name, _, _)| !name.starts_with("anon$"));
    named.map(|(_, _, name, count, _)| (name.to_string(), count)).collect()
}

/// Compiles texts, and keeps the imported scripts.
pub struct Scripts {
    pub(super) bench: Rc<Bench>,
    tokens: Rc<Tokens>,
    /// All texts in use.
    pub sources: Sources,
    count: Cell<u64>,
    pub(super) imports: Imports,
}

impl fmt::Debug for Scripts {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Scripts").field("sources", &self.sources).finish_non_exhaustive()
    }
}

impl Scripts {
    /// A compiler for the engine of `bench`.
    pub fn new(bench: Rc<Bench>, tokens: Rc<Tokens>) -> Self {
        Self { bench, tokens, sources: Sources::default(), count: Cell::new(0), imports: Imports::default() }
    }

    /// Compiles `text`; `name` is empty for a line at the prompt.
    ///
    /// # Errors
    /// The text cannot be read.
    pub fn compile(&self, engine: &Engine, name: &str, text: &str) -> Result<Script, Vec<Diagnostic>> {
        let limits = self.bench.watch.limits();
        if text.len() > limits.text {
            return Err(vec![Reached::Text(limits.text).into()]);
        }
        let mode = if name.is_empty() { Mode::Prompt } else { Mode::Script };
        let each = |found: Vec<Diagnostic>| found.into_iter().map(|one| in_text(one, name, text)).collect::<Vec<_>>();
        let prepared = self.bench.workshop().prepare(text, mode).map_err(each)?;
        let (script, insertions) = self.read(|| guarded(engine, &prepared.script)).map_err(|found| vec![found])?;
        let id = self.next_id(name);
        let places = prepared.places;
        let source =
            Rc::new(Source { id: id.clone(), name: name.to_string(), text: text.to_string(), places, insertions });
        let mut ast = self.read(|| engine.compile(&script)).map_err(|found| vec![found])?.map_err(|error| {
            let found = reading(&error.0, &limits);
            let span = source.span(error.1, None).unwrap_or(text.len()..text.len());
            let sign = sign(&error.0).filter(|sign| text[span.start..].starts_with(sign));
            let end = sign.map_or(span.end, |sign| span.start + sign.len());
            vec![in_text(found.at(span.start..end), name, text)]
        })?;
        if let Some((renamed, place, behind)) = self.tokens.renamed() {
            let found = Diagnostic::of(&RENAMED, says!("`{}` is now called `{}`", renamed.old, renamed.new));
            let start = source.span(place, None).map_or(0, |span| span.start + behind);
            let found = found.at(start..start + renamed.old.len()).instead(renamed.new);
            return Err(vec![in_text(found, name, text)]);
        }
        ast.set_source(id);
        self.sources.remember(&source);
        Ok(Script { ast, source })
    }

    /// Parses within the limits; the result is void if a limit ended the parsing.
    fn read<T>(&self, work: impl FnOnce() -> T) -> Result<T, Diagnostic> {
        self.tokens.begin();
        let result = self.bench.watch.during(work);
        self.tokens.reached().map_or(Ok(result), |limit| Err(limit.into()))
    }

    fn next_id(&self, name: &str) -> String {
        let count = self.count.get() + 1;
        self.count.set(count);
        format!("{name}#{count}")
    }
}

fn in_text(found: Diagnostic, name: &str, text: &str) -> Diagnostic {
    if name.is_empty() || found.source.is_some() { found } else { found.inside(name, text) }
}
