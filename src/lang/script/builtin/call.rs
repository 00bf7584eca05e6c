//! A call of a function of the table: its arguments, checked against the row.

use std::fmt;

use rhai::{Array, Dynamic, FnPtr, ImmutableString, Map, NativeCallContext};

use super::row::Builtin;
use crate::diag::Fault;
use crate::lang::script::bench::Bench;
use crate::lang::script::sort::Sort;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{to_quantity, to_text};
use crate::measure::{Quantity, Size};

/// A call of a function of the table.
pub struct Call<'a, 'b, 'c> {
    /// Where it is called.
    pub context: &'a NativeCallContext<'a>,
    /// The function.
    pub row: &'a Builtin,
    /// What it was given.
    pub arguments: &'b mut [&'c mut Dynamic],
}

/// A row that asks for an argument as something that its parameter is not: a mistake of ours.
#[derive(Debug)]
struct Contrary(&'static str, usize);

impl fmt::Display for Contrary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cannot use this value", self.0)
    }
}

impl Fault for Contrary {
    fn argument(&self) -> Option<usize> {
        Some(self.1)
    }
}

impl Call<'_, '_, '_> {
    /// How many arguments there are.
    pub fn count(&self) -> usize {
        self.arguments.len()
    }

    /// An argument as it is.
    ///
    /// # Errors
    /// There are not so many.
    pub fn value(&self, argument: usize) -> Result<&Dynamic, Trouble> {
        self.arguments.get(argument).map(|value| &**value).ok_or_else(|| self.contrary(argument))
    }

    /// An argument to be changed or used up.
    ///
    /// # Errors
    /// There are not so many.
    pub fn value_mut(&mut self, argument: usize) -> Result<&mut Dynamic, Trouble> {
        let contrary = Contrary(self.row.name, argument);
        self.arguments.get_mut(argument).map(|value| &mut **value).ok_or_else(|| contrary.into())
    }

    fn contrary(&self, argument: usize) -> Trouble {
        Contrary(self.row.name, argument).into()
    }

    /// A quantity.
    ///
    /// # Errors
    /// It is none.
    pub fn quantity(&self, argument: usize) -> Result<Quantity, Trouble> {
        to_quantity(self.value(argument)?).ok_or_else(|| self.contrary(argument))
    }

    /// A plain whole number.
    ///
    /// # Errors
    /// It is none.
    pub fn whole(&self, argument: usize) -> Result<i64, Trouble> {
        self.value(argument)?.as_int().map_err(|_| self.contrary(argument))
    }

    /// Text; a single letter is text.
    ///
    /// # Errors
    /// It is none.
    pub fn text(&self, argument: usize) -> Result<ImmutableString, Trouble> {
        to_text(self.value(argument)?).ok_or_else(|| self.contrary(argument))
    }

    /// A size.
    ///
    /// # Errors
    /// It is none.
    pub fn size(&self, argument: usize) -> Result<Size, Trouble> {
        self.value(argument)?.read_lock::<Size>().map(|size| size.clone()).ok_or_else(|| self.contrary(argument))
    }

    /// What `work` makes of a list.
    ///
    /// # Errors
    /// It is none, or `work` fails.
    pub fn with_list<T>(&self, argument: usize, work: impl FnOnce(&Array) -> Result<T, Trouble>) -> Result<T, Trouble> {
        let list = self.value(argument)?.as_array_ref().map_err(|_| self.contrary(argument))?;
        work(&list)
    }

    /// What `work` makes of a list that it may change.
    ///
    /// # Errors
    /// It is none, or `work` fails.
    pub fn change_list<T>(
        &mut self,
        argument: usize,
        work: impl FnOnce(&mut Array) -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        let contrary = Contrary(self.row.name, argument);
        let mut list = self.value_mut(argument)?.as_array_mut().map_err(|_| Trouble::from(contrary))?;
        work(&mut list)
    }

    /// What `work` makes of a map.
    ///
    /// # Errors
    /// It is none, or `work` fails.
    pub fn with_map<T>(&self, argument: usize, work: impl FnOnce(&Map) -> Result<T, Trouble>) -> Result<T, Trouble> {
        let map = self.value(argument)?.as_map_ref().map_err(|_| self.contrary(argument))?;
        work(&map)
    }

    /// A function, to be called with [`Call::back`].
    ///
    /// # Errors
    /// It is none.
    pub fn function(&self, argument: usize) -> Result<FnPtr, Trouble> {
        self.value(argument)?.read_lock::<FnPtr>().map(|one| one.clone()).ok_or_else(|| self.contrary(argument))
    }

    /// Calls a function of the script back.
    ///
    /// # Errors
    /// What goes wrong in it.
    pub fn back<const N: usize>(&self, function: &FnPtr, arguments: [Dynamic; N]) -> Result<Dynamic, Trouble> {
        self.spend(1)?;
        Ok(function.call_raw(self.context, None, arguments)?.flatten())
    }

    /// Calls a function of the script back for yes or no.
    ///
    /// # Errors
    /// What goes wrong in it; an answer that is neither.
    pub fn back_for_truth<const N: usize>(&self, function: &FnPtr, arguments: [Dynamic; N]) -> Result<bool, Trouble> {
        let answer = self.back(function, arguments)?;
        answer.as_bool().map_err(|_| Answer(self.row.name, Sort::of(&answer)).into())
    }

    /// What `work` makes of the bench.
    ///
    /// # Errors
    /// The engine is not ours.
    pub fn bench<T>(&self, work: impl FnOnce(&Bench) -> T) -> Result<T, Trouble> {
        Bench::of(self.context, work)
    }

    /// Counts work that is done without the engine.
    ///
    /// # Errors
    /// The limit that is reached.
    pub fn spend(&self, steps: usize) -> Result<(), Trouble> {
        let steps = u64::try_from(steps).unwrap_or(u64::MAX);
        Ok(self.bench(|bench| bench.watch.spend(steps))??)
    }
}

/// A function called back that answers with something else than yes or no.
#[derive(Debug)]
struct Answer(&'static str, Sort);

impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the function given to {} must say yes or no, and it gives {}", self.0, self.1.with_article())
    }
}

impl Fault for Answer {
    fn argument(&self) -> Option<usize> {
        Some(1)
    }
}
