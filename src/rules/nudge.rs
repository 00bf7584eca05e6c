//! A line to try for a field: its present value moved a little.

use super::book::{Slot, Type};
use super::design::Design;
use super::evaluate::Absent;
use crate::diag::{Diagnostic, codes};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};

impl Design {
    /// A line to try for a field, which succeeds and brings no new `stop`: a length moved from its present value by
    /// 1/8 in, or by 2 mm on a metric tape, a weight by 1 lb, an angle by 1°, a count by 1, up where the field takes that,
    /// else down; else an example of its kind; else its present value. Where a field must be set first, the line sets that one.
    pub fn nudged(&self, slot: Slot) -> String {
        if let Err(Absent::Missing(missing)) = self.known(slot) {
            // Of all that is missing the work comes first.
            let lines: Vec<String> = missing.iter().map(|slot| self.example(*slot)).collect();
            let work = lines.iter().find(|line| line.starts_with("art "));
            return work.or(lines.first()).cloned().unwrap_or_else(|| self.example(slot));
        }
        let name = &self.book().name(slot).text;
        let now = self.known(slot).ok().and_then(|known| known.made().amount().cloned());
        let now = now.filter(|now| !now.is_approximate());
        let lines = now.map(|now| self.moved(slot, &now)).unwrap_or_default();
        let present = || self.shown(slot).map(|now| format!("{name} {now}"));
        let mut lines = lines.into_iter().chain([self.example(slot)]).chain(present());
        lines.find(|line| self.is_sound(name, line)).unwrap_or_else(|| self.example(slot))
    }

    /// The lines that move an amount up and down; none for other kinds.
    fn moved(&self, slot: Slot, now: &Real) -> Vec<String> {
        let name = self.book().name(slot);
        let (kind, step) = match name.of {
            Type::Quantity(Kind::LENGTH) if self.manner().graduation.metric => (Kind::LENGTH, Real::ratio(10, 127)),
            Type::Quantity(Kind::LENGTH) => (Kind::LENGTH, Real::ratio(1, 8)),
            Type::Quantity(kind) if kind == Kind::MASS || kind == Kind::ANGLE => (kind, Real::ONE),
            Type::Whole => (Kind::NUMBER, Real::ONE),
            Type::Quantity(_)
            | Type::Share
            | Type::Word
            | Type::Text
            | Type::List(_)
            | Type::Record(_)
            | Type::Truth
            | Type::Size
            | Type::Nothing => return Vec::new(),
        };
        let to = |amount: Real| format!("{} {}", name.text, exactly(&Quantity::new(amount, kind)));
        vec![to(now.clone() + step.clone()), to(now.clone() - step)]
    }

    /// Whether a line sets its field and brings no new `stop`.
    fn is_sound(&self, name: &str, line: &str) -> bool {
        let value = line.strip_prefix(name).unwrap_or_default();
        let mut plain = |text: &str| Err(Diagnostic::of(&codes::value::NOTATION, text));
        let Ok(input) = self.read_input(name, value, &mut plain) else { return false };
        let (before, mut copy) = (self.stops(), self.clone());
        copy.set(name, input).is_ok() && copy.stops().iter().all(|stop| before.contains(stop))
    }
}

#[cfg(test)]
mod tests {
    use crate::rules::tests::designed;

    #[test]
    fn a_wire_without_a_work_is_offered_the_work() {
        let design = designed(&[]);
        assert_eq!(design.nudged(design.slot("wire").unwrap()), "art 16\" x 20\" x 3/4\"");
    }

    /// The hangers are 16 1/2" apart; 21/20 of that is 17.325", on the tape 17 5/16", and 1/8" more is 17 7/16".
    #[test]
    fn a_wire_is_offered_that_reaches() {
        let design = designed(&[("art", "16 x 20 x 3/4")]);
        let line = design.nudged(design.slot("wire").unwrap());
        assert_eq!(line, "wire 17 7/16\"");
    }

    /// Every field of every build, on an empty bench and for works small, usual and large.
    #[test]
    fn a_line_to_try_succeeds_and_stops_nothing() {
        let works = ["", "16 x 20 x 3/4", "4 x 5 x 1/2", "30 x 72 x 1 1/2"];
        let builds = designed(&[]).book().builds.iter().map(|build| build.name.to_string()).collect::<Vec<_>>();
        let mut wrong = String::new();
        for (build, art) in builds.iter().flat_map(|build| works.map(|art| (build, art))) {
            let art = [("build", build.as_str()), ("art", art)];
            let design = designed(if art[1].1.is_empty() { &art[..1] } else { &art });
            let before = design.stops();
            let order = design.book().builds[usize::from(design.build())].order.clone();
            for slot in order.into_iter().filter(|slot| design.is_field(*slot)) {
                let line = design.nudged(slot);
                let (name, value) = line.split_once(' ').unwrap();
                let mut moved = design.clone();
                let mut plain = |text: &str| Err(crate::diag::Diagnostic::new(text));
                let input = moved.read_input(name, value, &mut plain);
                let input = input.unwrap_or_else(|found| panic!("{build} {art:?}: {line} {found:?}"));
                if let Err(refusal) = moved.set(name, input) {
                    wrong += &format!("{build} {art:?}: {line} {refusal:?}\n");
                }
                let new: Vec<_> = moved.stops().into_iter().filter(|stop| !before.contains(stop)).collect();
                if !new.is_empty() {
                    wrong += &format!("{build} {art:?}: {line} brings {new:?}\n");
                }
            }
        }
        assert!(wrong.is_empty(), "{wrong}");
    }
}
