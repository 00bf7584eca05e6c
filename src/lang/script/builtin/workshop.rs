//! The functions of the program that rules call, for scripts: a row for each of [`NATIVES`].

use std::cmp::Ordering;
use std::fmt;
use std::sync::LazyLock;

use rhai::{Array, Dynamic, Map};

use super::call::Call;
use super::row::{Builtin, PLAIN, Param, param};
use super::want::Want;
use crate::diag::{Diagnostic, Fault, codes};
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::{to_dynamic, to_quantity};
use crate::measure::write::Manner;
use crate::measure::{Kind, Quantity, Real};
use crate::rules::native::Thing;
use crate::rules::{Datum, NATIVES, Native, Type, sentence};

/// The rows, made once from the table of the rules.
pub(super) static ROWS: LazyLock<Vec<Builtin>> = LazyLock::new(|| NATIVES.iter().map(row).collect());

/// Steps of a call.
const STEPS: usize = 100;

/// The entry with the reasons for the result.
const REASONS: &str = "reasons";

fn row(native: &'static Native) -> Builtin {
    let taken = |(name, of, brief): &Thing| match want(*of) {
        kind if native.may_lack.contains(name) => {
            let kind = Want::Either(vec![kind, Want::Nothing].leak());
            param(name, kind, format!("{brief}; () if it was not measured").leak())
        }
        kind => param(name, kind, brief),
    };
    let given = |(name, of, brief): &Thing| param(name, want(*of), brief);
    let reasons = param(REASONS, Want::List, "the reasons, in sentences");
    Builtin {
        name: native.name,
        params: native.takes.iter().map(taken).collect::<Vec<Param>>().leak(),
        returns: Want::Map,
        gives: native.gives.iter().map(given).chain([reasons]).collect::<Vec<Param>>().leak(),
        brief: native.brief,
        examples: vec![native.example].leak(),
        run: find,
        ..PLAIN
    }
}

/// The sort of a script value for a type of the rules.
fn want(of: Type) -> Want {
    match of {
        Type::Quantity(kind) => Want::Of(kind),
        Type::Share => Want::NUMBER,
        Type::Whole => Want::Whole,
        Type::Word | Type::Text => Want::Text,
        Type::List(kind) => Want::ListOf(kind),
        Type::Truth => Want::Truth,
        Type::Size => Want::Size,
        Type::Record(_) | Type::Nothing => Want::Nothing,
    }
}

/// A bug: a row without its function.
#[derive(Debug)]
struct Gone;

impl fmt::Display for Gone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("this function no longer exists")
    }
}

impl Fault for Gone {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::ARGUMENT
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

fn find(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let native = NATIVES.iter().find(|native| native.name == call.row.name).ok_or(Gone)?;
    call.spend(STEPS)?;
    let given = (0..native.takes.len()).map(|at| Ok(datum(call.value(at)?))).collect::<Result<Vec<_>, Trouble>>()?;
    let (book, manner) = call.bench(|bench| (bench.workshop().rules(), bench.manner.borrow().clone()))?;
    let found = native.find(&book, &given);
    let found = found.map_err(|fault| Diagnostic::of(&codes::script::ARGUMENT, sentence(&fault.0, &manner)))?;
    let mut map = Map::new();
    for (place, (name, of, _)) in native.gives.iter().enumerate() {
        let part = found.parts.get(place).cloned().flatten();
        map.insert((*name).into(), part.map_or(Ok(Dynamic::UNIT), |part| held(call, part, *of))?);
    }
    let reasons = |manner: &Manner| found.reasons.iter().map(|one| sentence(one, manner).into()).collect::<Array>();
    map.insert(REASONS.into(), Dynamic::from_array(reasons(&manner)));
    Ok(Dynamic::from_map(map))
}

/// A value of a script as the rules hold it; none if it was left out.
fn datum(value: &Dynamic) -> Option<Datum> {
    if let Some(quantity) = to_quantity(value) {
        return Some(Datum::Amount(quantity.amount));
    }
    if let Ok(truth) = value.as_bool() {
        return Some(Datum::Truth(truth));
    }
    if let Ok(text) = value.as_immutable_string_ref() {
        return Some(Datum::Word(text.as_str().into()));
    }
    // A list of the rules is in rising order.
    let list = value.as_array_ref().ok()?;
    let mut amounts: Vec<Real> = list.iter().filter_map(|one| Some(to_quantity(one)?.amount)).collect();
    amounts.sort_by(|one, other| one.partial_cmp(other).unwrap_or(Ordering::Equal));
    Some(Datum::List(amounts.into()))
}

/// The result as scripts hold it.
fn held(call: &Call<'_, '_, '_>, part: Datum, of: Type) -> Result<Dynamic, Trouble> {
    let quantity = |amount: Real, kind: Kind| Ok(to_dynamic(Quantity::new(amount.check()?, kind)));
    match part {
        Datum::Amount(amount) => quantity(amount, if let Type::Quantity(kind) = of { kind } else { Kind::NUMBER }),
        Datum::Word(word) => Ok(word.to_string().into()),
        Datum::Truth(truth) => Ok(truth.into()),
        Datum::List(list) => {
            call.spend(list.len())?;
            call.bench(|bench| bench.watch.entries(list.len()))??;
            let kind = if let Type::List(kind) = of { kind } else { Kind::NUMBER };
            let list = list.iter().map(|one| quantity(one.clone(), kind)).collect::<Result<Array, Trouble>>()?;
            Ok(Dynamic::from_array(list))
        }
        Datum::Record(_) => Ok(Dynamic::UNIT),
    }
}
