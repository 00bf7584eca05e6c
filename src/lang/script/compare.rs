//! Equal, less, greater: with unlike kinds an error instead of a quiet no.
//!
//! Lists are compared entry by entry under the same rule, then by length; maps name by name. Only a comparison with
//! nothing is always allowed, since that is how a script asks whether there is a value.

use std::cmp::Ordering;
use std::fmt;

use rhai::{Array, Dynamic, Map};

use super::design::Design;
use super::limits::Reached;
use super::literal::{typed_quantity, with_unit};
use super::sort::Sort;
use super::stack;
use super::trouble::Trouble;
use super::value::{to_quantity, to_text};
use crate::diag::Fault;
use crate::measure::{Kind, Quantity, Size};

/// Two values that do not go together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mismatch {
    /// What was to be done: `add`, `compare`.
    pub deed: &'static str,
    /// What the one is.
    pub left: Sort,
    /// What the other is.
    pub right: Sort,
    /// A line that would work.
    pub hint: Option<String>,
}

impl fmt::Display for Mismatch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot {} {} and {}", self.deed, self.left.with_article(), self.right.with_article())
    }
}

impl Fault for Mismatch {
    fn hint(&self) -> Option<String> {
        self.hint.clone()
    }
}

impl Mismatch {
    /// The two values `deed` cannot be done to.
    pub fn of(deed: &'static str, left: &Dynamic, right: &Dynamic) -> Self {
        Self { deed, left: Sort::of(left), right: Sort::of(right), hint: None }
    }

    /// Two quantities of unlike kinds; the hint puts a unit to a bare number.
    pub fn of_quantities(deed: &'static str, operator: &str, left: &Quantity, right: &Quantity) -> Self {
        let reading = left.kind == Kind::TEMPERATURE || right.kind == Kind::TEMPERATURE;
        let sides = match (with_unit(left, right.kind), with_unit(right, left.kind)) {
            _ if reading && deed != "compare" => None,
            (Some(left), _) => typed_quantity(right).map(|right| (left, right)),
            (_, Some(right)) => typed_quantity(left).map(|left| (left, right)),
            (None, None) => None,
        };
        let hint = sides.map(|(left, right)| format!("{left} {operator} {right}"));
        Self { deed, left: Sort::Kind(left.kind), right: Sort::Kind(right.kind), hint }
    }
}

/// Values that are the same or not, but neither less nor more than one another.
#[derive(Clone, Debug, PartialEq, Eq)]
struct NoOrder(Sort);

impl fmt::Display for NoOrder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is neither less nor greater than another", self.0.with_article())
    }
}

impl Fault for NoOrder {}

/// Whether both are the same; `operator` is how it was asked, for the hint.
///
/// # Errors
/// Unlike kinds, anywhere inside.
pub fn equal(left: &Dynamic, right: &Dynamic, operator: &str) -> Result<bool, Trouble> {
    if let (Ok(left), Ok(right)) = (left.as_int(), right.as_int()) {
        return Ok(left == right);
    }
    if stack::is_used_up() {
        return Err(Reached::Stack.into());
    }
    if let (Some(left), Some(right)) = (to_quantity(left), to_quantity(right)) {
        return Ok(order_of_quantities(&left, &right, operator)?.is_eq());
    }
    if let (Some(left), Some(right)) = (to_text(left), to_text(right)) {
        return Ok(left == right);
    }
    if let (Ok(left), Ok(right)) = (left.as_bool(), right.as_bool()) {
        return Ok(left == right);
    }
    if left.is_unit() || right.is_unit() {
        return Ok(left.is_unit() && right.is_unit());
    }
    if let (Ok(left), Ok(right)) = (left.as_array_ref(), right.as_array_ref()) {
        return equal_lists(&left, &right, operator);
    }
    if let (Ok(left), Ok(right)) = (left.as_map_ref(), right.as_map_ref()) {
        return equal_maps(&left, &right, operator);
    }
    equal_others(left, right, operator)
}

fn equal_others(left: &Dynamic, right: &Dynamic, operator: &str) -> Result<bool, Trouble> {
    if let (Some(left), Some(right)) = (left.read_lock::<Size>(), right.read_lock::<Size>()) {
        return equal_sizes(&left, &right, operator);
    }
    if let (Some(left), Some(right)) = (left.read_lock::<Design>(), right.read_lock::<Design>()) {
        return Ok(left.is(&right));
    }
    if let (Some(left), Some(right)) =
        (left.read_lock::<std::ops::Range<i64>>(), right.read_lock::<std::ops::Range<i64>>())
    {
        return Ok(*left == *right);
    }
    if let (Some(left), Some(right)) =
        (left.read_lock::<std::ops::RangeInclusive<i64>>(), right.read_lock::<std::ops::RangeInclusive<i64>>())
    {
        return Ok(*left == *right);
    }
    Err(Mismatch::of("compare", left, right).into())
}

fn equal_lists(left: &Array, right: &Array, operator: &str) -> Result<bool, Trouble> {
    let mut all = left.len() == right.len();
    for (left, right) in left.iter().zip(right) {
        all &= equal(left, right, operator)?;
    }
    Ok(all)
}

fn equal_maps(left: &Map, right: &Map, operator: &str) -> Result<bool, Trouble> {
    let mut all = left.len() == right.len();
    for (name, value) in left {
        all &= match right.get(name) {
            Some(other) => equal(value, other, operator)?,
            None => false,
        };
    }
    Ok(all)
}

fn equal_sizes(left: &Size, right: &Size, operator: &str) -> Result<bool, Trouble> {
    let flat = order_of_quantities(&left.width, &right.width, operator)?.is_eq()
        & order_of_quantities(&left.height, &right.height, operator)?.is_eq();
    Ok(flat
        & match (&left.depth, &right.depth) {
            (Some(left), Some(right)) => order_of_quantities(left, right, operator)?.is_eq(),
            (None, None) => true,
            (Some(_), None) | (None, Some(_)) => false,
        })
}

/// Which is less; `operator` is how it was asked, for the hint.
///
/// # Errors
/// Unlike kinds, or a kind that has no order.
pub fn order(left: &Dynamic, right: &Dynamic, operator: &str) -> Result<Ordering, Trouble> {
    if let (Ok(left), Ok(right)) = (left.as_int(), right.as_int()) {
        return Ok(left.cmp(&right));
    }
    if let (Some(left), Some(right)) = (to_quantity(left), to_quantity(right)) {
        return order_of_quantities(&left, &right, operator);
    }
    if let (Some(left), Some(right)) = (to_text(left), to_text(right)) {
        return Ok(left.as_str().cmp(right.as_str()));
    }
    let (one, other) = (Sort::of(left), Sort::of(right));
    if one == other { Err(NoOrder(one).into()) } else { Err(Mismatch::of("compare", left, right).into()) }
}

/// The order of two quantities.
///
/// # Errors
/// Unlike kinds.
pub fn order_of_quantities(left: &Quantity, right: &Quantity, operator: &str) -> Result<Ordering, Trouble> {
    if left.kind != right.kind {
        return Err(Mismatch::of_quantities("compare", operator, left, right).into());
    }
    Ok(left.compare(right)?)
}
