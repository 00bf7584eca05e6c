//! Values of fields and figures, drawn and cut, worked out when asked for and kept until something they read changes.

// Amounts and conditions are worked out by their own short roads; every other form takes the general one.
#![allow(clippy::wildcard_enum_match_arm)]

use std::sync::Arc;

use super::book::{Book, Cell as TableCell, Func, Node, Rule, Slot};
use super::datum::{Datum, Fault, shared};
use super::native::NATIVES;
use super::sentence::sentence;
use super::term::Op;
use crate::measure::write::Manner;
use crate::measure::{Broken, Kind, Real, Toward, to_step};

/// Why a name has no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Absent {
    /// It does not apply to this build, or is not wanted.
    Idle,
    /// Fields that must be set first.
    Missing(Vec<Slot>),
    /// The arithmetic failed.
    Broken(Broken),
    /// A function found nothing, and why.
    Refused(Arc<Fault>),
    /// Fields under one name whose values differ.
    Differ(Vec<Slot>),
}

/// The two values of a figure.
#[derive(Clone, Debug)]
pub struct Known {
    /// As computed.
    pub drawn: Datum,
    /// As made, where that is another.
    pub cut: Option<Datum>,
}

impl Known {
    /// As made.
    pub fn made(&self) -> &Datum {
        self.cut.as_ref().unwrap_or(&self.drawn)
    }

    /// As computed or as made.
    pub fn of(&self, pass: Pass) -> &Datum {
        match pass {
            Pass::Drawn => &self.drawn,
            Pass::Cut => self.made(),
        }
    }

    /// Same drawn and same cut, marks included.
    pub fn same(&self, other: &Self) -> bool {
        self.drawn.same(&other.drawn) && self.made().same(other.made())
    }
}

/// What is known of a slot so far.
#[derive(Clone, Debug, Default)]
pub enum Cell {
    /// Not asked for yet.
    #[default]
    Unknown,
    /// Being worked out.
    Busy,
    /// Worked out.
    Done(Result<Known, Absent>),
}

/// Which of the two values is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pass {
    /// Exact, as computed.
    Drawn,
    /// From made sizes.
    Cut,
}

/// Works out values of one design.
pub struct Evaluator<'a> {
    /// The rules.
    pub book: &'a Book,
    /// Which build.
    pub build: u8,
    /// What was given, by slot, as far as the last that was.
    pub given: &'a [Option<Datum>],
    /// What is known, by slot.
    pub cells: &'a mut [Cell],
    /// The tape, and how its lengths are written.
    pub manner: &'a Manner,
}

impl Evaluator<'_> {
    /// What was given to a slot, whether it is in use or not.
    pub fn given_to(&self, slot: Slot) -> Option<&Datum> {
        self.given.get(usize::from(slot))?.as_ref()
    }

    /// Makes sure that a slot is worked out.
    pub fn ensure(&mut self, slot: Slot) {
        let place = usize::from(slot);
        match self.cells.get(place) {
            Some(Cell::Unknown) => {}
            Some(Cell::Busy | Cell::Done(_)) | None => return,
        }
        self.cells[place] = Cell::Busy;
        let result = self.work_out(slot);
        self.cells[place] = Cell::Done(result);
    }

    /// What is known of a slot, worked out if need be.
    pub fn known(&mut self, slot: Slot) -> &Result<Known, Absent> {
        const CIRCLE: &Result<Known, Absent> = &Err(Absent::Idle);
        self.ensure(slot);
        match self.cells.get(usize::from(slot)) {
            Some(Cell::Done(result)) => result,
            // The book has no circles, so nobody asks for a slot that is being worked out.
            Some(Cell::Unknown | Cell::Busy) | None => CIRCLE,
        }
    }

    fn work_out(&mut self, slot: Slot) -> Result<Known, Absent> {
        let book = self.book;
        let rule = book.rule(self.build, slot).ok_or(Absent::Idle)?;
        if let Some(when) = &rule.when
            && !self.holds(when, Pass::Drawn)?
        {
            return Err(Absent::Idle);
        }
        if rule.given
            && rule.gather.is_none()
            && let Some(given) = self.given_to(slot)
        {
            return Ok(Known { drawn: given.clone(), cut: None });
        }
        let Some(value) = &rule.value else {
            return Err(if rule.optional { Absent::Idle } else { Absent::Missing(vec![slot]) });
        };
        let drawn = self.sound(value, Pass::Drawn).map_err(|why| match why {
            Absent::Missing(slots) if slots.is_empty() => Absent::Missing(vec![slot]),
            other => other,
        })?;
        let moved = rule.reads.iter().any(|read| self.is_moved(*read));
        let made = if moved { self.sound(value, Pass::Cut)? } else { drawn.clone() };
        let made = match (self.rounds(rule), made) {
            (Some(toward), Datum::Amount(amount)) => Datum::Amount(self.to_mark(&amount, toward)),
            (Some(toward), Datum::List(list)) => {
                Datum::List(list.iter().map(|one| self.to_mark(one, toward)).collect())
            }
            (_, made) => made,
        };
        // A word is chosen for what is made: the hanger of the load that it will have.
        if matches!(made, Datum::Word(_)) {
            return Ok(Known { drawn: made, cut: None });
        }
        let cut = (!made.same(&drawn)).then_some(made);
        Ok(Known { drawn, cut })
    }

    /// Which way a value is rounded. The stand-in for a value that nobody gave counts as given, and is not rounded.
    fn rounds(&mut self, rule: &Rule) -> Option<Toward> {
        match &rule.value {
            Some(Node::Choice(ways)) if matches!(ways.0, Node::Given(slot) if !self.is_given(slot)) => None,
            _ => rule.toward,
        }
    }

    /// A length on the tape, in the direction given.
    pub fn to_mark(&self, amount: &Real, toward: Toward) -> Real {
        to_step(amount, &self.manner.graduation.step.value, toward).0
    }

    fn is_moved(&self, slot: Slot) -> bool {
        match &self.cells[usize::from(slot)] {
            Cell::Done(Ok(known)) => known.cut.is_some(),
            Cell::Done(Err(_)) | Cell::Unknown | Cell::Busy => false,
        }
    }

    fn sound(&mut self, node: &Node, pass: Pass) -> Result<Datum, Absent> {
        match self.value(node, pass)? {
            Datum::Amount(amount) => amount.check().map(Datum::Amount).map_err(Absent::Broken),
            other => Ok(other),
        }
    }

    /// The value of an expression.
    ///
    /// # Errors
    /// Idle spreads before all else; what is missing is gathered from both sides.
    pub fn value(&mut self, node: &Node, pass: Pass) -> Result<Datum, Absent> {
        match node {
            Node::Word(word) => Ok(Datum::Word(word.clone())),
            Node::Slot(slot) => match self.known(*slot) {
                Ok(known) => Ok(known.of(pass).clone()),
                Err(why) => Err(why.clone()),
            },
            Node::Idle => Err(Absent::Idle),
            // Whose value it is to be is filled in where the slot is known.
            Node::Missing => Err(Absent::Missing(Vec::new())),
            Node::Common(slots) => self.common(slots, pass),
            Node::Several(slots) => {
                // Several values have no value together; the first shows whether they are known.
                let first = slots.first().copied().ok_or(Absent::Idle)?;
                self.value(&Node::Slot(first), pass)
            }
            Node::Choice(ways) => {
                let way = if self.holds(&ways.0, pass)? { &ways.1 } else { &ways.2 };
                self.value(way, pass)
            }
            Node::Pair(Op::Else, both) => match self.value(&both.0, pass) {
                Err(Absent::Idle) => self.value(&both.1, pass),
                other => other,
            },
            Node::Column(table, column, word) => self.cell(*table, *column, word, pass),
            Node::Smallest(table, column, least) => self.smallest(*table, *column, least, pass),
            Node::Largest(table, column) => {
                let amounts = self.column(*table, *column).filter_map(cell_amount);
                let most = amounts.fold(None, |most: Option<&Real>, one| match most {
                    Some(most) if most >= one => Some(most),
                    _ => Some(one),
                });
                most.map(|most| Datum::Amount(most.clone())).ok_or(Absent::Idle)
            }
            Node::Every(table, column) => {
                Ok(Datum::List(self.column(*table, *column).filter_map(cell_amount).cloned().collect()))
            }
            Node::Native(place, args) => self.native(*place, args, pass),
            Node::Part(of, place) => match self.value(of, pass)? {
                Datum::Record(record) => record.parts.get(usize::from(*place)).cloned().flatten().ok_or(Absent::Idle),
                _ => Err(Absent::Idle),
            },
            Node::Fault(of) => match self.value(of, pass) {
                Err(Absent::Refused(fault)) => Ok(Datum::Word(sentence(&fault.0, self.manner).as_str().into())),
                Err(why) => Err(why),
                Ok(_) => Err(Absent::Idle),
            },
            Node::Failed(_) => self.holds(node, pass).map(Datum::Truth),
            Node::Given(_) | Node::Not(_) => self.holds(node, pass).map(Datum::Truth),
            Node::Pair(op, _) if !op.is_sum() => self.holds(node, pass).map(Datum::Truth),
            Node::Amount(..) | Node::Negative(_) | Node::Pair(..) | Node::Call(..) => {
                self.amount(node, pass).map(Datum::Amount)
            }
        }
    }

    /// The amount of an expression that is a quantity.
    ///
    /// # Errors
    /// It is idle, missing or broken.
    pub fn amount(&mut self, node: &Node, pass: Pass) -> Result<Real, Absent> {
        let datum = match node {
            Node::Amount(amount, _) => return Ok(amount.clone()),
            Node::Negative(of) => return Ok(-self.amount(of, pass)?),
            Node::Pair(op, both) if op.is_sum() => {
                let sides = (self.amount(&both.0, pass), self.amount(&both.1, pass));
                let (a, b) = together(sides)?;
                return Ok(match op {
                    Op::Subtract => a - b,
                    Op::Multiply => a * b,
                    Op::Divide => a / b,
                    _ => a + b,
                });
            }
            Node::Call(func, args) => return self.call(*func, args, pass),
            Node::Slot(slot) => match self.known(*slot) {
                Ok(known) => known.of(pass).clone(),
                Err(why) => return Err(why.clone()),
            },
            _ => self.value(node, pass)?,
        };
        match datum {
            Datum::Amount(amount) => Ok(amount),
            Datum::Word(_) | Datum::Truth(_) | Datum::List(_) | Datum::Record(_) => {
                Err(Absent::Broken(Broken::NotReal))
            }
        }
    }

    /// Whether a condition holds.
    ///
    /// # Errors
    /// It is idle, missing or broken.
    pub fn holds(&mut self, node: &Node, pass: Pass) -> Result<bool, Absent> {
        match node {
            Node::Given(slot) => Ok(self.is_given(*slot)),
            Node::Not(of) => Ok(!self.holds(of, pass)?),
            Node::Failed(of) => match self.value(of, pass) {
                Ok(_) => Ok(false),
                Err(Absent::Refused(_)) => Ok(true),
                Err(why) => Err(why),
            },
            Node::Pair(Op::And, both) => Ok(self.holds(&both.0, pass)? && self.holds(&both.1, pass)?),
            // One side that holds is enough, whatever the other lacks.
            Node::Pair(Op::Or, both) => match self.holds(&both.0, pass) {
                Ok(true) => Ok(true),
                Ok(false) => self.holds(&both.1, pass),
                Err(why) => match self.holds(&both.1, pass) {
                    Ok(true) => Ok(true),
                    Ok(false) | Err(_) => Err(why),
                },
            },
            Node::Pair(op, both) if !op.is_sum() && *op != Op::Else => self.compare(*op, &both.0, &both.1, pass),
            _ => Ok(matches!(self.value(node, pass)?, Datum::Truth(true))),
        }
    }

    fn compare(&mut self, op: Op, left: &Node, right: &Node, pass: Pass) -> Result<bool, Absent> {
        if let Node::Word(word) = right {
            return Ok(self.is_word(left, word, pass)? == (op == Op::Equal));
        }
        let (left, right) = together((self.value(left, pass), self.value(right, pass)))?;
        let (Datum::Amount(a), Datum::Amount(b)) = (&left, &right) else {
            return Ok(left.same(&right) == (op == Op::Equal));
        };
        Ok(match op {
            Op::Equal => a == b,
            Op::Unequal => a != b,
            Op::AtLeast => a >= b,
            Op::AtMost => a <= b,
            Op::Above => a > b,
            Op::Below => a < b,
            Op::Else | Op::Or | Op::And | Op::Add | Op::Subtract | Op::Multiply | Op::Divide => false,
        })
    }

    fn is_word(&mut self, node: &Node, word: &Arc<str>, pass: Pass) -> Result<bool, Absent> {
        match node {
            Node::Slot(slot) => match self.known(*slot) {
                Ok(known) => Ok(matches!(&known.drawn, Datum::Word(is) if is == word)),
                Err(why) => Err(why.clone()),
            },
            _ => Ok(matches!(self.value(node, pass)?, Datum::Word(is) if is == *word)),
        }
    }

    /// Whether a field is given and in use.
    pub fn is_given(&mut self, slot: Slot) -> bool {
        self.given_to(slot).is_some() && self.known(slot).is_ok()
    }

    fn common(&mut self, slots: &[Slot], pass: Pass) -> Result<Datum, Absent> {
        let mut all: Option<Datum> = None;
        for slot in slots {
            let value = self.value(&Node::Slot(*slot), pass)?;
            match &all {
                Some(first) if !first.same(&value) => return Err(Absent::Differ(slots.to_vec())),
                Some(_) => {}
                None => all = Some(value),
            }
        }
        all.ok_or(Absent::Idle)
    }

    fn column(&self, table: u16, column: u16) -> impl Iterator<Item = &TableCell> {
        let table = self.book.tables.get(usize::from(table));
        let column = table.and_then(|table| table.columns.get(usize::from(column)));
        column.into_iter().flat_map(|column| column.cells.iter().flatten())
    }

    fn cell(&mut self, table: u16, column: u16, word: &Node, pass: Pass) -> Result<Datum, Absent> {
        let Datum::Word(word) = self.value(word, pass)? else {
            return Err(Absent::Idle);
        };
        let table = self.book.tables.get(usize::from(table)).ok_or(Absent::Idle)?;
        match table.cell(column, &word).ok_or(Absent::Idle)? {
            TableCell::Amount(amount) => Ok(Datum::Amount(amount.clone())),
            TableCell::Word(word) => Ok(Datum::Word(word.clone())),
        }
    }

    /// The word with the least amount in a column that is not below what is wanted; idle where all are below it.
    fn smallest(&mut self, table: u16, column: u16, least: &Node, pass: Pass) -> Result<Datum, Absent> {
        let least = self.amount(least, pass)?;
        let table = self.book.tables.get(usize::from(table)).ok_or(Absent::Idle)?;
        let cells = table.columns.get(usize::from(column)).map(|column| &column.cells);
        let rows = table.words.iter().zip(cells.into_iter().flatten());
        let mut best: Option<(&String, &Real)> = None;
        for (word, amount) in rows.filter_map(|(word, cell)| Some((word, cell_amount(cell.as_ref()?)?))) {
            if *amount >= least && best.is_none_or(|(_, so_far)| amount < so_far) {
                best = Some((word, amount));
            }
        }
        best.map(|(word, _)| Datum::Word(word.as_str().into())).ok_or(Absent::Idle)
    }

    /// What a function of the program finds; an argument that is idle is handed on as nothing.
    fn native(&mut self, place: u8, args: &[Node], pass: Pass) -> Result<Datum, Absent> {
        let native = NATIVES.get(usize::from(place)).ok_or(Absent::Idle)?;
        let mut values = Vec::with_capacity(args.len());
        let mut missing = Vec::new();
        for (arg, (called, ..)) in args.iter().zip(native.takes) {
            match self.value(arg, pass) {
                Ok(value) => values.push(Some(value)),
                Err(Absent::Idle) if native.may_lack.contains(called) => values.push(None),
                Err(Absent::Missing(slots)) => missing.extend(slots),
                Err(why) => return Err(why),
            }
        }
        if !missing.is_empty() {
            missing.dedup();
            return Err(Absent::Missing(missing));
        }
        native.find(self.book, &values).map(shared).map_err(|fault| Absent::Refused(Arc::new(fault)))
    }

    fn call(&mut self, func: Func, args: &[Node], pass: Pass) -> Result<Real, Absent> {
        let Some((first, others)) = args.split_first() else {
            return Err(Absent::Idle);
        };
        let mut best = self.amount(first, pass);
        if !matches!(func, Func::Greatest | Func::Least) {
            return Ok(func.of(&best?));
        }
        for other in others {
            let (one, other) = together((best, self.amount(other, pass)))?;
            let takes = if func == Func::Greatest { other > one } else { other < one };
            best = Ok(if takes { other } else { one });
        }
        best
    }
}

fn cell_amount(cell: &TableCell) -> Option<&Real> {
    match cell {
        TableCell::Amount(amount) => Some(amount),
        TableCell::Word(_) => None,
    }
}

/// Both values, or why not: idle before all else, and all that is missing on either side.
fn together<T>(sides: (Result<T, Absent>, Result<T, Absent>)) -> Result<(T, T), Absent> {
    match sides {
        (Ok(left), Ok(right)) => Ok((left, right)),
        (Err(Absent::Idle), _) | (_, Err(Absent::Idle)) => Err(Absent::Idle),
        (Err(Absent::Missing(mut one)), Err(Absent::Missing(other))) => {
            for slot in other {
                if !one.contains(&slot) {
                    one.push(slot);
                }
            }
            Err(Absent::Missing(one))
        }
        (Err(why), _) | (_, Err(why)) => Err(why),
    }
}

impl Func {
    /// The function of one amount; of several, the first.
    pub fn of(self, amount: &Real) -> Real {
        use crate::measure::Turn;
        match self {
            Self::Greatest | Self::Least => amount.clone(),
            Self::Size => amount.abs(),
            Self::Floor => amount.floor(),
            Self::Ceiling => amount.ceil(),
            Self::Root => amount.sqrt(),
            Self::Sine => Turn::Sine.of_degrees(amount),
            Self::Cosine => Turn::Cosine.of_degrees(amount),
            Self::Tangent => Turn::Tangent.of_degrees(amount),
            Self::ArcSine => Turn::Sine.back_to_degrees(amount),
            Self::ArcCosine => Turn::Cosine.back_to_degrees(amount),
            Self::ArcTangent => Turn::Tangent.back_to_degrees(amount),
        }
    }
}

/// The most that a length may be: a mile. Longer is a slip of the finger.
pub const LONGEST: i64 = 63_360;

/// Whether an amount of a kind is past all use.
pub fn absurd(amount: &Real, kind: Kind) -> bool {
    kind == Kind::LENGTH && amount.abs() > Real::whole(LONGEST)
}
