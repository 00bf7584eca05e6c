//! From what was typed to what the engine runs: notation becomes calls, names of the design become indices.
//!
//! Nothing else changes: strings, characters and comments stay, and so does every line break.

use super::bracket::Brackets;
use super::lex::{Within, lex};
use super::names::Names;
use super::srcmap::{Edit, SourceMap};
use super::{notation, path};
use crate::diag::Diagnostic;
use crate::measure::read::Misread;

/// Whose text it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// A script: names of the design stand behind a design.
    Script,
    /// A line at the prompt: they may stand alone as well.
    Prompt,
}

/// A text as the engine runs it.
#[derive(Clone, Debug)]
pub struct Rewritten {
    /// What is run.
    pub script: String,
    /// The way back to what was typed.
    pub map: SourceMap,
}

/// Rewrites `text`.
///
/// # Errors
/// Everything that is wrong with its notation, and what is not closed, in the order of the text.
pub fn prepass(text: &str, mode: Mode, names: &dyn Names) -> Result<Rewritten, Vec<Diagnostic>> {
    let lexed = lex(text);
    let brackets = Brackets::of(text, &lexed.tokens);
    let (mut edits, mut faults) = notation::edits(text, &lexed);
    faults.extend(lexed.faults.iter().chain(&brackets.faults).cloned());
    // Behind a text that does not end no bracket can be found.
    if lexed.within != Some(Within::Text) {
        faults.extend(brackets.unclosed(text, &lexed.tokens));
    }
    if !faults.is_empty() {
        return Err(told(faults, text));
    }
    edits.extend(path::edits(text, &lexed.tokens, mode, names));
    edits.sort_by_key(|edit| edit.typed.start);
    let script = apply(text, &edits);
    let map = SourceMap::new(text, &script, &lexed.tokens, &brackets, &edits);
    Ok(Rewritten { script, map })
}

fn told(mut faults: Vec<Misread>, text: &str) -> Vec<Diagnostic> {
    faults.sort_by_key(|fault| (fault.span.start, fault.span.end));
    faults.dedup();
    faults.into_iter().map(|fault| fault.in_text(text)).collect()
}

fn apply(text: &str, edits: &[Edit]) -> String {
    let mut script = String::with_capacity(text.len() + 16 * edits.len());
    let mut at = 0;
    for edit in edits {
        script.push_str(text.get(at..edit.typed.start).unwrap_or_default());
        script.push_str(&edit.script);
        at = edit.typed.end;
    }
    script.push_str(text.get(at..).unwrap_or_default());
    script
}
