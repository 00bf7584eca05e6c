//! Designs for scripts.

use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

use rhai::Dynamic;

use super::call::Call;
use super::row::{Builtin, PLAIN, param};
use super::want::Want;
use crate::diag::{Diagnostic, Fault};
use crate::fact::Fact;
use crate::lang::script::bench::{Bench, Carried};
use crate::lang::script::design::{Design, DesignHandle};
use crate::lang::script::powers::Workshop;
use crate::lang::script::trouble::Trouble;
use crate::lang::script::value::Value;
use crate::plan::Whole;
use crate::rules::Finding;
use crate::shop::Part;

pub(super) const ROWS: &[Builtin] = &[
    Builtin {
        name: "new_design",
        params: &[],
        returns: Want::Design,
        brief: "A new design, separate from the one at the bench; in a style, the work is already set.",
        examples: &[],
        run: new_design,
        ..PLAIN
    },
    Builtin {
        name: "styled",
        params: &[
            param("work", Want::Design, "design with the work to frame"),
            param("style", Want::Text, "name of the house style"),
            param("asks", Want::Map, "answers to the style's questions, and fields to set"),
        ],
        least: 2,
        returns: Want::Design,
        brief: "A new design: the work of this one, framed by a house style.",
        examples: &[],
        run: styled,
        ..PLAIN
    },
    Builtin {
        name: "made",
        params: &[param("d", Want::Design, "the design"), param("name", Want::Text, "name of the figure or field")],
        returns: Want::Anything,
        brief: "The made size of a figure, on the marks of the tape; d.NAME gives the size as drawn.",
        examples: &[],
        run: made,
        ..PLAIN
    },
    Builtin {
        name: "sheet",
        params: &[param("d", Want::Design, "the design")],
        returns: Want::Text,
        brief: "The whole sheet of a design as text.",
        examples: &[],
        run: sheet,
        ..PLAIN
    },
    Builtin {
        name: "parts",
        params: &[param("d", Want::Design, "the design")],
        returns: Want::List,
        shape: Some(Part::SHAPE),
        brief: "The parts of a design, each a map with name, quantity, material and sizes.",
        examples: &[
            ("design.art = 16in x 20in x 3/4in; parts(design)[0].short", "16 1/2\""),
            ("design.art = 16in x 20in x 3/4in; parts(design).filter(|p| p.cut_from == \"sheet\").len()", "0"),
        ],
        run: |call| listed(call, STEPS_OF_PARTS, |workshop, design| workshop.parts(design)),
        ..PLAIN
    },
    Builtin {
        name: "checks",
        params: &[param("d", Want::Design, "the design")],
        returns: Want::List,
        shape: Some(Finding::SHAPE),
        brief: "The findings of all checks of a design, the house's too, worst first; each is a map.",
        examples: &[("design.art = 16in x 20in x 3/4in; checks(design).filter(|c| c.level == \"stop\").len()", "0")],
        run: |call| listed(call, STEPS_OF_CHECKS, |workshop, design| workshop.checks(design)),
        ..PLAIN
    },
    Builtin {
        name: "plan",
        params: &[param("designs", Want::List, "designs to cut together")],
        returns: Want::Text,
        brief: "The cutting plan of several designs from the shop's stock, as text.",
        examples: &[],
        run: |call| {
            let text = plan_by(call, |workshop, designs, stop| workshop.plan(designs, stop))?;
            call.bench(|bench| bench.watch.text(text.len()))??;
            Ok(text.into())
        },
        ..PLAIN
    },
    Builtin {
        name: "planned",
        params: &[param("designs", Want::List, "designs to cut together")],
        returns: Want::Map,
        shape: Some(Whole::SHAPE),
        brief: "The cutting plan of several designs from the shop's stock, as a map of lengths as cut.",
        examples: &[("design.art = 16in x 20in x 3/4in; planned([design]).cost", "2")],
        run: |call| Ok(plan_by(call, |workshop, designs, stop| workshop.planned(designs, stop))?.into_dynamic()),
        ..PLAIN
    },
];

/// Something in the list is not a design.
#[derive(Debug)]
struct NotDesigns(&'static str);

impl fmt::Display for NotDesigns {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} takes a list of designs", self.0)
    }
}

impl Fault for NotDesigns {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::NOT_HERE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }

    fn hint(&self) -> Option<String> {
        Some(format!("{}([design])", self.0))
    }

    fn argument(&self) -> Option<usize> {
        Some(0)
    }
}

/// There is no bench to make a design at.
#[derive(Debug)]
struct NoDesigns;

impl fmt::Display for NoDesigns {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("designs are not available here")
    }
}

impl Fault for NoDesigns {
    fn code(&self) -> &'static crate::diag::Code {
        &crate::diag::codes::script::NOT_HERE
    }

    fn says(&self) -> crate::diag::Says {
        self.to_string().into()
    }
}

fn new_design(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    Ok(Dynamic::from(Design(call.bench(Bench::workshop)?.new_design()?)))
}

fn styled(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let design = design(call)?;
    let name = call.text(1)?;
    let asks = if call.count() > 2 { Value::try_from(call.value(2)?)? } else { Value::Nothing };
    let asks = if let Value::Map(asks) = asks { asks } else { BTreeMap::new() };
    Ok(Dynamic::from(Design(call.bench(Bench::workshop)?.styled(&*design.0, &name, &asks)?)))
}

fn sheet(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let text = call.bench(Bench::workshop)?.sheet(&*design(call)?.0)?;
    // Every size of the design is worked out for it: a sheet counts as its letters.
    call.spend(text.len())?;
    call.bench(|bench| bench.watch.text(text.len()))??;
    Ok(text.into())
}

/// What a plan counts for: the search that it may take is bounded by work and not by the script's steps.
const STEPS_A_PLAN: usize = 500_000;

/// A plan of the designs of a list, as `plan` gives it.
fn plan_by<T>(
    call: &mut Call<'_, '_, '_>,
    plan: impl FnOnce(&dyn Workshop, &[Rc<dyn DesignHandle>], &dyn Fn() -> bool) -> Result<T, Diagnostic>,
) -> Result<T, Trouble> {
    call.spend(STEPS_A_PLAN)?;
    let workshop = call.bench(Bench::workshop)?;
    let list = call.value(0)?.read_lock::<rhai::Array>().map(|list| list.clone()).unwrap_or_default();
    let designs = list.iter().map(|one| Some(Rc::clone(&one.read_lock::<Design>()?.0))).collect::<Option<Vec<_>>>();
    // A plan takes its time between two steps of the script, so it looks at the script's limits itself.
    let bench = call.context.engine().default_tag().read_lock::<Carried>();
    let over = || bench.as_ref().is_some_and(|carried| carried.0.watch.glance(true).is_err());
    Ok(plan(&*workshop, &designs.ok_or(NotDesigns(call.row.name))?, &over)?)
}

/// What a list of the parts counts for: what a design's sizes take to be worked out.
const STEPS_OF_PARTS: usize = 1_000;

/// What a list of the checks counts for: each mend is tried on a copy of the design.
const STEPS_OF_CHECKS: usize = 5_000;

/// The list that `list` makes of the design that is the first argument.
fn listed(
    call: &mut Call<'_, '_, '_>,
    steps: usize,
    list: impl FnOnce(&dyn Workshop, &dyn DesignHandle) -> Result<Vec<Value>, Diagnostic>,
) -> Result<Dynamic, Trouble> {
    call.spend(steps)?;
    let workshop = call.bench(Bench::workshop)?;
    Ok(Value::List(list(&*workshop, &*design(call)?.0)?).into_dynamic())
}

fn made(call: &mut Call<'_, '_, '_>) -> Result<Dynamic, Trouble> {
    let name = call.text(1)?;
    Ok(design(call)?.0.made(&name)?.into_dynamic())
}

/// The design that is the first argument.
fn design(call: &Call<'_, '_, '_>) -> Result<Design, Trouble> {
    let design = call.value(0)?.read_lock::<Design>().map(|design| Design(Rc::clone(&design.0)));
    Ok(design.ok_or(NoDesigns)?)
}
