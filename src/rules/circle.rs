//! Rules that go round in a circle, for every pattern of what may be given.

use std::collections::BTreeSet;

use super::book::{Node, Rule, Slot};
use super::resolve::Maker;
use crate::diag::{Diagnostic, codes, list};

/// The most names asked after with `given` in one knot of rules; each doubles the patterns to be looked at.
const MOST_SWITCHES: usize = 12;

impl Maker<'_> {
    /// Refuses circles. What is never asked after counts as not given: being given it would read less.
    pub(super) fn no_circles(&self) -> Result<(), Diagnostic> {
        for build in (0_u8..).take(self.book.builds.len()) {
            let knot = self.knot(build);
            let mut switches = BTreeSet::new();
            for rule in knot.iter().filter_map(|slot| self.book.rule(build, *slot)) {
                for node in rule.value.iter().chain(&rule.when) {
                    each_given(node, &mut |slot| {
                        switches.insert(slot);
                    });
                }
            }
            let switches: Vec<Slot> = switches.into_iter().collect();
            if switches.len() > MOST_SWITCHES {
                let names: Vec<&str> = switches.iter().map(|slot| self.book.name(*slot).text.as_str()).collect();
                let message = format!("too many fields decide one another: {}", list(&names, "and"));
                return Err(self.at_slot(build, switches[0], message));
            }
            for pattern in 0..(1_u32 << switches.len()) {
                let chosen = switches.iter().enumerate().filter(|(place, _)| pattern & (1 << place) != 0);
                let given: BTreeSet<Slot> = chosen.map(|(_, slot)| *slot).collect();
                if let Some(circle) = self.find(build, &knot, |rule, slot, see| reads(rule, slot, &given, see)) {
                    let names: Vec<&str> = circle.iter().map(|slot| self.book.name(*slot).text.as_str()).collect();
                    let message = format!("{} goes round in a circle: {}", names[0], names.join(" needs "));
                    return Err(self.at_slot(build, circle[0], message));
                }
            }
        }
        Ok(())
    }

    fn at_slot(&self, build: u8, slot: Slot, message: String) -> Diagnostic {
        let found = Diagnostic::of(&codes::rules::CIRCLE, message);
        let Some(place) = self.book.builds[usize::from(build)].rules[usize::from(slot)] else {
            return found;
        };
        let (home, entry) = &self.homes[usize::from(place)];
        let name = &self.book.name(slot).text;
        let span = entry.names.iter().find(|(text, _)| text == name).map(|(_, span)| span.clone());
        self.sheets[*home].inside(Diagnostic { span, ..found })
    }

    /// The slots that come round to themselves if every choice may go either way.
    fn knot(&self, build: u8) -> Vec<Slot> {
        let order = &self.book.builds[usize::from(build)].order;
        let reads = |slot: Slot| self.book.rule(build, slot).map(|rule| rule.reads.as_slice()).unwrap_or_default();
        let comes_round = |start: &Slot| {
            let mut seen = BTreeSet::new();
            let mut waiting = reads(*start).to_vec();
            while let Some(slot) = waiting.pop() {
                if seen.insert(slot) {
                    waiting.extend(reads(slot));
                }
            }
            seen.contains(start)
        };
        order.iter().copied().filter(comes_round).collect()
    }

    /// A circle among the slots of a knot, first name repeated at its end.
    fn find(&self, build: u8, knot: &[Slot], reads: impl Fn(&Rule, Slot, &mut dyn FnMut(Slot))) -> Option<Vec<Slot>> {
        let mut done = BTreeSet::new();
        for start in knot {
            // The path down from the start, each with what it has yet to look at.
            let mut path: Vec<(Slot, Vec<Slot>)> = Vec::new();
            let mut next = Some(*start);
            loop {
                if let Some(slot) = next.take() {
                    if let Some(place) = path.iter().position(|(one, _)| *one == slot) {
                        return Some(path[place..].iter().map(|(one, _)| *one).chain([slot]).collect());
                    }
                    if !done.contains(&slot) {
                        let mut waiting = Vec::new();
                        if let Some(rule) = self.book.rule(build, slot) {
                            reads(rule, slot, &mut |read| waiting.push(read));
                        }
                        waiting.reverse();
                        path.push((slot, waiting));
                    }
                }
                match path.last_mut() {
                    None => break,
                    Some((_, waiting)) => match waiting.pop() {
                        Some(read) => next = Some(read),
                        None => done.extend(path.pop().map(|(slot, _)| slot)),
                    },
                }
            }
        }
        None
    }
}

/// The slots that a rule reads when just these fields are given.
fn reads(rule: &Rule, slot: Slot, given: &BTreeSet<Slot>, see: &mut dyn FnMut(Slot)) {
    if let Some(when) = &rule.when {
        reads_when(when, given, see);
    }
    if let Some(value) = &rule.value
        && !given.contains(&slot)
    {
        reads_when(value, given, see);
    }
}

/// The slots whose being given is asked after.
fn each_given(node: &Node, see: &mut dyn FnMut(Slot)) {
    if let Node::Given(slot) = node {
        see(*slot);
    }
    node.each_part(&mut |part| each_given(part, see));
}

fn reads_when(node: &Node, given: &BTreeSet<Slot>, see: &mut dyn FnMut(Slot)) {
    match node {
        Node::Choice(ways) => {
            if let Node::Given(slot) = &ways.0 {
                reads_when(&ways.0, given, see);
                return reads_when(if given.contains(slot) { &ways.1 } else { &ways.2 }, given, see);
            }
            node.each_part(&mut |part| reads_when(part, given, see));
        }
        // Asking after a field that is given looks at whether it applies.
        Node::Given(slot) if given.contains(slot) => see(*slot),
        Node::Given(_) => {}
        Node::Slot(_) | Node::Common(_) | Node::Several(_) => node.each_slot(see),
        Node::Negative(_)
        | Node::Not(_)
        | Node::Pair(..)
        | Node::Call(..)
        | Node::Column(..)
        | Node::Smallest(..)
        | Node::Native(..)
        | Node::Part(..)
        | Node::Failed(_)
        | Node::Fault(_) => {
            node.each_part(&mut |part| reads_when(part, given, see));
        }
        Node::Amount(..) | Node::Word(_) | Node::Idle | Node::Missing | Node::Largest(..) | Node::Every(..) => {}
    }
}
