//! What is said where the design book cannot do what a line asks.

use super::session::Session;
use crate::book::name::check_name;
use crate::book::{BookFault, NameFault};
use crate::diag::{Diagnostic, Fix, codes};
use crate::rules::{Book, Condition, Type};
use crate::word::{Args, Given};

/// A finding against a condition, placed in the condition, with a condition that can be read where one is known.
pub(super) fn mended(found: Diagnostic, condition: &str, rules: &Book, unit: &str) -> Diagnostic {
    let found = with_unit(found, condition, unit);
    match meant(&found, condition, rules) {
        Some(instead) => Diagnostic { fixes: vec![Fix::Value(instead)], ..found },
        None => found,
    }
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
        Type::Quantity(_) | Type::Whole | Type::Share => Some(format!("given({name})")),
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

impl Session {
    /// What is said of a name that the book does nothing with, and what would do in its place.
    pub(super) fn refused(&self, fault: BookFault, given: &Given, args: &Args) -> Diagnostic {
        let wants_other = matches!(fault, BookFault::Name(_) | BookFault::Unknown { .. });
        let mut found = placed(fault, given);
        // A design is not compared with itself.
        let is_other = |text: &str| args.all(given.arg.kind).all(|other| other == given || other.text() != text);
        found.fixes.retain(|fix| if let Fix::Value(text) = fix { is_other(text) } else { true });
        if !wants_other || !found.fixes.is_empty() {
            return found;
        }
        match self.example(given.arg, args) {
            Some(example) => found.instead(example),
            None => found.hint(self.line_toward()),
        }
    }

    /// What is said of two names, of which the second is to be a new one.
    pub(super) fn refused_either(&self, fault: BookFault, [from, to]: [&Given; 2], args: &Args) -> Diagnostic {
        let is_name = |given: &Given| check_name(given.text().split('@').next().unwrap_or_default()).is_ok();
        let is_new = matches!(fault, BookFault::Taken { .. }) || matches!(fault, BookFault::Name(_)) && is_name(from);
        self.refused(fault, if is_new { to } else { from }, args)
    }

    /// A line that brings a design into the book, or something on the bench to be saved.
    pub(super) fn line_toward(&self) -> String {
        if self.design().is_empty() { "help art".into() } else { "keep moth-07".into() }
    }
}

/// A fault of the book about a name, in its place, with what would do there.
pub(super) fn placed(fault: BookFault, given: &Given) -> Diagnostic {
    let (text, start) = (given.text(), given.span.start);
    let part = |part: &str| text.find(part).map_or(given.span.clone(), |at| start + at..start + at + part.len());
    let (span, instead) = match &fault {
        BookFault::Unknown { name, near } => (part(name), near.first().cloned()),
        BookFault::Name(NameFault::Letter { name, letter }) => {
            let clean = name.replacen(letter.as_str(), "-", 1);
            (part(letter), check_name(&clean).is_ok().then(|| "-".into()))
        }
        BookFault::Name(NameFault::Revision { name, .. }) => (given.span.clone(), Some(name.clone())),
        BookFault::Name(NameFault::Reserved { name }) => (given.span.clone(), Some(format!("{name}-1"))),
        BookFault::NoRevision { name, newest, .. } => (given.span.clone(), Some(format!("{name}@{newest}"))),
        BookFault::Name(NameFault::Missing | NameFault::Long { .. } | NameFault::Bare { .. })
        | BookFault::Taken { .. }
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
        | BookFault::Nowhere => (given.span.clone(), None),
    };
    let found = Diagnostic::from(fault).at(span);
    match instead {
        Some(instead) => Diagnostic { fixes: Vec::new(), ..found }.instead(instead),
        None => found,
    }
}
