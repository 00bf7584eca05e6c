//! Words that ask after figures: why, aim, tolerance, movement, tape.

use super::handle::reading;
use super::reply::{Done, Reply};
use super::session::{Session, place_of};
use crate::diag::Diagnostic;
use crate::measure::Real;
use crate::measure::read::Reading;
use crate::rules::evaluate::LONGEST;
use crate::rules::{Absent, Design, Refusal, Slot};

impl Session {
    pub(super) fn why(&self, name: &str) -> Result<Reply, Diagnostic> {
        if name.is_empty() {
            return Err(Diagnostic::new("why takes the name of a figure").hint("why outside.width"));
        }
        let design = self.bench.design();
        let slot = named(&design, "why", name).map_err(|found| or_else(found, || Some("sheet".into())))?;
        match design.explain(slot) {
            Ok(steps) => Ok(Reply::Why(design, steps)),
            Err(why) => Err(design.refusal(slot, why).into()),
        }
    }

    /// `movement`, or `movement from TEMPERATURE HUMIDITY to TEMPERATURE HUMIDITY`, which sets both.
    pub(super) fn movement(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        let page = |design| Ok(Reply::Page(design, "movement"));
        if text.is_empty() {
            return page(self.bench.design());
        }
        let usage = || {
            Diagnostic::new("movement is told from one air to another").hint("movement from 70degF 35% to 75degF 65%")
        };
        let airs = text.strip_prefix("from").filter(|rest| rest.starts_with(char::is_whitespace)).ok_or_else(usage)?;
        let (before, after) = airs.split_once(" to ").ok_or_else(usage)?;
        let mut design = Design::clone(&self.bench.design());
        let mut start = text.len() - airs.len();
        for (name, air) in [("climate.before", before), ("climate.after", after)] {
            let (temperature, humidity) = air.trim().rsplit_once(char::is_whitespace).ok_or_else(usage)?;
            for (part, value) in [("temperature", temperature), ("humidity", humidity)] {
                let at = text[start..].find(value).map_or(start, |found| start + found);
                let field = format!("{name}.{part}");
                let mut plain = |text: &str| Err(Diagnostic::new(format!("{part} is not told by {text}")));
                let line = usage().line();
                let with = |found: Diagnostic| found.only(line.clone());
                let input = design.read_input(&field, value, &mut plain).map_err(|found| with(found).shifted(at))?;
                let refused = |refusal| with(Diagnostic::from(refusal)).at(at..at + value.len());
                design.set(&field, input).map_err(refused)?;
                start = at + value.len();
            }
        }
        self.bench.put(design);
        page(self.bench.design())
    }

    pub(super) fn tolerance(&self, name: &str) -> Result<Reply, Diagnostic> {
        let design = self.bench.design();
        if name.is_empty() {
            return Ok(Reply::Tolerance(design, None));
        }
        let slot = named(&design, "tolerance", name).map_err(|found| or_else(found, || Some("tolerance".into())))?;
        match design.tolerance(slot) {
            Ok(_) => Ok(Reply::Tolerance(design, Some(slot))),
            Err(Absent::Idle) if design.known(slot).is_ok() => {
                Err(Diagnostic::new(format!("{name} is no amount, so it has no tolerance")))
            }
            Err(why) => Err(design.refusal(slot, why).into()),
        }
    }

    /// `aim FIGURE VALUE by FIELD`.
    pub(super) fn aim(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        let usage =
            || Diagnostic::new("aim is written aim FIGURE VALUE by FIELD").hint("aim outside.width 20\" by reveal");
        let (before_by, field) = text.rsplit_once(" by ").ok_or_else(usage)?;
        let (figure, value) = before_by.trim().split_once(char::is_whitespace).ok_or_else(usage)?;
        let field = field.trim();
        let before = self.bench.design();
        let place = |word: &str| place_of(text, word);
        if value.trim().starts_with("to ") || figure.starts_with(|first: char| first.is_ascii_digit()) {
            return Err(usage());
        }
        let figure_slot = before.slot(figure).map_err(|refusal| Diagnostic::from(refusal).at(place(figure)))?;
        let scripts = &mut self.scripts;
        let mut evaluate =
            |formula: &str| scripts.formula(formula).map_err(|mut found| found.remove(0)).and_then(reading);
        let unit = before.takes_bare(figure_slot);
        let wanted = match before.value(value.trim(), unit, &mut evaluate) {
            Ok(Reading::Quantity(quantity)) => quantity,
            Ok(Reading::Size(_)) => {
                return Err(Diagnostic::new("aim takes one value, not a size").at(place(value.trim())));
            }
            Err(found) => return Err(found.shifted(place(value.trim()).start)),
        };
        let field_slot = before.slot(field).map_err(|refusal| {
            let near = if let Refusal::Unknown { near, .. } = &refusal { near.clone() } else { Vec::new() };
            let near: Vec<Slot> = near.iter().filter_map(|near| before.slot(near).ok()).collect();
            let hint = before.aim_line(figure_slot, &wanted, &near);
            let found = Diagnostic::from(refusal).at(text.len() - field.len()..text.len());
            if hint.is_some() { found.only(hint) } else { found }
        })?;
        let (design, aimed) = before.aim(figure_slot, &wanted, field_slot)?;
        self.bench.work(|bench| *bench = design);
        Ok(self.changed(Done::Aimed { name: field.into(), figure: figure.into(), aimed }, &before))
    }

    pub(super) fn tape(&mut self, text: &str) -> Result<Reply, Diagnostic> {
        if text.is_empty() {
            return Err(Diagnostic::new("tape takes a length").hint("tape 15 7/16\""));
        }
        let design = self.bench.design();
        let unit = design.bare_unit();
        let scripts = &mut self.scripts;
        let mut evaluate =
            |formula: &str| scripts.formula(formula).map_err(|mut found| found.remove(0)).and_then(reading);
        // A figure is looked for on the tape where it is made.
        let value = match design.made(text) {
            Some(made) => Reading::Quantity(made),
            None => design.value(text, Some(unit), &mut evaluate)?,
        };
        let length = match value {
            Reading::Quantity(quantity) if quantity.kind == crate::measure::Kind::NUMBER => {
                Some(crate::measure::inches(unit.to_storage(quantity.amount)))
            }
            Reading::Quantity(quantity) => quantity.to_length(),
            Reading::Size(_) => None,
        };
        let length = length.ok_or_else(|| Diagnostic::new("a tape shows lengths only").hint("tape 15 7/16\""))?;
        if length.value.is_negative() {
            return Err(Diagnostic::new("a tape has no marks below 0").hint("tape 15 7/16\""));
        }
        if length.value > Real::whole(LONGEST) {
            return Err(Diagnostic::new("that is longer than a mile; no tape reaches so far").hint("tape 15 7/16\""));
        }
        Ok(Reply::Tape(length))
    }
}

/// The name that a word asks after; where there is none, the nearest is offered.
fn named(design: &Design, word: &str, name: &str) -> Result<Slot, Diagnostic> {
    design.slot(name).map_err(|refusal| {
        let near = if let Refusal::Unknown { near, .. } = &refusal { near.first().cloned() } else { None };
        let near = near.filter(|near| design.slot(near).is_ok());
        or_else(refusal.into(), || near.map(|near| format!("{word} {near}")))
    })
}

/// A finding with a line where it has none.
pub(super) fn or_else(found: Diagnostic, line: impl FnOnce() -> Option<String>) -> Diagnostic {
    found.or_else(line)
}
