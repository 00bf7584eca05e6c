//! How a number came out: each rule's own formula, and the same with its numbers, down to the fields.

#![expect(clippy::wildcard_enum_match_arm, reason = "few parts of a formula use a row of a table")]

use super::book::{Check, Node, Role, Slot, Table, Type};
use super::datum::Datum;
use super::design::Design;
use super::evaluate::{Absent, Known, Pass};
use super::native::NATIVES;
use super::sentence::sentence;
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
    /// Why a function found what it did.
    pub reasons: Vec<String>,
    /// Where the formula, and what it takes from tables, is published.
    pub sources: Vec<String>,
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
            let (step, mut reads) = match self.step(slot) {
                // An argument that does not apply was handed on as nothing.
                Err(Absent::Idle) if !steps.is_empty() => continue,
                other => other?,
            };
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
            return Ok((
                Step {
                    slot,
                    formula: None,
                    with: None,
                    is,
                    cause,
                    rounded: None,
                    reasons: Vec::new(),
                    sources: Vec::new(),
                },
                reads,
            ));
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
        let reasons = match is.made() {
            Datum::Record(record) => record.reasons.iter().map(|one| sentence(one, self.manner())).collect(),
            Datum::Amount(_) | Datum::Word(_) | Datum::Truth(_) | Datum::List(_) => Vec::new(),
        };
        let step = Step {
            slot,
            reasons,
            formula: (!constant).then(|| self.write(&taken, 0, false)),
            with: (!constant).then(|| self.write(&taken, 0, true)),
            is,
            cause,
            rounded,
            sources: self.sources(rule.map_or("", |rule| rule.source.as_str()), &taken),
        };
        Ok((step, reads))
    }

    /// Where a formula is published, and each row of a table that it takes something from.
    fn sources(&self, formula: &str, taken: &Node) -> Vec<String> {
        let mut sources: Vec<String> = Vec::new();
        if !formula.is_empty() {
            sources.push(formula.into());
        }
        self.each_cell(taken, &mut |table, column, word| {
            let Some(row) = table.words.iter().position(|one| one == word) else { return };
            let source = match table.columns.get(usize::from(column)).map_or("", |column| table.source(column, row)) {
                "" => return,
                source => format!("{word}: {source}"),
            };
            if !sources.contains(&source) {
                sources.push(source);
            }
        });
        sources
    }

    /// Every cell of a table that an expression uses, or chooses a word by: the table, the column, the word.
    fn each_cell(&self, node: &Node, see: &mut dyn FnMut(&Table, u16, &str)) {
        let used = match node {
            Node::Column(table, column, word) => Some((table, column, &**word)),
            Node::Smallest(table, column, _) => Some((table, column, node)),
            _ => None,
        };
        if let Some((table, column, word)) = used
            && let Some(table) = self.book().tables.get(usize::from(*table))
            && let Ok(Datum::Word(word)) = self.evaluate(|evaluator| evaluator.value(word, Pass::Cut))
        {
            see(table, *column, &word);
        }
        node.each_part(&mut |part| self.each_cell(part, see));
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
            Node::Pair(op @ (Op::Add | Op::Subtract), both) => match (self.taken(&both.0), self.taken(&both.1)) {
                // A zero in place of an absent part adds nothing.
                (left, right) if is_nothing(&right) => left,
                (left, right) if *op == Op::Add && is_nothing(&left) => right,
                both => Node::Pair(*op, Box::new(both)),
            },
            Node::Pair(op, both) => Node::Pair(*op, Box::new((self.taken(&both.0), self.taken(&both.1)))),
            Node::Negative(of) => Node::Negative(inner(of)),
            Node::Not(of) => Node::Not(inner(of)),
            Node::Call(func, args) => Node::Call(*func, args.iter().map(|arg| self.taken(arg)).collect()),
            Node::Amount(..)
            | Node::Word(_)
            | Node::Slot(_)
            | Node::Idle
            | Node::Missing
            | Node::Given(_)
            | Node::Common(_) => node.clone(),
            Node::Column(table, column, of) => Node::Column(*table, *column, inner(of)),
            Node::Smallest(table, column, of) => Node::Smallest(*table, *column, inner(of)),
            Node::Part(of, place) => Node::Part(inner(of), *place),
            Node::Failed(of) => Node::Failed(inner(of)),
            Node::Fault(of) => Node::Fault(inner(of)),
            Node::Native(place, args) => Node::Native(*place, args.iter().map(|arg| self.taken(arg)).collect()),
            Node::Largest(..) | Node::Every(..) => node.clone(),
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
                if numbers { in_brackets(text, strength) } else { text }
            }
            Node::Idle => "idle".into(),
            Node::Missing => "missing".into(),
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
            Node::Column(..) | Node::Part(..) | Node::Largest(..) if numbers => in_brackets(self.found(node), strength),
            Node::Column(table, column, of) => {
                format!("{} of {}", self.column_name(*table, *column), self.write(of, 8, numbers))
            }
            Node::Smallest(table, column, of) => {
                format!("smallest({}, {})", self.column_path(*table, *column), self.write(of, 0, numbers))
            }
            Node::Largest(table, column) => format!("largest({})", self.column_path(*table, *column)),
            Node::Every(table, column) => format!("every({})", self.column_path(*table, *column)),
            Node::Part(of, place) => format!("{} of {}", self.part_name(of, *place), self.write(of, 8, false)),
            Node::Failed(of) => format!("failed({})", self.write(of, 0, false)),
            Node::Fault(of) => format!("fault({})", self.write(of, 0, false)),
            Node::Native(place, args) => {
                let args: Vec<String> = args.iter().map(|arg| self.argument(arg, numbers)).collect();
                let name = NATIVES.get(usize::from(*place)).map_or("", |native| native.name);
                format!("{name}({})", args.join(", "))
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

    /// The value of something looked up.
    fn found(&self, node: &Node) -> String {
        match self.evaluate(|evaluator| evaluator.value(node, Pass::Cut)) {
            Ok(value) => self.show(&value, self.book().type_found(node)),
            Err(_) => "?".into(),
        }
    }

    /// An argument of a function: `none` for what is idle.
    fn argument(&self, node: &Node, numbers: bool) -> String {
        match self.evaluate(|evaluator| evaluator.value(node, Pass::Cut)) {
            Err(Absent::Idle) if numbers => "none".into(),
            _ => self.write(node, 0, numbers),
        }
    }

    fn column_name(&self, table: u16, column: u16) -> &str {
        let table = self.book().tables.get(usize::from(table));
        table.and_then(|table| table.columns.get(usize::from(column))).map_or("", |column| &column.name)
    }

    fn column_path(&self, table: u16, column: u16) -> String {
        let name = self.book().tables.get(usize::from(table)).map_or("", |table| &table.name);
        format!("{name}.{}", self.column_name(table, column))
    }

    fn part_name(&self, of: &Node, place: u8) -> &'static str {
        let part = self.book().native_of(of).and_then(|native| native.gives.get(usize::from(place)));
        part.map_or("", |(name, ..)| name)
    }

    /// Why functions of the program found what they did, for those of these slots that stand for what was found.
    pub fn reasons(&self, slots: impl Iterator<Item = Slot>) -> Vec<String> {
        let records = slots.filter_map(|slot| match self.known(slot).ok()?.made() {
            Datum::Record(record) => Some(record.clone()),
            Datum::Amount(_) | Datum::Word(_) | Datum::Truth(_) | Datum::List(_) => None,
        });
        records
            .flat_map(|record| record.reasons.iter().map(|one| sentence(one, self.manner())).collect::<Vec<_>>())
            .collect()
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

/// A nought that is written out.
fn is_nothing(node: &Node) -> bool {
    matches!(node, Node::Amount(amount, _) if amount.is_exact_zero())
}

/// A value with a sign or of two parts, such as a mark and what is left over, in brackets where an operator is near.
fn in_brackets(text: String, strength: u8) -> String {
    let sign_or_sum = text.starts_with('-') || text.contains(" + ") || text.contains(" - ");
    if sign_or_sum && strength > 0 { format!("({text})") } else { text }
}
