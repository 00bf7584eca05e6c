//! How fast a figure changes with a field: derivatives of the rules themselves, rounding left aside.

use std::collections::HashMap;

use super::book::{Func, Node, Role, Slot};
use super::design::Design;
use super::evaluate::{Absent, Evaluator, Pass};
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

fn of_slot(evaluator: &mut Evaluator, slot: Slot, known: &mut HashMap<Slot, Real>) -> Result<Real, Absent> {
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
        Func::Greatest | Func::Least => Real::ZERO,
    };
    (inner * outer).check().map_err(Absent::Broken)
}

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
