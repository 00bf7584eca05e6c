//! Designs of the book: saved, read and found.

use super::booked::Booked;
use super::command::WORDS;
use super::formula_fault::mended;
use super::shelf::Shelf;
use crate::book::text::{self, LeftOut};
use crate::book::{self, Address, BookFault, Draft, NameFault, Revision};
use crate::diag::Diagnostic;
use crate::measure::Graduation;
use crate::rules::{Condition, Design, Wall};
use crate::shop::Settings;
use crate::word::reserved;

/// The name of a design as typed in a line of several: in quotes if it would be read as something else.
pub(super) fn typed(name: &str) -> String {
    if reserved(WORDS).contains(name) { format!("\"{name}\"") } else { name.into() }
}

/// Whether a design can have this name.
pub(super) fn new_name(shelf: &Shelf, name: &str) -> Result<(), BookFault> {
    book::name::check_name(name)?;
    let is_there = || shelf.look(|book| book.revision(&Address { name: name.into(), revision: None })).is_ok();
    if reserved(WORDS).contains(name) && !is_there() {
        return Err(BookFault::Name(NameFault::Reserved { name: name.into() }));
    }
    Ok(())
}

/// Saves a design under a name.
pub(super) fn keep(shelf: &Shelf, draft: &Draft, name: &str, note: Option<&str>) -> Result<book::Kept, BookFault> {
    new_name(shelf, name)?;
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

/// A revision on a fresh design and its wall, and the values that the rules no longer take.
pub(super) fn on_bench(revision: &Revision, fresh: Design) -> (Design, Vec<LeftOut>) {
    let wall = Wall::of(&fresh);
    let (mut design, left_out) = text::design(&revision.draft.fields, fresh);
    wall.put_behind(&mut design);
    (design, left_out)
}

/// The tape that a revision was saved for.
pub(super) fn tape(revision: &Revision) -> Option<Graduation> {
    Graduation::all().find(|one| one.name == revision.draft.tape)
}

/// Designs that have the words.
pub(super) fn find(shelf: &Shelf, words: &str, most: usize) -> Result<Booked, BookFault> {
    shelf.look(|book| book.find(words, most)).map(found)
}

/// Designs that meet a condition; a fault has its place in the condition.
pub(super) fn find_if(shelf: &Shelf, text: &str, most: usize, settings: &Settings) -> Result<Booked, Diagnostic> {
    let (rules, unit) = (&settings.rules, settings.unit());
    let condition = Condition::read(text, rules).map_err(|found| mended(found, text, rules, unit))?;
    Ok(found(shelf.look(|book| book.find_if(&condition, most))?))
}

fn found((entries, count): (Vec<book::Entry>, usize)) -> Booked {
    Booked::List { entries, count, all: None, none: ("no design matches", "book") }
}
