//! A cutting plan as one JSON object.

use serde::{Serialize, Serializer};
use serde_json::{Value as Json, json};

use super::answer::because;
use crate::diag::Diagnostic;
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Left, Stick};

/// What is written of a plan. Sticks are turned into JSON one by one as they are written: a large plan is some hundred
/// megabytes otherwise.
#[derive(Serialize)]
struct Whole<'a> {
    plan: Plan<'a>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    errors: Vec<Json>,
}

#[derive(Serialize)]
struct Plan<'a> {
    cost: String,
    bound: String,
    proven: bool,
    seconds: f64,
    sticks: Sticks<'a>,
    unplanned: Unplanned<'a>,
}

struct Sticks<'a>(&'a Cutting, &'a Manner);
struct Unplanned<'a>(&'a Cutting, &'a Manner);

impl Serialize for Sticks<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.sticks.iter().map(|stick| of_stick(self.0, stick, self.1)))
    }
}

impl Serialize for Unplanned<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.left.iter().map(|left| of_left(self.0, left, self.1)))
    }
}

/// `{"plan":{"cost":…,"bound":…,"proven":…,"seconds":…,"sticks":[…],"unplanned":[…]}}`, and under `errors` what else was
/// found wrong.
pub fn plan_json<'a>(
    cutting: &'a Cutting,
    seconds: f64,
    found: &[Diagnostic],
    manner: &'a Manner,
) -> impl Serialize + use<'a> {
    let plan = Plan {
        cost: cutting.text(cutting.cost),
        bound: cutting.text(cutting.bound),
        proven: cutting.is_proven(),
        seconds: (seconds * 1000.0).round() / 1000.0,
        sticks: Sticks(cutting, manner),
        unplanned: Unplanned(cutting, manner),
    };
    Whole { plan, errors: found.iter().map(error).collect() }
}

fn error(one: &Diagnostic) -> Json {
    let manner = Manner::default();
    super::fact::json(&*fact::<Diagnostic>((one, "")), &manner)
}

fn length(inches: &Real, manner: &Manner) -> Json {
    json!({ "exact": inches.to_text(), "shown": manner.short(&Quantity::inches(inches.clone())) })
}

fn of_left(cutting: &Cutting, left: &Left, manner: &Manner) -> Json {
    let part = &cutting.order.parts[left.part];
    json!({
        "name": part.name,
        "length": length(&part.length, manner),
        "quantity": left.quantity,
        "because": because(cutting, left, manner),
    })
}

fn of_stick(cutting: &Cutting, stick: &Stick, manner: &Manner) -> Json {
    let held = &cutting.order.stock[stick.stock];
    let part = |piece: &crate::plan::Piece| {
        let part = &cutting.order.parts[piece.part];
        json!({ "name": part.name, "length": length(&part.length, manner) })
    };
    let mut object = json!({
        "stock": length(&held.length, manner),
        "cost": cutting.text(cutting.cost_of(stick.stock)),
        "parts": stick.pieces.iter().map(part).collect::<Vec<_>>(),
        "offcut": length(&stick.offcut, manner),
        "waste": length(&stick.waste, manner),
    });
    for (name, text) in [("wood", &held.material.wood), ("section", &held.material.section)] {
        if !text.is_empty() {
            object[name] = text.as_str().into();
        }
    }
    object
}
