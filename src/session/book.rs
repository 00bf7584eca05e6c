//! The words of the design book.

use std::path::Path;

use super::booked::{Booked, Label, Opened, Past, PickedUp, Side};
use super::command::BookDeed;
use super::reply::Reply;
use super::session::{Session, fresh};
use super::shelf::Shelf;
use super::trail::{Stand, Trail};
use crate::book::text::{self, LeftOut};
use crate::book::{self, Address, BookFault, Draft, NameFault, Revision};
use crate::diag::Diagnostic;
use crate::measure::Graduation;
use crate::measure::write::Manner;
use crate::rules::{Condition, Design};

/// How many designs a list shows unless all are asked for.
const SHOWN: usize = 100;

/// What the first word behind `find` makes a condition of the rest.
const IF: &str = "if ";

impl Session {
    /// Does what a word of the design book says.
    pub(super) fn book_line(&mut self, deed: BookDeed, rest: &str) -> Result<Reply, Diagnostic> {
        let told = |fault: BookFault| told(fault, deed, rest);
        let booked = match deed {
            BookDeed::Keep => return self.keep_line(rest),
            BookDeed::Open => return self.open(rest).map_err(told),
            BookDeed::Book => return self.list_line(rest),
            BookDeed::Find => find(&self.shelf, rest, SHOWN)?,
            BookDeed::Revisions => self.revisions(one(rest)?).map_err(told)?,
            BookDeed::Compare => self.compare(two(rest, deed)?).map_err(told)?,
            BookDeed::Retire | BookDeed::Restore => {
                let (name, retired) = (one(rest)?, deed == BookDeed::Retire);
                self.shelf.change(|book| book.set_retired(name, retired)).map_err(told)?;
                let (said, back) = if retired { ("retired", "restore") } else { ("restored", "retire") };
                Booked::Done { said: format!("{said} {name}"), back: format!("{back} {name}") }
            }
            BookDeed::Rename => {
                let (from, to) = two(rest, deed)?;
                self.shelf.change(|book| book.rename(from, to)).map_err(told)?;
                Booked::Done { said: format!("{from} is {to} now"), back: format!("rename {to} {from}") }
            }
            BookDeed::Copy => {
                let (from, to) = two(rest, deed)?;
                let now = self.shelf.host().now();
                let copy = |book: &mut book::DesignBook| book.copy(&Address::read(from)?, to, now);
                let kept = self.shelf.change(copy).map_err(told)?;
                Booked::Kept { name: kept.name, number: kept.number, written: true }
            }
            BookDeed::Label => self.label(one(rest)?).map_err(told)?,
        };
        Ok(Reply::Book(Box::new(booked)))
    }

    /// `NAME`, or `NAME "note"`.
    fn keep_line(&self, rest: &str) -> Result<Reply, Diagnostic> {
        let (name, note) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
        let note = note.trim();
        let told = |fault| told(fault, BookDeed::Keep, rest);
        let quoted = note.strip_prefix('"').and_then(|note| note.strip_suffix('"'));
        if quoted.is_none() && !note.is_empty() {
            let start = rest.len() - note.len();
            let note = note.trim_matches('"');
            return Err(Diagnostic::new("a name has no blanks in it, and a note stands in quotes")
                .at(start..rest.len())
                .hint(format!("keep {name} \"{note}\"")));
        }
        let kept = keep(&self.shelf, &self.bench.stand(), name, quoted).map_err(told)?;
        Ok(Reply::Book(Box::new(Booked::Kept { name: kept.name, number: kept.number, written: kept.written })))
    }

    fn open(&mut self, text: &str) -> Result<Reply, BookFault> {
        let revision = revision(&self.shelf, text)?;
        let (design, left_out) = on_bench(&revision, fresh(&self.settings));
        let kept_by = tape(&revision).filter(|tape| *tape != design.manner().graduation);
        let mut as_kept = design.clone();
        if let Some(graduation) = &kept_by {
            as_kept.set_manner(Manner { graduation: graduation.clone() });
        }
        let opened = Opened {
            name: revision.name,
            number: revision.number,
            when: revision.when,
            note: revision.note,
            retired: revision.retired,
            differences: text::differences(&revision.draft.figures, &text::figures(&as_kept)),
            left_out,
            tape: kept_by.map(|graduation| graduation.name.to_string()),
            program: revision.program,
            findings: design.findings(),
            design: design.clone(),
        };
        self.bench.replace(Stand { design, style: revision.draft.style });
        Ok(Reply::Book(Box::new(Booked::Opened(Box::new(opened)))))
    }

    /// `book` and what may stand behind it.
    fn list_line(&self, rest: &str) -> Result<Reply, Diagnostic> {
        let (word, file) = rest.split_once(char::is_whitespace).unwrap_or((rest, ""));
        let path = Shelf::file(file);
        let told = |fault| told(fault, BookDeed::Book, rest);
        let shown = || file.trim().to_string();
        let wants_file = matches!(word, "export" | "import" | "backup");
        if wants_file && path == Path::new("") {
            let message = format!("book {word} takes a file");
            return Err(Diagnostic::new(message)
                .hint(format!("book {word} {}", if word == "backup" { "book-copy.db" } else { "book.jsonl" })));
        }
        let booked = match word {
            "" | "all" | "retired" => {
                let most = if word.is_empty() { SHOWN } else { usize::MAX };
                let (entries, count) = self.shelf.look(|book| book.list(word == "retired", most)).map_err(told)?;
                let none = if word == "retired" {
                    ("no design is retired", "book")
                } else {
                    ("the book has no design yet", "keep moth-07")
                };
                Booked::List { entries, count, all: "book all".into(), none }
            }
            "export" => {
                let counts = self.shelf.look(|book| book.export(self.shelf.host(), path)).map_err(told)?;
                Booked::Exported { file: shown(), counts }
            }
            "import" => {
                let done = self.shelf.change(|book| book.import(self.shelf.host(), path)).map_err(told)?;
                Booked::Imported(shown(), done)
            }
            "backup" => {
                self.shelf.look(|book| book.backup(path)).map_err(told)?;
                Booked::BackedUp(shown())
            }
            other => {
                let known = ["all", "retired", "export", "import", "backup"];
                let near = crate::diag::near(other, known);
                let message = format!("book takes nothing, all, retired, export, import or backup, not {other}");
                let hint = near.first().map_or_else(|| format!("find {rest}"), |near| format!("book {near} {file}"));
                return Err(Diagnostic::new(message).at(0..other.len()).hint(hint.trim_end()));
            }
        };
        Ok(Reply::Book(Box::new(booked)))
    }

    fn revisions(&self, name: &str) -> Result<Booked, BookFault> {
        let all = self.shelf.look(|book| book.revisions(name))?;
        let mut past = Vec::new();
        let mut before: Option<&Revision> = None;
        for one in &all {
            let changes =
                before.map_or_else(Vec::new, |before| text::differences(&before.draft.fields, &one.draft.fields));
            // Where a field changed figures follow; alone they tell that the rules or the tape did.
            let alone = before.filter(|_| changes.is_empty());
            let figures = alone.map_or(0, |before| text::differences(&before.draft.figures, &one.draft.figures).len());
            let style = one.draft.style.clone().map(|mark| (mark.name, mark.version));
            let (when, note) = (one.when.clone(), one.note.clone());
            past.push(Past { number: one.number, when, note, style, changes, figures });
            before = Some(one);
        }
        Ok(Booked::Revisions(name.into(), past))
    }

    fn compare(&self, (one, other): (&str, &str)) -> Result<Booked, BookFault> {
        let both = [revision(&self.shelf, one)?, revision(&self.shelf, other)?];
        let texts = both.each_ref().map(|one| format!("{}{}", one.draft.fields, one.draft.figures));
        let design = self.design();
        let differing = text::differences(&texts[0], &texts[1]);
        // In the order of the sheet, and behind that what the rules have no more.
        let mut names: Vec<&str> = vec![text::BUILD];
        names.extend(design.book().all_names());
        for (name, _) in texts.iter().flat_map(|text| text::lines(text)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let side = |name: &str| {
            let values =
                texts.each_ref().map(|one| text::value(one, name).map(|value| text::shown(&design, name, value)));
            let differs = differing.iter().any(|difference| difference.name == name);
            Side { name: name.into(), values, differs }
        };
        let rows = names.into_iter().map(side).filter(|side| side.values.iter().any(Option::is_some)).collect();
        let names = both.map(|one| format!("{}@{}", one.name, one.number));
        Ok(Booked::Compared { names, rows })
    }

    fn label(&self, text: &str) -> Result<Booked, BookFault> {
        let revision = revision(&self.shelf, text)?;
        let (design, _) = on_bench(&revision, fresh(&self.settings));
        let rows = LABEL.iter().filter_map(|(word, names)| {
            let values: Vec<String> = names.iter().filter_map(|name| design.shown(design.slot(name).ok()?)).collect();
            (!values.is_empty()).then(|| (*word, values.join(" x ")))
        });
        let date = revision.when.split(' ').next().unwrap_or_default().to_string();
        Ok(Booked::Label(Label { head: format!("{}@{}", revision.name, revision.number), rows: rows.collect(), date }))
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
        let stand = self.fitted(self.trail.stand()?.clone());
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

/// What a label says, and the names it is taken from, as far as the rules have them.
const LABEL: &[(&str, &[&str])] = &[
    ("art", &["art.width", "art.height", "art.depth"]),
    ("art across", &["art.across"]),
    ("outside", &["outside.width", "outside.height"]),
    ("across", &["outside.across"]),
    ("depth", &["depth"]),
    ("wood", &["wood"]),
    ("hanger", &["hanger.drop", "hanger.span"]),
    ("wire", &["wire"]),
];

/// Keeps what stands on a bench.
pub(super) fn keep(shelf: &Shelf, stand: &Stand, name: &str, note: Option<&str>) -> Result<book::Kept, BookFault> {
    book::name::check_name(name)?;
    let Stand { design, style } = stand;
    let draft = Draft {
        fields: text::fields(design),
        figures: text::figures(design),
        tape: design.manner().graduation.name.into(),
        style: style.clone(),
    };
    let now = shelf.host().now();
    shelf.change(|book| book.keep(name, note, &draft, now))
}

/// The revision of `NAME` or `NAME@REVISION`.
pub(super) fn revision(shelf: &Shelf, text: &str) -> Result<Revision, BookFault> {
    let address = Address::read(text)?;
    shelf.look(|book| book.revision(&address))
}

/// A revision put on a fresh design, and what the rules of today do not take.
pub(super) fn on_bench(revision: &Revision, fresh: Design) -> (Design, Vec<LeftOut>) {
    text::design(&revision.draft.fields, fresh)
}

/// The tape that a revision was kept by.
fn tape(revision: &Revision) -> Option<Graduation> {
    Graduation::all().find(|one| one.name == revision.draft.tape)
}

/// Designs that have the words, or meet the condition behind `if`.
pub(super) fn find(shelf: &Shelf, text: &str, most: usize) -> Result<Booked, Diagnostic> {
    let told = |fault| told(fault, BookDeed::Find, text);
    let none = ("no design in use is found", "book");
    let all = "book all".into();
    if let Some(condition) = text.strip_prefix(IF) {
        let compiled = Condition::read(condition).map_err(|found| mended(found, condition))?;
        let mut entries = shelf.look(|book| book.find_if(&compiled)).map_err(told)?;
        let count = entries.len();
        entries.truncate(most);
        return Ok(Booked::List { entries, count, all, none });
    }
    let (entries, count) = shelf.look(|book| book.find(text, most)).map_err(told)?;
    Ok(Booked::List { entries, count, all, none })
}

/// A finding against a condition, placed in the line; its hint, a name or two, becomes a line that runs.
fn mended(found: Diagnostic, condition: &str) -> Diagnostic {
    let hint = found.hint.as_ref().zip(found.span.clone()).map(|(near, span)| {
        let first = near.split([',', ' ']).next().unwrap_or(near);
        let quoted = condition.get(span.clone()).is_some_and(|at| at.starts_with('"'));
        let first = if quoted { format!("\"{near}\"") } else { first.to_string() };
        let (before, behind) = (condition.get(..span.start), condition.get(span.end..));
        format!("find {IF}{}{first}{}", before.unwrap_or_default(), behind.unwrap_or_default())
    });
    Diagnostic { hint, ..found }.shifted(IF.len())
}

/// The one name that a word takes.
fn one(rest: &str) -> Result<&str, Diagnostic> {
    match rest.split_once(char::is_whitespace) {
        None => Ok(rest),
        Some((_, more)) => {
            let more = more.trim_start();
            Err(Diagnostic::new("one name is enough").at(rest.len() - more.len()..rest.len()))
        }
    }
}

/// The two names that a word takes.
fn two(rest: &str, deed: BookDeed) -> Result<(&str, &str), Diagnostic> {
    let names: Vec<&str> = rest.split_whitespace().collect();
    match names.as_slice() {
        [one, other] => Ok((one, other)),
        _ => {
            let example = match deed {
                BookDeed::Compare => "compare moth-07@1 moth-07",
                BookDeed::Copy => "copy moth-07 moth-08",
                _ => "rename moth-07 moth-08",
            };
            Err(Diagnostic::new("two names are wanted, a blank between them").hint(example))
        }
    }
}

/// A fault of the book, placed in what was typed, with a line that would work.
fn told(fault: BookFault, deed: BookDeed, rest: &str) -> Diagnostic {
    let word = deed.word();
    let at = |name: &str| rest.find(name).filter(|_| !name.is_empty()).map(|start| start..start + name.len());
    let (span, hint) = match &fault {
        BookFault::Unknown { name, near } => {
            (at(name), near.first().map(|near| format!("{word} {}", rest.replacen(name.as_str(), near, 1))))
        }
        BookFault::Name(NameFault::Letter { name, letter }) => {
            let clean: String = name.chars().map(|one| if letter.contains(one) { '-' } else { one }).collect();
            let clean = Some(clean).filter(|clean| book::name::check_name(clean).is_ok());
            (at(letter), clean.map(|clean| format!("{word} {}", rest.replacen(name.as_str(), &clean, 1))))
        }
        BookFault::Name(NameFault::Revision { name, text }) => (at(text), Some(format!("{word} {name}"))),
        BookFault::Name(NameFault::Missing) => (None, Some(format!("{word} moth-07"))),
        BookFault::NoRevision { name, asked, newest } => {
            let wrong = format!("{name}@{asked}");
            (at(&wrong), Some(format!("{word} {}", rest.replacen(&wrong, &format!("{name}@{newest}"), 1))))
        }
        BookFault::Taken { name } => (rest.rfind(name.as_str()).map(|start| start..start + name.len()), None),
        _ => (None, None),
    };
    let found = Diagnostic::from(fault);
    let hint = hint.or(found.hint);
    Diagnostic { span, hint, ..found }
}
