//! Takes what went wrong out of the engine's error, and gives it its place in the text.

use std::rc::Rc;

use rhai::EvalAltResult;

use super::limits::Limits;
use super::said::{Mend, said};
use super::source::{Source, Sources};
use crate::diag::{Diagnostic, Span};

/// What is known where an error is lowered.
pub struct Known<'a> {
    /// The script that ran.
    pub main: &'a Rc<Source>,
    /// Every other script.
    pub sources: &'a Sources,
    /// The limits it ran under.
    pub limits: &'a Limits,
    /// Names of variables.
    pub variables: Vec<String>,
    /// Fields and figures of the design at the bench.
    pub fields: Vec<String>,
    /// Functions that scripts defined, and how many values they take.
    pub functions: Vec<(String, usize)>,
}

/// What went wrong, with the innermost place that can be shown.
pub fn lower(error: &EvalAltResult, known: &Known<'_>) -> Diagnostic {
    let mut source = Rc::clone(known.main);
    let mut fallback = None;
    let mut error = error;
    while let EvalAltResult::ErrorInFunctionCall(_, id, inner, position) = error {
        fallback = source.span(*position, None).map(|span| (Rc::clone(&source), span)).or(fallback);
        if let Some(other) = known.sources.named(id) {
            source = other;
        }
        error = inner;
    }
    let said = said(error, known);
    // What comes from another text has its place there already.
    if said.diagnostic.source.is_some() {
        return said.diagnostic;
    }
    let here = source.span(error.position(), said.argument).map(|span| (source, span));
    match here.or(fallback) {
        Some((source, span)) => placed(mended(said.diagnostic, &said.mend, &source.text, &span), &source, span, known),
        None => said.diagnostic,
    }
}

fn placed(diagnostic: Diagnostic, source: &Rc<Source>, span: Span, known: &Known<'_>) -> Diagnostic {
    let diagnostic = diagnostic.at(span);
    let elsewhere = !Rc::ptr_eq(source, known.main) || !source.name.is_empty();
    if elsewhere { diagnostic.inside(source.name.clone(), source.text.clone()) } else { diagnostic }
}

/// Puts the mending of a name into the line that it stands in.
fn mended(mut diagnostic: Diagnostic, mend: &Mend, text: &str, span: &Span) -> Diagnostic {
    if diagnostic.hint.is_some() || text.contains('\n') {
        return diagnostic;
    }
    diagnostic.hint = match mend {
        Mend::Nothing => None,
        Mend::Name(name) => Some(format!("{}{name}{}", &text[..span.start], &text[span.end..])),
        Mend::Define => sets(text, span).then(|| format!("let {}", text.trim())),
    };
    diagnostic
}

/// Whether the text is `name = value`.
fn sets(text: &str, name: &Span) -> bool {
    let rest = text[name.end..].trim_start();
    text[..name.start].trim().is_empty() && rest.starts_with('=') && !rest.starts_with("==")
}
