//! What is said of a line that no form of its word fits, with a line that runs.

use super::session::Session;
use crate::diag::{Diagnostic, near};
use crate::word::{Arg, Args, Given, Kind, Stuck};

impl Session {
    /// What is missing in a line or too much, and a line that is right.
    pub(super) fn unread(&self, stuck: &Stuck) -> Diagnostic {
        Diagnostic::new(stuck.message()).at(stuck.span()).hint(self.whole(stuck))
    }

    fn whole(&self, stuck: &Stuck) -> String {
        let (before, found) = (stuck.before(), stuck.found());
        if stuck.needs_quotes() {
            return format!("{before} \"{}\"", found.trim_matches('"'));
        }
        if let Some(meant) = near(found, stuck.literals()).first().filter(|_| !found.is_empty()) {
            return format!("{before} {meant}{}", stuck.behind());
        }
        if stuck.may_end() {
            return before.into();
        }
        let rest = stuck.rest(&mut |arg, args| self.example(arg, args));
        rest.map_or_else(|| self.line_toward(), |rest| format!("{before} {rest}"))
    }

    /// Text that fits an argument as the book and the bench are, if there is any.
    pub(super) fn example(&self, arg: &Arg, args: &Args) -> Option<String> {
        match arg.kind {
            Kind::Design | Kind::Revision => self.saved_design(false, args),
            Kind::Retired => self.saved_design(true, args),
            Kind::Saved => (!self.design().is_empty()).then(|| arg.example.into()),
            Kind::NewDesign => {
                let from = args.one(Kind::Design).or_else(|| args.one(Kind::Revision)).map(Given::text);
                let plain = from.unwrap_or(arg.example).split('@').next().unwrap_or_default();
                let taken = self.design_names(plain);
                (2..u32::MAX).map(|number| format!("{plain}-{number}")).find(|name| !taken.contains(name))
            }
            _ => Some(arg.example.into()),
        }
    }

    /// A design of the book that the line does not name yet; of the only one its first revision.
    fn saved_design(&self, retired: bool, args: &Args) -> Option<String> {
        const FEW: usize = 3;
        let named: Vec<&str> = args.all(Kind::Revision).map(Given::text).collect();
        let plain = |text: &&str| text.split('@').next().unwrap_or_default().to_string();
        let entries = self.shelf.look(|book| book.list(retired, FEW)).unwrap_or_default().0;
        let free = entries.iter().find(|entry| named.iter().all(|one| plain(one) != entry.name));
        let first = entries.first().filter(|_| !named.iter().any(|one| one.contains('@')));
        free.map(|entry| entry.name.clone()).or_else(|| first.map(|entry| format!("{}@1", entry.name)))
    }
}
