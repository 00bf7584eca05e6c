//! A reply as one JSON object.

use serde::Serialize;
use serde_json::Value as Json;

use super::errors::Failure;
use super::fact::json::{Manners, Reply as Written};
use crate::diag::Diagnostic;
use crate::fact::{Fact, Instance, Shape, fact};
use crate::measure::write::Manner;
use crate::session::facts::Planning;
use crate::session::{Outcome, Planned, REPLIES, Reply};

/// Writes a reply as an object on one line.
///
/// # Errors
/// The output cannot be written.
pub fn write<'a>(
    out: &mut dyn std::io::Write,
    answer: &dyn Instance<'a>,
    printed: &[String],
    manner: &'a Manner,
) -> std::io::Result<()> {
    let manners = Manners { manner, memo: None };
    let written = Written { fact: answer, printed, manners };
    written.serialize(&mut serde_json::Serializer::new(&mut *out))?;
    writeln!(out)
}

/// A reply as an object on one line.
pub fn line<'a>(answer: &dyn Instance<'a>, manner: &'a Manner) -> String {
    let mut bytes = Vec::new();
    // Writing to memory does not fail, and JSON is text.
    let _ = write(&mut bytes, answer, &[], manner);
    String::from_utf8(bytes).unwrap_or_default()
}

/// The result of a line as a fact; `typed` is the line.
pub fn outcome<'a>(outcome: &'a Outcome, typed: &'a str) -> Box<dyn Instance<'a> + 'a> {
    match &outcome.reply {
        Ok(reply) => reply.fact(),
        Err(found) => failure(found, typed),
    }
}

/// A plan as a fact.
pub fn plan(planned: &Planned) -> Box<dyn Instance<'_> + '_> {
    fact::<Planning>(planned)
}

/// A line that failed as a fact.
pub fn failure<'a>(found: &'a [Diagnostic], typed: &'a str) -> Box<dyn Instance<'a> + 'a> {
    fact::<Failure>((found, typed))
}

/// Every kind of reply except those of batch runs.
pub fn replies() -> Vec<&'static dyn Shape> {
    REPLIES.iter().copied().chain([Failure::SHAPE]).collect()
}

/// A reply as a JSON value.
pub fn reply(reply: &Reply, manner: &Manner) -> Json {
    value(&*reply.fact(), manner)
}

/// A reply as a JSON value.
pub fn value<'a>(answer: &dyn Instance<'a>, manner: &'a Manner) -> Json {
    // Texts and numbers under text keys, all of which JSON can hold.
    serde_json::to_value(Written { fact: answer, printed: &[], manners: Manners { manner, memo: None } })
        .unwrap_or_default()
}
