//! `benchrule schema`: it takes every reply, and refuses one with a key less, a key more or a value of another kind.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Map, Value as Json, json};

use super::corpus::replies;
use super::valid::is_valid;
use crate::program::Home;

/// The schema as the program prints it.
fn schema() -> Json {
    let ran = Home::new().run(&["schema"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    serde_json::from_str(&ran.out).unwrap()
}

/// The part of the schema for a reply of this kind.
fn of_kind<'a>(schema: &'a Json, reply: &Json) -> &'a Json {
    let name = reply["reply"].as_str().unwrap_or_else(|| panic!("no kind: {reply}"));
    schema["$defs"].get(format!("reply.{name}")).unwrap_or_else(|| panic!("{name} is not in the schema"))
}

#[test]
fn every_reply_is_as_the_schema_says() {
    let schema = schema();
    for reply in replies() {
        assert_eq!(reply.as_object().unwrap().keys().next().unwrap(), "reply", "{reply}");
        assert!(is_valid(&schema, of_kind(&schema, reply), reply), "{reply}");
    }
    // As a whole it takes one of each kind, and nothing else.
    let mut kinds: BTreeMap<&str, &Json> = BTreeMap::new();
    replies().iter().for_each(|reply| {
        kinds.entry(reply["reply"].as_str().unwrap()).or_insert(reply);
    });
    let all: BTreeSet<&str> =
        schema["$defs"].as_object().unwrap().keys().filter_map(|name| name.strip_prefix("reply.")).collect();
    // A bench is picked up by a shell alone, which the tests of the book start.
    let missing: Vec<&&str> = all.iter().filter(|name| !kinds.contains_key(**name) && **name != "picked_up").collect();
    assert!(missing.is_empty(), "no line of the corpus answers {missing:?}");
    assert!(!is_valid(&schema, &schema, &json!({ "reply": "nothing" })));
}

/// A change to a value, the value after it, and whether its schema must still take it.
type Change = (String, Json, bool);

/// Values of every type that JSON has.
fn samples() -> [(&'static str, Json); 6] {
    [
        ("object", json!({})),
        ("array", json!([])),
        ("string", json!("7 x")),
        ("integer", json!(7)),
        ("boolean", json!(true)),
        ("null", Json::Null),
    ]
}

/// What a reference leads to, however often.
fn resolved<'a>(root: &'a Json, mut schema: &'a Json) -> &'a Json {
    while let Some(name) = schema.get("$ref").and_then(Json::as_str) {
        schema = &root["$defs"][name.strip_prefix("#/$defs/").unwrap()];
    }
    schema
}

fn branches(schema: &Json) -> impl Iterator<Item = &Json> {
    ["anyOf", "oneOf"].iter().filter_map(|word| schema.get(word)?.as_array()).flatten()
}

/// The JSON types that a schema takes, by its own words.
fn types(root: &Json, schema: &Json) -> BTreeSet<&'static str> {
    let schema = resolved(root, schema);
    let mut all: BTreeSet<&str> = branches(schema).flat_map(|one| types(root, one)).collect();
    let constants = schema["enum"].as_array().into_iter().flatten().chain(schema.get("const"));
    let named = |value: &Json| samples().into_iter().find(|(_, sample)| same_type(sample, value)).unwrap().0;
    all.extend(constants.map(named));
    match schema["type"].as_str() {
        Some("number") => all.extend(["integer"]),
        Some(name) => all.extend(samples().into_iter().map(|(own, _)| own).filter(|own| *own == name)),
        None => {}
    }
    assert!(!all.is_empty(), "{schema}");
    all
}

fn same_type(one: &Json, other: &Json) -> bool {
    std::mem::discriminant(one) == std::mem::discriminant(other)
}

/// The value as every type that the schema does not take.
fn of_other_types(root: &Json, schema: &Json, path: &str) -> Vec<Change> {
    let taken = types(root, schema);
    let others = samples().into_iter().filter(|(name, _)| !taken.contains(name));
    others.map(|(name, other)| (format!("{path} as {name}"), other, false)).collect()
}

fn is_required(schema: &Json, name: &str) -> bool {
    schema["required"].as_array().unwrap().iter().any(|required| required == name)
}

/// The schema of one key of an object.
fn of_key<'a>(schema: &'a Json, name: &str) -> &'a Json {
    schema["properties"].get(name).unwrap_or(&schema["additionalProperties"])
}

/// What may be done to a value without a look inside its keys and items: each key dropped, a key more, another type.
fn own_changes(root: &Json, schema: &Json, value: &Json, path: &str) -> Vec<Change> {
    let mut all = of_other_types(root, schema, path);
    if let Json::Object(object) = value {
        let is_map = schema["additionalProperties"].is_object();
        for name in object.keys().filter(|_| !is_map) {
            let mut less = object.clone();
            less.shift_remove(name);
            all.push((format!("{path}.{name} left out"), Json::Object(less), !is_required(schema, name)));
        }
        let more: Vec<Change> = if is_map {
            of_other_types(root, &schema["additionalProperties"], "one more")
        } else {
            vec![("one more".into(), json!(1), false)]
        };
        for (what, one, _) in more {
            let mut more = object.clone();
            more.insert("surplus".into(), one);
            all.push((format!("{path} with {what}"), Json::Object(more), false));
        }
    }
    all
}

/// The keys or items of a value, each with its schema and with what puts another in its place.
fn inside<'a>(schema: &'a Json, value: &'a Json, path: &str) -> Vec<(String, &'a Json, &'a Json, Place)> {
    match value {
        Json::Object(object) => object
            .iter()
            .map(|(name, inner)| (format!("{path}.{name}"), of_key(schema, name), inner, Place::Key(name.clone())))
            .collect(),
        Json::Array(items) => items
            .iter()
            .enumerate()
            .map(|(at, inner)| (format!("{path}[]"), &schema["items"], inner, Place::Item(at)))
            .collect(),
        Json::Null | Json::Bool(_) | Json::Number(_) | Json::String(_) => Vec::new(),
    }
}

enum Place {
    Key(String),
    Item(usize),
}

/// All changes to a value, inside its keys and items as well.
fn changes(root: &Json, schema: &Json, value: &Json, path: &str) -> Vec<Change> {
    let schema = resolved(root, schema);
    if branches(schema).next().is_some() {
        let mut all = of_other_types(root, schema, path);
        let fits = branches(schema).filter(|one| is_valid(root, one, value));
        // Another type is refused by the whole, not by one branch.
        all.extend(
            fits.flat_map(|one| changes(root, one, value, path)).filter(|(_, other, _)| same_type(other, value)),
        );
        return all;
    }
    let mut all = own_changes(root, schema, value, path);
    for (path, schema, inner, place) in inside(schema, value, path) {
        for (what, changed, fits) in changes(root, schema, inner, &path) {
            let mut whole = value.clone();
            match &place {
                Place::Key(name) => whole[name] = changed,
                Place::Item(at) => whole[*at] = changed,
            }
            all.push((what, whole, fits));
        }
    }
    all
}

/// The keys and types of a value. Values alike in them are refused and taken alike.
fn outline(value: &Json) -> String {
    let within = |all: BTreeSet<String>| all.into_iter().collect::<Vec<_>>().join(",");
    match value {
        Json::Object(all) => {
            format!("{{{}}}", within(all.iter().map(|(key, one)| format!("{key}:{}", outline(one))).collect()))
        }
        Json::Array(all) => format!("[{}]", within(all.iter().map(outline).collect())),
        Json::String(_) => "s".into(),
        Json::Number(_) => "n".into(),
        Json::Bool(_) => "b".into(),
        Json::Null => "0".into(),
    }
}

/// Makes every change to a value and asks its schema. Where forms compete, the whole of them is asked: what one refuses
/// another might take.
fn try_changes(root: &Json, schema: &Json, value: &Json, path: &str, tried: &mut BTreeMap<String, usize>) {
    let key = format!("{schema}{}", outline(value));
    if tried.contains_key(&key) {
        return;
    }
    let inner = resolved(root, schema);
    let is_choice = branches(inner).next().is_some();
    let all = if is_choice { changes(root, inner, value, path) } else { own_changes(root, inner, value, path) };
    for (what, other, fits) in &all {
        assert_eq!(is_valid(root, inner, other), *fits, "{what}: {other}");
    }
    tried.insert(key, all.len());
    if !is_choice {
        for (path, schema, value, _) in inside(inner, value, path) {
            try_changes(root, schema, value, &path, tried);
        }
    }
}

/// In each reply of every kind: a required key dropped, a key added and a value of another type are refused; an optional
/// key may go. The schema of the place decides which is which.
#[test]
fn a_spoiled_reply_is_refused() {
    let schema = schema();
    let mut tried = BTreeMap::new();
    for reply in replies() {
        let kind = reply["reply"].as_str().unwrap();
        try_changes(&schema, &json!({ "$ref": format!("#/$defs/reply.{kind}") }), reply, kind, &mut tried);
    }
    let count: usize = tried.values().sum();
    assert!(count > 5000, "{count} spoiled values");
}

/// Every key that a shape declares optional is there in some reply, and left out in some other.
#[test]
fn optional_keys_are_there_and_are_not() {
    let schema = schema();
    let mut met: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    replies().iter().for_each(|reply| meet(&schema, of_kind(&schema, reply), reply, &mut met));
    let mut lacking = Vec::new();
    for (name, shape) in schema["$defs"].as_object().unwrap() {
        let Some(properties) = shape["properties"].as_object() else { continue };
        let required: BTreeSet<&str> = shape["required"].as_array().unwrap().iter().filter_map(Json::as_str).collect();
        for key in properties.keys().filter(|key| !required.contains(key.as_str()) && *key != "printed") {
            let met: &BTreeSet<&str> = &met.remove(&format!("{name}.{key}")).unwrap_or_default();
            if met.len() < 2 && name != "reply.picked_up" {
                lacking.push(format!("{name}.{key} {met:?}"));
            }
        }
    }
    assert!(lacking.is_empty(), "{lacking:#?}");
}

/// Notes which keys of the definitions that a value goes through are there.
fn meet<'a>(root: &'a Json, schema: &'a Json, value: &Json, met: &mut BTreeMap<String, BTreeSet<&'static str>>) {
    if let Some(name) = schema.get("$ref").and_then(Json::as_str).and_then(|text| text.strip_prefix("#/$defs/")) {
        let inner = &root["$defs"][name];
        note(name, inner, value, met);
        return meet(root, inner, value, met);
    }
    if let Some(name) = value.get("reply").and_then(Json::as_str) {
        note(&format!("reply.{name}"), schema, value, met);
    }
    for one in ["anyOf", "oneOf"].iter().filter_map(|word| schema.get(word)?.as_array()).flatten() {
        if is_valid(root, one, value) {
            meet(root, one, value, met);
        }
    }
    match value {
        Json::Object(object) => {
            for (name, inner) in object {
                let of = schema["properties"].get(name).or_else(|| schema.get("additionalProperties"));
                if let Some(of) = of.filter(|of| of.is_object()) {
                    meet(root, of, inner, met);
                }
            }
        }
        Json::Array(items) => {
            if let Some(of) = schema.get("items") {
                items.iter().for_each(|item| meet(root, of, item, met));
            }
        }
        Json::Null | Json::Bool(_) | Json::Number(_) | Json::String(_) => {}
    }
}

fn note(name: &str, schema: &Json, value: &Json, met: &mut BTreeMap<String, BTreeSet<&'static str>>) {
    let keys = schema["properties"].as_object().into_iter().flat_map(Map::keys);
    for key in keys {
        let is = if value.get(key).is_some() { "there" } else { "left out" };
        met.entry(format!("{name}.{key}")).or_default().insert(is);
    }
}
