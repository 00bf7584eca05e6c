//! What stands behind a word of the design book, and what is said where it cannot be used.

use super::book::IF;
use super::command::BookDeed;
use crate::book::name::check_name;
use crate::book::{BookFault, NameFault};
use crate::diag::Diagnostic;

/// A finding against a condition, placed in the line, with a line that runs where one is known.
pub(super) fn mended(found: Diagnostic, condition: &str, unit: &str) -> Diagnostic {
    let found = with_unit(found, condition, unit);
    let hint = found.mended(condition).map(|condition| format!("find {IF}{condition}"));
    Diagnostic { hint, ..found }.shifted(IF.len())
}

/// A finding against a formula, in which a bare number beside a length is offered with the unit of the bench.
pub(super) fn with_unit(found: Diagnostic, formula: &str, unit: &str) -> Diagnostic {
    let at = found.span.clone().and_then(|span| formula.get(span)).unwrap_or_default();
    let bare = found.message.ends_with(UNLIKE) && at.ends_with(|last: char| last.is_ascii_digit());
    if bare { found.clone().instead(format!("{at}{unit}")) } else { found }
}

/// What is said where a length meets a bare number.
const UNLIKE: &str = "a length and a number";

/// The one name that a word takes.
pub(super) fn one(rest: &str) -> Result<&str, Diagnostic> {
    match rest.split_once(char::is_whitespace) {
        None => Ok(rest),
        Some((_, more)) => {
            let more = more.trim_start();
            Err(Diagnostic::new("one name is enough").at(rest.len() - more.len()..rest.len()))
        }
    }
}

/// The two names that a word takes.
pub(super) fn two(rest: &str, deed: BookDeed) -> Result<(&str, &str), Diagnostic> {
    let names: Vec<&str> = rest.split_whitespace().collect();
    match names.as_slice() {
        [one, other] => Ok((one, other)),
        _ => {
            let first = if deed == BookDeed::Compare { "moth-07@1 moth-07" } else { "moth-07 moth-08" };
            let example = format!("{} {first}", deed.word());
            Err(Diagnostic::new("two names are wanted, a blank between them").hint(example))
        }
    }
}

/// A fault of the book, placed in what was typed, with a line that would work.
pub(super) fn told(fault: BookFault, deed: BookDeed, rest: &str) -> Diagnostic {
    let word = deed.word();
    let at = |name: &str| rest.find(name).filter(|_| !name.is_empty()).map(|start| start..start + name.len());
    let (span, hint) = match &fault {
        BookFault::Unknown { name, near } => {
            (at(name), near.first().map(|near| format!("{word} {}", rest.replacen(name.as_str(), near, 1))))
        }
        BookFault::Name(NameFault::Letter { name, letter }) => {
            let clean: String = name.chars().map(|one| if letter.contains(one) { '-' } else { one }).collect();
            let clean = Some(clean).filter(|clean| check_name(clean).is_ok());
            (at(letter), clean.map(|clean| format!("{word} {}", rest.replacen(name.as_str(), &clean, 1))))
        }
        BookFault::Name(NameFault::Revision { name, text }) => (at(text), Some(format!("{word} {name}"))),
        BookFault::Name(NameFault::Missing) => (None, Some(format!("{word} moth-07"))),
        BookFault::NoRevision { name, asked, newest } => {
            let wrong = format!("{name}@{asked}");
            (at(&wrong), Some(format!("{word} {}", rest.replacen(&wrong, &format!("{name}@{newest}"), 1))))
        }
        BookFault::Taken { name } => (rest.rfind(name.as_str()).map(|start| start..start + name.len()), None),
        BookFault::Name(_)
        | BookFault::Retired { .. }
        | BookFault::AlreadyRetired { .. }
        | BookFault::NotRetired { .. }
        | BookFault::Note(_)
        | BookFault::Empty
        | BookFault::NoWords
        | BookFault::Import { .. }
        | BookFault::There { .. }
        | BookFault::Copy { .. }
        | BookFault::File(_)
        | BookFault::Database { .. }
        | BookFault::Nowhere => (None, None),
    };
    let found = Diagnostic::from(fault);
    let hint = hint.or(found.hint);
    Diagnostic { span, hint, ..found }
}
