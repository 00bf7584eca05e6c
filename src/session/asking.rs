//! Words that ask about figures: why, aim, tolerance, movement, tape.

use super::handle::reading;
use super::reply::{Done, Faults, Reply};
use super::session::Session;
use crate::diag::{Diagnostic, codes};
use crate::measure::Real;
use crate::measure::read::Reading;
use crate::rules::evaluate::LONGEST;
use crate::rules::{Absent, Design, Refusal, Slot};
use crate::word::{Args, Given, Kind};

impl Session {
    pub(super) fn why(&mut self, args: &Args) -> Result<Reply, Faults> {
        let design = self.bench.design();
        let slot = named(&design, args).map_err(|found| found.or_else(|| Some("sheet".into())))?;
        match design.explain(slot) {
            Ok(steps) => Ok(Reply::Why(design, steps)),
            Err(why) => Err(design.refusal(slot, why).into()),
        }
    }

    pub(super) fn movement(&mut self, _: &Args) -> Result<Reply, Faults> {
        Ok(Reply::Page(self.bench.design(), "movement".into()))
    }

    /// Sets the air where the frame is made and where it will hang.
    pub(super) fn movement_between(&mut self, args: &Args) -> Result<Reply, Faults> {
        let mut design = Design::clone(&self.bench.design());
        for (part, kind) in [("temperature", Kind::Temperature), ("humidity", Kind::Humidity)] {
            for (name, given) in ["climate.before", "climate.after"].into_iter().zip(args.all(kind)) {
                set_plainly(&mut design, &format!("{name}.{part}"), given)?;
            }
        }
        self.bench.put(design);
        Ok(Reply::Page(self.bench.design(), "movement".into()))
    }

    pub(super) fn tolerance(&mut self, args: &Args) -> Result<Reply, Faults> {
        let design = self.bench.design();
        if args.one(Kind::Figure).is_none() {
            return Ok(Reply::Tolerance(design, None));
        }
        let slot = named(&design, args).map_err(|found| found.or_else(|| Some("tolerance".into())))?;
        match design.tolerance(slot) {
            Ok(_) => Ok(Reply::Tolerance(design, Some(slot))),
            Err(Absent::Idle) if design.known(slot).is_ok() => {
                let message = format!("{} is not a size, so it has no tolerance", args.text(Kind::Figure));
                Err(Diagnostic::of(&codes::figure::NO_TOLERANCE, message).hint("tolerance").into())
            }
            Err(why) => Err(design.refusal(slot, why).into()),
        }
    }

    pub(super) fn aim(&mut self, args: &Args) -> Result<Reply, Faults> {
        let (figure, value, field) = (args.text(Kind::Figure), args.text(Kind::Amount), args.text(Kind::Field));
        let before = self.bench.design();
        let at_value = args.span(Kind::Amount);
        let figure_slot = named(&before, args)?;
        let scripts = &mut self.scripts;
        let mut evaluate =
            |formula: &str| scripts.formula(formula).map_err(|mut found| found.remove(0)).and_then(reading);
        let unit = before.takes_bare(figure_slot);
        let wanted = match before.value(value, unit, &mut evaluate) {
            Ok(Reading::Quantity(quantity)) => quantity,
            Ok(Reading::Size(_)) => {
                return Err(Diagnostic::of(&codes::value::SIZE, "aim takes one value, not a size").at(at_value).into());
            }
            Err(found) => return Err(found.shifted(at_value.start).into()),
        };
        let field_slot = before.slot(field).map_err(|refusal| {
            let near = if let Refusal::Unknown { near, .. } = &refusal { near.clone() } else { Vec::new() };
            let near: Vec<Slot> = near.iter().filter_map(|near| before.slot(near).ok()).collect();
            let hint = before.aim_line(figure_slot, &wanted, &near);
            let found = Diagnostic::from(refusal).at(args.span(Kind::Field));
            if hint.is_some() { found.only(hint) } else { found }
        })?;
        let (design, aimed) = before.aim(figure_slot, &wanted, field_slot)?;
        self.bench.work(|bench| *bench = design);
        Ok(self.changed(Done::Aimed { name: field.into(), figure: figure.into(), aimed }, &before))
    }

    pub(super) fn tape(&mut self, args: &Args) -> Result<Reply, Faults> {
        let text = args.text(Kind::Length);
        let design = self.bench.design();
        let unit = design.bare_unit();
        let scripts = &mut self.scripts;
        let mut evaluate =
            |formula: &str| scripts.formula(formula).map_err(|mut found| found.remove(0)).and_then(reading);
        // A figure is looked up on the tape at its made size.
        let value = match design.made(text) {
            Some(made) => Reading::Quantity(made),
            None => design
                .value(text, Some(unit), &mut evaluate)
                .map_err(|found| found.shifted(args.span(Kind::Length).start))?,
        };
        let length = match value {
            Reading::Quantity(quantity) if quantity.kind == crate::measure::Kind::NUMBER => {
                Some(crate::measure::inches(unit.to_storage(quantity.amount)))
            }
            Reading::Quantity(quantity) => quantity.to_length(),
            Reading::Size(_) => None,
        };
        let refused = |message: &str| Diagnostic::of(&codes::tape::RANGE, message).hint("help tape");
        let length = length.ok_or_else(|| refused("a tape shows lengths only"))?;
        if length.value.is_negative() {
            return Err(refused("a tape has no marks below 0").into());
        }
        if length.value > Real::whole(LONGEST) {
            return Err(refused("that is longer than a mile; no tape is that long").into());
        }
        Ok(Reply::Tape(length))
    }
}

/// Sets a field to a plain value, not a formula.
fn set_plainly(design: &mut Design, field: &str, given: &Given) -> Result<(), Diagnostic> {
    let text = given.text();
    let mut plain =
        |_: &str| Err(Diagnostic::of(&codes::value::NOTATION, format!("`{text}` is not {}", given.arg.doc)));
    let placed = |found: Diagnostic| {
        let found = found.hint("help movement");
        if found.span.is_some() { found.shifted(given.span.start) } else { found.at(given.span.clone()) }
    };
    let input = design.read_input(field, text, &mut plain).map_err(placed)?;
    design.set(field, input).map_err(|refusal| placed(refusal.into()))
}

/// The field or figure that a line asks about.
fn named(design: &Design, args: &Args) -> Result<Slot, Diagnostic> {
    design.slot(args.text(Kind::Figure)).map_err(|refusal| Diagnostic::from(refusal).at(args.span(Kind::Figure)))
}
