//! What is said of a line that no form of its word fits, with a line that runs.

// Each question here is about a few of many.
#![allow(clippy::wildcard_enum_match_arm)]

use super::session::Session;
use crate::diag::{Diagnostic, codes, near};
use crate::word::{Arg, Args, Given, Kind, Stuck};

impl Session {
    /// What is missing in a line or too much, and a line that is right.
    pub(super) fn unread(&self, stuck: &Stuck) -> Diagnostic {
        let code = if stuck.found().is_empty() { &codes::word::VALUE_MISSING } else { &codes::word::NOT_TAKEN };
        Diagnostic::of(code, stuck.message()).at(stuck.span()).hint(self.whole(stuck))
    }

    fn whole(&self, stuck: &Stuck) -> String {
        let found = stuck.found();
        let Some(before) = self.with_designs(stuck) else { return self.line_toward() };
        if stuck.needs_quotes() {
            return format!("{before} \"{}\"", found.trim_matches('"'));
        }
        if let Some(meant) = near(found, stuck.literals()).first().filter(|_| !found.is_empty()) {
            return format!("{before} {meant}{}", stuck.behind());
        }
        if stuck.may_end() {
            return before;
        }
        match stuck.rest(&mut |arg, args| self.example_beside(arg, args, &before)) {
            Some(rest) => format!("{before} {rest}"),
            // Without a retired design there is none to restore.
            None if stuck.arg().is_some_and(|(arg, _)| arg.kind == Kind::Retired) && self.has_designs() => {
                "book".into()
            }
            None => self.line_toward(),
        }
    }

    fn has_designs(&self) -> bool {
        self.shelf.look(|book| book.list(false, 1)).is_ok_and(|(entries, _)| !entries.is_empty())
    }

    /// The line up to what is wrong, each design in it that the book does not have changed for one that it has.
    fn with_designs(&self, stuck: &Stuck) -> Option<String> {
        let mut before = stuck.before().to_string();
        let Some(args) = stuck.args() else { return Some(before) };
        let given: Vec<&Given> = args.iter().collect();
        for one in given.into_iter().rev() {
            let is_saved = matches!(one.arg.kind, Kind::Design | Kind::Revision | Kind::Retired);
            if is_saved && super::stored::revision(&self.shelf, one.text()).is_err() {
                before.replace_range(one.span.clone(), &self.example(one.arg, args)?);
            }
        }
        Some(before)
    }

    /// Text that fits an argument as the book and the bench are, if there is any.
    pub(super) fn example(&self, arg: &Arg, args: &Args) -> Option<String> {
        let named: Vec<&str> = args.iter().map(Given::text).collect();
        self.example_beside(arg, args, &named.join(" "))
    }

    /// Such text for an argument that comes behind others, no design among them named twice.
    fn example_beside(&self, arg: &Arg, args: &Args, before: &str) -> Option<String> {
        let kind = arg.kind;
        if matches!(kind, Kind::Design | Kind::Revision | Kind::Retired) {
            return self.saved_design(kind == Kind::Retired, before);
        }
        if kind == Kind::NewDesign {
            let from = args.one(Kind::Design).or_else(|| args.one(Kind::Revision)).map(Given::text);
            return self.free_name(from, arg.example);
        }
        // An empty design is not saved.
        (kind != Kind::Saved || !self.design().is_empty()).then(|| arg.example.into())
    }

    /// A name that no design has: like that of another with a number behind it, or the usual one.
    fn free_name(&self, from: Option<&str>, usual: &str) -> Option<String> {
        let plain = from.unwrap_or(usual).split('@').next().unwrap_or_default();
        let taken = self.design_names(plain);
        let is_free = |name: &String| !taken.contains(name);
        let usual = from.is_none().then(|| usual.to_string()).filter(is_free);
        usual.or_else(|| (2..u32::MAX).map(|number| format!("{plain}-{number}")).find(is_free))
    }

    /// A design of the book that `before` does not name yet; of the only one its first revision.
    fn saved_design(&self, retired: bool, before: &str) -> Option<String> {
        const FEW: usize = 3;
        let named: Vec<&str> = before.split_whitespace().collect();
        let is_named = |name: &str| named.iter().any(|one| one.split('@').next() == Some(name));
        let entries = self.shelf.look(|book| book.list(retired, FEW)).unwrap_or_default().0;
        let free = entries.iter().find(|entry| !is_named(&entry.name));
        let first = entries.first().filter(|entry| named.contains(&entry.name.as_str()));
        free.map(|entry| entry.name.clone()).or_else(|| first.map(|entry| format!("{}@1", entry.name)))
    }
}
