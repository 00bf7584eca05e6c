//! What a line answers, as one JSON object.

use serde::Serialize;
use serde_json::{Map, Value as Json, json};

use super::designed::{Checks, Designed, Found, Measured, Valued};
use crate::lang::Value;
use crate::measure::write::{Manner, percent};
use crate::measure::{Quantity, Real};
use crate::rules::{Absent, Answer, Datum, Design, Finding, Known, Slot, answer};
use crate::session::{Changed, Done, Reply};
use crate::shop::{Caution, Part, Shape};

/// The object of a reply.
pub fn reply(reply: &Reply, manner: &Manner) -> Json {
    match reply {
        Reply::Nothing | Reply::Quit | Reply::Ran => json!({ "kind": "nothing" }),
        Reply::Value(value) => of_value(value, manner),
        Reply::Known { name, answer } => with_name(name, of_answer(answer, manner)),
        Reply::Changed(changed) => of_change(changed),
        Reply::Sheet(design, _) => json!({ "design": design_object(design) }),
        Reply::Why(design, shown) => {
            let steps = shown;
            let name = steps.first().map(|step| design.book().name(step.slot).text.as_str()).unwrap_or_default();
            let steps: Vec<Json> = steps
                .iter()
                .map(|step| {
                    json!({
                        "name": design.book().name(step.slot).text,
                        "formula": step.formula,
                        "with": step.with,
                        "is": of_known(design, step.slot, &step.is),
                        "reasons": step.reasons,
                        "sources": step.sources,
                    })
                })
                .collect();
            let mut object = json!({ "why": name, "steps": steps });
            let tolerance = shown.first().and_then(|step| design.tolerance(step.slot).ok());
            if let (Some(tolerance), Some(step)) = (tolerance, shown.first()) {
                object["tolerance"] = super::engineering::tolerance_of(design, step.slot, &tolerance);
            }
            object
        }
        Reply::Tape(length) => json!({ "tape": quantity(&length.clone().into(), manner) }),
        Reply::Page(design, name) => json!({ *name: super::engineering::page_object(design, name) }),
        Reply::Hang { designs, places } => super::engineering::hang_object(designs, places.as_ref(), manner),
        Reply::Tolerance(design, about) => super::engineering::tolerance_object(design, *about),
        Reply::Plan(planned) => super::plan_json::whole_json(planned, manner),
        Reply::Cautions(cautions) => with_cautions(json!({}), cautions),
        Reply::BareStock(rows) => super::plan_json::bare_stock_json(rows),
        Reply::Stock { rack, said } => super::plan_json::stock_json(rack, said.as_deref(), manner),
        Reply::Written { what, file, stops } => with_checks(json!({ "written": file, "what": what }), stops),
        Reply::Parts(parts, stops, cautions) => {
            let parts: Vec<Json> = parts.iter().map(|part| of_part(part, manner)).collect();
            with_cautions(with_checks(json!({ "parts": parts }), stops), cautions)
        }
        Reply::Figures(design) => json!({ "figures": design.own_figures() }),
        Reply::Checked(checked) => {
            let seen: Vec<Json> = checked
                .seen
                .iter()
                .map(|(level, name, count)| json!({ "level": level.to_string(), "name": name, "designs": count }))
                .collect();
            json!({ "style": checked.name, "designs": checked.designs, "seen": seen })
        }
        Reply::Styles(styles) => json!({
            "styles": styles
                .iter()
                .map(|style| json!({ "name": style.name, "about": style.about, "from": style.from }))
                .collect::<Vec<_>>()
        }),
        Reply::Shop { settings, file, .. } => {
            let mut all = Map::new();
            for setting in settings.all() {
                let value = settings.get(&setting.name).or_else(|| crate::shop::usual_limit(&setting.name));
                all.insert(setting.name.to_string(), value.into());
            }
            let mut object = json!({ "shop": all });
            if let Some(file) = file {
                object["written"] = file.as_str().into();
            }
            object
        }
        Reply::Book(booked) => super::book_json::of_booked(booked),
        Reply::Help(_) => json!({ "help": super::answer::page(reply, manner, 80).render(80, false) }),
    }
}

/// A quantity with its kind, its exact value in the unit of storage, and as it is shown.
pub fn quantity(quantity: &Quantity, manner: &Manner) -> Json {
    value(Measured { amount: &quantity.amount, kind: quantity.kind, cut: None, share: false, manner })
}

/// What is written straight elsewhere, as a value to go on with: texts and numbers under text keys, which JSON can hold.
fn value(one: impl Serialize) -> Json {
    serde_json::to_value(one).unwrap_or_default()
}

/// A value of the language.
pub fn of_value(value: &Value, manner: &Manner) -> Json {
    match value {
        Value::Nothing => json!({ "kind": "nothing" }),
        Value::Truth(truth) => json!({ "kind": "bool", "value": truth }),
        Value::Quantity(one) => quantity(one, manner),
        Value::Size(size) => {
            let mut object = json!({
                "kind": "size",
                "width": quantity(&size.width, manner),
                "height": quantity(&size.height, manner),
            });
            if let Some(depth) = &size.depth {
                object["depth"] = quantity(depth, manner);
            }
            object
        }
        Value::Text(text) | Value::Shown(text) => json!({ "kind": "text", "value": text }),
        Value::List(values) => {
            json!({ "kind": "list", "value": values.iter().map(|value| of_value(value, manner)).collect::<Vec<_>>() })
        }
        Value::Map(entries) => {
            let entries: Map<String, Json> =
                entries.iter().map(|(name, value)| (name.clone(), of_value(value, manner))).collect();
            json!({ "kind": "map", "value": entries })
        }
        Value::Design(_) => json!({ "kind": "design" }),
    }
}

fn with_name(name: &str, mut object: Json) -> Json {
    if let Some(object) = object.as_object_mut() {
        object.insert("name".into(), name.into());
    }
    object
}

fn of_answer(answer: &Answer, manner: &Manner) -> Json {
    match answer {
        Answer::Quantity(drawn, cut) => {
            let mut object = quantity(drawn, manner);
            if let Some(cut) = cut {
                object["cut"] = cut.amount.to_text().into();
            }
            object
        }
        Answer::Share(share) => {
            let mut object = quantity(share, manner);
            object["shown"] = percent(&share.amount).into();
            object
        }
        Answer::Text(text) => json!({ "kind": "text", "value": &**text }),
        Answer::List(several) => {
            json!({ "kind": "list", "value": several.iter().map(|one| of_answer(one, manner)).collect::<Vec<_>>() })
        }
        Answer::Size(extents) => {
            let mut object = json!({ "kind": "size" });
            for (name, extent) in ["width", "height", "depth"].iter().zip(extents) {
                object[*name] = quantity(extent, manner);
            }
            object
        }
    }
}

pub(super) fn of_known(design: &Design, slot: Slot, known: &Known) -> Json {
    value(Valued { design, memo: None, slot, known })
}

/// A value or the reason why there is none.
fn of_slot(design: &Design, slot: Slot, found: &Result<Known, Absent>) -> Json {
    value(Found { design, memo: None, slot, value: found })
}

fn of_change(changed: &Changed) -> Json {
    let design = &changed.design;
    let mut object = match &changed.deed {
        Done::Set { name, asleep } => {
            let to = design.answer(name).map_or(Json::Null, |answer| of_answer(&answer, design.manner()));
            let mut object = json!({ "set": name, "to": to });
            if *asleep {
                object["asleep"] = true.into();
            }
            object
        }
        Done::Clear(name) => json!({ "clear": name }),
        Done::Aimed { name, figure, aimed } => {
            let to = design.answer(name).map_or(Json::Null, |answer| of_answer(&answer, design.manner()));
            let told = |amount: &Real| {
                let known = Known { drawn: Datum::Amount(amount.clone()), cut: None };
                of_answer(&answer(&known, aimed.of), design.manner())
            };
            json!({ "aim": figure, "by": name, "to": to, "reached": told(&aimed.reached), "off": told(&aimed.off) })
        }
        Done::Figure(name) => {
            let to = design.answer(name).map_or(Json::Null, |answer| of_answer(&answer, design.manner()));
            json!({ "figure": name, "formula": design.own_figures().get(name), "to": to })
        }
        Done::New => json!({ "new": design.build_name() }),
        Done::Undo(line) => json!({ "undo": line }),
        Done::Redo(line) => json!({ "redo": line }),
        Done::Script => json!({ "script": true }),
    };
    let values: Map<String, Json> = changed
        .changed
        .iter()
        .map(|(slot, value)| (design.book().name(*slot).text.clone(), of_slot(design, *slot, value)))
        .collect();
    object["changed"] = values.into();
    object["checks"] = checks(changed.findings.iter().map(|(finding, _)| finding));
    object
}

/// The same with the cautions that apply.
fn with_cautions(mut object: Json, cautions: &[Caution]) -> Json {
    object["cautions"] = super::engineering::of_cautions(cautions).into();
    object
}

/// The same with what stops designs, where anything does.
pub(super) fn with_checks(mut object: Json, stops: &[Finding]) -> Json {
    if !stops.is_empty() {
        object["checks"] = checks(stops.iter());
    }
    object
}

pub(super) fn checks<'a>(findings: impl Iterator<Item = &'a Finding>) -> Json {
    value(Checks(findings.collect()))
}

/// A whole design: every field and figure that applies.
pub fn design_object(design: &Design) -> Json {
    value(Designed { design, findings: &design.findings(), memo: None })
}

fn of_part(part: &Part, manner: &Manner) -> Json {
    let mut object = json!({ "name": part.name, "quantity": part.quantity, "material": part.material });
    for (name, own) in part.sizes() {
        object[name] = quantity(own, manner);
    }
    match &part.shape {
        Shape::Stick(stick) => {
            object["show"] = (&*stick.show).into();
            if let Some((width, thickness)) = &stick.section {
                object["width"] = quantity(width, manner);
                object["thickness"] = quantity(thickness, manner);
            }
        }
        Shape::Sheet(_) => object["sheet"] = true.into(),
    }
    object
}
