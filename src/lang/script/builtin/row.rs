//! A row of the table of functions.

use std::ops::RangeInclusive;

use rhai::Dynamic;

use super::call::Call;
use super::want::Want;
use crate::fact::Shape;
use crate::lang::script::trouble::Trouble;

/// One function.
pub struct Builtin {
    /// The name in a script.
    pub name: &'static str,
    /// The parameters, in order.
    pub params: &'static [Param],
    /// How many arguments a call must give; the parameters after these are optional.
    pub least: usize,
    /// Whether the last parameter may be repeated.
    pub many: bool,
    /// Whether the function changes its first argument.
    pub changes: bool,
    /// Whether a script reads it like a field, `size.width`, instead of calling it.
    pub property: bool,
    /// The kind of the result.
    pub returns: Want,
    /// The entries of a map that it returns, or of each map in a list; empty where the caller decides.
    pub gives: &'static [Param],
    /// The shape of the map, or of each map in the list, that it gives.
    pub shape: Option<&'static dyn Shape>,
    /// One sentence for help.
    pub brief: &'static str,
    /// Lines and their answers; a test runs them.
    pub examples: &'static [(&'static str, &'static str)],
    /// The unit that it counts its argument in; empty where it does not count.
    pub counts: &'static str,
    /// The source of the formula; empty for common knowledge.
    pub source: &'static str,
    /// The adapter from the engine to the function.
    pub run: fn(&mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble>,
}

/// A parameter of a function, or an entry of the map that it returns.
#[derive(Debug)]
pub struct Param {
    /// The name in help and messages.
    pub name: &'static str,
    /// The values it accepts.
    pub kind: Want,
    /// A few words for help.
    pub brief: &'static str,
}

/// The start of a row for a function that only the notation pass writes.
pub(in crate::lang::script) const HIDDEN: Builtin = PLAIN;

/// The start of a row: the values that most functions share.
pub(super) const PLAIN: Builtin = Builtin {
    name: "",
    params: &[],
    least: usize::MAX,
    many: false,
    changes: false,
    property: false,
    returns: Want::Anything,
    gives: &[],
    shape: None,
    brief: "",
    examples: &[],
    counts: "",
    source: "",
    run: |_| Ok(Dynamic::UNIT),
};

/// The most arguments of a function whose last parameter repeats.
const MOST: usize = 8;

pub(in crate::lang::script) const fn param(name: &'static str, kind: Want, brief: &'static str) -> Param {
    Param { name, kind, brief }
}

impl Param {
    /// The brief, or the kind where there is no brief.
    pub fn about(&self) -> String {
        if self.brief.is_empty() { self.kind.to_string() } else { self.brief.into() }
    }
}

impl Builtin {
    /// How many arguments a call may give.
    pub fn arities(&self) -> RangeInclusive<usize> {
        let most = if self.many { MOST } else { self.params.len() };
        self.least.min(self.params.len())..=most
    }

    /// The parameter that takes an argument, counted from 0.
    pub fn param(&self, argument: usize) -> Option<&'static Param> {
        self.params.get(argument).or(if self.many { self.params.last() } else { None })
    }

    /// As help writes it: `round(x, [step])`.
    pub fn signature(&self) -> String {
        if self.property {
            let of = self.params.first().map_or("", |param| param.name);
            return format!("{of}.{}", self.name);
        }
        let name = |(index, param): (usize, &Param)| {
            if index < self.least { param.name.to_string() } else { format!("[{}]", param.name) }
        };
        let mut params: Vec<String> = self.params.iter().enumerate().map(name).collect();
        if self.many {
            params.push("…".into());
        }
        format!("{}({})", self.name, params.join(", "))
    }
}
