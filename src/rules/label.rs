//! Pages, and their lines of labels and lists.

use super::entry::LabelRule;
use super::resolve::{Maker, Sheet, unknown};
use super::term::{Body, LabelEntry, Placed};
use crate::diag::{Diagnostic, codes};

impl Maker<'_> {
    /// Takes in a page.
    pub(super) fn page(&mut self, (name, place): &Placed, doc: &str) -> Result<(), Diagnostic> {
        if self.book.pages.iter().any(|(page, _)| page == name) {
            return Err(
                Diagnostic::of(&codes::rules::DEFINED, format!("the page {name} is defined twice")).at(place.clone())
            );
        }
        self.book.pages.push((name.clone(), doc.into()));
        Ok(())
    }

    /// Refuses pages that no entry begins.
    pub(super) fn known_pages(&self, pages: &[Placed]) -> Result<(), Diagnostic> {
        let known = || self.book.pages.iter().map(|(page, _)| page.as_str());
        match pages.iter().find(|(page, _)| !known().any(|one| one == page)) {
            Some(page) => Err(unknown("page", page, known())),
            None => Ok(()),
        }
    }

    /// Adds the labels of a sheet.
    pub(super) fn labels(&mut self, sheet: &Sheet) -> Result<(), Diagnostic> {
        for entry in &sheet.entries {
            let Body::Label(label) = &entry.body else { continue };
            let (word, place) = &label.word;
            self.known_pages(&label.pages)?;
            let old = self.book.labels.iter().position(|one| is_same(one, label));
            match (old, entry.instead) {
                (Some(old), true) => {
                    self.book.labels.remove(old);
                }
                (None, false) => {}
                (Some(_), false) => {
                    let message =
                        format!("the label \"{word}\" is defined twice; write `instead` before the one that counts");
                    return Err(Diagnostic::of(&codes::rules::DEFINED, message).at(place.clone()));
                }
                (None, true) => {
                    let message = format!("there is no label \"{word}\" to replace");
                    return Err(Diagnostic::of(&codes::rules::DEFINED, message).at(place.clone()));
                }
            }
            let builds = self.scope(entry)?;
            let names = label.names.iter().map(|name| self.look_up(name, &builds)).collect::<Result<_, _>>()?;
            let pages = label.pages.iter().map(|(page, _)| page.clone()).collect();
            self.book.labels.push(LabelRule { word: word.clone(), pages, names });
        }
        Ok(())
    }
}

/// Whether both have one word, on one page.
fn is_same(one: &LabelRule, other: &LabelEntry) -> bool {
    one.word == other.word.0 && other.pages.iter().any(|(page, _)| one.pages.contains(page))
}
