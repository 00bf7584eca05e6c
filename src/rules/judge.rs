//! Checks of the rules files → checks of the book.

use super::book::{Check, Node, Type};
use super::kinds::alike;
use super::once::Once;
use super::resolve::{Maker, Sheet};
use super::term::{Body, CheckEntry, Piece, Term};
use crate::diag::{Diagnostic, codes, list};

impl Maker<'_> {
    /// Adds the checks of a sheet.
    pub(super) fn checks(&mut self, sheet: &Sheet) -> Result<(), Diagnostic> {
        for entry in &sheet.entries {
            let Body::Check(check) = &entry.body else {
                continue;
            };
            let builds = self.scope(entry)?;
            let once = Once { what: "check", name: &check.name, builds: &builds, instead: entry.instead };
            once.make_room(&mut self.book.checks, |one| (&one.name, &mut one.builds), &self.book.builds)?;
            let made = self.check(check, builds)?;
            self.book.checks.push(made);
        }
        Ok(())
    }

    fn check(&mut self, check: &CheckEntry, builds: Vec<u8>) -> Result<Check, Diagnostic> {
        let got = self.type_in_all(&builds, &check.test)?;
        if got != Type::Truth {
            let message = format!("{} wants a condition, not {}", check.name.0, got.with_article());
            return Err(Diagnostic::of(&codes::rules::CONDITION_WANTED, message).at(check.test.span.clone()));
        }
        let says = self.spoken(&check.says, &builds)?;
        let mend = match &check.mend {
            None => None,
            Some((name, value, way)) => {
                let (text, place) = name;
                let slot = self.look_up(name, &builds)?;
                let without =
                    builds.iter().filter(|build| self.book.rule(**build, slot).is_none_or(|rule| !rule.given));
                let without: Vec<&str> = without.map(|build| &*self.book.builds[usize::from(*build)].name).collect();
                if !without.is_empty() {
                    let message = format!("{text} cannot be set for {}", list(&without, "and"));
                    return Err(Diagnostic::of(&codes::rules::OTHER_BUILD, message).at(place.clone()));
                }
                let of = self.book.name(slot).of;
                let got = self.type_in_all(&builds, value)?;
                if !alike(of, got) {
                    let message = format!("{text} is {}, not {}", of.with_article(), got.with_article());
                    return Err(Diagnostic::of(&codes::rules::KIND, message).at(value.span.clone()));
                }
                Some((slot, self.node(value, &builds)?, *way))
            }
        };
        Ok(Check {
            level: check.level,
            name: check.name.0.clone(),
            test: self.node(&check.test, &builds)?,
            fires_if: check.fires_if,
            builds,
            says,
            mend,
        })
    }

    /// Refuses a term of another type than `called` takes.
    pub(super) fn wants(&mut self, builds: &[u8], called: &str, term: &Term, wanted: Type) -> Result<(), Diagnostic> {
        let got = self.type_in_all(builds, term)?;
        if alike(wanted, got) {
            return Ok(());
        }
        let wanted = if wanted == Type::Truth { "a condition".into() } else { wanted.with_article() };
        let message = format!("{called} takes {wanted}, not {}", got.with_article());
        Err(Diagnostic::of(&codes::rules::KIND, message).at(term.span.clone()))
    }

    /// A text with its values looked up.
    pub(super) fn spoken(
        &mut self,
        text: &[Piece<Term>],
        builds: &[u8],
    ) -> Result<Vec<Piece<(Node, Type)>>, Diagnostic> {
        let mut spoken = Vec::new();
        for piece in text {
            spoken.push(match piece {
                Piece::Words(words) => Piece::Words(words.clone()),
                Piece::Value(term) => {
                    let of = self.type_in_all(builds, term)?;
                    Piece::Value((self.node(term, builds)?, of))
                }
            });
        }
        Ok(spoken)
    }

    /// The type of a term of a check, whose names all have theirs by now; looked at in every build it is for.
    pub(super) fn type_in_all(&mut self, builds: &[u8], term: &Term) -> Result<Type, Diagnostic> {
        let mut found = Type::Nothing;
        for build in builds {
            found = self.type_of_term(*build, term, &mut Vec::new())?;
        }
        Ok(found)
    }
}
