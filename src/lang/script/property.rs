//! Values by name, read and set: `design.reveal`, `design["reveal.left"]`.

use std::any::TypeId;
use std::fmt;

use rhai::plugin::PluginFunc;
use rhai::{Dynamic, EvalAltResult, ImmutableString, NativeCallContext};

use super::design::Design;
use super::sort::Sort;
use super::trouble::Trouble;
use super::value::{Value, to_text};
use crate::diag::Fault;
use crate::measure::{Quantity, Size};

/// A function under a name that the engine prescribes: its parameter types and its work.
pub type Slot = (&'static str, fn() -> Vec<TypeId>, &'static dyn PluginFunc);

const READ: &str = "index$get$";
const SET: &str = "index$set$";

/// The functions that the engine calls for `x.name` and `x["name"]`.
pub const PROPERTIES: &[Slot] = &[
    (READ, || of::<Design>(2), &Read),
    (SET, || of::<Design>(3), &Set),
    (READ, || of::<Quantity>(2), &Nameless),
    (READ, || of::<Size>(2), &Nameless),
];

fn of<T: 'static>(count: usize) -> Vec<TypeId> {
    let types = [TypeId::of::<T>(), TypeId::of::<ImmutableString>(), TypeId::of::<Dynamic>()];
    types.into_iter().take(count).collect()
}

type Result = std::result::Result<Dynamic, Box<EvalAltResult>>;

/// Reads a field or figure.
struct Read;

/// Sets a field.
struct Set;

/// Refuses values that have no names.
struct Nameless;

fn pair(values: &[&mut Dynamic]) -> Option<(Design, ImmutableString)> {
    let [design, name, ..] = values else {
        return None;
    };
    Some((design.read_lock::<Design>()?.clone(), to_text(name)?))
}

impl PluginFunc for Read {
    fn call(&self, _: Option<NativeCallContext>, values: &mut [&mut Dynamic]) -> Result {
        let (design, name) = pair(values).ok_or("no design")?;
        design.0.get(&name).map(Value::into_dynamic).map_err(|found| Trouble::from(found).into_error())
    }

    fn is_method_call(&self) -> bool {
        true
    }

    fn has_context(&self) -> bool {
        false
    }
}

impl PluginFunc for Set {
    fn call(&self, _: Option<NativeCallContext>, values: &mut [&mut Dynamic]) -> Result {
        let (design, name) = pair(values).ok_or("no design")?;
        let value = values.get(2).map_or(Ok(Value::Nothing), |value| Value::try_from(&**value));
        let value = value.map_err(|limit| Trouble::from(limit).into_error())?;
        design.0.set(&name, value).map_err(|found| Trouble::from(found).into_error())?;
        Ok(Dynamic::UNIT)
    }

    fn is_method_call(&self) -> bool {
        true
    }

    fn has_context(&self) -> bool {
        false
    }
}

/// The fault for a name that the value does not have.
#[derive(Debug)]
struct NoName(Sort, String);

impl fmt::Display for NoName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} has no `{}`", self.0.with_article(), self.1)
    }
}

impl Fault for NoName {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

impl PluginFunc for Nameless {
    fn call(&self, _: Option<NativeCallContext>, values: &mut [&mut Dynamic]) -> Result {
        let [value, name] = values else {
            return Ok(Dynamic::UNIT);
        };
        let name = to_text(name).unwrap_or_default();
        Err(Trouble::from(NoName(Sort::of(value), name.to_string())).into_error())
    }

    fn is_method_call(&self) -> bool {
        true
    }

    fn has_context(&self) -> bool {
        false
    }
}
