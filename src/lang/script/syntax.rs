//! The faults of a script that cannot be read, in the framer's words.

use rhai::{LexError, ParseErrorType};

use super::limits::{Limits, Reached};
use crate::diag::{Diagnostic, codes};

/// The message for a value that `for` cannot walk.
pub const NO_ROW: &str = "only a list, a map, a text or a range can be gone through";

/// The finding for a script that cannot be read.
pub fn reading(error: &ParseErrorType, limits: &Limits) -> Diagnostic {
    if let ParseErrorType::ExprTooDeep = error {
        return Diagnostic::from(Reached::Nesting(limits.nesting));
    }
    let diagnostic = Diagnostic::of(&codes::script::SYNTAX, message(error));
    match instead(error) {
        Some(text) => diagnostic.instead(text),
        None => diagnostic,
    }
}

#[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
fn message(error: &ParseErrorType) -> String {
    match error {
        ParseErrorType::UnexpectedEOF => "this ends too early".into(),
        ParseErrorType::BadInput(error) => letters(error),
        ParseErrorType::UnknownOperator(operator) if matches!(operator.as_str(), "++" | "--") => {
            format!("there is no sign `{operator}`; `x {}= 1` does the same", &operator[1..])
        }
        ParseErrorType::UnknownOperator(operator) => format!("there is no sign `{operator}`"),
        ParseErrorType::MissingToken(token, _) => format!("a `{token}` is missing"),
        ParseErrorType::MissingSymbol(_) => "a sign is missing".into(),
        ParseErrorType::MalformedIndexExpr(_) => "a position in brackets is a whole number or a name in quotes".into(),
        ParseErrorType::MalformedCapture(_) => "this cannot be called with `!`".into(),
        ParseErrorType::DuplicatedProperty(name) => format!("`{name}` is in this map twice"),
        ParseErrorType::DuplicatedVariable(name) => format!("the name `{name}` occurs twice"),
        ParseErrorType::WrongSwitchIntegerCase => "a number cannot follow a range in a `switch`".into(),
        ParseErrorType::WrongSwitchDefaultCase => "the case `_` comes last in a `switch`".into(),
        ParseErrorType::WrongSwitchCaseCondition => "the case `_` has no condition".into(),
        ParseErrorType::PropertyExpected => "a name is missing after the point".into(),
        ParseErrorType::VariableExpected => "the name of a variable is missing".into(),
        ParseErrorType::ForbiddenVariable(name) => forbidden(name),
        ParseErrorType::Reserved(word) => reserved(word),
        ParseErrorType::MismatchedType(wanted, _) if wanted.contains("iterable") => NO_ROW.into(),
        ParseErrorType::MismatchedType(..) => "yes or no is needed here".into(),
        ParseErrorType::ExprExpected(what) if what.contains("literal") => {
            "a case of a `switch` is a whole number, a text, yes or no, written out".into()
        }
        ParseErrorType::ExprExpected(_) => "something is missing here".into(),
        ParseErrorType::WrongDocComment => "a comment with `///` goes before a function".into(),
        ParseErrorType::WrongFnDefinition => "a function is defined outside of blocks and other functions".into(),
        ParseErrorType::FnDuplicatedDefinition(name, count) => {
            format!("the function `{name}` with {count} values is defined twice")
        }
        ParseErrorType::FnMissingName => "the function has no name".into(),
        ParseErrorType::FnMissingParams(name) => format!("`(` and `)` are missing after `{name}`"),
        ParseErrorType::FnDuplicatedParam(name, param) => format!("`{param}` is twice in the function `{name}`"),
        ParseErrorType::FnMissingBody(_) => "the function has no body in `{` and `}`".into(),
        ParseErrorType::WrongExport => "`export` goes outside blocks and functions".into(),
        ParseErrorType::AssignmentToConstant(name) if name.is_empty() => "a constant cannot be set".into(),
        ParseErrorType::AssignmentToConstant(name) => format!("`{name}` is a constant"),
        ParseErrorType::AssignmentToInvalidLHS(_) => "this cannot be set".into(),
        ParseErrorType::VariableExists(name) => format!("`{name}` already exists"),
        ParseErrorType::VariableUndefined(name) | ParseErrorType::ModuleUndefined(name) => {
            format!("there is no `{name}`")
        }
        ParseErrorType::TooManyFunctions => "there are too many functions".into(),
        ParseErrorType::LiteralTooLarge(_, most) => format!("a text may have at most {most} characters"),
        ParseErrorType::LoopBreak => "`break` and `continue` work only inside a loop".into(),
        _ => "this cannot be read".into(),
    }
}

/// The message for letters that form no token.
#[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
fn letters(error: &LexError) -> String {
    match error {
        LexError::UnexpectedInput(text) => format!("`{text}` does not belong here"),
        LexError::UnterminatedString => "a quote is not closed".into(),
        LexError::StringTooLong(most) => format!("a text may have at most {most} characters"),
        LexError::MalformedEscapeSequence(text) => {
            format!("`{text}` means nothing in a text; a `\\` is written `\\\\`")
        }
        LexError::MalformedNumber(text) => format!("`{text}` is not a number"),
        LexError::MalformedChar(text) => format!("single quotes take one letter, not `{text}`"),
        LexError::MalformedIdentifier(text) => format!("`{text}` is not a name"),
        LexError::ImproperSymbol(text, _) if text == "=" => "`=` sets a value; compare with `==`".into(),
        LexError::ImproperSymbol(text, _) => format!("there is no `{text}`"),
        _ => "this cannot be read".into(),
    }
}

/// A name that a variable cannot have.
pub fn forbidden(name: &str) -> String {
    format!("`{name}` cannot be the name of a variable")
}

fn reserved(word: &str) -> String {
    let name = word.starts_with(|letter: char| letter.is_alphabetic());
    if name { format!("`{word}` cannot be used as a name") } else { format!("there is no sign `{word}`") }
}

/// What the finding is about, where the language has no such sign or name.
#[expect(clippy::wildcard_enum_match_arm, reason = "the engine's own, and it grows")]
pub fn sign(error: &ParseErrorType) -> Option<&str> {
    match error {
        ParseErrorType::Reserved(text) | ParseErrorType::BadInput(LexError::ImproperSymbol(text, _)) => Some(text),
        _ => None,
    }
}

/// What does its work.
fn instead(error: &ParseErrorType) -> Option<&'static str> {
    match sign(error)? {
        "===" => Some("=="),
        "!==" => Some("!="),
        ":=" => Some("="),
        "type_of" => Some("kind"),
        _ => None,
    }
}
