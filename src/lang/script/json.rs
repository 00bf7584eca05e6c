//! JSON as values and back.

use serde_json::{Map, Number, Value as Json};

use super::literal::sides;
use super::value::Value;
use crate::diag::{Diagnostic, codes};
use crate::measure::write::exactly;
use crate::measure::{Kind, Quantity, Real};

/// Reads a JSON text. Decimals are read exactly; texts stay texts, which `parse` can read.
///
/// # Errors
/// The text is not JSON; the fault has its place.
pub fn read_json(name: &str, text: &str) -> Result<Value, Diagnostic> {
    let json: Json = serde_json::from_str(text).map_err(|error| {
        let start: usize = text.split_inclusive('\n').take(error.line().saturating_sub(1)).map(str::len).sum();
        let at = (start + error.column().saturating_sub(1)).min(text.len());
        let error = error.to_string();
        let reason = error.split(" at line ").next().unwrap_or_default().to_string();
        Diagnostic::of(&codes::script::JSON, format!("this is not JSON: {reason}")).at(at..at).inside(name, text)
    })?;
    value(json).map_err(|why| Diagnostic::of(&codes::script::JSON, why))
}

fn value(json: Json) -> Result<Value, String> {
    Ok(match json {
        Json::Null => Value::Nothing,
        Json::Bool(truth) => Value::Truth(truth),
        Json::Number(number) => {
            let amount = decimal(&number).ok_or_else(|| format!("the number {number} is not read"))?;
            Value::Quantity(Quantity::number(amount))
        }
        Json::String(text) => Value::Text(text),
        Json::Array(several) => Value::List(several.into_iter().map(value).collect::<Result<_, _>>()?),
        Json::Object(entries) => {
            let entry = |(key, one): (String, Json)| Ok::<_, String>((key, value(one)?));
            Value::Map(entries.into_iter().map(entry).collect::<Result<_, _>>()?)
        }
    })
}

/// A number, read exactly, with its power of ten after `e`.
fn decimal(number: &Number) -> Option<Real> {
    let text = number.to_string();
    let Some((digits, power)) = text.split_once(['e', 'E']) else { return Real::from_decimal(&text) };
    let power: i32 = power.parse().ok()?;
    let ten = (0..power.unsigned_abs()).fold(Real::ONE, |product, _| product * Real::whole(10));
    let digits = Real::from_decimal(digits)?;
    Some(if power < 0 { digits / ten } else { digits * ten })
}

/// A value as JSON text. Whole numbers and finite decimals are JSON numbers; other numbers and quantities are texts
/// that `parse` reads back exactly.
///
/// # Errors
/// The value holds a design or something else that JSON does not have.
pub fn write_json(value: &Value) -> Result<String, Diagnostic> {
    let json =
        json(value).map_err(|what| Diagnostic::of(&codes::script::JSON, format!("JSON has no place for {what}")))?;
    let text =
        serde_json::to_string_pretty(&json).map_err(|error| Diagnostic::of(&codes::script::JSON, error.to_string()))?;
    Ok(text + "\n")
}

fn json(value: &Value) -> Result<Json, String> {
    Ok(match value {
        Value::Nothing => Json::Null,
        Value::Truth(truth) => Json::Bool(*truth),
        Value::Quantity(quantity) => match plain(quantity) {
            Some(number) => Json::Number(number),
            None => exactly(quantity).into(),
        },
        Value::Size(size) => sides(size, exactly).into(),
        Value::Text(text) => text.as_str().into(),
        Value::List(several) => Json::Array(several.iter().map(json).collect::<Result<_, _>>()?),
        Value::Map(entries) => {
            let entry = |(key, one): (&String, &Value)| Ok::<_, String>((key.clone(), json(one)?));
            Json::Object(entries.iter().map(entry).collect::<Result<Map<_, _>, _>>()?)
        }
        Value::Design(_) | Value::Shown(_) => return Err(value.what()),
    })
}

/// A plain number that any JSON reader reads exactly.
fn plain(quantity: &Quantity) -> Option<Number> {
    if quantity.kind != Kind::NUMBER || quantity.amount.is_approximate() {
        return None;
    }
    if let Some(whole) = quantity.amount.to_whole() {
        return Some(whole.into());
    }
    let number = Number::from_f64(quantity.amount.to_f64())?;
    (decimal(&number)? == quantity.amount).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diag::line_column;
    use crate::lang::script::tests::show;

    #[test]
    fn numbers_are_exact() {
        let shown = |text: &str| show(read_json("t.json", text).unwrap());
        assert_eq!(shown("[0.1, 2, -0.375, 1e3, 25e-1]"), "[0.1, 2, -3/8, 1000, 2 1/2]");
        assert_eq!(shown("{\"a\": \"16 3/8\\\"\", \"b\": null, \"c\": true}"), r##"#{a: "16 3/8\"", b: (), c: true}"##);
    }

    #[test]
    fn what_is_written_reads_back() {
        let text = "{\n  \"a\": [\n    1,\n    0.1,\n    \"16 3/8\\\"\"\n  ],\n  \"b\": null\n}\n";
        assert_eq!(write_json(&read_json("t.json", text).unwrap()).unwrap(), text);
        let third = Value::Quantity(Quantity::number(Real::ratio(1, 3)));
        assert_eq!(write_json(&third).unwrap(), "\"1/3\"\n");
        assert_eq!(write_json(&Value::Quantity(Quantity::inches(Real::ratio(131, 8)))).unwrap(), "\"16 3/8\\\"\"\n");
    }

    #[test]
    fn what_is_no_json_is_placed() {
        let text = "{\n  \"a\": nil\n}";
        let found = read_json("t.json", text).unwrap_err();
        assert!(found.message().starts_with("this is not JSON: "), "{}", found.message());
        assert_eq!(line_column(text, found.span.unwrap().start).0, 2);
    }
}
