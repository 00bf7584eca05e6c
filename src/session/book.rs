//! The words of the design book.

use std::path::Path;
use std::rc::Rc;

use super::book_told::{Refused, mended, one, told, two};
use super::booked::{Booked, Label, Opened, PickedUp};
use super::command::BookDeed;
use super::fresh::fresh;
use super::reply::Reply;
use super::session::Session;
use super::shelf::Shelf;
use super::trail::{Stand, Trail};
use crate::book::text::{self, Difference, LeftOut};
use crate::book::{self, Address, BookFault, Draft, Revision};
use crate::diag::Diagnostic;
use crate::measure::Graduation;
use crate::measure::write::Manner;
use crate::rules::book::WALL;
use crate::rules::{Condition, Design, Wall};
use crate::shop::Settings;

/// How many designs a list shows unless all are asked for.
const SHOWN: usize = 100;

/// What the first word behind `find` makes a condition of the rest.
pub(super) const IF: &str = "if ";

impl Session {
    /// Does what a word of the design book says.
    pub(super) fn book_line(&mut self, deed: BookDeed, rest: &str) -> Result<Reply, Diagnostic> {
        self.book_deed(deed, rest).map_err(|refused| self.refused(refused, deed, rest))
    }

    fn book_deed(&mut self, deed: BookDeed, rest: &str) -> Result<Reply, Refused> {
        let booked = match deed {
            BookDeed::Keep => return self.keep_line(rest),
            BookDeed::Open => return Ok(self.open(one(rest, deed)?)?),
            BookDeed::Book => return self.list_line(rest),
            BookDeed::Find => find(&self.shelf, rest, SHOWN, &self.settings)?,
            BookDeed::Revisions => self.revisions(one(rest, deed)?)?,
            BookDeed::Compare => self.compare(two(rest)?)?,
            BookDeed::Retire | BookDeed::Restore => {
                let (name, retired) = (one(rest, deed)?, deed == BookDeed::Retire);
                self.shelf.change(|book| book.set_retired(name, retired))?;
                let (said, back) = if retired { ("retired", "restore") } else { ("restored", "retire") };
                Booked::Done { said: format!("{said} {name}"), back: format!("{back} {name}") }
            }
            BookDeed::Rename => {
                let (from, to) = two(rest)?;
                self.shelf.change(|book| book.rename(from, to))?;
                Booked::Done { said: format!("{from} is {to} now"), back: format!("rename {to} {from}") }
            }
            BookDeed::Copy => {
                let (from, to) = two(rest)?;
                let now = self.shelf.host().now();
                let copy = |book: &mut book::DesignBook| book.copy(&Address::read(from)?, to, now);
                let kept = self.shelf.change(copy)?;
                Booked::Kept { name: kept.name, number: kept.number, written: true }
            }
            BookDeed::Label => self.label(one(rest, deed)?)?,
        };
        Ok(Reply::Book(Box::new(booked)))
    }

    /// `NAME`, or `NAME "note"`.
    fn keep_line(&self, rest: &str) -> Result<Reply, Refused> {
        let (name, note) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
        let note = note.trim();
        let quoted = note.strip_prefix('"').and_then(|note| note.strip_suffix('"'));
        if quoted.is_none() && !note.is_empty() {
            let start = rest.len() - note.len();
            let note = note.trim_matches('"');
            let found = Diagnostic::new("a name has no blanks in it, and a note stands in quotes");
            return Err(found.at(start..rest.len()).hint(format!("keep {name} \"{note}\"")).into());
        }
        let kept = keep(&self.shelf, &self.bench.stand().draft(), name, quoted)?;
        Ok(Reply::Book(Box::new(Booked::Kept { name: kept.name, number: kept.number, written: kept.written })))
    }

    fn open(&mut self, text: &str) -> Result<Reply, BookFault> {
        let revision = revision(&self.shelf, text)?;
        // What was saved is compared on the wall that it was saved for.
        let (mut as_kept, left_out) = text::design(&revision.draft.fields, fresh(&self.settings));
        let mut design = as_kept.clone();
        self.wall().put_behind(&mut design);
        let kept_by = tape(&revision).filter(|tape| *tape != design.manner().graduation);
        if let Some(graduation) = &kept_by {
            as_kept.set_manner(Manner { graduation: graduation.clone() });
        }
        // What the rules did not know then is no difference.
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
        self.bench.replace(Stand { design, style: revision.draft.style });
        Ok(Reply::Book(Box::new(Booked::Opened(Box::new(opened)))))
    }

    /// `book` and what may stand behind it.
    fn list_line(&self, rest: &str) -> Result<Reply, Refused> {
        let (word, file) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
        let path = Shelf::file(file);
        let shown = || file.trim().to_string();
        let wants_file = matches!(word, "export" | "import" | "backup");
        if wants_file && path == Path::new("") {
            let message = format!("book {word} takes a file");
            let file = if word == "backup" { "book-copy.db" } else { "book.jsonl" };
            return Err(Diagnostic::new(message).hint(format!("book {word} {file}")).into());
        }
        let booked = match word {
            "" | "all" | "retired" => {
                let most = if word.is_empty() { SHOWN } else { usize::MAX };
                let (entries, count) = self.shelf.look(|book| book.list(word == "retired", most))?;
                let none = if word == "retired" {
                    ("no design is retired", "book")
                } else {
                    ("no design is in use", "keep moth-07")
                };
                Booked::List { entries, count, all: Some("book all"), none }
            }
            "export" => {
                let counts = self.shelf.look(|book| book.export(self.shelf.host(), path))?;
                Booked::Exported { file: shown(), counts }
            }
            "import" => {
                let done = self.shelf.change(|book| book.import(self.shelf.host(), path, &self.settings.rules))?;
                Booked::Imported(shown(), done)
            }
            "backup" => {
                self.shelf.look(|book| book.backup(path))?;
                Booked::BackedUp(shown())
            }
            other => {
                let known = ["all", "retired", "export", "import", "backup"];
                let near = crate::diag::near(other, known);
                let message = format!("book takes nothing, all, retired, export, import or backup, not {other}");
                let hint = near.first().map_or_else(|| format!("find {rest}"), |near| format!("book {near} {file}"));
                return Err(Diagnostic::new(message).at(0..other.len()).hint(hint.trim_end()).into());
            }
        };
        Ok(Reply::Book(Box::new(booked)))
    }

    fn label(&self, text: &str) -> Result<Booked, BookFault> {
        let revision = revision(&self.shelf, text)?;
        let (design, _) = on_bench(&revision, self.blank());
        let date = revision.when.split(' ').next().unwrap_or_default().to_string();
        Ok(Booked::Label(Label {
            head: format!("{}@{}", revision.name, revision.number),
            rows: design.lines_of(LABEL),
            date,
        }))
    }

    /// The steps at the bench.
    pub fn trail(&self) -> &Trail {
        &self.trail
    }

    /// What the clock says, in seconds since 1970.
    pub fn now(&self) -> i64 {
        self.shelf.host().now()
    }

    /// Goes on at a bench that was left; nothing to say where nothing was left on it.
    pub fn pick_up(&mut self, left: &book::Left) -> Option<Reply> {
        let settings = &self.settings;
        self.trail = Trail::picked_up(left, &|| fresh(settings))?;
        let stand = self.fitted(self.trail.stand()?);
        self.bench.replace(stand);
        let (design, steps) = (self.design(), self.trail.len());
        if design.is_empty() && steps == 0 {
            return None;
        }
        let picked_up = PickedUp { when: left.when.clone(), design, steps };
        Some(Reply::Book(Box::new(Booked::PickedUp(Box::new(picked_up)))))
    }

    /// Names of designs that begin so, for a tab; none where the book cannot be read.
    pub(super) fn design_names(&self, begin: &str) -> Vec<String> {
        const MOST: u32 = 200;
        self.shelf.look(|book| book.names(begin, MOST)).unwrap_or_default()
    }
}

/// The page of a label in the rules.
const LABEL: &str = "label";

/// Saves a design under a name.
pub(super) fn keep(shelf: &Shelf, draft: &Draft, name: &str, note: Option<&str>) -> Result<book::Kept, BookFault> {
    book::name::check_name(name)?;
    if draft.is_empty() {
        return Err(BookFault::Empty);
    }
    let now = shelf.host().now();
    shelf.change(|book| book.keep(name, note, draft, now))
}

/// The revision of `NAME` or `NAME@REVISION`.
pub(super) fn revision(shelf: &Shelf, text: &str) -> Result<Revision, BookFault> {
    let address = Address::read(text)?;
    shelf.look(|book| book.revision(&address))
}

/// A revision put on a fresh design and on its wall, and what the rules of today do not take.
pub(super) fn on_bench(revision: &Revision, fresh: Design) -> (Design, Vec<LeftOut>) {
    let wall = Wall::of(&fresh);
    let (mut design, left_out) = text::design(&revision.draft.fields, fresh);
    wall.put_behind(&mut design);
    (design, left_out)
}

/// What was saved about the wall, where the wall is another now: each difference with the line that brings it back.
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

/// The tape that a revision was kept by.
fn tape(revision: &Revision) -> Option<Graduation> {
    Graduation::all().find(|one| one.name == revision.draft.tape)
}

/// Designs that have the words, or meet the condition behind `if`.
pub(super) fn find(shelf: &Shelf, text: &str, most: usize, settings: &Settings) -> Result<Booked, Diagnostic> {
    let told = |fault| told(fault, BookDeed::Find, text);
    let (rules, unit) = (&settings.rules, settings.unit());
    let none = ("no design in use is found", "book");
    if text.trim() == IF.trim() {
        return Err(Diagnostic::new("find if takes a condition").hint("find if opening.width > 20in"));
    }
    let condition = text.strip_prefix(IF);
    let compiled = condition.map(|text| Condition::read(text, rules).map_err(|found| mended(found, text, rules, unit)));
    let found = match compiled.transpose()? {
        Some(condition) => shelf.look(|book| book.find_if(&condition, most)),
        None => shelf.look(|book| book.find(text, most)),
    };
    let (entries, count) = found.map_err(told)?;
    Ok(Booked::List { entries, count, all: None, none })
}
