//! The JSON Schema of everything that is answered.

use serde_json::{Map, Value as Json, json};

use super::json::{PRINTED, REPLY};
use crate::fact::{Head, Kind, Shape, shapes};
use crate::measure::KINDS;

/// The version of the schema: it changes when a key or a kind does.
pub const VERSION: &str = "2.0";

/// The schema of all answers, one of which each line of `--json` is.
pub fn schema(replies: &[&'static dyn Shape]) -> Json {
    let mut defs = Map::new();
    defs.insert("value".into(), json!({ "oneOf": values(&Extra::default()) }));
    defs.insert("known".into(), json!({ "anyOf": [reference("value"), missing()] }));
    let mut inner = shapes(replies);
    inner.sort_by_key(|shape| shape.name());
    for shape in inner {
        defs.insert(key(shape.name()), object(shape, &Extra::default()));
    }
    for reply in replies {
        defs.insert(format!("reply.{}", key(reply.name())), of_reply(*reply));
    }
    let one_of: Vec<Json> = replies.iter().map(|reply| reference(&format!("reply.{}", key(reply.name())))).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("urn:benchrule:replies:{VERSION}"),
        "title": "benchrule replies",
        "description": "One line of benchrule --json.",
        "version": VERSION,
        "oneOf": one_of,
        "$defs": defs,
    })
}

/// A name without spaces, as part of a reference.
fn key(name: &str) -> String {
    name.replace(' ', "_")
}

fn reference(name: &str) -> Json {
    json!({ "$ref": format!("#/$defs/{name}") })
}

/// Keys beside those of a shape or a value.
#[derive(Default)]
struct Extra {
    properties: Map<String, Json>,
    required: Vec<Json>,
}

/// The schema of an answer.
fn of_reply(shape: &'static dyn Shape) -> Json {
    let mut extra = Extra::default();
    extra.properties.insert(REPLY.into(), json!({ "const": shape.name() }));
    extra.properties.insert(PRINTED.into(), json!({ "type": "array", "items": { "type": "string" }, "minItems": 1 }));
    extra.required.push(REPLY.into());
    let Some(spread) = shape.flat_heads().find(|head| head.is_spread()) else { return object(shape, &extra) };
    shape.flat_heads().filter(|head| !head.is_spread()).for_each(|head| add(head, &mut extra));
    let mut variants = values(&extra);
    if matches!(spread.kind, Kind::Known) {
        variants.push(closed(
            &extra,
            [("missing", missing_names()), ("because", json!({ "type": "string" }))],
            &["because"],
        ));
    }
    json!({ "description": shape.doc(), "oneOf": variants })
}

/// The schema of a shape's objects.
fn object(shape: &'static dyn Shape, extra: &Extra) -> Json {
    let mut all = Extra { properties: extra.properties.clone(), required: extra.required.clone() };
    shape.flat_heads().for_each(|head| add(head, &mut all));
    let mut object = closed(&all, [], &[]);
    object["description"] = shape.doc().into();
    object
}

fn add(head: &'static Head, to: &mut Extra) {
    let mut schema = of_kind(&head.kind);
    schema["description"] = head.doc.into();
    to.properties.insert(head.name.into(), schema);
    if !head.optional {
        to.required.push(head.name.into());
    }
}

/// An object of these keys and no others; all but `optional` are required.
fn closed<const N: usize>(extra: &Extra, own: [(&str, Json); N], optional: &[&str]) -> Json {
    let mut properties = extra.properties.clone();
    let mut required = extra.required.clone();
    for (name, schema) in own {
        properties.insert(name.into(), schema);
        if !optional.contains(&name) {
            required.push(name.into());
        }
    }
    json!({ "type": "object", "properties": properties, "required": required, "additionalProperties": false })
}

fn of_kind(kind: &'static Kind) -> Json {
    match kind {
        Kind::Truth => json!({ "type": "boolean" }),
        Kind::Count => json!({ "type": "integer", "minimum": 0 }),
        Kind::Seconds => json!({ "type": "number", "minimum": 0 }),
        Kind::Text => json!({ "type": "string" }),
        Kind::Word(words) => json!({ "enum": words }),
        Kind::Of(kind) => quantity(&kind.to_string(), &kind.unit(), &Extra::default()),
        Kind::Size => size(&Extra::default()),
        // Exact decimals, which a float would not keep.
        Kind::Cost => json!({ "type": "string", "pattern": "^[0-9]+(\\.[0-9]{2})?$" }),
        Kind::Value => reference("value"),
        Kind::Known => reference("known"),
        Kind::OrNothing(inner) => json!({ "anyOf": [of_kind(inner), { "type": "null" }] }),
        Kind::One(shape) => reference(&key(shape.name())),
        Kind::Each(inner) => json!({ "type": "array", "items": of_kind(inner) }),
        Kind::Named(inner) => json!({ "type": "object", "additionalProperties": of_kind(inner) }),
    }
}

fn missing_names() -> Json {
    json!({ "type": "array", "items": { "type": "string" } })
}

/// What stands where a value is still missing.
fn missing() -> Json {
    let because = json!({ "type": "string" });
    closed(&Extra::default(), [("missing", missing_names()), ("because", because)], &["because"])
}

/// Every form of a value.
fn values(extra: &Extra) -> Vec<Json> {
    let kind = |word: &str| json!({ "const": word });
    let mut all: Vec<Json> = KINDS.iter().map(|row| quantity(row.name, row.unit, extra)).collect();
    // A kind without a name is spelled out, and so is its unit.
    let named: Vec<&str> =
        KINDS.iter().map(|row| row.name).chain(["size", "text", "bool", "list", "map", "design", "nothing"]).collect();
    let spelled = json!({ "type": "string", "not": { "enum": named } });
    all.push(measured(spelled, Some(json!({ "type": "string" })), &[], extra));
    let value = reference("value");
    let side = || reference("value");
    all.push(closed(
        extra,
        [("kind", kind("size")), ("width", side()), ("height", side()), ("depth", side())],
        &["depth"],
    ));
    all.push(closed(extra, [("kind", kind("text")), ("value", json!({ "type": "string" }))], &[]));
    all.push(closed(extra, [("kind", kind("bool")), ("value", json!({ "type": "boolean" }))], &[]));
    all.push(closed(extra, [("kind", kind("list")), ("value", json!({ "type": "array", "items": value }))], &[]));
    let map = json!({ "type": "object", "additionalProperties": reference("value") });
    all.push(closed(extra, [("kind", kind("map")), ("value", map)], &[]));
    all.extend(["design", "nothing"].map(|word| closed(extra, [("kind", kind(word))], &[])));
    all
}

/// Two or three quantities, mostly lengths.
fn size(extra: &Extra) -> Json {
    let side = || reference("value");
    let sides = [("kind", json!({ "const": "size" })), ("width", side()), ("height", side()), ("depth", side())];
    closed(extra, sides, &["depth"])
}

/// A quantity of a kind that has a name.
fn quantity(name: &str, unit: &str, extra: &Extra) -> Json {
    let unit = Some(json!({ "const": unit })).filter(|_| !unit.is_empty());
    let mm: &[&str] = if name == "length" { &["mm"] } else { &[] };
    measured(json!({ "const": name }), unit, mm, extra)
}

fn measured(kind: Json, unit: Option<Json>, numbers: &[&str], extra: &Extra) -> Json {
    let text = || json!({ "type": "string" });
    let mut all = Extra { properties: extra.properties.clone(), required: extra.required.clone() };
    for name in numbers {
        all.properties.insert((*name).into(), json!({ "type": "number" }));
        all.required.push((*name).into());
    }
    if let Some(unit) = unit {
        all.properties.insert("unit".into(), unit);
        all.required.push("unit".into());
    }
    let own = [
        ("kind", kind),
        ("exact", text()),
        ("shown", text()),
        ("approximate", json!({ "const": true })),
        ("cut", text()),
    ];
    closed(&all, own, &["approximate", "cut"])
}
