//! Faults of the design book, placed in the line, with a line that works.

use super::session::Session;
use super::stored::revision;
use crate::book::name::check_name;
use crate::book::{BookFault, NameFault};
use crate::diag::{Diagnostic, Fix};
use crate::word::{Args, Given, Kind};

/// So many designs are listed where none is near.
const FEW: usize = 12;

impl Session {
    /// The finding for a name that the book refuses, with a name that works.
    pub(super) fn refused(&self, fault: BookFault, given: &Given, args: &Args) -> Diagnostic {
        let wants_other = matches!(fault, BookFault::Name(_));
        let wants_saved = matches!(fault, BookFault::Unknown { .. } | BookFault::NotRetired { .. });
        let mut found = placed(fault, given);
        // A design is not compared with itself.
        let is_other = |text: &str| args.all(given.arg.kind).all(|other| other == given || other.text() != text);
        found.fixes.retain(|fix| if let Fix::Value(text) = fix { is_other(text) } else { true });
        if wants_saved && found.fixes.is_empty() {
            // A design that nobody named is in no line: many of these lines change it.
            return self.with_choices(found, given.arg.kind == Kind::Retired);
        }
        if !wants_other || !found.fixes.is_empty() {
            return found;
        }
        match self.example(given.arg, args) {
            Some(example) => found.instead(example),
            None => found.hint(self.line_toward()),
        }
    }

    /// A finding about a design that the book does not have, with those that it has; a line that leads to one where it has
    /// none.
    fn with_choices(&self, found: Diagnostic, retired: bool) -> Diagnostic {
        let names = |retired: bool| {
            let entries = self.shelf.look(|book| book.list(retired, FEW)).unwrap_or_default().0;
            entries.into_iter().map(|entry| entry.name).collect::<Vec<_>>()
        };
        match names(retired) {
            some if !some.is_empty() => found.fix(Fix::Choices(some)),
            _ if retired && !names(false).is_empty() => found.hint("book"),
            _ => found.hint(self.line_toward()),
        }
    }

    /// The finding for two names, of which the second must be new.
    pub(super) fn refused_either(&self, fault: BookFault, [from, to]: [&Given; 2], args: &Args) -> Diagnostic {
        // What is to be copied or renamed must exist, whatever it is to be called.
        let fault = match revision(&self.shelf, from.text()) {
            Err(unknown @ BookFault::Unknown { .. }) => unknown,
            Err(_) | Ok(_) => fault,
        };
        let is_name = |given: &Given| check_name(given.text().split('@').next().unwrap_or_default()).is_ok();
        let is_new = matches!(fault, BookFault::Taken { .. }) || matches!(fault, BookFault::Name(_)) && is_name(from);
        self.refused(fault, if is_new { to } else { from }, args)
    }

    /// A line that saves the design at the bench, or that starts one.
    pub(super) fn line_toward(&self) -> String {
        if self.design().is_empty() { "help art".into() } else { "keep moth-07".into() }
    }
}

/// A fault of the book about a name, placed in the line, with a name that works.
pub(super) fn placed(fault: BookFault, given: &Given) -> Diagnostic {
    let (text, start) = (given.text(), given.span.start);
    let part = |part: &str| text.find(part).map_or(given.span.clone(), |at| start + at..start + at + part.len());
    let (span, instead) = match &fault {
        BookFault::Unknown { name, near } => (part(name), near.first().cloned()),
        BookFault::Name(NameFault::Letter { name, letter }) => {
            match check_name(&name.replacen(letter.as_str(), "-", 1)) {
                Ok(()) => (part(letter), Some("-".into())),
                Err(_) => (given.span.clone(), None),
            }
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
