//! The words of the design book.

use std::path::Path;
use std::rc::Rc;

use super::booked::{Booked, Label, Opened, PickedUp};
use super::reply::{Faults, Reply};
use super::session::Session;
use super::stored::{find, find_if, keep, new_name, on_bench, revision, tape};
use super::trail::{Framed, Trail};
use crate::book::text::{self, Difference};
use crate::book::{self, Address, Draft, Revision};
use crate::diag::{Diagnostic, codes};
use crate::measure::write::Manner;
use crate::rules::Design;
use crate::rules::book::WALL;
use crate::word::{Args, Given, Kind};

/// The most designs of a list, except with `book all`.
const SHOWN: usize = 100;

impl Session {
    pub(super) fn keep(&mut self, args: &Args) -> Result<Reply, Faults> {
        let Some(name) = args.one(Kind::Saved) else { return Ok(Reply::Nothing) };
        let note = args.one(Kind::Note).map(Given::text);
        let kept = keep(&self.shelf, &self.bench.framed().draft(), name.text(), note);
        let kept = kept.map_err(|fault| self.refused(fault, name, args))?;
        Ok(booked(Booked::Kept { name: kept.name, number: kept.number, written: kept.written }))
    }

    pub(super) fn open(&mut self, args: &Args) -> Result<Reply, Faults> {
        let revision = self.revision(args)?;
        // Saved figures are compared on the wall that they were saved for.
        let (mut as_kept, left_out) = text::design(&revision.draft.fields, self.settings.fresh());
        let mut design = as_kept.clone();
        self.wall().put_behind(&mut design);
        let kept_by = tape(&revision).filter(|tape| *tape != design.manner().graduation);
        if let Some(graduation) = &kept_by {
            as_kept.set_manner(Manner { graduation: graduation.clone() });
        }
        // Names that the rules did not have then are not differences.
        let mut differences = text::differences(&revision.draft.figures, &text::figures(&as_kept));
        differences.retain(|one| one.was.is_some());
        let design = Rc::new(design);
        let opened = Opened {
            name: revision.name,
            number: revision.number,
            when: revision.when,
            note: revision.note,
            retired: revision.retired,
            wall: wall_differences(&revision.draft, &design),
            differences,
            left_out,
            tape: kept_by.map(|graduation| graduation.name.to_string()),
            program: revision.program,
            findings: design.findings(),
            design: Rc::clone(&design),
        };
        self.bench.replace(Framed { design, style: revision.draft.style });
        Ok(booked(Booked::Opened(Box::new(opened))))
    }

    pub(super) fn book(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (all, retired) = (args.has("all"), args.has("retired"));
        let most = if all || retired { usize::MAX } else { SHOWN };
        let (entries, count) = self.shelf.look(|book| book.list(retired, most))?;
        let none = if retired { ("no design is retired", "book") } else { ("no design is in use", "keep moth-07") };
        Ok(booked(Booked::List { entries, count, all: Some("book all"), none }))
    }

    pub(super) fn book_export(&mut self, args: &Args) -> Result<Reply, Faults> {
        let file = args.text(Kind::File);
        if self.is_book_empty()? {
            let message = "there is no design in the book yet, so there is nothing to export";
            return Err(Diagnostic::of(&codes::book::NONE, message).hint(self.line_toward()).into());
        }
        let counts = self.shelf.look(|book| book.export(self.shelf.host(), Path::new(file)))?;
        Ok(booked(Booked::Exported { file: file.into(), counts }))
    }

    /// Whether the book has no design, in use or retired.
    pub(super) fn is_book_empty(&self) -> Result<bool, Faults> {
        let count = |retired| -> Result<usize, Faults> { Ok(self.shelf.look(|book| book.list(retired, 1))?.1) };
        Ok(count(false)? + count(true)? == 0)
    }

    pub(super) fn book_import(&mut self, args: &Args) -> Result<Reply, Faults> {
        let file = args.text(Kind::SourceFile);
        let rules = &self.settings.rules;
        let done = self.shelf.change(|book| book.import(self.shelf.host(), Path::new(file), rules))?;
        Ok(booked(Booked::Imported(file.into(), done)))
    }

    pub(super) fn book_backup(&mut self, args: &Args) -> Result<Reply, Faults> {
        let file = args.text(Kind::File);
        self.shelf.look(|book| book.backup(Path::new(file)))?;
        Ok(booked(Booked::BackedUp(file.into())))
    }

    pub(super) fn find(&mut self, args: &Args) -> Result<Reply, Faults> {
        Ok(booked(find(&self.shelf, args.text(Kind::Words), SHOWN)?))
    }

    pub(super) fn find_if(&mut self, args: &Args) -> Result<Reply, Faults> {
        let found = find_if(&self.shelf, args.text(Kind::Condition), SHOWN, &self.settings);
        Ok(booked(found.map_err(|found| found.shifted(args.span(Kind::Condition).start))?))
    }

    pub(super) fn retire(&mut self, args: &Args) -> Result<Reply, Faults> {
        self.set_retired(args, Kind::Design, true)
    }

    pub(super) fn restore(&mut self, args: &Args) -> Result<Reply, Faults> {
        self.set_retired(args, Kind::Retired, false)
    }

    fn set_retired(&mut self, args: &Args, kind: Kind, retired: bool) -> Result<Reply, Faults> {
        let Some(given) = args.one(kind) else { return Ok(Reply::Nothing) };
        let name = given.text();
        let done = self.shelf.change(|book| book.set_retired(name, retired));
        done.map_err(|fault| self.refused(fault, given, args))?;
        let (said, back) = if retired { ("retired", "restore") } else { ("restored", "retire") };
        Ok(booked(Booked::Done { said: format!("{said} {name}"), back: format!("{back} {name}") }))
    }

    pub(super) fn rename(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (Some(from), Some(to)) = (args.one(Kind::Design), args.one(Kind::NewDesign)) else {
            return Ok(Reply::Nothing);
        };
        let done = new_name(&self.shelf, to.text());
        let done = done.and_then(|()| self.shelf.change(|book| book.rename(from.text(), to.text())));
        done.map_err(|fault| self.refused_either(fault, [from, to], args))?;
        let (from, to) = (from.text(), to.text());
        let said = format!("{from} is now {to}");
        // A name that designs can no longer have cannot be restored.
        let back =
            if new_name(&self.shelf, from).is_ok() { format!("rename {to} {from}") } else { format!("revisions {to}") };
        Ok(booked(Booked::Done { said, back }))
    }

    pub(super) fn copy(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (Some(from), Some(to)) = (args.one(Kind::Revision), args.one(Kind::NewDesign)) else {
            return Ok(Reply::Nothing);
        };
        let now = self.shelf.host().now();
        let copy = |book: &mut book::DesignBook| book.copy(&Address::read(from.text())?, to.text(), now);
        let done = new_name(&self.shelf, to.text()).and_then(|()| self.shelf.change(copy));
        let kept = done.map_err(|fault| self.refused_either(fault, [from, to], args))?;
        Ok(booked(Booked::Kept { name: kept.name, number: kept.number, written: true }))
    }

    pub(super) fn label(&mut self, args: &Args) -> Result<Reply, Faults> {
        let revision = self.revision(args)?;
        let (design, _) = on_bench(&revision, self.blank());
        let date = revision.when.split(' ').next().unwrap_or_default().to_string();
        let (head, rows) = (format!("{}@{}", revision.name, revision.number), design.lines_of(LABEL));
        Ok(booked(Booked::Label(Label { head, rows, date })))
    }

    /// The revision that a line names.
    fn revision(&self, args: &Args) -> Result<Revision, Diagnostic> {
        match args.one(Kind::Revision) {
            Some(given) => revision(&self.shelf, given.text()).map_err(|fault| self.refused(fault, given, args)),
            None => Err(Diagnostic::of(&codes::word::VALUE_MISSING, "the name of a design is missing")),
        }
    }

    /// The steps at the bench.
    pub fn trail(&self) -> &Trail {
        &self.trail
    }

    /// The time in seconds since 1970.
    pub fn now(&self) -> i64 {
        self.shelf.host().now()
    }

    /// Continues at a bench that an earlier shell left; no answer if that bench was empty.
    pub fn pick_up(&mut self, left: &book::Left) -> Option<Reply> {
        let settings = &self.settings;
        self.trail = Trail::picked_up(left, &|| settings.fresh())?;
        let framed = self.with_settings(self.trail.framed()?);
        self.bench.replace(framed);
        let (design, steps) = (self.design(), self.trail.len());
        if design.is_empty() && steps == 0 {
            return None;
        }
        let picked_up = PickedUp { when: left.when.clone(), design, steps };
        Some(Reply::Book(Box::new(Booked::PickedUp(Box::new(picked_up)))))
    }
}

fn booked(booked: Booked) -> Reply {
    Reply::Book(Box::new(booked))
}

/// The page of a label in the rules.
const LABEL: &str = "label";

/// Saved values that differ from the wall of the bench, each with the line that restores it.
fn wall_differences(draft: &Draft, design: &Design) -> Vec<(Difference, String)> {
    let of_wall = |text: &str| -> String {
        let lines = text::lines(text).filter(|(name, _)| name.starts_with(WALL));
        lines.map(|(name, value)| format!("{name} {value}\n")).collect()
    };
    let mut differences = text::differences(&of_wall(&draft.figures), &of_wall(&text::figures(design)));
    differences.retain(|one| one.was.is_some());
    let line = |name: &str| match text::value(&draft.fields, name) {
        Some(value) => format!("{name} {value}"),
        None => format!("clear {name}"),
    };
    differences.into_iter().map(|one| (one.clone(), line(&one.name))).collect()
}
