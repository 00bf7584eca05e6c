//! Registers the functions of the engine: the table, the operators, and the constructors of the notation pass.

use std::any::TypeId;
use std::ops::{Range, RangeInclusive};
use std::rc::Rc;

use rhai::plugin::PluginFunc;
use rhai::{Array, Dynamic, FuncRegistration, ImmutableString, Map, Module, RhaiFunc};

use super::builtin::{self, Builtin};
use super::construct::CONSTRUCTORS;
use super::design::Design;
use super::operator::OPERATORS;
use super::property::PROPERTIES;
use super::trouble::Raised;
use crate::measure::{Quantity, Size};

thread_local! {
    static MODULE: Rc<Module> = Rc::new(build());
}

/// The functions that all engines of this thread share.
pub fn module() -> Rc<Module> {
    MODULE.with(Rc::clone)
}

fn build() -> Module {
    let mut module = Module::new();
    for operator in OPERATORS {
        set(&mut module, operator.name, operator.values, operator);
    }
    // The commonest pairs again by their types, so that the engine finds them first.
    let (whole, quantity) = (TypeId::of::<i64>(), TypeId::of::<Quantity>());
    for operator in OPERATORS.iter().filter(|operator| operator.values == 2) {
        for types in [[whole, whole], [quantity, quantity]] {
            set_of(&mut module, operator.name, &types, operator);
        }
    }
    for row in builtin::all().chain(CONSTRUCTORS) {
        set_row(&mut module, row);
    }
    for (name, types, function) in PROPERTIES {
        set_of(&mut module, name, &types(), *function);
    }
    name_types(&mut module);
    set_iterators(&mut module);
    module
}

fn set_row(module: &mut Module, row: &'static Builtin) {
    if row.property {
        set_of(module, &format!("get${}", row.name), &[TypeId::of::<Size>()], row);
        return;
    }
    for arity in row.arities() {
        set(module, row.name, arity, row);
    }
}

fn set(module: &mut Module, name: &str, values: usize, function: &'static dyn PluginFunc) {
    set_of(module, name, &vec![TypeId::of::<Dynamic>(); values], function);
}

fn set_of(module: &mut Module, name: &str, types: &[TypeId], function: &'static dyn PluginFunc) {
    FuncRegistration::new(name).in_global_namespace().set_into_module_raw(
        module,
        types,
        RhaiFunc::StaticPlugin { func: function },
    );
}

/// Names the program's types for the engine's errors; [`super::sort::Sort::of_type_name`] reads these names.
fn name_types(module: &mut Module) {
    module.set_custom_type::<Quantity>("quantity");
    module.set_custom_type::<Size>("Size");
    module.set_custom_type::<Design>("Design");
    module.set_custom_type::<Raised>("Raised");
}

/// The values that `for` can walk.
fn set_iterators(module: &mut Module) {
    module.set_iterable::<Array>();
    module.set_iterator::<Range<i64>>();
    module.set_iterator::<RangeInclusive<i64>>();
    module.set_iter(TypeId::of::<Map>(), |map: Dynamic| {
        let names = map.cast::<Map>().into_keys().map(|name| Dynamic::from(ImmutableString::from(name)));
        Box::new(names)
    });
    module.set_iter(TypeId::of::<ImmutableString>(), |text: Dynamic| {
        let letters: Vec<char> = text.cast::<ImmutableString>().chars().collect();
        Box::new(letters.into_iter().map(Dynamic::from))
    });
}
