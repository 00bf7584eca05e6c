//! A cutting plan as one JSON object.

use serde_json::{Value as Json, json};

use super::answer::because;
use super::finding_json;
use super::json::quantity;
use crate::diag::Diagnostic;
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};
use crate::plan::{Cutting, Stick};

/// `{"plan":{"cost":…,"bound":…,"proven":…,"seconds":…,"sticks":[…],"unplanned":[…]}}`, and under `errors` what was
/// found wrong; without a plan the first finding alone, the others under `more`.
pub fn plan_json(planned: Option<(&Cutting, f64)>, found: &[Diagnostic], manner: &Manner) -> Json {
    let mut errors: Vec<Json> = found.iter().map(error).collect();
    let Some((cutting, seconds)) = planned else {
        let rest = errors.split_off(errors.len().min(1));
        let mut object = json!({ "error": errors.pop() });
        if !rest.is_empty() {
            object["more"] = rest.into();
        }
        return object;
    };
    let length = |inches: &Real| quantity(&Quantity::inches(inches.clone()), manner);
    let unplanned = cutting.left.iter().map(|left| {
        let part = &cutting.order.parts[left.part];
        json!({
            "name": part.name,
            "length": length(&part.length),
            "quantity": left.quantity,
            "because": because(cutting, left, manner),
        })
    });
    let mut object = json!({ "plan": {
        "cost": cutting.text(cutting.cost),
        "bound": cutting.text(cutting.bound),
        "proven": cutting.is_proven(),
        "seconds": (seconds * 1000.0).round() / 1000.0,
        "sticks": cutting.sticks.iter().map(|stick| of_stick(cutting, stick, manner)).collect::<Vec<_>>(),
        "unplanned": unplanned.collect::<Vec<_>>(),
    } });
    if !errors.is_empty() {
        object["errors"] = errors.into();
    }
    object
}

fn error(one: &Diagnostic) -> Json {
    let mut error = finding_json(one, "")["error"].take();
    if let Some(source) = &one.source {
        error["in"] = source.name.as_str().into();
    }
    error
}

fn of_stick(cutting: &Cutting, stick: &Stick, manner: &Manner) -> Json {
    let length = |inches: &Real| quantity(&Quantity::inches(inches.clone()), manner);
    let held = &cutting.order.stock[stick.stock];
    let part = |piece: &crate::plan::Piece| {
        let part = &cutting.order.parts[piece.part];
        json!({ "name": part.name, "length": length(&part.length) })
    };
    let mut object = json!({
        "stock": length(&held.length),
        "cost": cutting.text(cutting.cost_of(stick.stock)),
        "parts": stick.pieces.iter().map(part).collect::<Vec<_>>(),
        "offcut": length(&stick.offcut),
        "waste": length(&stick.waste),
    });
    for (name, text) in [("wood", &held.material.wood), ("section", &held.material.section)] {
        if !text.is_empty() {
            object[name] = text.as_str().into();
        }
    }
    object
}
