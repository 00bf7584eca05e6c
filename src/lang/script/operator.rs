//! The operators, for every pair of values that a script can have.
//!
//! Each is registered once for any two values, so that no operator of the engine runs in its place.

use rhai::plugin::PluginFunc;
use rhai::{Dynamic, EvalAltResult, NativeCallContext};

use super::arithmetic::{add, divide, grow, multiply, power, remainder, subtract};
use super::compare::{equal, order};
use super::trouble::Trouble;
use super::unary::{bits, keep, negate, not};

/// An operator.
pub struct Operator {
    /// The operator as typed.
    pub name: &'static str,
    /// The number of operands.
    pub values: usize,
    /// Whether it changes its first operand.
    pub changes: bool,
    run: Run,
}

type Run = fn(&NativeCallContext, &mut [&mut Dynamic]) -> Result<Dynamic, Trouble>;
type Two = fn(&NativeCallContext, &Dynamic, &Dynamic) -> Result<Dynamic, Trouble>;

/// All operators of the bench language. Ranges, `&&`, `||` and `??` are the engine's.
pub const OPERATORS: &[Operator] = &[
    of_two("+", |context, values| two(context, values, add)),
    of_two("-", |context, values| two(context, values, subtract)),
    of_two("*", |context, values| two(context, values, multiply)),
    of_two("/", |context, values| two(context, values, divide)),
    of_two("%", |context, values| two(context, values, remainder)),
    of_two("**", |context, values| two(context, values, power)),
    of_two("==", |context, values| two(context, values, |_, a, b| Ok(equal(a, b, "==")?.into()))),
    of_two("!=", |context, values| two(context, values, |_, a, b| Ok((!equal(a, b, "!=")?).into()))),
    of_two("<", |context, values| two(context, values, |_, a, b| Ok(order(a, b, "<")?.is_lt().into()))),
    of_two("<=", |context, values| two(context, values, |_, a, b| Ok(order(a, b, "<=")?.is_le().into()))),
    of_two(">", |context, values| two(context, values, |_, a, b| Ok(order(a, b, ">")?.is_gt().into()))),
    of_two(">=", |context, values| two(context, values, |_, a, b| Ok(order(a, b, ">=")?.is_ge().into()))),
    changing("+=", grow),
    changing("-=", |context, values| change(context, values, subtract)),
    changing("*=", |context, values| change(context, values, multiply)),
    changing("/=", |context, values| change(context, values, divide)),
    changing("%=", |context, values| change(context, values, remainder)),
    changing("**=", |context, values| change(context, values, power)),
    of_one("-", |_, values| negate(values)),
    of_one("+", |_, values| keep(values)),
    of_one("!", |_, values| not(values)),
    // In the engine these work on bits, which nobody at a bench means.
    of_two("^", |_, values| bits("^", values)),
    of_two("&", |_, values| bits("&", values)),
    of_two("|", |_, values| bits("|", values)),
    of_two("<<", |_, values| bits("<<", values)),
    of_two(">>", |_, values| bits(">>", values)),
    changing("^=", |_, values| bits("^=", values)),
    changing("&=", |_, values| bits("&=", values)),
    changing("|=", |_, values| bits("|=", values)),
    changing("<<=", |_, values| bits("<<=", values)),
    changing(">>=", |_, values| bits(">>=", values)),
];

const fn of_two(name: &'static str, run: Run) -> Operator {
    Operator { name, values: 2, changes: false, run }
}

const fn of_one(name: &'static str, run: Run) -> Operator {
    Operator { name, values: 1, changes: false, run }
}

const fn changing(name: &'static str, run: Run) -> Operator {
    Operator { name, values: 2, changes: true, run }
}

impl PluginFunc for Operator {
    fn call(
        &self,
        context: Option<NativeCallContext>,
        values: &mut [&mut Dynamic],
    ) -> Result<Dynamic, Box<EvalAltResult>> {
        let context = context.ok_or("no context")?;
        (self.run)(&context, values).map_err(Trouble::into_error)
    }

    fn is_method_call(&self) -> bool {
        true
    }

    fn has_context(&self) -> bool {
        true
    }

    fn is_pure(&self) -> bool {
        !self.changes
    }

    fn is_volatile(&self) -> bool {
        false
    }
}

fn two(context: &NativeCallContext, values: &mut [&mut Dynamic], run: Two) -> Result<Dynamic, Trouble> {
    match values {
        [left, right] => run(context, left, right),
        _ => Ok(Dynamic::UNIT),
    }
}

/// `left = left op right`.
fn change(context: &NativeCallContext, values: &mut [&mut Dynamic], run: Two) -> Result<Dynamic, Trouble> {
    if let [left, right] = values {
        **left = run(context, left, right)?;
    }
    Ok(Dynamic::UNIT)
}
