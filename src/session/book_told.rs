//! What stands behind a word of the design book, and what is said where it cannot be used.

use super::book::IF;
use super::book::revision;
use super::command::BookDeed;
use super::session::Session;
use crate::book::name::check_name;
use crate::book::{BookFault, NameFault};
use crate::diag::{Diagnostic, Fix, codes};
use crate::measure::Kind;
use crate::rules::{Book, Condition, Type};

/// A finding against a condition, placed in the line, with a condition that can be read where one is known.
pub(super) fn mended(found: Diagnostic, condition: &str, rules: &Book, unit: &str) -> Diagnostic {
    let found = with_unit(found, condition, unit);
    let found = match meant(&found, condition, rules) {
        Some(instead) => Diagnostic { fixes: vec![Fix::Value(instead)], ..found },
        None => found,
    };
    found.shifted(IF.len())
}

/// What may stand in the place of a finding: a word in quotes, a name that is compared with something.
fn meant(found: &Diagnostic, condition: &str, rules: &Book) -> Option<String> {
    let at = condition.get(found.span.clone()?)?;
    let instead = if found.code == &codes::rules::NAME_UNKNOWN {
        format!("\"{at}\"")
    } else if found.code == &codes::rules::CONDITION_WANTED {
        compared(at, rules)?
    } else {
        return None;
    };
    let reads = |line: &String| Condition::read(line, rules).is_ok();
    Fix::Value(instead.clone()).line(condition, found.span.as_ref()).filter(reads).map(|_| instead)
}

/// A name compared with something that it may be.
fn compared(name: &str, rules: &Book) -> Option<String> {
    let slot = rules.slot(name)?;
    match rules.name(slot).of {
        Type::Quantity(Kind::LENGTH) => Some(format!("{name} > 20in")),
        Type::Quantity(kind) => Some(format!("{name} > 1{}", kind.unit())),
        Type::Whole => Some(format!("{name} > 1")),
        Type::Share => Some(format!("{name} > 50%")),
        Type::Word => {
            let build = rules.build(rules.builds_with(slot).first()?)?;
            let words = rules.rule(build, slot).and_then(|rule| rules.words(rule))?;
            words.last().map(|word| format!("{name} == \"{word}\""))
        }
        Type::Text => Some(format!("{name} == \"\"")),
        Type::List(_) | Type::Record(_) | Type::Truth | Type::Size | Type::Nothing => None,
    }
}

/// A finding against a formula, in which a bare number beside a length is offered with the unit of the bench.
pub(super) fn with_unit(found: Diagnostic, formula: &str, unit: &str) -> Diagnostic {
    let at = found.span.clone().and_then(|span| formula.get(span)).unwrap_or_default();
    let bare = found.code == &codes::rules::UNIT_MISSING && at.ends_with(|last: char| last.is_ascii_digit());
    let instead = format!("{at}{unit}");
    if bare { Diagnostic { fixes: vec![Fix::Value(instead)], ..found } } else { found }
}

/// Why a word of the book does nothing.
pub(super) enum Refused {
    Fault(BookFault),
    Found(Diagnostic),
    /// It takes two names.
    TwoNames,
}

impl From<BookFault> for Refused {
    fn from(fault: BookFault) -> Self {
        Self::Fault(fault)
    }
}

impl From<Diagnostic> for Refused {
    fn from(found: Diagnostic) -> Self {
        Self::Found(found)
    }
}

/// The one name that a word takes.
pub(super) fn one(rest: &str, deed: BookDeed) -> Result<&str, Diagnostic> {
    match rest.split_once(char::is_whitespace) {
        None => Ok(rest),
        Some((name, more)) => {
            let more = more.trim_start();
            let found = Diagnostic::new("one name is enough").at(rest.len() - more.len()..rest.len());
            Err(found.hint(format!("{} {name}", deed.word())))
        }
    }
}

/// The two names that a word takes.
pub(super) fn two(rest: &str) -> Result<(&str, &str), Refused> {
    let names: Vec<&str> = rest.split_whitespace().collect();
    match names.as_slice() {
        [one, other] => Ok((one, other)),
        _ => Err(Refused::TwoNames),
    }
}

impl Session {
    /// What is said of a word of the book that does nothing, with a line that would do on the book as it is.
    pub(super) fn refused(&self, refused: Refused, deed: BookDeed, rest: &str) -> Diagnostic {
        let found = match refused {
            Refused::Found(found) => return found,
            Refused::TwoNames => Diagnostic::new("two names are wanted, a blank between them"),
            Refused::Fault(fault) => {
                let named = matches!(fault, BookFault::Name(_) | BookFault::Unknown { .. });
                let found = told(fault, deed, rest);
                if !named || !found.fixes.is_empty() {
                    return found;
                }
                found
            }
        };
        found.hint(self.line_for(deed, rest))
    }

    /// A line with the word of a deed that does something to the book as it is, or to come nearer to one that does.
    fn line_for(&self, deed: BookDeed, rest: &str) -> String {
        const FEW: usize = 2;
        let word = deed.word();
        let listed = |retired: bool| self.shelf.look(|book| book.list(retired, FEW)).unwrap_or_default().0;
        let names: Vec<String> = listed(deed == BookDeed::Restore).into_iter().map(|entry| entry.name).collect();
        let is_there = |name: &str| revision(&self.shelf, name).is_ok();
        let first = rest.split_whitespace().next().filter(|name| is_there(name)).map(str::to_string);
        let keeps = deed == BookDeed::Keep && !self.design().is_empty();
        match first.or_else(|| names.first().cloned()) {
            _ if keeps => format!("keep {EXAMPLE}"),
            Some(name) if deed == BookDeed::Compare => {
                let plain = name.split('@').next().unwrap_or(&name);
                let other = names.iter().find(|other| *other != plain).cloned();
                format!("{word} {} {name}", other.unwrap_or_else(|| format!("{plain}@1")))
            }
            Some(name) if matches!(deed, BookDeed::Copy | BookDeed::Rename) => {
                let plain = name.split('@').next().unwrap_or(&name);
                let free = (2..u32::MAX).map(|number| format!("{plain}-{number}")).find(|name| !is_there(name));
                format!("{word} {name} {}", free.unwrap_or_default())
            }
            Some(name) if deed != BookDeed::Keep => format!("{word} {name}"),
            _ if deed == BookDeed::Restore && !listed(false).is_empty() => "book".into(),
            _ if self.design().is_empty() => "art 16\" x 20\" x 3/4\"".into(),
            _ => format!("keep {EXAMPLE}"),
        }
    }
}

/// A name for a first design.
const EXAMPLE: &str = "moth-07";

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
    let found = if hint.is_some() { found.only(hint) } else { found };
    Diagnostic { span, ..found }
}
