//! A row that is written as a JSON object.

use std::fmt;

use serde::de::{Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;

use crate::diag::{Diagnostic, Span, codes};

/// The form of a line, for messages.
const FORM: &str = r#"{"name": "heron", "art": "16 x 20 x 3/4"}"#;

/// A key with its value as text; the span is that of the value.
pub(super) struct Entry {
    pub(super) key: String,
    pub(super) text: String,
    pub(super) span: Span,
}

struct Entries<'t>(Vec<(String, &'t RawValue)>);

impl<'t> serde::Deserialize<'t> for Entries<'t> {
    fn deserialize<D: Deserializer<'t>>(deserializer: D) -> Result<Self, D::Error> {
        struct Keys;
        impl<'t> Visitor<'t> for Keys {
            type Value = Entries<'t>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object of names and values")
            }
            fn visit_map<A: MapAccess<'t>>(self, mut map: A) -> Result<Self::Value, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = map.next_entry::<String, &RawValue>()? {
                    entries.push(entry);
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(Keys)
    }
}

/// The keys and values of a line; those that are `null` are left out.
///
/// # Errors
/// The line is not an object; a key that is there twice; a value that is a list or an object.
pub(super) fn entries(text: &str) -> Result<Vec<Entry>, Diagnostic> {
    let Entries(read) = serde_json::from_str::<Entries>(text).map_err(|error| {
        let at = error.column().saturating_sub(1).min(text.len());
        // The library's message ends in a place, which carets show here.
        let said = error.to_string();
        let said = said.split(" at line ").next().unwrap_or_default();
        Diagnostic::of(&codes::table::JSON, format!("this line is not a JSON object, as in {FORM}: {said}"))
            .at(at..text.len().min(at + 1))
    })?;
    let mut entries: Vec<Entry> = Vec::new();
    for (key, raw) in read {
        let raw = raw.get();
        let start = raw.as_ptr().addr().saturating_sub(text.as_ptr().addr());
        let span = start..start + raw.len();
        if entries.iter().any(|entry| entry.key == key) {
            return Err(Diagnostic::of(&codes::table::JSON, format!("{key} is there twice")).at(span));
        }
        let value = match raw.as_bytes().first() {
            Some(b'n') => continue,
            Some(b'"') => serde_json::from_str::<String>(raw).unwrap_or_default(),
            Some(b'{' | b'[') => {
                let message = format!("{key} takes a text or a number, not a list or an object");
                return Err(Diagnostic::of(&codes::table::JSON, message).at(span));
            }
            _ => raw.to_string(),
        };
        entries.push(Entry { key, text: value.trim().into(), span });
    }
    Ok(entries)
}
