//! A cutting plan as one JSON object.

use serde_json::{Value as Json, json};

use super::answer::because;
use super::finding_json;
use super::json::quantity;
use crate::diag::Diagnostic;
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};
use crate::plan::{Board, Cutting, Rack, Stick, Strip, WHATS, WantedSheet};
use crate::session::Planned;

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

/// A plan for everything as one object: the sticks as of a plan by itself, and boards and sheets beside them.
pub fn whole_json(planned: &Planned, manner: &Manner) -> Json {
    let whole = &planned.whole;
    let length = |inches: &Real| quantity(&Quantity::inches(inches.clone()), manner);
    let mut object = plan_json(Some((&whole.sticks, planned.seconds)), &planned.found, manner);
    let strip = |strip: &Strip| {
        let parts: Vec<Json> = strip
            .pieces
            .iter()
            .map(|piece| &whole.boards.parts[piece.part])
            .map(|part| json!({ "name": part.name, "length": length(&part.length) }))
            .collect();
        json!({ "width": length(&strip.width), "parts": parts, "offcut": length(&strip.offcut) })
    };
    let board = |board: &Board| {
        let item = &whole.rack.items[board.item];
        json!({
            "length": length(&item.length),
            "width": item.width.as_ref().map(length),
            "of": item.material.words(),
            "strips": board.strips.iter().map(strip).collect::<Vec<_>>(),
        })
    };
    let sheet = |sheet: &WantedSheet| {
        json!({
            "name": sheet.name, "quantity": sheet.quantity, "width": length(&sheet.width),
            "height": length(&sheet.height), "of": sheet.material.words(),
        })
    };
    if !whole.boards.boards.is_empty() {
        object["plan"]["boards"] = json!({
            "cost": whole.boards.cost,
            "bound": whole.boards.bound,
            "proven": whole.boards.cost == whole.boards.bound,
            "boards": whole.boards.boards.iter().map(board).collect::<Vec<_>>(),
        });
    }
    if !whole.sheets.is_empty() {
        object["plan"]["sheets"] = whole.sheets.iter().map(sheet).collect::<Vec<_>>().into();
    }
    object["plan"]["stock_said"] = whole.is_said.into();
    object
}

/// What the shop has, row by row.
pub fn stock_json(rack: &Rack, said: Option<&str>, manner: &Manner) -> Json {
    let length = |inches: &Real| quantity(&Quantity::inches(inches.clone()), manner);
    let rows = rack.items.iter().map(|item| {
        let what = WHATS.iter().find(|(_, what)| *what == item.what).map_or("", |(word, _)| word);
        json!({
            "what": what, "length": length(&item.length), "width": item.width.as_ref().map(length),
            "count": item.count, "cents": item.cost, "of": item.material.words(),
        })
    });
    let mut object = json!({ "stock": rows.collect::<Vec<_>>() });
    if let Some(said) = said {
        object["said"] = said.into();
    }
    object
}
