//! The finding for a line that no form of its word fits, with a line that works.

// Each question here is about a few of many.
#![allow(clippy::wildcard_enum_match_arm)]

use std::path::Path;

use super::command::Word;
use super::session::Session;
use crate::diag::{Diagnostic, codes, near};
use crate::word::{Arg, Args, Given, Kind, Stuck};

impl Session {
    /// What is missing in a line or too much, and a line that is right.
    pub(super) fn unread(&mut self, stuck: &Stuck, word: &Word) -> Diagnostic {
        let code = if stuck.found().is_empty() { &codes::word::VALUE_MISSING } else { &codes::word::NOT_TAKEN };
        let line = self
            .whole(stuck)
            .filter(|line| !self.is_uncertain(line) && !self.fails(line))
            .unwrap_or_else(|| format!("help {}", word.name));
        Diagnostic::of(code, stuck.message()).at(stuck.span()).hint(line)
    }

    /// The line with what is missing put in, or without what is too much; none where a number would come or go with it.
    fn whole(&self, stuck: &Stuck) -> Option<String> {
        let found = stuck.found();
        let Some(before) = self.with_designs(stuck) else { return Some(self.line_toward()) };
        if stuck.needs_quotes() {
            return Some(format!("{before} \"{}\"", found.trim_matches('"')));
        }
        if let Some(meant) = near(found, stuck.literals()).first().filter(|_| !found.is_empty()) {
            return Some(format!("{before} {meant}{}", stuck.behind()));
        }
        let is_number = |word: &str| word.starts_with(|first: char| !first.is_alphabetic() && first != '"');
        if [found, stuck.behind()].iter().any(|text| text.split_whitespace().any(is_number)) {
            return None;
        }
        if stuck.may_end() {
            return Some(before);
        }
        match stuck.rest(&mut |arg, args| self.example_beside(arg, args, &before)) {
            Some(rest) => Some(format!("{before} {rest}")),
            None if stuck.needs(Kind::is_amount) => None,
            // Only a retired design can be restored.
            None if stuck.needs(|kind| kind == Kind::Retired) && self.has_designs() => Some("book".into()),
            None if stuck.needs(Kind::names_a_design) => Some(self.line_toward()),
            None => None,
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
        match kind {
            Kind::NewDesign => {
                let from = args.one(Kind::Design).or_else(|| args.one(Kind::Revision)).map(Given::text);
                self.free_name(from, arg.example)
            }
            // An empty design is not saved, and the name of another would give that a new revision.
            Kind::Saved if self.design().is_empty() => None,
            Kind::Saved => self.free_name(None, arg.example),
            Kind::Script | Kind::SourceFile => self.file_like(arg.example),
            Kind::File if self.file_like(arg.example).is_some() => None,
            kind if kind.is_amount() => None,
            _ => Some(arg.example.into()),
        }
    }

    /// The file of that name, or the first with the same ending.
    fn file_like(&self, example: &str) -> Option<String> {
        let ending = &example[example.rfind('.')?..];
        let files = self.shelf.host().list(Path::new("."));
        let plain = |name: &&String| name.ends_with(ending) && !name.contains(char::is_whitespace);
        files.iter().find(|name| *name == example).or_else(|| files.iter().find(plain)).cloned()
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
