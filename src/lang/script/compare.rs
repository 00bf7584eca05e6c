//! Equal, less, greater. Unlike kinds are an error, not a silent "no".
//!
//! Lists compare entry by entry under the same rule, then by length; maps compare name by name. Only a comparison with
//! nothing is always allowed, because that is how a script asks whether there is a value.

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

/// Two values that an operation cannot combine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mismatch {
    /// The operation as a verb: `add`, `compare`.
    pub verb: &'static str,
    /// The sort of the left value.
    pub left: Sort,
    /// The sort of the right value.
    pub right: Sort,
    /// A line that works.
    pub hint: Option<String>,
}

impl fmt::Display for Mismatch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cannot {} {} and {}", self.verb, self.left.with_article(), self.right.with_article())
    }
}

impl Fault for Mismatch {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::KIND
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        self.hint.clone()
    }
}

impl Mismatch {
    /// The fault for two values that `verb` cannot be applied to.
    pub fn of(verb: &'static str, left: &Dynamic, right: &Dynamic) -> Self {
        Self { verb, left: Sort::of(left), right: Sort::of(right), hint: None }
    }

    /// The fault for two quantities of unlike kinds; the hint gives a bare number a unit.
    pub fn of_quantities(verb: &'static str, operator: &str, left: &Quantity, right: &Quantity) -> Self {
        let reading = left.kind == Kind::TEMPERATURE || right.kind == Kind::TEMPERATURE;
        let sides = match (with_unit(left, right.kind), with_unit(right, left.kind)) {
            _ if reading && verb != "compare" => None,
            (Some(left), _) => typed_quantity(right).map(|right| (left, right)),
            (_, Some(right)) => typed_quantity(left).map(|left| (left, right)),
            (None, None) => None,
        };
        let hint = sides.map(|(left, right)| format!("{left} {operator} {right}"));
        Self { verb, left: Sort::Kind(left.kind), right: Sort::Kind(right.kind), hint }
    }
}

/// Values that can be equal, but have no order.
#[derive(Clone, Debug, PartialEq, Eq)]
struct NoOrder(Sort);

impl fmt::Display for NoOrder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is neither less nor greater than another", self.0.with_article())
    }
}

impl Fault for NoOrder {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::KIND
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

/// Whether both are equal; the hint quotes `operator` as it was typed.
///
/// # Errors
/// Kinds differ, here or inside a list or a map.
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

/// The order of two values; the hint quotes `operator` as it was typed.
///
/// # Errors
/// Kinds differ, or the kind has no order.
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
/// Kinds differ.
pub fn order_of_quantities(left: &Quantity, right: &Quantity, operator: &str) -> Result<Ordering, Trouble> {
    if left.kind != right.kind {
        return Err(Mismatch::of_quantities("compare", operator, left, right).into());
    }
    Ok(left.compare(right)?)
}
