//! A validator for the part of JSON Schema (2020-12) that the program's schema uses, written from the specification: a
//! keyword that it does not know fails the test.

use serde_json::Value as Json;

/// Whether a value is as a schema says; `root` holds the definitions.
pub fn is_valid(root: &Json, schema: &Json, value: &Json) -> bool {
    let schema = schema.as_object().expect("a schema is an object");
    schema.iter().all(|(keyword, wanted)| match keyword.as_str() {
        "$schema" | "$id" | "title" | "description" | "version" | "$defs" => true,
        "$ref" => is_valid(root, definition(root, wanted), value),
        "const" => value == wanted,
        "enum" => wanted.as_array().unwrap().contains(value),
        "type" => is_of_type(wanted.as_str().unwrap(), value),
        "minimum" => value.as_f64().is_none_or(|number| number >= wanted.as_f64().unwrap()),
        "pattern" => value.as_str().is_none_or(|text| is_cost(wanted.as_str().unwrap(), text)),
        "oneOf" => wanted.as_array().unwrap().iter().filter(|one| is_valid(root, one, value)).count() == 1,
        "anyOf" => wanted.as_array().unwrap().iter().any(|one| is_valid(root, one, value)),
        "not" => !is_valid(root, wanted, value),
        "items" => value.as_array().is_none_or(|items| items.iter().all(|item| is_valid(root, wanted, item))),
        "minItems" => {
            value.as_array().is_none_or(|items| u64::try_from(items.len()).unwrap() >= wanted.as_u64().unwrap())
        }
        "required" => {
            let names = wanted.as_array().unwrap().iter().map(|name| name.as_str().unwrap());
            value.as_object().is_none_or(|object| names.into_iter().all(|name| object.contains_key(name)))
        }
        "properties" => {
            let of = |(name, schema): (&String, &Json)| value.get(name).is_none_or(|one| is_valid(root, schema, one));
            !value.is_object() || wanted.as_object().unwrap().iter().all(of)
        }
        "additionalProperties" => {
            let known = schema.get("properties").and_then(Json::as_object);
            let is_known = |name: &String| known.is_some_and(|known| known.contains_key(name));
            let fits = |one: &Json| wanted.as_bool().unwrap_or_else(|| is_valid(root, wanted, one));
            value.as_object().is_none_or(|object| object.iter().all(|(name, one)| is_known(name) || fits(one)))
        }
        other => panic!("the validator does not know {other}"),
    })
}

/// What a reference leads to.
fn definition<'a>(root: &'a Json, reference: &Json) -> &'a Json {
    let name = reference.as_str().and_then(|text| text.strip_prefix("#/$defs/")).expect("a reference to a definition");
    root["$defs"].get(name).unwrap_or_else(|| panic!("{name} is not defined"))
}

fn is_of_type(name: &str, value: &Json) -> bool {
    match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        other => panic!("the validator does not know the type {other}"),
    }
}

/// The one pattern of the schema: whole digits, or digits and two decimals.
fn is_cost(pattern: &str, text: &str) -> bool {
    assert_eq!(pattern, r"^[0-9]+(\.[0-9]{2})?$");
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    match text.split_once('.') {
        Some((whole, cents)) => digits(whole) && digits(cents) && cents.len() == 2,
        None => digits(text),
    }
}

#[test]
fn the_validator_refuses() {
    let root = serde_json::json!({ "$defs": { "a": { "type": "object", "properties": { "b": { "type": "integer" } },
        "required": ["b"], "additionalProperties": false } } });
    let schema = serde_json::json!({ "$ref": "#/$defs/a" });
    let fits = |text: &str| is_valid(&root, &schema, &serde_json::from_str(text).unwrap());
    assert!(fits(r#"{"b":1}"#));
    assert!(!fits(r#"{"b":1.5}"#) && !fits(r#"{}"#) && !fits(r#"{"b":1,"c":1}"#) && !fits("[]"));
}
