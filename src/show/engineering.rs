//! Pages of one matter as JSON.

use serde_json::{Map, Value as Json, json};

use super::json::{checks, of_known, quantity};
use crate::measure::Quantity;
use crate::measure::write::Manner;
use crate::rules::{Design, Slot, Tolerance, Type};
use crate::shop::{Caution, Places, cautions, parts};

/// Cautions as objects.
pub(super) fn of_cautions(cautions: &[Caution]) -> Vec<Json> {
    let one = |one: &Caution| json!({ "name": one.name, "short": one.short, "full": one.full, "source": one.source });
    cautions.iter().map(one).collect()
}

/// What stands on a page: figures, reasons, checks and cautions.
pub(super) fn page_object(design: &Design, page: &str) -> Json {
    let mut figures = Map::new();
    let slots = || design.on_page(page);
    for slot in slots() {
        let gathered = design.rule(slot).is_some_and(|rule| rule.gather.is_some());
        if let (Ok(known), false) = (design.known(slot), gathered)
            && !matches!(design.book().name(slot).of, Type::Record(_))
        {
            figures.insert(design.book().name(slot).text.clone(), of_known(design, slot, &known));
        }
    }
    json!({
        "figures": figures,
        "reasons": design.reasons(slots().into_iter()),
        "checks": checks(design.findings_of(page).iter()),
        "cautions": of_cautions(&cautions(design, &parts(design), page)),
    })
}

/// How a design hangs, and where it goes; of several only where they go.
pub(super) fn hang_object(designs: &[Design], places: Option<&Places>, manner: &Manner) -> Json {
    let mut object = match designs {
        [design] => json!({ "hang": page_object(design, "hang") }),
        _ => json!({}),
    };
    if let Some(places) = places {
        let length = |one: &Quantity| quantity(one, manner);
        let piece = |place: &crate::shop::Place| {
            let hooks: Vec<Json> =
                place.hooks.iter().map(|[across, up]| json!({ "across": length(across), "up": length(up) })).collect();
            json!({
                "name": place.name, "row": place.row, "left": length(&place.left), "right": length(&place.right),
                "top": length(&place.top), "hooks": hooks,
            })
        };
        object["wall"] = json!({
            "pieces": places.pieces.iter().map(piece).collect::<Vec<_>>(),
            "gap": length(&places.gap), "end": length(&places.end),
        });
    }
    object
}

/// How far one figure may be off, or every one that may be.
pub(super) fn tolerance_object(design: &Design, about: Option<Slot>) -> Json {
    let one = |slot: Slot| {
        let tolerance = design.tolerance(slot).ok().filter(|tolerance| !tolerance.shares.is_empty())?;
        Some((design.book().name(slot).text.clone(), tolerance_of(design, slot, &tolerance)))
    };
    let slots = match about {
        Some(slot) => vec![slot],
        None => design.book().builds[usize::from(design.build())].order.clone(),
    };
    let all: Map<String, Json> = slots.into_iter().filter_map(one).collect();
    let mut object = json!({ "tolerance": all });
    if about.is_none() {
        object["saw"] = page_object(design, "tolerance");
    }
    object
}

/// Worst case, likely, and what adds to it.
pub(super) fn tolerance_of(design: &Design, slot: Slot, tolerance: &Tolerance) -> Json {
    let manner = design.manner();
    let amount = |value: &crate::measure::Real| quantity(&Quantity::new(value.clone(), design.kind(slot)), manner);
    let shares: Map<String, Json> = tolerance
        .shares
        .iter()
        .map(|(source, share)| (design.book().name(*source).text.clone(), amount(share)))
        .collect();
    json!({ "worst": amount(&tolerance.worst), "likely": amount(&tolerance.likely), "of": shares })
}
