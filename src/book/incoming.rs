//! Reads a line of an export and checks it before anything is imported.

use std::ops::Range;

use serde_json::{Map, Value as Json};

use super::exchange::FORMAT;
use super::name::check_name;
use super::revision::{Draft, Mark};
use super::text;
use crate::diag::{Fault, Says, list, says};
use crate::measure::Graduation;
use crate::measure::write::Manner;
use crate::rules::{BUILD, Design, FIGURE, Rules, Type};

/// A line of an export.
#[derive(Debug)]
pub(super) enum Line {
    /// The format of the file.
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
    /// Fields that the rules do not know.
    pub(super) unknown: Vec<String>,
}

impl Line {
    /// Reads a line; the first line names the format.
    pub(super) fn read(line: &str, first: bool, rules: &Rules) -> Result<Self, Says> {
        let Ok(Json::Object(object)) = serde_json::from_str::<Json>(line) else {
            return Err(if line.is_empty() {
                "the line is empty".into()
            } else {
                "the line is not a JSON object".into()
            });
        };
        if first {
            return head(&object);
        }
        if let Some(name) = object.get("retired") {
            let name = name.as_str().ok_or("retired must be the name of a design")?;
            only(&object, &["retired"])?;
            return Ok(Self::Retired(name.into()));
        }
        incoming(&object, rules).map(|one| Self::Revision(Box::new(one)))
    }
}

fn head(object: &Map<String, Json>) -> Result<Line, Says> {
    if object.get("file").and_then(Json::as_str) != Some(FORMAT.0) {
        return Err(format!("the first line of an export must be {}", super::exchange::head_line()).into());
    }
    match object.get("format").and_then(Json::as_i64) {
        Some(format) if format > FORMAT.1 => {
            Err(format!("a newer program wrote it (format {format}; this one knows {})", FORMAT.1).into())
        }
        Some(1..) => Ok(Line::Head),
        _ => Err("the format is missing".into()),
    }
}

const KEYS: &[&str] =
    &["design", "revision", "time", "note", "style", "style_version", "program", "tape", "fields", "figures"];

/// Refuses unknown keys: a slip in a key must not lose its value.
fn only(object: &Map<String, Json>, keys: &[&str]) -> Result<(), Says> {
    match object.keys().find(|key| !keys.contains(&key.as_str())) {
        Some(key) => Err(format!("lines of an export have no {key:?}").into()),
        None => Ok(()),
    }
}

fn incoming(object: &Map<String, Json>, rules: &Rules) -> Result<Incoming, Says> {
    only(object, KEYS)?;
    let text = |key: &str| object.get(key).and_then(Json::as_str).map(str::to_string);
    let wanted = |key: &str| text(key).ok_or_else(|| format!("{key} is missing"));
    let optional = |key: &str| match object.get(key) {
        Some(value) if !value.is_string() => Err(says!("{} must be text", key)),
        _ => Ok(text(key)),
    };
    let name = wanted("design")?;
    check_name(&name).map_err(|fault| Fault::says(&fault))?;
    let number = object.get("revision").and_then(Json::as_u64).and_then(|number| u32::try_from(number).ok());
    let number = number.filter(|number| *number > 0).ok_or("revision must be a whole number from 1")?;
    let time = wanted("time")?;
    if !is_time(&time) {
        return Err(format!("time must look like 2026-03-02T12:01:00Z, not {time:?}").into());
    }
    let style = match (optional("style")?, optional("style_version")?) {
        (Some(name), version) => Some(Mark { name, version: version.unwrap_or_default() }),
        (None, _) => None,
    };
    let tape = wanted("tape")?;
    if Graduation::all().all(|one| one.name != tape) {
        let names: Vec<&str> = Graduation::all().map(|one| one.name).collect();
        return Err(format!("a tape is marked in {}, not {tape}", list(&names, "or")).into());
    }
    let (fields, unknown) = fields(object, rules)?;
    let draft = Draft { fields, figures: values(object, "figures")?, tape, style };
    let note = optional("note")?.unwrap_or_default();
    if note.contains('\0') {
        return Err("a note must be plain text; this one has a NUL byte".into());
    }
    Ok(Incoming { name, number, time, note, program: wanted("program")?, draft, unknown })
}

/// Whether a text is a saved time, of a day that exists.
fn is_time(text: &str) -> bool {
    const LIKE: &str = "0000-00-00T00:00:00Z";
    let shaped = text.len() == LIKE.len()
        && text
            .bytes()
            .zip(LIKE.bytes())
            .all(|(one, like)| if like == b'0' { one.is_ascii_digit() } else { one == like });
    let part = |at: Range<usize>| text.get(at).and_then(|part| part.parse::<u32>().ok()).unwrap_or(u32::MAX);
    shaped
        && (1..=days(part(0..4), part(5..7))).contains(&part(8..10))
        && part(11..13) < 24
        && part(14..16) < 60
        && part(17..19) < 60
}

/// The number of days of a month, if the month exists.
fn days(year: u32, month: u32) -> u32 {
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        _ => 0,
    }
}

/// The fields as saved, with the build first and then names in order; and the names that the rules do not know.
fn fields(object: &Map<String, Json>, book: &Rules) -> Result<(String, Vec<String>), Says> {
    let all = values(object, "fields")?;
    let build = text::value(&all, BUILD).ok_or("fields must have a build")?;
    if book.build(build).is_none() {
        return Err(format!("there is no build called {build}").into());
    }
    let mut unknown = Vec::new();
    for (name, value) in text::lines(&all).filter(|(name, _)| *name != BUILD) {
        match book.slot(name).map(|slot| book.name(slot).of) {
            // A field that the rules no longer know is saved as it is.
            None if name.starts_with(FIGURE) => {}
            None => unknown.push(name.to_string()),
            Some(Type::Nothing) => {}
            Some(of) if text::read(value, of).is_none() => {
                return Err(format!("{name} is {}, and {value:?} is not", of.with_article()).into());
            }
            Some(_) => {}
        }
    }
    let rest: String =
        text::lines(&all).filter(|(name, _)| *name != BUILD).map(|(name, value)| format!("{name} {value}\n")).collect();
    let fields = format!("{} {build}\n{rest}", BUILD);
    below_zero(&fields, book)?;
    Ok((fields, unknown))
}

/// Refuses a size below zero: ranges change from one program to the next, but no rules ever allowed that.
fn below_zero(fields: &str, book: &Rules) -> Result<(), Says> {
    let is_below = |value: &str| value.starts_with('-');
    if !text::lines(fields).any(|(_, value)| is_below(value)) {
        return Ok(());
    }
    let (_, left) = text::design(fields, Design::new(book.clone(), Manner::default()));
    left.into_iter().find(|one| is_below(&one.value)).map_or(Ok(()), |one| Err(one.why))
}

/// The names and values of an object, in order of name, one on each line.
fn values(object: &Map<String, Json>, key: &str) -> Result<String, Says> {
    let values = object.get(key).and_then(Json::as_object).ok_or_else(|| format!("{key} is missing"))?;
    let mut lines = Vec::new();
    for (name, value) in values {
        let plain = |letter: char| letter.is_ascii_alphanumeric() || "._".contains(letter);
        if name.is_empty() || !name.chars().all(plain) {
            return Err(format!("{name:?} cannot be the name of a field or a figure").into());
        }
        match value.as_str() {
            Some(value) if !value.is_empty() && !value.contains(char::is_control) => lines.push((name, value)),
            _ => return Err(format!("the value of {name} must be one line of text").into()),
        }
    }
    lines.sort();
    Ok(lines.into_iter().map(|(name, value)| format!("{name} {value}\n")).collect())
}
