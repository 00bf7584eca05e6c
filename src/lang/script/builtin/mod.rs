//! The table of functions: the only place where one is named.
//!
//! The engine registers from it; help, completion, hints, the messages about wrong arguments and the reference page
//! read from it. Each topic has its file. A row's adapter computes nothing itself.

mod angles;
mod book;
mod call;
mod check;
mod convert;
mod designs;
mod files;
mod lists;
mod maps;
mod numbers;
mod orders;
mod scripts;
mod sizes;
mod texts;
mod units;
mod walks;
mod want;
mod workshop;

pub use call::Call;
pub use want::Want;

use rhai::Dynamic;

use crate::fact::Shape;

use super::trouble::Trouble;

/// One function.
pub struct Builtin {
    /// As it is written.
    pub name: &'static str,
    /// What it takes.
    pub params: &'static [Param],
    /// How many of them must be given; the others may be left out from the end.
    pub least: usize,
    /// Whether the last may be given again and again.
    pub many: bool,
    /// Whether it changes what it is called on.
    pub changes: bool,
    /// Whether it is read like a field, `size.width`, instead of called.
    pub property: bool,
    /// What it gives.
    pub returns: Want,
    /// Of a map, or of each map in a list, what stands in it; nothing where that is up to who calls it.
    pub gives: &'static [Param],
    /// The shape of the map, or of each map in the list, that it gives.
    pub shape: Option<&'static dyn Shape>,
    /// What it does, in a sentence.
    pub brief: &'static str,
    /// Lines and their answers.
    pub examples: &'static [(&'static str, &'static str)],
    /// Where the formula comes from, where it is more than common knowledge.
    pub source: &'static str,
    /// Does it.
    pub run: fn(&mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble>,
}

/// What a function takes, or one thing of those that it gives.
#[derive(Debug)]
pub struct Param {
    /// As help and messages call it.
    pub name: &'static str,
    /// What it may be.
    pub kind: Want,
    /// What it means, in a few words.
    pub brief: &'static str,
}

/// A row of a function that no one types.
pub(super) const HIDDEN: Builtin = PLAIN;

/// A row to begin from: all that most functions have in common.
const PLAIN: Builtin = Builtin {
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
    source: "",
    run: |_| Ok(Dynamic::UNIT),
};

/// The most arguments that a function with [`Builtin::many`] takes.
const MOST: usize = 8;

pub(super) const fn param(name: &'static str, kind: Want, brief: &'static str) -> Param {
    Param { name, kind, brief }
}

/// The topics whose rows are written here.
const TOPICS: &[(&str, &[Builtin])] = &[
    ("numbers", numbers::ROWS),
    ("angles", angles::ROWS),
    ("units", units::ROWS),
    ("sizes", sizes::ROWS),
    ("values and text", convert::ROWS),
    ("text", texts::ROWS),
    ("lists", lists::ROWS),
    ("order", orders::ROWS),
    ("going through lists", walks::ROWS),
    ("maps", maps::ROWS),
    ("designs", designs::ROWS),
    ("the design book", book::ROWS),
    ("files", files::ROWS),
    ("scripts", scripts::ROWS),
];

/// Every topic: its title, its rows.
pub fn topics() -> impl Iterator<Item = (&'static str, &'static [Builtin])> {
    TOPICS.iter().copied().chain(std::iter::once_with(|| ("the workshop", workshop::ROWS.as_slice())))
}

/// Every function.
pub fn all() -> impl Iterator<Item = &'static Builtin> {
    topics().flat_map(|(_, rows)| rows)
}

/// The function called `name`.
pub fn named(name: &str) -> Option<&'static Builtin> {
    all().find(|row| row.name == name && !row.property)
}

impl Param {
    /// What it means, or at least what it is.
    pub fn about(&self) -> String {
        if self.brief.is_empty() { self.kind.to_string() } else { self.brief.into() }
    }
}

impl Builtin {
    /// With how many arguments it may be called.
    pub fn arities(&self) -> std::ops::RangeInclusive<usize> {
        let most = if self.many { MOST } else { self.params.len() };
        self.least.min(self.params.len())..=most
    }

    /// The parameter that an argument is for.
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

#[cfg(test)]
mod tests;
