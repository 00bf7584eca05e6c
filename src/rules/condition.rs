//! A condition over designs that are kept: compiled once, then held against the values of one after another.

use std::sync::Arc;

use super::book::{BUILD, Book, Node, Slot, Type};
use super::datum::Datum;
use super::evaluate::{Absent, Cell, Evaluator, Known, Pass};
use super::reader::read_alone;
use super::resolve::Sheet;
use super::term::{Body, CheckEntry, Entry, Level};
use crate::diag::Diagnostic;
use crate::measure::write::Manner;

/// A condition in the language of the rules, its names looked up and its kinds checked.
#[derive(Debug)]
pub struct Condition {
    book: Arc<Book>,
    test: Node,
    reads: Vec<Slot>,
}

/// What is known of one design, as it was kept.
pub trait Kept {
    /// The value of a name, if it had one.
    fn known(&self, name: &str, of: Type) -> Option<Known>;
    /// What was given to a field, if it was.
    fn given(&self, name: &str, of: Type) -> Option<Datum>;
}

impl Condition {
    /// Reads `text`, such as `opening.width > 20in && wood == "cherry"`, by these rules.
    ///
    /// # Errors
    /// A text that is not a condition, an unknown name with near ones, unlike kinds; with its place in `text`.
    pub fn read(text: &str, rules: &Book) -> Result<Self, Diagnostic> {
        let test = read_alone(text)?;
        let check = CheckEntry {
            level: Level::Note,
            name: ("find".into(), test.span.clone()),
            fires_if: true,
            test,
            says: Vec::new(),
            mend: None,
        };
        let span = 0..text.len();
        let entry = Entry { span, scope: Vec::new(), group: String::new(), instead: false, body: Body::Check(check) };
        // As a check of every build it is looked at like any other; its findings are about the text that was typed.
        let condition = Sheet { name: "", text, entries: vec![entry] };
        let read = rules.added.read(Some(condition));
        let mut book = read.map_err(|found| Diagnostic { source: None, ..found })?;
        let test = book.checks.pop().map_or(Node::Idle, |check| check.test);
        let mut reads = Vec::new();
        test.each_slot(&mut |slot| {
            if !reads.contains(&slot) {
                reads.push(slot);
            }
        });
        Ok(Self { book: Arc::new(book), test, reads })
    }

    /// Whether it holds for a design that was kept, figures as drawn; a condition without a value does not hold.
    pub fn holds(&self, kept: &impl Kept) -> bool {
        let named = kept.given(BUILD, Type::Word);
        let Some(build) = named.as_ref().and_then(Datum::word).and_then(|name| self.book.build(name)) else {
            return false;
        };
        let count = self.book.names.len();
        let (mut given, mut cells) = (vec![None; count], vec![Cell::Done(Err(Absent::Idle)); count]);
        let mut waiting = self.reads.clone();
        while let Some(slot) = waiting.pop() {
            let name = self.book.name(slot);
            let gathers = self.book.rule(build, slot).filter(|rule| rule.gather.is_some());
            cells[usize::from(slot)] = match (gathers, kept.known(&name.text, name.of)) {
                // A name that stands for several is worked out from them.
                (Some(rule), _) => {
                    waiting.extend(&rule.reads);
                    Cell::Unknown
                }
                (None, Some(known)) => Cell::Done(Ok(known)),
                (None, None) => Cell::Done(Err(Absent::Idle)),
            };
            given[usize::from(slot)] = kept.given(&name.text, name.of);
        }
        let manner = Manner::default();
        let mut evaluator = Evaluator { book: &self.book, build, given: &given, cells: &mut cells, manner: &manner };
        evaluator.holds(&self.test, Pass::Drawn) == Ok(true)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::read::quantity;

    /// A design in a few words: names and values, those with a star given.
    struct Few(&'static [(&'static str, &'static str)]);

    impl Kept for Few {
        fn known(&self, name: &str, of: Type) -> Option<Known> {
            let (_, value) = self.0.iter().find(|(one, _)| one.trim_start_matches('*') == name)?;
            let drawn = match of {
                Type::Quantity(_) | Type::Whole | Type::Share => Datum::Amount(quantity(value, None).unwrap().amount),
                Type::Word
                | Type::Text
                | Type::Truth
                | Type::Size
                | Type::List(_)
                | Type::Record(_)
                | Type::Nothing => Datum::Word((*value).into()),
            };
            Some(Known { drawn, cut: None })
        }

        fn given(&self, name: &str, of: Type) -> Option<Datum> {
            let starred = self.0.iter().any(|(one, _)| one.strip_prefix('*') == Some(name));
            self.known(name, of).filter(|_| starred).map(|known| known.drawn)
        }
    }

    const FLOAT: Few = Few(&[
        ("*build", "float"),
        ("opening.width", "20 1/2\""),
        ("wood", "cherry"),
        ("*face", "1\""),
        ("reveal.top", "1/4\""),
        ("reveal.right", "1/4\""),
        ("reveal.bottom", "1/4\""),
        ("reveal.left", "1/4\""),
        ("client", "Two Lanterns"),
    ]);

    #[track_caller]
    fn check(text: &str, holds: bool) {
        assert_eq!(Condition::read(text, &crate::rules::shipped()).unwrap().holds(&FLOAT), holds, "{text}");
    }

    #[test]
    fn a_condition_is_held_against_what_was_kept() {
        check("opening.width > 20in && wood == \"cherry\"", true);
        check("opening.width > 521mm", false);
        check("build == \"float\"", true);
        check("given(face) && !given(wood)", true);
        check("reveal == 1/4in", true);
        check("client == \"Two Lanterns\"", true);
        check("max(face, 3/4in) == 1in", true);
        // A design is not found by a value that it does not have.
        check("sight.width > 1in", false);
        check("sight.width > 1in || wood == \"cherry\"", true);
    }

    #[track_caller]
    fn refused(text: &str, message: &str, span: std::ops::Range<usize>) {
        let found = Condition::read(text, &crate::rules::shipped()).unwrap_err();
        assert_eq!((found.message().as_str(), found.span), (message, Some(span)));
    }

    #[test]
    fn what_is_no_condition_is_said_with_its_place() {
        refused("opening.width > 20", "cannot compare a length and a number", 0..18);
        refused("face", "find wants a condition, not a length", 0..4);
        refused("openin.width > 20in", "there is no name openin.width", 0..12);
        refused("wood == \"chery\"", "wood is never \"chery\"", 8..15);
        refused("face > ", "this cannot be read; possible here: a value, a word in quotes or a name", 7..7);
        refused("face > 1in says x", "this cannot be read; possible here: a sign", 11..17);
    }
}
