//! How a number came out: each rule's own formula, and the same with its numbers, down to the fields.

use super::book::{Check, Node, Role, Slot, Type};
use super::design::Design;
use super::evaluate::{Absent, Known, Pass};
use super::term::Op;
use crate::measure::{Kind, Quantity, Toward};

/// One line of an explanation.
#[derive(Clone, Debug)]
pub struct Step {
    /// The name it is about.
    pub slot: Slot,
    /// Its formula, choices already made.
    pub formula: Option<String>,
    /// The formula with numbers in place of names.
    pub with: Option<String>,
    /// Its value.
    pub is: Known,
    /// Where the value comes from.
    pub cause: Cause,
    /// Which way it was rounded to be made, if that moved it.
    pub rounded: Option<Toward>,
}

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// A person gave it.
    Given,
    /// The rules have it so until it is given.
    Usual,
    /// It follows from others.
    Follows,
}

impl Design {
    /// How the value of a slot came out: the slot itself, then what it reads, in the order read, each once.
    ///
    /// # Errors
    /// The value is not there, and why.
    pub fn explain(&self, slot: Slot) -> Result<Vec<Step>, Absent> {
        let mut steps = Vec::new();
        let mut waiting = vec![slot];
        while let Some(slot) = waiting.pop() {
            if steps.iter().any(|step: &Step| step.slot == slot) {
                continue;
            }
            let (step, mut reads) = self.step(slot)?;
            steps.push(step);
            reads.reverse();
            waiting.extend(reads);
        }
        Ok(steps)
    }

    fn step(&self, slot: Slot) -> Result<(Step, Vec<Slot>), Absent> {
        let is = self.known(slot)?;
        let rule = self.rule(slot);
        let given = rule.is_some_and(|rule| rule.given && rule.gather.is_none()) && self.given(slot).is_some();
        let value = rule.and_then(|rule| rule.value.as_ref()).filter(|_| !given);
        let mut reads = Vec::new();
        let Some(value) = value else {
            let cause = if given { Cause::Given } else { Cause::Usual };
            return Ok((Step { slot, formula: None, with: None, is, cause, rounded: None }, reads));
        };
        let taken = self.taken(value);
        taken.each_slot(&mut |read| {
            if !reads.contains(&read) {
                reads.push(read);
            }
        });
        let constant = reads.is_empty();
        // A default that reads others is usual; what is worked out unless given is not.
        let usual = rule.is_some_and(|rule| rule.given) && (constant || self.book().name(slot).role == Role::Field);
        let cause = if usual { Cause::Usual } else { Cause::Follows };
        let toward = rule.and_then(|rule| rule.toward);
        let rounded = toward.filter(|_| self.was_rounded(value, &is));
        let step = Step {
            slot,
            formula: (!constant).then(|| self.write(&taken, 0, false)),
            with: (!constant).then(|| self.write(&taken, 0, true)),
            is,
            cause,
            rounded,
        };
        Ok((step, reads))
    }

    /// Whether the made value is another than its own formula gives from made sizes.
    fn was_rounded(&self, value: &Node, is: &Known) -> bool {
        self.evaluate(|evaluator| evaluator.value(value, Pass::Cut)).is_ok_and(|value| !value.same(is.made()))
    }

    /// The expression with its choices made and its absent sides dropped, as the made value has them.
    fn taken(&self, node: &Node) -> Node {
        let inner = |node: &Node| Box::new(self.taken(node));
        match node {
            Node::Choice(ways) => {
                let holds = self.evaluate(|evaluator| evaluator.holds(&ways.0, Pass::Cut)).unwrap_or(false);
                self.taken(if holds { &ways.1 } else { &ways.2 })
            }
            Node::Pair(Op::Else, both) => match self.evaluate(|evaluator| evaluator.value(&both.0, Pass::Cut)) {
                Err(Absent::Idle) => self.taken(&both.1),
                _ => self.taken(&both.0),
            },
            Node::Pair(op, both) => Node::Pair(*op, Box::new((self.taken(&both.0), self.taken(&both.1)))),
            Node::Negative(of) => Node::Negative(inner(of)),
            Node::Not(of) => Node::Not(inner(of)),
            Node::Call(func, args) => Node::Call(*func, args.iter().map(|arg| self.taken(arg)).collect()),
            Node::Amount(..)
            | Node::Word(_)
            | Node::Slot(_)
            | Node::Build
            | Node::Idle
            | Node::Given(_)
            | Node::Common(_) => node.clone(),
            Node::Several(slots) => {
                Node::Several(slots.iter().copied().filter(|slot| self.known(*slot).is_ok()).collect())
            }
        }
    }

    /// An expression as text, by names or by numbers.
    fn write(&self, node: &Node, strength: u8, numbers: bool) -> String {
        let name = |slot: &Slot| {
            if numbers { self.shown(*slot).unwrap_or_else(|| "?".into()) } else { self.book().name(*slot).text.clone() }
        };
        match node {
            Node::Amount(amount, kind) => self.manner().short(&Quantity::new(amount.clone(), *kind)),
            Node::Word(word) => format!("\"{word}\""),
            Node::Slot(slot) => {
                let text = name(slot);
                let sign_or_sum = numbers && (text.starts_with('-') || text.contains(" + ") || text.contains(" - "));
                if sign_or_sum && strength > 0 { format!("({text})") } else { text }
            }
            Node::Build => "build".into(),
            Node::Idle => "idle".into(),
            Node::Given(slot) => format!("given({})", self.book().name(*slot).text),
            Node::Common(slots) | Node::Several(slots) => slots.iter().map(name).collect::<Vec<_>>().join(", "),
            Node::Negative(of) => format!("-{}", self.write(of, 8, numbers)),
            Node::Not(of) => format!("!{}", self.write(of, 8, numbers)),
            Node::Pair(op, both) => {
                let own = op.strength();
                let text = format!(
                    "{} {} {}",
                    self.write(&both.0, own, numbers),
                    op.sign(),
                    self.write(&both.1, own + 1, numbers)
                );
                if own < strength { format!("({text})") } else { text }
            }
            Node::Choice(ways) => format!(
                "if {} {{ {} }} else {{ {} }}",
                self.write(&ways.0, 0, numbers),
                self.write(&ways.1, 0, numbers),
                self.write(&ways.2, 0, numbers)
            ),
            Node::Call(func, args) => {
                let args: Vec<String> = args.iter().map(|arg| self.write(arg, 0, numbers)).collect();
                format!("{}({})", func.name(), args.join(", "))
            }
        }
    }

    /// The whole formula of a slot in this build, as the rules have it.
    pub fn formula(&self, slot: Slot) -> Option<String> {
        let value = self.rule(slot)?.value.as_ref()?;
        let gathers = matches!(value, Node::Common(_) | Node::Several(_));
        (!gathers).then(|| self.write(value, 0, false))
    }

    /// The condition of a check, as the rules have it.
    pub fn condition(&self, check: &Check) -> String {
        self.write(&check.test, 0, false)
    }

    /// The kind of a slot's values, a plain number where it has none.
    pub fn kind(&self, slot: Slot) -> Kind {
        if let Type::Quantity(kind) = self.book().name(slot).of { kind } else { Kind::NUMBER }
    }
}
