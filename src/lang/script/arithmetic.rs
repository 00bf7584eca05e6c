//! Arithmetic on two values: sums, differences, products, ratios, powers.

use std::fmt;

use rhai::{Array, Dynamic, ImmutableString, Map, NativeCallContext};

use super::bench::Bench;
use super::compare::Mismatch;
use super::literal::{typed, typed_quantity};
use super::sort::Sort;
use super::trouble::Trouble;
use super::value::{to_dynamic, to_quantity, to_text};
use crate::diag::Fault;
use crate::measure::{Kind, Quantity, Real, Unlike};

/// A power that is not a whole number, and a line that works.
#[derive(Clone, Debug, PartialEq, Eq)]
struct NoPower(String, Option<String>);

impl fmt::Display for NoPower {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "a power is a whole number, and {} is not", self.0)
    }
}

impl Fault for NoPower {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::KIND
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        self.1.clone()
    }

    fn argument(&self) -> Option<usize> {
        Some(1)
    }
}

/// The sum of quantities; texts, lists and maps joined.
pub fn add(context: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    if let Some(sum) = whole(left, right, i64::checked_add) {
        return Ok(sum);
    }
    if let (Some(left), Some(right)) = (to_quantity(left), to_quantity(right)) {
        return like("add", "+", &left, &right, Quantity::add);
    }
    if let (Some(left), Some(right)) = (to_text(left), to_text(right)) {
        Bench::of(context, |bench| bench.watch.text(left.len() + right.len()))??;
        return Ok((left + right).into());
    }
    if let (Ok(left), Ok(right)) = (left.as_array_ref(), right.as_array_ref()) {
        Bench::of(context, |bench| bench.watch.entries(left.len() + right.len()))??;
        return Ok(Dynamic::from_array(left.iter().chain(right.iter()).cloned().collect::<Array>()));
    }
    if let (Ok(left), Ok(right)) = (left.as_map_ref(), right.as_map_ref()) {
        Bench::of(context, |bench| bench.watch.entries(left.len() + right.len()))??;
        let entries = left.iter().chain(right.iter());
        return Ok(Dynamic::from_map(entries.map(|(name, value)| (name.clone(), value.clone())).collect::<Map>()));
    }
    Err(with_text(left, right).into())
}

/// The fault for values that cannot be added; if one is text, the hint makes text of the other.
fn with_text(left: &Dynamic, right: &Dynamic) -> Mismatch {
    let text_of = |value: &Dynamic| typed(value).map(|value| format!("text({value})"));
    let sides = match (Sort::of(left), Sort::of(right)) {
        (Sort::Text, _) => typed(left).zip(text_of(right)),
        (_, Sort::Text) => text_of(left).zip(typed(right)),
        _ => None,
    };
    let hint = sides.map(|(left, right)| format!("{left} + {right}"));
    Mismatch { hint, ..Mismatch::of("add", left, right) }
}

/// `left += right`, without a copy of a long text or list.
pub fn grow(context: &NativeCallContext, values: &mut [&mut Dynamic]) -> Result<Dynamic, Trouble> {
    let [left, right] = values else {
        return Ok(Dynamic::UNIT);
    };
    if let Some(sum) = whole(left, right, i64::checked_add) {
        **left = sum;
        return Ok(Dynamic::UNIT);
    }
    if let (Some(mut text), Some(more)) = (left.write_lock::<ImmutableString>(), to_text(right)) {
        Bench::of(context, |bench| bench.watch.text(text.len() + more.len()))??;
        *text += more;
        return Ok(Dynamic::UNIT);
    }
    if let Ok(mut list) = left.as_array_mut() {
        let more = if right.is_array() { right.take().into_array().unwrap_or_default() } else { vec![right.take()] };
        Bench::of(context, |bench| bench.watch.entries(list.len() + more.len()))??;
        list.extend(more);
        return Ok(Dynamic::UNIT);
    }
    **left = add(context, left, right)?;
    Ok(Dynamic::UNIT)
}

pub fn subtract(_: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    if let Some(rest) = whole(left, right, i64::checked_sub) {
        return Ok(rest);
    }
    quantities("subtract", left, right, |left, right| like("subtract", "-", left, right, Quantity::subtract))
}

pub fn multiply(_: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    if let Some(product) = whole(left, right, i64::checked_mul) {
        return Ok(product);
    }
    quantities("multiply", left, right, |left, right| Ok(to_dynamic(left.multiply(right)?)))
}

/// The exact ratio: whole numbers too.
pub fn divide(_: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    quantities("divide", left, right, |left, right| Ok(to_dynamic(left.divide(right)?)))
}

/// The remainder after whole multiples.
pub fn remainder(_: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    quantities("divide", left, right, |left, right| like("divide", "%", left, right, Quantity::remainder))
}

/// A value to a whole power.
pub fn power(_: &NativeCallContext, left: &Dynamic, right: &Dynamic) -> Result<Dynamic, Trouble> {
    quantities("take a power of", left, right, |base, exponent| match exponent.amount.to_whole() {
        Some(whole) if exponent.kind == Kind::NUMBER => Ok(to_dynamic(base.power(whole)?)),
        _ => Err(no_power(base, exponent).into()),
    })
}

fn no_power(base: &Quantity, exponent: &Quantity) -> NoPower {
    let half = exponent.kind == Kind::NUMBER && exponent.amount == Real::ratio(1, 2);
    let hint = if half { typed_quantity(base).map(|base| format!("sqrt({base})")) } else { None };
    NoPower(typed_quantity(exponent).unwrap_or_else(|| exponent.kind.with_article()), hint)
}

/// The result for two whole numbers, unless it does not fit.
fn whole(left: &Dynamic, right: &Dynamic, run: fn(i64, i64) -> Option<i64>) -> Option<Dynamic> {
    run(left.as_int().ok()?, right.as_int().ok()?).map(Dynamic::from)
}

fn quantities(
    verb: &'static str,
    left: &Dynamic,
    right: &Dynamic,
    run: impl Fn(&Quantity, &Quantity) -> Result<Dynamic, Trouble>,
) -> Result<Dynamic, Trouble> {
    match (to_quantity(left), to_quantity(right)) {
        (Some(left), Some(right)) => run(&left, &right),
        _ => Err(Mismatch::of(verb, left, right).into()),
    }
}

fn like(
    verb: &'static str,
    operator: &str,
    left: &Quantity,
    right: &Quantity,
    run: fn(&Quantity, &Quantity) -> Result<Quantity, Unlike>,
) -> Result<Dynamic, Trouble> {
    if left.kind != right.kind {
        return Err(Mismatch::of_quantities(verb, operator, left, right).into());
    }
    Ok(to_dynamic(run(left, right)?))
}
