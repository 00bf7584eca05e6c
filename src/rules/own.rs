//! Figures of one design alone, by a formula that is typed at the bench.

use std::cell::RefCell;
use std::collections::{BTreeMap, VecDeque};

use super::book::Book;
use super::design::Design;
use super::packed::Rules;
use super::refusal::Refusal;
use crate::diag::{Diagnostic, Says, codes};

/// The prefix of a figure's name where its formula is saved.
pub const FIGURE: &str = "figure.";

impl Design {
    /// The same design by other rules: all that was given is given again, as far as they have a name for it.
    #[must_use]
    pub fn by(&self, book: Rules) -> Self {
        let mut design = Self::new(book, self.manner().clone());
        for (slot, name) in (0..).zip(&self.book().names) {
            if let Some(given) = self.given(slot) {
                design.give(&name.text, given.clone());
            }
        }
        design
    }

    /// The figures of this design alone: name → formula.
    pub fn own_figures(&self) -> &BTreeMap<String, String> {
        &self.book().added.figures
    }

    /// This design with a figure of its own, instead of one that it had under that name.
    ///
    /// # Errors
    /// A name that the rules have; a formula that cannot be read, with its place in `formula`; kinds that do not go
    /// together; a circle.
    pub fn with_figure(&self, name: &str, formula: &str) -> Result<Self, Diagnostic> {
        if let Some(taken) = self.taken_already(name) {
            return Err(taken);
        }
        let mut figures = self.own_figures().clone();
        figures.insert(name.into(), formula.into());
        let before = name.len() + " = ".len();
        let book = with_figures(self.book(), figures).map_err(|found| match (&found.source, &found.span) {
            (Some(source), Some(span)) if source.name == name => {
                // A fault of the name is shown under the whole formula.
                let here = match span.start.checked_sub(before) {
                    Some(start) => start..span.end - before,
                    None => 0..formula.len(),
                };
                Diagnostic { source: None, span: Some(here), ..found }
            }
            _ => found,
        })?;
        Ok(self.by(book))
    }

    /// Whether the rules have the name already.
    fn taken_already(&self, name: &str) -> Option<Diagnostic> {
        (self.book().slot(name).is_some() && !self.book().is_own(name)).then(|| {
            Diagnostic::of(
                &codes::rules::NAME_TAKEN,
                format!("the rules have {name} already; a figure of this design needs a name of its own"),
            )
        })
    }

    /// This design with figures of its own that were kept, and why any of them is left out.
    pub fn with_figures(&self, mut figures: BTreeMap<String, String>) -> (Self, Vec<(String, Says)>) {
        let mut left_out = Vec::new();
        figures.retain(|name, _| match self.taken_already(name) {
            Some(why) => {
                left_out.push((name.clone(), why.says));
                false
            }
            None => true,
        });
        while !figures.is_empty() {
            match with_figures(self.book(), figures.clone()) {
                Ok(book) => return (self.by(book), left_out),
                Err(found) => {
                    let at_fault = found.source.map(|source| source.name).filter(|name| figures.contains_key(name));
                    // A fault that is in none of them, such as a circle through several, takes them all.
                    let names: Vec<String> =
                        at_fault.map_or_else(|| figures.keys().cloned().collect(), |name| vec![name]);
                    for name in names {
                        figures.remove(&name);
                        left_out.push((name, found.says.clone()));
                    }
                }
            }
        }
        (self.clone(), left_out)
    }

    /// Clears a figure of this design alone, if it has one of that name.
    ///
    /// # Errors
    /// Another such figure reads it.
    pub(super) fn drop_figure(&mut self, name: &str) -> Result<(), Refusal> {
        let readers: Vec<String> = self.book().own_readers(name).into_iter().map(Into::into).collect();
        if !readers.is_empty() {
            return Err(Refusal::Read { name: name.into(), readers });
        }
        let mut figures = self.own_figures().clone();
        figures.remove(name);
        // What was sound with one more figure is sound without it.
        if let Ok(book) = with_figures(self.book(), figures) {
            *self = self.by(book);
        }
        Ok(())
    }
}

/// How many books with figures of some design are kept at hand.
const AT_HAND: usize = 8;

thread_local! {
    /// Books that were read lately: the designs of a show have the same figures, and to read a book takes a hundredth of
    /// a second.
    static LATELY: RefCell<VecDeque<Rules>> = const { RefCell::new(VecDeque::new()) };
}

/// The book with other figures of one design alone.
fn with_figures(book: &Book, figures: BTreeMap<String, String>) -> Result<Rules, Diagnostic> {
    LATELY.with_borrow_mut(|lately| {
        let same = |one: &Rules| one.added.files == book.added.files && one.added.figures == figures;
        if let Some(book) = lately.iter().find(|one| same(one)) {
            return Ok(book.clone());
        }
        let book = Rules::from(book.with_figures(figures)?);
        lately.push_front(book.clone());
        lately.truncate(AT_HAND);
        Ok(book)
    })
}
