//! A line that moves a field a little from its present value.

use super::book::{Slot, Type};
use super::design::{Design, Input};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};

impl Design {
    /// A line that moves a length from its present value by 1/8 in, or by 2 mm on a metric tape: up where the field takes
    /// that and nothing new stops the design, else down. Another field, a measured size, and a length that cannot be moved
    /// either way get [`Design::example`].
    pub fn nudged(&self, slot: Slot) -> String {
        let name = &self.book().name(slot).text;
        let is_measured = name == "art" || name.starts_with("art.");
        let is_length = self.book().name(slot).of == Type::Quantity(Kind::LENGTH);
        let now = self.known(slot).ok().and_then(|known| known.made().amount().cloned());
        match now.filter(|now| is_length && !is_measured && !now.is_approximate()) {
            Some(now) => self.moved(name, &now).unwrap_or_else(|| self.example(slot)),
            None => self.example(slot),
        }
    }

    fn moved(&self, name: &str, now: &Real) -> Option<String> {
        let step = if self.manner().graduation.metric { Real::ratio(10, 127) } else { Real::ratio(1, 8) };
        let before = self.stops();
        [now.clone() + step.clone(), now.clone() - step].into_iter().find_map(|inches| {
            let quantity = Quantity::inches(inches);
            let mut copy = self.clone();
            copy.set(name, Input::Quantity(quantity.clone())).ok()?;
            let is_sound = copy.stops().iter().all(|stop| before.contains(stop));
            is_sound.then(|| format!("{name} {}", exactly(&quantity)))
        })
    }
}

#[cfg(test)]
mod tests {
    use crate::rules::tests::designed;

    /// The hangers are 16 1/2" apart; 21/20 of that is 17.325", on the tape 17 5/16", and 1/8" more is 17 7/16".
    #[test]
    fn a_wire_is_offered_that_reaches() {
        let design = designed(&[("art", "16 x 20 x 3/4")]);
        let line = design.nudged(design.slot("wire").unwrap());
        assert_eq!(line, "wire 17 7/16\"");
    }

    #[test]
    fn no_length_is_offered_that_stops_the_design() {
        for art in ["16 x 20 x 3/4", "4 x 5 x 1/2", "30 x 72 x 1 1/2"] {
            let design = designed(&[("art", art)]);
            let before = design.stops();
            let order = design.book().builds[usize::from(design.build())].order.clone();
            for slot in order.into_iter().filter(|slot| design.is_field(*slot)) {
                let name = design.book().name(slot).text.clone();
                let is_known = design.known(slot).is_ok_and(|known| known.made().amount().is_some());
                let line = design.nudged(slot);
                let value = line.strip_prefix(&format!("{name} ")).unwrap_or_default();
                let mut moved = design.clone();
                let mut plain = |text: &str| Err(crate::diag::Diagnostic::new(text));
                let Ok(input) = moved.read_input(&name, value, &mut plain) else { continue };
                if is_known && line != design.example(slot) && moved.set(&name, input).is_ok() {
                    assert!(moved.stops().iter().all(|stop| before.contains(stop)), "{art}: {line}");
                }
            }
        }
    }
}
