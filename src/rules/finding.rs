//! What the checks report about a design, and what would mend it.

use super::book::{Check, Type};
use super::datum::Datum;
use super::design::{Design, Input};
use super::evaluate::Pass;
use super::term::{Level, Piece};
use crate::diag::{Part, Says};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};

/// A check that fired.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// How bad it is.
    pub level: Level,
    /// The check's name.
    pub name: String,
    /// What is wrong, by how much.
    pub says: Says,
    /// A line that mends it, tried on a copy.
    pub mend: Option<String>,
}

impl Design {
    /// Every check that fires, the worst first, in the order of the files, the house's own last.
    pub fn findings(&self) -> Vec<Finding> {
        let book = self.book().clone();
        let mut found: Vec<Finding> = book
            .checks
            .iter()
            .filter(|check| self.fires(check))
            .map(|check| Finding {
                level: check.level,
                name: check.name.clone(),
                says: self.says(check),
                mend: self.mend(check),
            })
            .collect();
        found.extend(self.house().iter().cloned());
        found.sort_by_key(|finding| finding.level);
        found
    }

    /// The checks that fire and ask about a name of a page, the worst first.
    pub fn findings_of(&self, page: &str) -> Vec<Finding> {
        let book = self.book().clone();
        let about = |check: &&Check| {
            let mut about = false;
            check.test.each_slot(&mut |slot| {
                about |= book.group(slot).is_some_and(|group| group.page.as_deref() == Some(page));
            });
            about
        };
        let names: Vec<&str> = book.checks.iter().filter(about).map(|check| check.name.as_str()).collect();
        self.findings().into_iter().filter(|finding| names.contains(&finding.name.as_str())).collect()
    }

    /// Whether a check has something to say; one that cannot be known yet has not.
    fn fires(&self, check: &Check) -> bool {
        check.builds.contains(&self.build())
            && self.evaluate(|evaluator| evaluator.holds(&check.test, Pass::Cut)) == Ok(check.fires_if)
    }

    /// The names of the checks that stop the design, those of the house among them.
    pub fn stops(&self) -> Vec<String> {
        let own = self.book().checks.iter().filter(|check| check.level == Level::Stop && self.fires(check));
        let house = self.house().iter().filter(|finding| finding.level == Level::Stop);
        own.map(|check| check.name.clone()).chain(house.map(|finding| finding.name.clone())).collect()
    }

    fn says(&self, check: &Check) -> Says {
        check
            .says
            .iter()
            .map(|piece| match piece {
                Piece::Words(words) => Part::Words(words.clone().into()),
                Piece::Value((node, of)) => {
                    Part::Value(match self.evaluate(|evaluator| evaluator.value(node, Pass::Cut)) {
                        Ok(Datum::Amount(amount)) if *of == Type::Quantity(Kind::LENGTH) => {
                            self.manner().about(&Quantity::inches(amount))
                        }
                        Ok(value) => self.show(&value, *of),
                        Err(_) => "?".into(),
                    })
                }
            })
            .collect()
    }

    /// The line that mends a check, if setting the field does away with it and brings no new stop.
    fn mend(&self, check: &Check) -> Option<String> {
        let (slot, node, toward) = check.mend.as_ref()?;
        let value = self.evaluate(|evaluator| match evaluator.value(node, Pass::Cut).ok()? {
            Datum::Amount(amount) => {
                Some(Datum::Amount(toward.map_or(amount.clone(), |toward| evaluator.to_mark(&amount, toward))))
            }
            other @ (Datum::Word(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_)) => Some(other),
        })?;
        let name = &self.book().name(*slot).text;
        let (input, text) = match value {
            Datum::Amount(amount) => {
                let quantity = Quantity::new(amount, self.kind(*slot));
                let text = exactly(&quantity);
                (Input::Quantity(quantity), text)
            }
            Datum::Word(word) => (Input::Text(word.to_string()), word.to_string()),
            Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => return None,
        };
        let mut copy = self.clone();
        copy.set(name, input).ok()?;
        let worse = |one: &Check| one.level == Level::Stop && copy.fires(one) && !self.fires(one);
        let mended = !copy.fires(check) && !self.book().checks.iter().any(worse);
        mended.then(|| format!("{name} {text}"))
    }

    /// Whether a `stop` check fires, of the rules or of the house.
    pub fn is_stopped(&self) -> bool {
        !self.stops().is_empty()
    }

    /// The value given to a slot, as text that reads back the same.
    pub fn given_text(&self, slot: super::book::Slot) -> Option<String> {
        match (self.given(slot)?, self.book().name(slot).of) {
            (Datum::Amount(amount), Type::Quantity(kind)) => Some(exactly(&Quantity::new(amount.clone(), kind))),
            (Datum::Amount(amount), Type::Share) => {
                Some(format!("{}%", exactly(&Quantity::number(amount.clone() * Real::whole(100)))))
            }
            (Datum::Amount(amount), _) => Some(exactly(&Quantity::number(amount.clone()))),
            (Datum::Word(word), _) => Some(word.to_string()),
            (Datum::Truth(truth), _) => Some(truth.to_string()),
            (Datum::List(list), _) if list.is_empty() => Some("none".into()),
            (Datum::List(list), of) => {
                let kind = if let Type::List(kind) = of { kind } else { Kind::NUMBER };
                let each = list.iter().map(|one| exactly(&Quantity::new(one.clone(), kind)));
                Some(each.collect::<Vec<_>>().join(", "))
            }
            (Datum::Record(_), _) => None,
        }
    }
}
