//! Why a field does not apply: the values that its condition turns down.

use super::book::Slot;
use super::design::Design;
use super::evaluate::Pass;
use super::node::Node;
use super::term::Op;

impl Design {
    /// The names that keep a field from applying, each with its value; none where its build alone does.
    pub fn kept_idle_by(&self, slot: Slot) -> Vec<(String, String)> {
        let mut slots: Vec<Slot> = Vec::new();
        for part in self.rule(slot).and_then(|rule| rule.when.as_ref()).map(conditions).unwrap_or_default() {
            if self.evaluate(|evaluator| evaluator.holds(part, Pass::Drawn)) == Ok(false) {
                part.each_slot(&mut |slot| slots.push(slot));
            }
        }
        let named = |slot: &Slot| Some((self.book().name(*slot).text.clone(), self.shown(*slot)?));
        slots.iter().filter_map(named).collect()
    }
}

/// The conditions that must all hold.
fn conditions(test: &Node) -> Vec<&Node> {
    let Node::Pair(Op::And, both) = test else { return vec![test] };
    [conditions(&both.0), conditions(&both.1)].concat()
}
