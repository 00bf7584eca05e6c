//! How fast a figure changes with a field: derivatives of the rules themselves, rounding left aside.

use std::collections::HashMap;

use super::book::{Func, Node, Role, Slot};
use super::design::Design;
use super::evaluate::{Absent, Datum, Evaluator, Pass};
use super::native::NATIVES;
use super::natives;
use super::term::{Op, Way};
use crate::measure::Real;

impl Design {
    /// The change of `figure` for a change of `field`, in storage units of one by the other.
    ///
    /// Exact where no root or sine is on the way. Where two sides of a `max` or `min` tie, the one that changes most
    /// counts, so that a tolerance errs on the safe side. A field that was not given moves as if it had been; a name
    /// that stands for sides all round moves them all.
    ///
    /// # Errors
    /// A value on the way is not there.
    pub fn slope(&self, figure: Slot, field: Slot) -> Result<Real, Absent> {
        let rule = self.rule(field);
        let mut known = HashMap::from([(field, Real::ONE)]);
        if let Some(rule) = rule.filter(|rule| rule.gather == Some(Way::Around)) {
            known.extend(rule.reads.iter().map(|part| (*part, Real::ONE)));
        }
        // Giving one of two that follow from one another turns the other round.
        let turns = self.book().name(field).role == Role::Either && self.given(field).is_none();
        let pinned = if turns { self.pinned(field) } else { None };
        pinned.as_ref().unwrap_or(self).evaluate(|evaluator| of_slot(evaluator, figure, &mut known))
    }
}

pub(super) fn of_slot(evaluator: &mut Evaluator, slot: Slot, known: &mut HashMap<Slot, Real>) -> Result<Real, Absent> {
    if let Some(slope) = known.get(&slot) {
        return Ok(slope.clone());
    }
    let book = evaluator.book;
    let rule = book.rule(evaluator.build, slot).ok_or(Absent::Idle)?;
    let given = rule.given && rule.gather.is_none() && evaluator.given[usize::from(slot)].is_some();
    let slope = match &rule.value {
        Some(value) if !given => of_node(evaluator, value, known)?,
        _ => Real::ZERO,
    };
    known.insert(slot, slope.clone());
    Ok(slope)
}

fn of_node(evaluator: &mut Evaluator, node: &Node, known: &mut HashMap<Slot, Real>) -> Result<Real, Absent> {
    match node {
        Node::Amount(..) | Node::Word(_) | Node::Build | Node::Given(_) | Node::Not(_) => Ok(Real::ZERO),
        Node::Idle => Err(Absent::Idle),
        Node::Missing => Err(Absent::Missing(Vec::new())),
        Node::Slot(slot) => of_slot(evaluator, *slot, known),
        Node::Common(slots) | Node::Several(slots) => {
            let first = slots.first().copied().ok_or(Absent::Idle)?;
            of_slot(evaluator, first, known)
        }
        Node::Negative(of) => Ok(-of_node(evaluator, of, known)?),
        Node::Choice(ways) => {
            let way = if evaluator.holds(&ways.0, Pass::Drawn)? { &ways.1 } else { &ways.2 };
            of_node(evaluator, way, known)
        }
        Node::Pair(Op::Else, both) => match evaluator.value(&both.0, Pass::Drawn) {
            Err(Absent::Idle) => of_node(evaluator, &both.1, known),
            Err(why) => Err(why),
            Ok(_) => of_node(evaluator, &both.0, known),
        },
        Node::Pair(op, both) => of_pair(evaluator, *op, &both.0, &both.1, known),
        Node::Call(func, args) => of_call(evaluator, *func, args, known),
        // A word, or a choice among stocked things, stays the same for a small change.
        Node::Column(..)
        | Node::Smallest(..)
        | Node::Largest(..)
        | Node::Every(..)
        | Node::Native(..)
        | Node::Failed(_)
        | Node::Fault(_) => Ok(Real::ZERO),
        Node::Part(of, place) => of_part(evaluator, of, *place, known),
    }
}

fn of_pair(
    evaluator: &mut Evaluator,
    op: Op,
    left: &Node,
    right: &Node,
    known: &mut HashMap<Slot, Real>,
) -> Result<Real, Absent> {
    let (a, b) = (evaluator.amount(left, Pass::Drawn)?, evaluator.amount(right, Pass::Drawn)?);
    let (da, db) = (of_node(evaluator, left, known)?, of_node(evaluator, right, known)?);
    let slope = match op {
        Op::Add => da + db,
        Op::Subtract => da - db,
        Op::Multiply => da * b + a * db,
        Op::Divide => (da * b.clone() - a * db) / (b.clone() * b),
        Op::Else | Op::Or | Op::And | Op::Equal | Op::Unequal | Op::AtLeast | Op::AtMost | Op::Above | Op::Below => {
            Real::ZERO
        }
    };
    slope.check().map_err(Absent::Broken)
}

fn of_call(
    evaluator: &mut Evaluator,
    func: Func,
    args: &[Node],
    known: &mut HashMap<Slot, Real>,
) -> Result<Real, Absent> {
    if let Func::Greatest | Func::Least = func {
        return of_extreme(evaluator, func, args, known);
    }
    let Some(arg) = args.first() else {
        return Ok(Real::ZERO);
    };
    let inner = of_node(evaluator, arg, known)?;
    if inner.is_exact_zero() {
        return Ok(Real::ZERO);
    }
    let at = evaluator.amount(arg, Pass::Drawn)?;
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
    (inner * outer).check().map_err(Absent::Broken)
}

/// The slope of one thing that a function found, by differences in each argument that changes.
fn of_part(evaluator: &mut Evaluator, of: &Node, place: u8, known: &mut HashMap<Slot, Real>) -> Result<Real, Absent> {
    let book = evaluator.book;
    let native = if let Node::Slot(slot) = of {
        book.rule(evaluator.build, *slot).and_then(|rule| rule.value.as_ref())
    } else {
        Some(of)
    };
    let Some(Node::Native(native, args)) = native else {
        return Ok(Real::ZERO);
    };
    let work = NATIVES[usize::from(*native)].work;
    let values: Vec<Option<Datum>> = args.iter().map(|arg| evaluator.value(arg, Pass::Drawn).ok()).collect();
    let mut slope = Real::ZERO;
    for (at, arg) in args.iter().enumerate() {
        let Some(Datum::Amount(amount)) = &values[at] else {
            continue;
        };
        let inner = of_node(evaluator, arg, known)?;
        if inner.is_exact_zero() {
            continue;
        }
        let moved = |by: f64| {
            let mut values = values.clone();
            values[at] = Some(Datum::Amount(amount.clone() + Real::approximate(by)));
            let record = natives::work(work, book, &values).ok()?;
            record.parts.get(usize::from(place))?.as_ref()?.amount().map(Real::to_f64)
        };
        let Some((above, below)) = moved(NEAR).zip(moved(-NEAR)) else {
            continue;
        };
        let change = Real::approximate((above - below) / (2.0 * NEAR));
        // What a choice among stocked things gives does not change, or jumps; neither is a slope.
        if above.to_bits() != below.to_bits() && (above - below).abs() < JUMP {
            slope = slope + inner * change;
        }
    }
    slope.check().map_err(Absent::Broken)
}

/// How far an argument is moved to see what it changes, in storage units.
const NEAR: f64 = 1e-5;

/// A change that is no slope: a thousand times as much as the argument was moved.
const JUMP: f64 = 1e-2;

fn of_extreme(
    evaluator: &mut Evaluator,
    func: Func,
    args: &[Node],
    known: &mut HashMap<Slot, Real>,
) -> Result<Real, Absent> {
    let mut best: Option<(Real, Real)> = None;
    for arg in args {
        let value = evaluator.amount(arg, Pass::Drawn)?;
        let slope = of_node(evaluator, arg, known)?;
        let takes = match &best {
            None => true,
            Some((most, steepest)) if value == *most => slope.abs() > steepest.abs(),
            Some((most, _)) => (func == Func::Greatest) == (value > *most),
        };
        if takes {
            best = Some((value, slope));
        }
    }
    Ok(best.map_or(Real::ZERO, |(_, slope)| slope))
}
