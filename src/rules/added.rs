//! Rules read on top of the shipped ones: files of a shop's own, and figures of one design alone.
//!
//! A book with something added is read afresh as a whole, so that whatever is added is checked like what ships: kinds,
//! circles, names defined twice.

use std::collections::BTreeMap;

use super::book::{Added, Book};
use super::reader::read_sheet;
use super::resolve::{Sheet, resolve};
use super::sheets::{DATA, SHIPPED};
use super::term::{Body, Entry};
use crate::diag::{Diagnostic, codes};

/// The heading of figures of a design's own.
pub const OWN: &str = "Of this design";

/// The doc of such a figure, which has none of its own.
const DOC: &str = "worked out for this design alone";

impl Added {
    /// The same with one more file.
    #[must_use]
    pub fn with_file(mut self, name: &str, text: &str) -> Self {
        self.files.push((name.into(), text.into()));
        self
    }

    /// The shipped rules with what is added, and `more` behind them.
    ///
    /// # Errors
    /// The first fault, with file and place in it; a figure of a design's own is a file of its own name, whose text is
    /// `NAME = FORMULA`.
    pub(super) fn read(&self, more: Option<Sheet>) -> Result<Book, Diagnostic> {
        let figures: Vec<(&String, String)> =
            self.figures.iter().map(|(name, formula)| (name, line(name, formula))).collect();
        let shipped = SHIPPED.iter().copied();
        let files = self.files.iter().map(|(name, text)| (name.as_str(), text.as_str()));
        let mut sheets = Vec::new();
        for (name, text) in shipped.chain(files) {
            sheets.push(Sheet { name, text, entries: read_sheet(name, text)? });
        }
        for (name, text) in &figures {
            sheets.push(Sheet { name, text, entries: vec![figure(name, text)?] });
        }
        sheets.extend(more);
        let book = resolve(&sheets, DATA)?;
        Ok(Book { added: self.clone(), ..book })
    }
}

/// The line that defines a figure.
fn line(name: &str, formula: &str) -> String {
    format!("{name} = {formula}")
}

/// The one entry that a figure of a design's own is.
fn figure(name: &str, text: &str) -> Result<Entry, Diagnostic> {
    let entries = read_sheet(name, text)?;
    let wrong =
        |message: &'static str| Diagnostic::of(&codes::rules::FIGURE, message).at(0..text.len()).inside(name, text);
    let [entry] = <[Entry; 1]>::try_from(entries).map_err(|_| wrong("this is more than one formula"))?;
    match entry.body {
        Body::Rule(mut rule) if !rule.given && !entry.instead && rule.takes.is_none() => {
            if rule.doc.is_empty() {
                rule.doc = DOC.into();
            }
            Ok(Entry { group: OWN.into(), body: Body::Rule(rule), ..entry })
        }
        Body::Rule(_)
        | Body::Group(_)
        | Body::Build(..)
        | Body::Scope
        | Body::Table(..)
        | Body::Data(..)
        | Body::Gather(_)
        | Body::Check(_)
        | Body::Page(..)
        | Body::Piece(_)
        | Body::Caution(_)
        | Body::Label(_) => Err(wrong("a figure of a design is a formula, which nothing can be given instead of")),
    }
}

impl Book {
    /// This book with one more file of the shop's own.
    ///
    /// # Errors
    /// The first fault, with its place in the file.
    pub fn with_file(&self, name: &str, text: &str) -> Result<Self, Diagnostic> {
        self.added.clone().with_file(name, text).read(None)
    }

    /// This book with other figures of one design alone: name → formula.
    ///
    /// # Errors
    /// The first fault; its file is the name of a figure, its text `NAME = FORMULA`.
    pub fn with_figures(&self, figures: BTreeMap<String, String>) -> Result<Self, Diagnostic> {
        Added { figures, ..self.added.clone() }.read(None)
    }

    /// Whether a name is a figure of this design alone.
    pub fn is_own(&self, name: &str) -> bool {
        self.added.figures.contains_key(name)
    }

    /// The figures of this design alone that read a name.
    pub fn own_readers(&self, name: &str) -> Vec<&str> {
        let Some(slot) = self.slot(name) else { return Vec::new() };
        let reads = |own: &&String| {
            let rules =
                (0..self.builds.len()).filter_map(|build| self.rule(u8::try_from(build).ok()?, self.slot(own)?));
            rules.into_iter().any(|rule| rule.reads.contains(&slot))
        };
        self.added.figures.keys().filter(reads).map(String::as_str).collect()
    }
}
