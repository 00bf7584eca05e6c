//! Cautions of the rules: what each is about, when it applies, and its texts.

use super::book::Type;
use super::entry::{About, CautionRule, Materials, Words};
use super::once::Once;
use super::resolve::{Maker, Sheet, unknown};
use super::term::{AboutEntry, Body, CautionEntry, Form, MaterialEntry, Piece, Placed, Term};
use crate::diag::{Diagnostic, codes};
use crate::measure::Kind;

/// The name for the material of a piece in the text of a caution.
const MATERIAL: &str = "material";

impl Maker<'_> {
    /// Adds the cautions of a sheet.
    pub(super) fn cautions(&mut self, sheet: &Sheet) -> Result<(), Diagnostic> {
        for entry in &sheet.entries {
            let Body::Caution(caution) = &entry.body else { continue };
            let builds = self.scope(entry)?;
            let once = Once { what: "caution", name: &caution.name, builds: &builds, instead: entry.instead };
            once.make_room(&mut self.book.cautions, |one| (&one.name, &mut one.builds), &self.book.builds)?;
            let made = self.caution(caution, builds)?;
            self.book.cautions.push(made);
        }
        Ok(())
    }

    fn caution(&mut self, caution: &CautionEntry, builds: Vec<u8>) -> Result<CautionRule, Diagnostic> {
        self.known_pages(&caution.pages)?;
        let about = caution.about.as_ref().map(|about| self.about(about, &builds)).transpose()?;
        let when = match &caution.when {
            Some(when) => {
                self.wants(&builds, &caution.name.0, when, Type::Truth)?;
                Some(self.node(when, &builds)?)
            }
            None => None,
        };
        Ok(CautionRule {
            name: caution.name.0.clone(),
            pages: caution.pages.iter().map(|(page, _)| page.clone()).collect(),
            says: self.words(&caution.says, caution, &builds)?,
            full: self.words(&caution.full, caution, &builds)?,
            source: caution.source.clone(),
            builds,
            about,
            when,
        })
    }

    fn about(&mut self, about: &AboutEntry, builds: &[u8]) -> Result<About, Diagnostic> {
        let of = match &about.of {
            None => None,
            Some(MaterialEntry::Word((word, place))) => {
                let known = self.book.tables.iter().any(|table| table.words.contains(word));
                if !known {
                    return Err(Diagnostic::of(
                        &codes::rules::WORD_UNKNOWN,
                        format!("no table has a material \"{word}\""),
                    )
                    .at(place.clone()));
                }
                Some(Materials::Word(word.as_str().into()))
            }
            Some(MaterialEntry::Table(table)) => Some(Materials::Table(self.table_named(table)?)),
            Some(MaterialEntry::Column(column)) => Some(Materials::Column(self.columns(column)?)),
        };
        let or = about.or.iter().map(|name| self.look_up(name, builds)).collect::<Result<_, _>>()?;
        let under = match &about.under {
            Some(under) => {
                self.wants(builds, "under", under, Type::Quantity(Kind::LENGTH))?;
                Some(self.node(under, builds)?)
            }
            None => None,
        };
        Ok(About { shape: about.shape, of, or, under })
    }

    /// Every column of that name, in whatever table.
    fn columns(&self, (name, place): &Placed) -> Result<Vec<(u16, u16)>, Diagnostic> {
        let mut found = Vec::new();
        for (table, one) in (0_u16..).zip(&self.book.tables) {
            found.extend(
                (0_u16..).zip(&one.columns).filter(|(_, column)| column.name == *name).map(|(at, _)| (table, at)),
            );
        }
        if found.is_empty() {
            let known = self.book.tables.iter().flat_map(|table| &table.columns).map(|column| column.name.as_str());
            return Err(unknown("column", &(name.clone(), place.clone()), known));
        }
        Ok(found)
    }

    fn words(&mut self, text: &[Piece<Term>], caution: &CautionEntry, builds: &[u8]) -> Result<Vec<Words>, Diagnostic> {
        let about = caution.about.as_ref();
        let column = match about.and_then(|about| about.of.as_ref()) {
            Some(MaterialEntry::Column((column, _))) => Some(column.as_str()),
            _ => None,
        };
        let mut words = Vec::new();
        for piece in text {
            words.push(match piece {
                Piece::Words(plain) => Words::Plain(plain.clone()),
                Piece::Value(Term { form: Form::Name(name), .. }) if about.is_some() && name == MATERIAL => {
                    Words::Material
                }
                Piece::Value(Term { form: Form::Name(name), .. }) if column == Some(name) => Words::Cell,
                Piece::Value(term) => {
                    let of = self.type_in_all(builds, term)?;
                    Words::Value(self.node(term, builds)?, of)
                }
            });
        }
        Ok(words)
    }
}
