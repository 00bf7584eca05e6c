//! From the typed text to the script that the engine runs: notation becomes calls, names of the design become indices.
//!
//! Nothing else changes: strings, characters, comments and line breaks stay.

use super::bracket::Brackets;
use super::lex::{Within, lex};
use super::names::Names;
use super::srcmap::{Edit, SourceMap};
use super::{notation, path};
use crate::diag::Diagnostic;
use crate::measure::read::Misread;

/// Where the text comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// A script: names of the design follow a design.
    Script,
    /// A line at the prompt: names may appear alone, too.
    Prompt,
}

/// A text after the pass.
#[derive(Clone, Debug)]
pub struct Rewritten {
    /// The script that runs.
    pub script: String,
    /// The way back to the typed text.
    pub map: SourceMap,
}

/// Rewrites `text`.
///
/// # Errors
/// All faults of notation and all unclosed constructs, in the order of the text.
pub fn prepass(text: &str, mode: Mode, names: &dyn Names) -> Result<Rewritten, Vec<Diagnostic>> {
    let lexed = lex(text);
    let brackets = Brackets::of(text, &lexed.tokens);
    let (mut edits, mut faults) = notation::edits(text, &lexed, names);
    faults.extend(lexed.faults.iter().chain(&brackets.faults).cloned());
    // After an unclosed text no bracket can be read.
    if lexed.within != Some(Within::Text) {
        faults.extend(brackets.unclosed(text, &lexed.tokens));
    }
    if !faults.is_empty() {
        return Err(findings(faults));
    }
    edits.extend(path::edits(text, &lexed.tokens, mode, names));
    edits.sort_by_key(|edit| edit.typed.start);
    let script = apply(text, &edits);
    let map = SourceMap::new(text, &script, &lexed.tokens, &brackets, &edits);
    Ok(Rewritten { script, map })
}

fn findings(mut faults: Vec<Misread>) -> Vec<Diagnostic> {
    faults.sort_by_key(|fault| (fault.span.start, fault.span.end));
    faults.dedup();
    faults.into_iter().map(|fault| fault.found()).collect()
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
