//! Takes what went wrong out of the engine's error, and gives it its place in the text.

use std::rc::Rc;

use rhai::EvalAltResult;

use super::context::ErrorContext;
use super::reword::{Mend, reword};
use super::source::Source;
use crate::diag::{Diagnostic, Span};

/// What went wrong, with the innermost place that can be shown.
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
    // What comes from another text has its place there already.
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

fn placed(diagnostic: Diagnostic, source: &Rc<Source>, span: Span, context: &ErrorContext<'_>) -> Diagnostic {
    let diagnostic = diagnostic.at(span);
    let elsewhere = !Rc::ptr_eq(source, context.main) || !source.name.is_empty();
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
