//! The adapter of all functions: checks the arguments against the row, then runs it.

use rhai::plugin::PluginFunc;
use rhai::{Dynamic, EvalAltResult, NativeCallContext};

use super::call::Call;
use super::row::Builtin;
use super::want::Want;
use crate::diag::{Diagnostic, codes};
use crate::lang::script::literal::{typed, with_unit};
use crate::lang::script::sort::Sort;
use crate::lang::script::trouble::{Raised, Trouble};
use crate::lang::script::value::to_quantity;
use crate::measure::Kind;

impl Builtin {
    /// The fault of the first argument that does not suit its parameter.
    fn refuse(&self, arguments: &[&mut Dynamic]) -> Result<(), Raised> {
        for (index, argument) in arguments.iter().enumerate() {
            if let Some(param) = self.param(index)
                && !param.kind.takes(argument)
            {
                return Err(self.unfit(index, param.name, param.kind, arguments));
            }
        }
        Ok(())
    }

    fn unfit(&self, index: usize, name: &str, want: Want, arguments: &[&mut Dynamic]) -> Raised {
        let given = arguments.get(index).map_or(&Dynamic::UNIT, |argument| &**argument);
        let shown = typed(given);
        let bare = Sort::of(given) == Sort::Kind(Kind::NUMBER);
        let odd = |kind: Kind| {
            let list = given.as_array_ref().ok()?;
            let odd = list.iter().find(|one| !Want::Of(kind).takes(one)).map(Sort::of)?;
            Some(format!("{name} is {want}, and in this one is {}", odd.with_article()))
        };
        let message = match (&shown, want) {
            (None, Want::ListOf(kind)) if given.is_array() => odd(kind).unwrap_or_default(),
            (Some(shown), Want::Of(_)) if bare => format!("{name} is {want}, and {shown} has no unit"),
            (Some(shown), Want::Whole) if bare => format!("{name} is {want}, and {shown} is not"),
            (Some(shown), _) => format!("{name} is {want}, and {shown} is {}", Sort::of(given).with_article()),
            (None, _) => format!("{name} is {want}, not {}", Sort::of(given).with_article()),
        };
        let diagnostic =
            Diagnostic::of(&codes::script::ARGUMENT, message).only(self.with_units(index, want, arguments));
        Raised { diagnostic, argument: Some(index) }
    }

    /// The call as most likely meant, with a unit on the bare number.
    fn with_units(&self, index: usize, want: Want, arguments: &[&mut Dynamic]) -> Option<String> {
        let Want::Of(kind) = want else {
            return None;
        };
        let write = |(at, argument): (usize, &&mut Dynamic)| {
            if at == index { with_unit(&to_quantity(argument)?, kind) } else { typed(argument) }
        };
        let arguments = arguments.iter().enumerate().map(write).collect::<Option<Vec<_>>>()?;
        Some(format!("{}({})", self.name, arguments.join(", ")))
    }
}

impl PluginFunc for Builtin {
    fn call(
        &self,
        context: Option<NativeCallContext>,
        arguments: &mut [&mut Dynamic],
    ) -> Result<Dynamic, Box<EvalAltResult>> {
        let context = context.ok_or("no context")?;
        self.refuse(arguments).map_err(|raised| Trouble::from(raised).into_error())?;
        (self.run)(&mut Call { context: &context, row: self, arguments }).map_err(Trouble::into_error)
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
