//! Findings for a field that does not bring a figure to what is wanted, with lines that would: each is tried first.

use super::{Design, NAMED, Place};
use crate::diag::{Diagnostic, Says, codes, list, says};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real, Toward, to_step};
use crate::rules::{Input, Role, Slot, Type};

impl Design {
    /// What is wanted is of another kind than the figure.
    pub(super) fn of_another_kind(&self, figure: Slot, wanted: &Quantity, kind: Kind, field: Slot) -> Diagnostic {
        let (name, amount) = (self.name_of(figure), self.manner().short(wanted));
        let message = format!("{name} is {}, and {amount} is {}", kind.with_article(), wanted.kind.with_article());
        // A number without a unit may be meant in that of the figure; one that has a unit is not.
        let bare = (wanted.kind == Kind::NUMBER).then(|| Quantity::new(wanted.amount.clone(), kind));
        let line = bare.and_then(|meant| self.aim_line(figure, &meant, &[field]));
        Diagnostic::of(&codes::figure::AIM, message).only([line.unwrap_or_else(|| format!("help {name}"))])
    }

    /// The field turns nothing.
    pub(super) fn cannot_turn(&self, figure: Slot, wanted: &Quantity, field: Slot, why: String) -> Diagnostic {
        let (name, moved) = (self.name_of(figure), self.name_of(field));
        if let Some(given) = self.given_text(figure).filter(|_| figure != field) {
            return self.stands_as_given(figure, wanted, field, &given);
        }
        let others: Vec<&str> =
            self.turning(figure, field).into_iter().take(NAMED).map(|one| self.name_of(one)).collect();
        let message = match others.as_slice() {
            [] if self.turns(figure) => format!("{moved} {why}, which is set itself"),
            [] => format!("{moved} {why}, and no field moves {name}"),
            others => format!("{moved} {why}; {name} follows {}", list(others, "and")),
        };
        Diagnostic::of(&codes::figure::AIM, message).only(self.aim_line(figure, wanted, &[]))
    }

    /// A figure that was given follows nothing until that is taken back.
    fn stands_as_given(&self, figure: Slot, wanted: &Quantity, field: Slot, given: &str) -> Diagnostic {
        let (name, moved) = (self.name_of(figure), self.name_of(field));
        let message = format!("{name} is given as {given}, so {moved} does not move it");
        let mut free = self.clone();
        let freed = free.clear(name).is_ok() && free.sought(figure, wanted, field).is_ok();
        let hint = if freed { Some(format!("clear {name}")) } else { self.aim_line(figure, wanted, &[]) };
        Diagnostic::of(&codes::figure::AIM, message).only(hint)
    }

    /// The value that would do it is past the field's range.
    pub(super) fn beyond(&self, figure: Slot, wanted: &Quantity, field: Slot, refused: Diagnostic) -> Diagnostic {
        let says = refused.says.within(says!("for {} {}", self.name_of(figure), self.wanted_text(figure, wanted)));
        let at = self.amount_of(field).unwrap_or(Real::ZERO);
        self.nearest(says, figure, field, &self.looked_at(figure, wanted, field, &at))
    }

    /// No value that was looked at does it.
    pub(super) fn out_of_reach(&self, figure: Slot, wanted: &Quantity, field: Slot, found: &[Place]) -> Diagnostic {
        let name = (self.name_of(field), self.name_of(figure));
        let says = says!("no value of {} makes {} {}", name.0, name.1, self.wanted_text(figure, wanted));
        self.nearest(says, figure, field, found)
    }

    /// A message and where the figure comes nearest to what is wanted.
    fn nearest(&self, says: Says, figure: Slot, field: Slot, found: &[Place]) -> Diagnostic {
        let known = found.iter().filter_map(|(place, over)| Some((over.as_ref()?.abs(), *place)));
        let Some((_, nearest)) = known.min_by(|one, other| one.0.total_cmp(&other.0)) else {
            return Diagnostic::of(&codes::figure::AIM, says);
        };
        let mark = to_step(&Real::approximate(nearest), &self.step_of(field), Toward::Nearest).0;
        let reached = self.with(field, &mark).and_then(|copy| copy.drawn(figure).ok());
        let Some(reached) = reached else { return Diagnostic::of(&codes::figure::AIM, says) };
        let (reached, value) = (self.field_text(figure, &reached), self.field_text(field, &mark));
        let line = format!("{} {value}", self.name_of(field));
        Diagnostic::of(&codes::figure::AIM, says.and(says!("; it comes nearest at {}, with {}", line, reached)))
            .hint(line)
    }

    /// A line that gives a figure what is wanted, if one is found: a field is set itself, any other follows a field that
    /// moves it, one of `first` before the others.
    pub fn aim_line(&self, figure: Slot, wanted: &Quantity, first: &[Slot]) -> Option<String> {
        let (name, value) = (self.name_of(figure), self.wanted_as_typed(figure, wanted));
        if self.turns(figure) && self.clone().set(name, Input::Quantity(wanted.clone())).is_ok() {
            return Some(format!("{name} {value}"));
        }
        let others = self.turning(figure, figure);
        // What was measured on the work is not changed to please a figure.
        let hits =
            |field: &Slot| *field != figure && !self.is_measured(*field) && self.sought(figure, wanted, *field).is_ok();
        let field = first.iter().copied().chain(others).find(hits)?;
        Some(format!("aim {name} {value} by {}", self.name_of(field)))
    }

    fn wanted_as_typed(&self, figure: Slot, wanted: &Quantity) -> String {
        let is_share = self.book().name(figure).of == Type::Share;
        if is_share { self.wanted_text(figure, wanted) } else { exactly(wanted) }
    }

    /// Fields that move a figure as the design stands: those on the sheet before those aside, those that move it most
    /// first.
    fn turning(&self, figure: Slot, but: Slot) -> Vec<Slot> {
        let order = &self.book().builds[usize::from(self.build())].order;
        let aside = |slot: Slot| self.rule(slot).is_some_and(|rule| rule.aside);
        let mut found: Vec<(bool, f64, Slot)> = order
            .iter()
            .filter(|slot| **slot != but && **slot != figure && self.turns(**slot))
            // Settings of the shop are not the design's.
            .filter(|slot| self.book().name(**slot).role != Role::Figure)
            .filter(|slot| !self.book().name(**slot).is_of_the_shop())
            .filter_map(|slot| Some((aside(*slot), self.slope(figure, *slot).ok()?.to_f64().abs(), *slot)))
            .filter(|(_, slope, _)| *slope > 0.0)
            .collect();
        found.sort_by(|one, other| one.0.cmp(&other.0).then(other.1.total_cmp(&one.1)));
        found.into_iter().map(|(_, _, slot)| slot).collect()
    }
}
