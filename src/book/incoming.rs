//! A line of an export on its way in: looked at before anything of it is taken.

use serde_json::{Map, Value as Json};

use super::exchange::FORMAT;
use super::name::check_name;
use super::revision::{Draft, Mark};
use super::text;
use crate::rules::{Book, Type};

/// A line of an export.
#[derive(Debug)]
pub(super) enum Line {
    /// What the file is.
    Head,
    Revision(Box<Incoming>),
    /// The design of this name is retired.
    Retired(String),
}

/// A revision of another book.
#[derive(Debug)]
pub(super) struct Incoming {
    pub(super) name: String,
    pub(super) number: u32,
    pub(super) time: String,
    pub(super) note: String,
    pub(super) program: String,
    pub(super) draft: Draft,
}

impl Line {
    /// Reads a line; the first says what the file is.
    pub(super) fn read(line: &str, first: bool, rules: &Book) -> Result<Self, String> {
        let Ok(Json::Object(object)) = serde_json::from_str::<Json>(line) else {
            return Err(if line.is_empty() { "it is empty".into() } else { "it is no JSON object".into() });
        };
        if first {
            return head(&object);
        }
        if let Some(name) = object.get("retired") {
            let name = name.as_str().ok_or("retired has the name of a design behind it")?;
            only(&object, &["retired"])?;
            return Ok(Self::Retired(name.into()));
        }
        incoming(&object, rules).map(|one| Self::Revision(Box::new(one)))
    }
}

fn head(object: &Map<String, Json>) -> Result<Line, String> {
    if object.get("file").and_then(Json::as_str) != Some(FORMAT.0) {
        return Err(format!("the first line of an export is {}", super::exchange::head_line()));
    }
    match object.get("format").and_then(Json::as_i64) {
        Some(format) if format > FORMAT.1 => {
            Err(format!("it is of a newer program, format {format}, and this one knows {}", FORMAT.1))
        }
        Some(1..) => Ok(Line::Head),
        _ => Err("the format is missing".into()),
    }
}

const KEYS: &[&str] =
    &["design", "revision", "time", "note", "style", "style_version", "program", "tape", "fields", "figures"];

/// Refuses what nobody knows: a slip in a key must not lose what stands behind it.
fn only(object: &Map<String, Json>, keys: &[&str]) -> Result<(), String> {
    match object.keys().find(|key| !keys.contains(&key.as_str())) {
        Some(key) => Err(format!("nothing is called {key:?} in a line of an export")),
        None => Ok(()),
    }
}

fn incoming(object: &Map<String, Json>, rules: &Book) -> Result<Incoming, String> {
    only(object, KEYS)?;
    let text = |key: &str| object.get(key).and_then(Json::as_str).map(str::to_string);
    let wanted = |key: &str| text(key).ok_or_else(|| format!("{key} is missing"));
    let optional = |key: &str| match object.get(key) {
        Some(value) if !value.is_string() => Err(format!("{key} is text")),
        _ => Ok(text(key)),
    };
    let name = wanted("design")?;
    check_name(&name).map_err(|fault| fault.to_string())?;
    let number = object.get("revision").and_then(Json::as_u64).and_then(|number| u32::try_from(number).ok());
    let number = number.filter(|number| *number > 0).ok_or("revision is a number, 1 and up")?;
    let time = wanted("time")?;
    if !is_time(&time) {
        return Err(format!("time is like 2026-03-02T12:01:00Z, not {time:?}"));
    }
    let style = match (optional("style")?, optional("style_version")?) {
        (Some(name), version) => Some(Mark { name, version: version.unwrap_or_default() }),
        (None, _) => None,
    };
    let draft =
        Draft { fields: fields(object, rules)?, figures: values(object, "figures")?, tape: wanted("tape")?, style };
    let note = optional("note")?.unwrap_or_default();
    if note.contains('\0') {
        return Err("a note is text, and this has a NUL in it".into());
    }
    Ok(Incoming { name, number, time, note, program: wanted("program")?, draft })
}

/// Whether a text is a time as it is kept: figures and signs in their places.
fn is_time(text: &str) -> bool {
    const LIKE: &str = "0000-00-00T00:00:00Z";
    text.len() == LIKE.len()
        && text
            .bytes()
            .zip(LIKE.bytes())
            .all(|(one, like)| if like == b'0' { one.is_ascii_digit() } else { one == like })
}

/// What was given, as it is kept: the build first, then names in their order.
fn fields(object: &Map<String, Json>, book: &Book) -> Result<String, String> {
    let all = values(object, "fields")?;
    let build = text::value(&all, text::BUILD).ok_or("fields has no build")?;
    if book.build(build).is_none() {
        return Err(format!("there is no build {build}"));
    }
    for (name, value) in text::lines(&all).filter(|(name, _)| *name != text::BUILD) {
        // A field that the rules do not know any more is kept as it was.
        let of = book.slot(name).map_or(Type::Nothing, |slot| book.name(slot).of);
        if of != Type::Nothing && text::read(value, of).is_none() {
            return Err(format!("{name} is {}, and {value:?} is none", of.with_article()));
        }
    }
    let rest: String = text::lines(&all)
        .filter(|(name, _)| *name != text::BUILD)
        .map(|(name, value)| format!("{name} {value}\n"))
        .collect();
    Ok(format!("{} {build}\n{rest}", text::BUILD))
}

/// The names and values of an object, in the order of the names, a line each.
fn values(object: &Map<String, Json>, key: &str) -> Result<String, String> {
    let values = object.get(key).and_then(Json::as_object).ok_or_else(|| format!("{key} is missing"))?;
    let mut lines = Vec::new();
    for (name, value) in values {
        let plain = |letter: char| letter.is_ascii_alphanumeric() || "._".contains(letter);
        if name.is_empty() || !name.chars().all(plain) {
            return Err(format!("{name:?} is no name of a field or a figure"));
        }
        match value.as_str() {
            Some(value) if !value.is_empty() && !value.contains(char::is_control) => lines.push((name, value)),
            _ => return Err(format!("the value of {name} is a text of one line")),
        }
    }
    lines.sort();
    Ok(lines.into_iter().map(|(name, value)| format!("{name} {value}\n")).collect())
}
