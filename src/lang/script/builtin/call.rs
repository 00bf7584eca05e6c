//! A call of a table function: its arguments, checked against the row.

use std::fmt;

use rhai::{Array, Dynamic, FnPtr, ImmutableString, Map, NativeCallContext};

use super::row::Builtin;
use crate::diag::Fault;
use crate::lang::script::bench::Bench;
use crate::lang::script::sort::Sort;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{to_quantity, to_text};
use crate::measure::{Quantity, Size};

/// A call of a table function.
pub struct Call<'a, 'b, 'c> {
    /// The context of the call in the engine.
    pub context: &'a NativeCallContext<'a>,
    /// The row of the function.
    pub row: &'a Builtin,
    /// The arguments.
    pub arguments: &'b mut [&'c mut Dynamic],
}

/// A bug: a row reads an argument as another sort than its parameter declares.
#[derive(Debug)]
struct Contrary(&'static str, usize);

impl fmt::Display for Contrary {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cannot use this value", self.0)
    }
}

impl Fault for Contrary {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn argument(&self) -> Option<usize> {
        Some(self.1)
    }
}

impl Call<'_, '_, '_> {
    /// The number of arguments.
    pub fn count(&self) -> usize {
        self.arguments.len()
    }

    /// An argument, unconverted.
    ///
    /// # Errors
    /// There are fewer arguments.
    pub fn value(&self, argument: usize) -> Result<&Dynamic, Trouble> {
        self.arguments.get(argument).map(|value| &**value).ok_or_else(|| self.contrary(argument))
    }

    /// An argument that may be changed or taken.
    ///
    /// # Errors
    /// There are fewer arguments.
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
    /// The argument is of another sort.
    pub fn quantity(&self, argument: usize) -> Result<Quantity, Trouble> {
        to_quantity(self.value(argument)?).ok_or_else(|| self.contrary(argument))
    }

    /// A plain whole number.
    ///
    /// # Errors
    /// The argument is of another sort.
    pub fn whole(&self, argument: usize) -> Result<i64, Trouble> {
        self.value(argument)?.as_int().map_err(|_| self.contrary(argument))
    }

    /// Text; a single letter is text.
    ///
    /// # Errors
    /// The argument is of another sort.
    pub fn text(&self, argument: usize) -> Result<ImmutableString, Trouble> {
        to_text(self.value(argument)?).ok_or_else(|| self.contrary(argument))
    }

    /// A size.
    ///
    /// # Errors
    /// The argument is of another sort.
    pub fn size(&self, argument: usize) -> Result<Size, Trouble> {
        self.value(argument)?.read_lock::<Size>().map(|size| size.clone()).ok_or_else(|| self.contrary(argument))
    }

    /// Runs `work` on a list.
    ///
    /// # Errors
    /// The argument is of another sort, or `work` fails.
    pub fn with_list<T>(&self, argument: usize, work: impl FnOnce(&Array) -> Result<T, Trouble>) -> Result<T, Trouble> {
        let list = self.value(argument)?.as_array_ref().map_err(|_| self.contrary(argument))?;
        work(&list)
    }

    /// Runs `work` on a list that it may change.
    ///
    /// # Errors
    /// The argument is of another sort, or `work` fails.
    pub fn change_list<T>(
        &mut self,
        argument: usize,
        work: impl FnOnce(&mut Array) -> Result<T, Trouble>,
    ) -> Result<T, Trouble> {
        let contrary = Contrary(self.row.name, argument);
        let mut list = self.value_mut(argument)?.as_array_mut().map_err(|_| Trouble::from(contrary))?;
        work(&mut list)
    }

    /// Runs `work` on a map.
    ///
    /// # Errors
    /// The argument is of another sort, or `work` fails.
    pub fn with_map<T>(&self, argument: usize, work: impl FnOnce(&Map) -> Result<T, Trouble>) -> Result<T, Trouble> {
        let map = self.value(argument)?.as_map_ref().map_err(|_| self.contrary(argument))?;
        work(&map)
    }

    /// A function, for [`Call::back`].
    ///
    /// # Errors
    /// The argument is of another sort.
    pub fn function(&self, argument: usize) -> Result<FnPtr, Trouble> {
        self.value(argument)?.read_lock::<FnPtr>().map(|one| one.clone()).ok_or_else(|| self.contrary(argument))
    }

    /// Calls back a function of the script.
    ///
    /// # Errors
    /// The function fails.
    pub fn back<const N: usize>(&self, function: &FnPtr, arguments: [Dynamic; N]) -> Result<Dynamic, Trouble> {
        self.spend(1)?;
        Ok(function.call_raw(self.context, None, arguments)?.flatten())
    }

    /// Calls back a function of the script that answers yes or no.
    ///
    /// # Errors
    /// The function fails, or answers anything else.
    pub fn back_for_truth<const N: usize>(&self, function: &FnPtr, arguments: [Dynamic; N]) -> Result<bool, Trouble> {
        let answer = self.back(function, arguments)?;
        answer.as_bool().map_err(|_| Answer(self.row.name, Sort::of(&answer)).into())
    }

    /// Runs `work` on the bench.
    ///
    /// # Errors
    /// The engine is not one of the program's.
    pub fn bench<T>(&self, work: impl FnOnce(&Bench) -> T) -> Result<T, Trouble> {
        Bench::of(self.context, work)
    }

    /// Counts steps for work that the engine does not count.
    ///
    /// # Errors
    /// A limit is reached.
    pub fn spend(&self, steps: usize) -> Result<(), Trouble> {
        let steps = u64::try_from(steps).unwrap_or(u64::MAX);
        Ok(self.bench(|bench| bench.watch.spend(steps))??)
    }
}

/// The fault for a callback that must answer yes or no, and does not.
#[derive(Debug)]
struct Answer(&'static str, Sort);

impl fmt::Display for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the function given to {} must return true or false, but it returns {}",
            self.0,
            self.1.with_article()
        )
    }
}

impl Fault for Answer {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn argument(&self) -> Option<usize> {
        Some(1)
    }
}
