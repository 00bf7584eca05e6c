//! The value that a script gets when it catches an error.
//!
//! A fault of the program arrives unchanged. The engine turns its own errors into a map in its own words; this turns
//! the map back into an error in the framer's words.

use rhai::{Dynamic, EvalAltResult, Map, Position};

use super::builtin::Call;
use super::reword::message;
use super::trouble::{Raised, Trouble};
use crate::diag::{Diagnostic, codes};

/// The function that a caught value passes through.
pub const CAUGHT: &str = "__caught";

/// A caught error in the framer's words.
pub fn caught(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let value = call.value(0)?;
    let error = value.as_map_ref().ok().and_then(|map| engine_error(&map));
    Ok(match error {
        Some(error) => Dynamic::from(Raised::from(Diagnostic::of(&codes::script::ENGINE, message(&error)))),
        None => value.clone(),
    })
}

/// The engine error that a map was made from, if there is one.
fn engine_error(map: &Map) -> Option<EvalAltResult> {
    let text = |name: &str| map.get(name)?.as_immutable_string_ref().ok().map(|text| text.to_string());
    let number = |name: &str| map.get(name)?.as_int().ok();
    let length = || usize::try_from(number("length")?).ok();
    let (error, message) = (text("error")?, text("message")?);
    let nowhere = Position::NONE;
    Some(match error.as_str() {
        "ErrorFunctionNotFound" => EvalAltResult::ErrorFunctionNotFound(text("function")?, nowhere),
        "ErrorVariableNotFound" => EvalAltResult::ErrorVariableNotFound(text("variable")?, nowhere),
        "ErrorPropertyNotFound" => EvalAltResult::ErrorPropertyNotFound(text("variable")?, nowhere),
        "ErrorAssignmentToConstant" => EvalAltResult::ErrorAssignmentToConstant(text("variable")?, nowhere),
        "ErrorModuleNotFound" => EvalAltResult::ErrorModuleNotFound(text("module")?, nowhere),
        "ErrorDotExpr" => EvalAltResult::ErrorDotExpr(text("property")?, nowhere),
        "ErrorMismatchDataType" | "ErrorMismatchOutputType" => {
            EvalAltResult::ErrorMismatchDataType(text("requested")?, text("actual")?, nowhere)
        }
        "ErrorArrayBounds" => EvalAltResult::ErrorArrayBounds(length()?, number("index")?, nowhere),
        "ErrorStringBounds" => EvalAltResult::ErrorStringBounds(length()?, number("index")?, nowhere),
        "ErrorBitFieldBounds" => EvalAltResult::ErrorBitFieldBounds(length()?, number("index")?, nowhere),
        "ErrorIndexNotFound" => EvalAltResult::ErrorIndexNotFound(Dynamic::UNIT, nowhere),
        "ErrorIndexingType" => EvalAltResult::ErrorIndexingType(message, nowhere),
        "ErrorFor" => EvalAltResult::ErrorFor(nowhere),
        "ErrorUnboundThis" => EvalAltResult::ErrorUnboundThis(nowhere),
        "ErrorDataRace" => EvalAltResult::ErrorDataRace(message, nowhere),
        "ErrorNonPureMethodCallOnConstant" => EvalAltResult::ErrorNonPureMethodCallOnConstant(message, nowhere),
        "ErrorArithmetic" => EvalAltResult::ErrorArithmetic(message, nowhere),
        name if name.starts_with("Error") => EvalAltResult::ErrorSystem(message, "".into()),
        _ => return None,
    })
}
