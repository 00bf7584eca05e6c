//! Puts an error of the script engine into the framer's words.

use std::ops::RangeInclusive;

use rhai::{Dynamic, EvalAltResult};

use super::builtin;
use super::context::ErrorContext;
use super::design::DESIGN;
use super::limits::Reached;
use super::literal::shown;
use super::sort::Sort;
use super::syntax::{NO_ROW, forbidden, reading};
use super::trouble::Raised;
use crate::diag::{Diagnostic, codes, list, near};
use crate::measure::write::Manner;

/// An error in the framer's words.
pub struct Reworded {
    /// The message, and the hint where it does not depend on the line.
    pub diagnostic: Diagnostic,
    /// The argument at fault, counted from 0.
    pub argument: Option<usize>,
    /// How to mend the line.
    pub mend: Mend,
}

/// How to mend a line at the place of the error.
pub enum Mend {
    /// No mend is known.
    Nothing,
    /// Put this name in its place.
    Name(String),
    /// Declare the variable that the line sets.
    Define,
}

impl From<Diagnostic> for Reworded {
    fn from(diagnostic: Diagnostic) -> Self {
        Self { diagnostic, argument: None, mend: Mend::Nothing }
    }
}

/// Puts an error of the engine into the framer's words.
#[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
pub fn reword(error: &EvalAltResult, context: &ErrorContext<'_>) -> Reworded {
    match error {
        EvalAltResult::ErrorRuntime(value, _) | EvalAltResult::ErrorTerminated(value, _) => thrown(value),
        EvalAltResult::ErrorParsing(error, _) => reading(error, context.limits).into(),
        EvalAltResult::ErrorFunctionNotFound(signature, _) => no_function(signature, context),
        EvalAltResult::ErrorVariableNotFound(name, _) => no_variable(name, context),
        EvalAltResult::ErrorTooManyModules(_) => Diagnostic::from(Reached::Modules(context.limits.modules)).into(),
        EvalAltResult::ErrorStackOverflow(_) => Diagnostic::from(Reached::Depth(context.limits.depth)).into(),
        other => Diagnostic::of(&codes::script::ENGINE, message(other)).into(),
    }
}

/// A fault of the program comes out unchanged; a value that a script throws is shown.
fn thrown(value: &Dynamic) -> Reworded {
    if let Some(raised) = value.read_lock::<Raised>() {
        return Reworded { diagnostic: raised.diagnostic.clone(), argument: raised.argument, mend: Mend::Nothing };
    }
    let text = shown(value, &Manner::default()).unwrap_or_default();
    Diagnostic::of(&codes::script::THROWN, if text.is_empty() { "the script gave up".into() } else { text }).into()
}

/// The message for an error that needs no context.
#[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
pub fn message(error: &EvalAltResult) -> String {
    match error {
        EvalAltResult::ErrorFunctionNotFound(signature, _) => {
            format!("there is no function `{}`", signature.split(" (").next().unwrap_or_default())
        }
        EvalAltResult::ErrorVariableNotFound(name, _) => format!("there is no value `{name}`"),
        EvalAltResult::ErrorModuleNotFound(name, _) => format!("there is no script `{name}`"),
        EvalAltResult::ErrorPropertyNotFound(name, _) => format!("there is no `{name}` in this map"),
        EvalAltResult::ErrorIndexNotFound(..) => "there is no such position".into(),
        EvalAltResult::ErrorIndexingType(..) => "this value has no positions and no names".into(),
        EvalAltResult::ErrorDotExpr(text, _) => match text.split('\'').nth(1) {
            Some(name) => format!("this value has no `{name}`"),
            None => "this value has nothing by this name".into(),
        },
        EvalAltResult::ErrorUnboundThis(_) => "`this` has a value only in a function that is called on one".into(),
        EvalAltResult::ErrorMismatchDataType(wanted, got, _)
        | EvalAltResult::ErrorMismatchOutputType(wanted, got, _) => mismatch(wanted, got),
        EvalAltResult::ErrorArrayBounds(len, index, _) => format!("there is no position {index} in a list of {len}"),
        EvalAltResult::ErrorStringBounds(len, index, _) => {
            format!("there is no position {index} in a text of {len} letters")
        }
        EvalAltResult::ErrorBitFieldBounds(..) => "a number has no positions".into(),
        EvalAltResult::ErrorFor(_) => NO_ROW.into(),
        EvalAltResult::ErrorDataRace(..) => "this value is in use by what changes it".into(),
        EvalAltResult::ErrorNonPureMethodCallOnConstant(..) => "a constant cannot be changed".into(),
        EvalAltResult::ErrorAssignmentToConstant(name, _) => format!("`{name}` is a constant"),
        EvalAltResult::ErrorArithmetic(..) => "the number is too large".into(),
        EvalAltResult::ErrorVariableExists(name, _) => format!("`{name}` already exists"),
        EvalAltResult::ErrorForbiddenVariable(name, _) => forbidden(name),
        EvalAltResult::ErrorTooManyVariables(_) => "there are too many variables".into(),
        EvalAltResult::ErrorTooManyModules(_) => "too many scripts are imported".into(),
        EvalAltResult::LoopBreak(..) => "`break` and `continue` work only inside a loop".into(),
        _ => "the script stopped".into(),
    }
}

fn mismatch(wanted: &str, got: &str) -> String {
    let wanted = match Sort::of_type_name(wanted) {
        Some(Sort::Truth) => "yes or no".to_string(),
        Some(Sort::Kind(_)) => "a whole number".to_string(),
        Some(sort) => sort.with_article(),
        None => "another value".to_string(),
    };
    let got = Sort::of_type_name(got).map_or_else(|| "a quantity".to_string(), Sort::with_article);
    format!("{wanted} is needed here, not {got}")
}

/// A call without a matching function: the name is unknown, or it takes another number of values.
fn no_function(signature: &str, context: &ErrorContext<'_>) -> Reworded {
    let (name, types) = signature.split_once(" (").unwrap_or((signature, ")"));
    let types = types.trim_end_matches(')');
    let given = if types.is_empty() { 0 } else { types.split(", ").count() };
    if matches!(name, ".." | "..=") {
        let message = "`..` counts whole numbers; quantities are counted by range(from, to, step)";
        return Diagnostic::of(&codes::script::ENGINE, message).hint("range(0in, 2in, 1/2in)").into();
    }
    let own = context.functions.iter().filter(|(own, _)| own == name);
    let takes: Vec<String> = own.map(|(_, count)| count.to_string()).collect();
    if !takes.is_empty() {
        return Diagnostic::of(
            &codes::script::COUNT,
            format!("{name} takes {} values, not {given}", list(&takes, "or")),
        )
        .into();
    }
    if let Some(row) = builtin::named(name) {
        return Diagnostic::of(
            &codes::script::COUNT,
            format!("{} takes {}, not {given}", row.signature(), counted(&row.arities())),
        )
        .into();
    }
    if context.variables.iter().any(|variable| variable == name) {
        let message = format!("`{name}` is a value; the function in it is called by `{name}.call`");
        return Reworded {
            mend: Mend::Name(format!("{name}.call")),
            ..Diagnostic::of(&codes::script::COUNT, message).into()
        };
    }
    let names = builtin::all().filter(|row| !row.property).map(|row| row.name);
    missing("function", name, names.chain(context.functions.iter().map(|(name, _)| name.as_str())))
}

fn counted(arities: &RangeInclusive<usize>) -> String {
    match (*arities.start(), *arities.end()) {
        (1, 1) => "1 value".into(),
        (least, most) if least == most => format!("{least} values"),
        (least, most) => format!("{least} to {most} values"),
    }
}

fn missing<'a>(what: &str, name: &str, names: impl Iterator<Item = &'a str>) -> Reworded {
    let near = near(name, names);
    let message = format!("there is no {what} `{name}`");
    let Some(first) = near.first() else {
        return Reworded { mend: Mend::Define, ..Diagnostic::of(&codes::script::NAME_UNKNOWN, message).into() };
    };
    let marked: Vec<String> = near.iter().map(|name| format!("`{name}`")).collect();
    let message = format!("{message}; there is {}", list(&marked, "and"));
    Reworded { mend: Mend::Name((*first).to_string()), ..Diagnostic::of(&codes::script::NAME_UNKNOWN, message).into() }
}

fn no_variable(name: &str, context: &ErrorContext<'_>) -> Reworded {
    if let Some(row) = builtin::named(name) {
        return Diagnostic::of(&codes::script::NAME_UNKNOWN, format!("`{name}` is a function: {}", row.signature()))
            .into();
    }
    if let Some((_, module)) = name.rsplit_once("::") {
        return Diagnostic::of(&codes::script::NAME_UNKNOWN, format!("there is no `{module}` in this script")).into();
    }
    if context.variables.iter().any(|variable| variable == name) {
        return Diagnostic::of(
            &codes::script::NAME_UNKNOWN,
            format!("a function does not see the variable `{name}`: give it to the function"),
        )
        .into();
    }
    let fields = context.fields.iter().map(String::as_str).filter(|_| context.main.name.is_empty());
    let variables = context.variables.iter().map(String::as_str);
    missing("value", name, variables.chain(fields).chain(std::iter::once(DESIGN)))
}
