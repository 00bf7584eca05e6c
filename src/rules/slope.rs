//! How fast a figure changes with a field: derivatives of the rules themselves, rounding left aside.

use std::collections::HashMap;

use super::book::{Func, Node, Role, Slot};
use super::datum::Datum;
use super::design::Design;
use super::evaluate::{Absent, Evaluator, Pass};
use super::native::NATIVES;
use super::term::{Op, Way};
use crate::measure::Real;

impl Design {
    /// The change of `figure` for a change of `field`, in storage units of one by the other.
    ///
    /// Exact where no root or sine is on the way. Where two sides of a `max` or `min` tie, the one that changes most
    /// counts. A field that was not given moves as if it had been; a name that stands for sides all round moves them all.
    ///
    /// # Errors
    /// A value on the way is not there.
    pub fn slope(&self, figure: Slot, field: Slot) -> Result<Real, Absent> {
        let rule = self.rule(field);
        let mut known = HashMap::from([(field, Moves::of(field, Real::ONE))]);
        if let Some(rule) = rule.filter(|rule| rule.gather == Some(Way::Around)) {
            known.extend(rule.reads.iter().map(|part| (*part, Moves::of(field, Real::ONE))));
        }
        // Giving one of two that follow from one another turns the other round.
        let turns = self.book().name(field).role == Role::Either && self.given(field).is_none();
        let pinned = if turns { self.pinned(field) } else { None };
        let design = pinned.as_ref().unwrap_or(self);
        let own = HashMap::new();
        let moves = design.evaluate(|evaluator| {
            Slopes { evaluator, known, own: &own, tie: Tie::Steep, tied: false }.of_slot(figure)
        })?;
        Ok(moves.0.into_iter().next().map_or(Real::ZERO, |(_, slope)| slope))
    }

    /// How much each of these sizes moves `figure` when it is off by its own amount, those that do not left out. Each is
    /// off on top of what it comes to by the others. Where two sides of a `max` or `min` tie, the one that moves the figure
    /// most counts, so that a tolerance errs on the safe side.
    ///
    /// # Errors
    /// A value on the way is not there.
    pub(super) fn moved_by(&self, figure: Slot, own: &HashMap<Slot, Real>) -> Result<Vec<(Slot, Real)>, Absent> {
        self.evaluate(|evaluator| {
            let mut moved = |tie| {
                let mut slopes = Slopes { evaluator: &mut *evaluator, known: HashMap::new(), own, tie, tied: false };
                let moves = slopes.of_slot(figure)?;
                Ok((moves, slopes.tied))
            };
            let (steep, tied) = moved(Tie::Steep)?;
            // What moves a part most may move the whole least.
            let flat = if tied { Some(moved(Tie::Flat)?.0) } else { None };
            Ok(flat.filter(|flat| flat.most() > steep.most()).unwrap_or(steep).0)
        })
    }
}

/// How a value moves with each of several sizes; one that does not move it is left out.
#[derive(Clone, Debug, Default)]
struct Moves(Vec<(Slot, Real)>);

impl Moves {
    fn of(slot: Slot, by: Real) -> Self {
        Self(vec![(slot, by)])
    }

    fn is_still(&self) -> bool {
        self.0.is_empty()
    }

    fn and(mut self, other: Self) -> Self {
        for (slot, by) in other.0 {
            match self.0.iter_mut().find(|(one, _)| *one == slot) {
                Some((_, sum)) => *sum = sum.clone() + by,
                None => self.0.push((slot, by)),
            }
        }
        self.0.retain(|(_, by)| !by.is_exact_zero());
        self
    }

    fn times(mut self, factor: &Real) -> Self {
        self.0.iter_mut().for_each(|(_, by)| *by = by.clone() * factor.clone());
        self.0.retain(|(_, by)| !by.is_exact_zero());
        self
    }

    /// All to one side.
    fn most(&self) -> Real {
        self.0.iter().fold(Real::ZERO, |sum, (_, by)| sum + by.abs())
    }

    fn check(self) -> Result<Self, Absent> {
        let checked = self.0.into_iter().map(|(slot, by)| Ok((slot, by.check().map_err(Absent::Broken)?)));
        checked.collect::<Result<_, _>>().map(Self)
    }
}

/// Works out how values move, each name once.
struct Slopes<'a, 'b> {
    evaluator: &'a mut Evaluator<'b>,
    known: HashMap<Slot, Moves>,
    /// Sizes that move by themselves, on top of what moves them.
    own: &'a HashMap<Slot, Real>,
    tie: Tie,
    /// Whether there was a tie on the way.
    tied: bool,
}

/// Which side counts where two sides of a `max` or `min` tie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Tie {
    Steep,
    Flat,
}

impl Slopes<'_, '_> {
    fn of_slot(&mut self, slot: Slot) -> Result<Moves, Absent> {
        if let Some(moves) = self.known.get(&slot) {
            return Ok(moves.clone());
        }
        let book = self.evaluator.book;
        let rule = book.rule(self.evaluator.build, slot).ok_or(Absent::Idle)?;
        let given = rule.given && rule.gather.is_none() && self.evaluator.given_to(slot).is_some();
        let moves = match &rule.value {
            Some(value) if !given => self.of_node(value)?,
            _ => Moves::default(),
        };
        let moves = match self.own.get(&slot) {
            Some(by) => moves.and(Moves::of(slot, by.clone())),
            None => moves,
        };
        self.known.insert(slot, moves.clone());
        Ok(moves)
    }

    fn of_node(&mut self, node: &Node) -> Result<Moves, Absent> {
        match node {
            Node::Amount(..) | Node::Word(_) | Node::Given(_) | Node::Not(_) => Ok(Moves::default()),
            Node::Idle => Err(Absent::Idle),
            Node::Missing => Err(Absent::Missing(Vec::new())),
            Node::Slot(slot) => self.of_slot(*slot),
            Node::Common(slots) | Node::Several(slots) => {
                let first = slots.first().copied().ok_or(Absent::Idle)?;
                self.of_slot(first)
            }
            Node::Negative(of) => Ok(self.of_node(of)?.times(&Real::whole(-1))),
            Node::Choice(ways) => {
                let way = if self.evaluator.holds(&ways.0, Pass::Drawn)? { &ways.1 } else { &ways.2 };
                self.of_node(way)
            }
            Node::Pair(Op::Else, both) => match self.evaluator.value(&both.0, Pass::Drawn) {
                Err(Absent::Idle) => self.of_node(&both.1),
                Err(why) => Err(why),
                Ok(_) => self.of_node(&both.0),
            },
            Node::Pair(op, both) => self.of_pair(*op, &both.0, &both.1),
            Node::Call(func, args) => self.of_call(*func, args),
            // A word, or a choice among stocked things, stays the same for a small change.
            Node::Column(..)
            | Node::Smallest(..)
            | Node::Largest(..)
            | Node::Every(..)
            | Node::Native(..)
            | Node::Failed(_)
            | Node::Fault(_) => Ok(Moves::default()),
            Node::Part(of, place) => self.of_part(of, *place),
        }
    }

    fn amount(&mut self, node: &Node) -> Result<Real, Absent> {
        self.evaluator.amount(node, Pass::Drawn)
    }

    fn of_pair(&mut self, op: Op, left: &Node, right: &Node) -> Result<Moves, Absent> {
        let (a, b) = (self.amount(left)?, self.amount(right)?);
        let (da, db) = (self.of_node(left)?, self.of_node(right)?);
        let moves = match op {
            Op::Add => da.and(db),
            Op::Subtract => da.and(db.times(&Real::whole(-1))),
            Op::Multiply => da.times(&b).and(db.times(&a)),
            Op::Divide => da.times(&(Real::ONE / b.clone())).and(db.times(&-(a / (b.clone() * b)))),
            Op::Else
            | Op::Or
            | Op::And
            | Op::Equal
            | Op::Unequal
            | Op::AtLeast
            | Op::AtMost
            | Op::Above
            | Op::Below => Moves::default(),
        };
        moves.check()
    }

    fn of_call(&mut self, func: Func, args: &[Node]) -> Result<Moves, Absent> {
        if let Func::Greatest | Func::Least = func {
            return self.of_extreme(func, args);
        }
        let Some(arg) = args.first() else {
            return Ok(Moves::default());
        };
        let inner = self.of_node(arg)?;
        if inner.is_still() {
            return Ok(inner);
        }
        let at = self.amount(arg)?;
        let radian = Real::approximate(std::f64::consts::PI) / Real::whole(180);
        let outer = match func {
            Func::Size => Real::whole(if at.is_negative() { -1 } else { 1 }),
            Func::Root => Real::ratio(1, 2) / at.sqrt(),
            Func::Sine => Func::Cosine.of(&at) * radian,
            Func::Cosine => -Func::Sine.of(&at) * radian,
            Func::Tangent => {
                let cosine = Func::Cosine.of(&at);
                radian / (cosine.clone() * cosine)
            }
            Func::ArcSine => (Real::ONE / (Real::ONE - at.clone() * at).sqrt()) / radian,
            Func::ArcCosine => -(Real::ONE / (Real::ONE - at.clone() * at).sqrt()) / radian,
            Func::ArcTangent => (Real::ONE / (Real::ONE + at.clone() * at)) / radian,
            Func::Greatest | Func::Least | Func::Floor | Func::Ceiling => Real::ZERO,
        };
        inner.times(&outer).check()
    }

    /// How one thing that a function found moves, by differences in each argument that moves.
    fn of_part(&mut self, of: &Node, place: u8) -> Result<Moves, Absent> {
        let book = self.evaluator.book;
        let native = if let Node::Slot(slot) = of {
            book.rule(self.evaluator.build, *slot).and_then(|rule| rule.value.as_ref())
        } else {
            Some(of)
        };
        let Some(Node::Native(native, args)) = native else {
            return Ok(Moves::default());
        };
        let native = &NATIVES[usize::from(*native)];
        let values: Vec<Option<Datum>> = args.iter().map(|arg| self.evaluator.value(arg, Pass::Drawn).ok()).collect();
        let mut moves = Moves::default();
        for (at, arg) in args.iter().enumerate() {
            let Some(Datum::Amount(amount)) = &values[at] else {
                continue;
            };
            let inner = self.of_node(arg)?;
            if inner.is_still() {
                continue;
            }
            let moved = |by: f64| {
                let mut values = values.clone();
                values[at] = Some(Datum::Amount(amount.clone() + Real::approximate(by)));
                let record = native.find(book, &values).ok()?;
                record.parts.get(usize::from(place))?.as_ref()?.amount().map(Real::to_f64)
            };
            let Some((above, below)) = moved(NEAR).zip(moved(-NEAR)) else {
                continue;
            };
            // What a choice among stocked things gives does not change, or jumps; neither is a slope.
            if above.to_bits() != below.to_bits() && (above - below).abs() < JUMP {
                moves = moves.and(inner.times(&Real::approximate((above - below) / (2.0 * NEAR))));
            }
        }
        moves.check()
    }

    fn of_extreme(&mut self, func: Func, args: &[Node]) -> Result<Moves, Absent> {
        let mut best: Option<(Real, Moves)> = None;
        for arg in args {
            let value = self.amount(arg)?;
            let moves = self.of_node(arg)?;
            let takes = match &best {
                None => true,
                Some((most, other)) if value == *most => {
                    self.tied = true;
                    (self.tie == Tie::Steep) == (moves.most() > other.most())
                }
                Some((most, _)) => (func == Func::Greatest) == (value > *most),
            };
            if takes {
                best = Some((value, moves));
            }
        }
        Ok(best.map_or_else(Moves::default, |(_, moves)| moves))
    }
}

/// How far an argument is moved to see what it changes, in storage units.
const NEAR: f64 = 1e-5;

/// A jump and not a slope: a thousand times as much as the argument was moved.
const JUMP: f64 = 1e-2;
