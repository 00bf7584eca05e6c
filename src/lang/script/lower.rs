//! Turns an error of the script engine into a finding with its place in the text.

use std::rc::Rc;

use rhai::EvalAltResult;

use super::context::ErrorContext;
use super::reword::{Mend, reword};
use super::source::Source;
use crate::diag::{Diagnostic, Fix, Span};

/// The finding for an engine error, at the innermost place that can be shown.
pub fn lower(error: &EvalAltResult, context: &ErrorContext<'_>) -> Diagnostic {
    let mut source = Rc::clone(context.main);
    let mut fallback = None;
    let mut error = error;
    while let EvalAltResult::ErrorInFunctionCall(_, id, inner, position) = error {
        fallback = source.span(*position, None).map(|span| (Rc::clone(&source), span)).or(fallback);
        if let Some(other) = context.sources.named(id) {
            source = other;
        }
        error = inner;
    }
    let reworded = reword(error, context);
    // A fault from another text already has its place there.
    if reworded.diagnostic.source.is_some() {
        return reworded.diagnostic;
    }
    let here = source.span(error.position(), reworded.argument).map(|span| (source, span));
    match here.or(fallback) {
        Some((source, span)) => {
            placed(mended(reworded.diagnostic, &reworded.mend, &source.text, &span), &source, span, context)
        }
        None => reworded.diagnostic,
    }
}

fn placed(mut diagnostic: Diagnostic, source: &Rc<Source>, span: Span, context: &ErrorContext<'_>) -> Diagnostic {
    // The engine places `design.reveel = 1` at the dot: no name fits there.
    if diagnostic.name.as_deref().is_some_and(|name| source.text.get(span.clone()) != Some(name)) {
        diagnostic.fixes.retain(|fix| !matches!(fix, Fix::Value(_)));
    }
    let diagnostic = diagnostic.at(span);
    let elsewhere = !Rc::ptr_eq(source, context.main) || !source.name.is_empty();
    if elsewhere { diagnostic.inside(source.name.clone(), source.text.clone()) } else { diagnostic }
}

/// Turns a mend into a fix of the line.
fn mended(diagnostic: Diagnostic, mend: &Mend, text: &str, span: &Span) -> Diagnostic {
    if !diagnostic.fixes.is_empty() || text.contains('\n') {
        return diagnostic;
    }
    match mend {
        Mend::Name(name) => diagnostic.instead(name.as_str()),
        Mend::Define if sets(text, span) => diagnostic.hint(format!("let {}", text.trim())),
        Mend::Nothing | Mend::Define => diagnostic,
    }
}

/// Whether the text has the form `name = value`.
fn sets(text: &str, name: &Span) -> bool {
    let rest = text[name.end..].trim_start();
    text[..name.start].trim().is_empty() && rest.starts_with('=') && !rest.starts_with("==")
}
