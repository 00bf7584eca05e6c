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

/// The ways to spoil a value, each with what was done; only the first two entries of a list or of a map are spoiled.
fn spoiled(value: &Json, path: &str, closed: &dyn Fn(&str) -> bool) -> Vec<(String, Json)> {
    let mut all = Vec::new();
    match value {
        Json::Object(object) => {
            let is_closed = closed(path);
            if is_closed {
                let mut more = object.clone();
                more.insert("surplus".into(), json!(1));
                all.push((format!("{path} with a key more"), Json::Object(more)));
            }
            for (name, inner) in object.iter().take(if is_closed { usize::MAX } else { 2 }) {
                let within = format!("{path}.{name}");
                if is_closed {
                    let mut less = object.clone();
                    less.shift_remove(name);
                    all.push((format!("{within} left out"), Json::Object(less)));
                }
                for (what, changed) in spoiled(inner, &within, closed) {
                    let mut other = object.clone();
                    other.insert(name.clone(), changed);
                    all.push((what, Json::Object(other)));
                }
            }
            all.push((format!("{path} as a list"), json!([])));
        }
        Json::Array(items) => {
            for (at, inner) in items.iter().enumerate().take(2) {
                for (what, changed) in spoiled(inner, &format!("{path}[]"), closed) {
                    let mut other = items.clone();
                    other[at] = changed;
                    all.push((what, Json::Array(other)));
                }
            }
            all.push((format!("{path} as an object"), Json::Object(Map::new())));
        }
        Json::String(_) => all.push((format!("{path} as a number"), json!(7))),
        Json::Number(_) | Json::Bool(_) => all.push((format!("{path} as a text"), json!("7 x"))),
        Json::Null => all.push((format!("{path} as a number"), json!(7))),
    }
    all
}

/// Maps whose names are not fixed: a name more or less is not a fault.
const OPEN: &[&str] = &[
    ".fields",
    ".figures",
    ".changed",
    ".differences",
    ".names",
    ".shop",
    ".of",
    ".values",
    ".says",
    ".tolerance",
    ".value",
];

fn is_closed(reply: &Json, path: &str) -> bool {
    let kind = reply["reply"].as_str().unwrap();
    let is_map = OPEN.iter().any(|open| path.ends_with(open));
    // A finding and a tolerance by these names are facts of their own, not maps.
    !(is_map && !(path == ".tolerance" && kind == "why"))
}

/// Keys that may be left out, by the last name before them.
fn may_lack(schema: &Json) -> BTreeSet<String> {
    let mut all: BTreeSet<String> = ["approximate", "cut", "depth", "because", "printed"].map(Into::into).into();
    for (_, shape) in schema["$defs"].as_object().unwrap() {
        let required: BTreeSet<&str> =
            shape["required"].as_array().into_iter().flatten().filter_map(Json::as_str).collect();
        let names = shape["properties"].as_object().into_iter().flat_map(Map::keys);
        all.extend(names.filter(|name| !required.contains(name.as_str())).cloned());
    }
    all
}

#[test]
fn a_spoiled_reply_is_refused() {
    let schema = schema();
    let may_lack = may_lack(&schema);
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut count = 0;
    for reply in replies() {
        // A few of each kind are enough, and long ones take long.
        let kind = reply["reply"].as_str().unwrap().to_string();
        let times = seen.entry(kind).or_default();
        *times += 1;
        if *times > 3 {
            continue;
        }
        let own = of_kind(&schema, reply);
        for (what, other) in spoiled(reply, "", &|path| is_closed(reply, path)) {
            let left_out = what.strip_suffix(" left out").and_then(|path| path.rsplit('.').next());
            if left_out.is_some_and(|name| may_lack.contains(name)) {
                continue;
            }
            count += 1;
            assert!(!is_valid(&schema, own, &other), "{what}: {other}");
        }
    }
    assert!(count > 3000, "{count} spoiled replies");
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
