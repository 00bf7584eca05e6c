//! Parts of a design and what its checks say, as maps for scripts.

use crate::lang::Value;
use crate::measure::Size;
use crate::rules::Finding;
use crate::shop::{Part, Shape};

/// A part: what `parts` in the table of functions says stands in it.
pub(super) fn of_part(part: &Part) -> Value {
    let text = |text: &str| Value::Text(text.into());
    let shared = |rest: Vec<(&str, Value)>| {
        let own =
            [("name", text(&part.name)), ("quantity", Value::count(part.quantity)), ("material", text(&part.material))];
        Value::Map(own.into_iter().chain(rest).map(|(name, value)| (name.to_string(), value)).collect())
    };
    let sizes = part.sizes().into_iter().map(|(name, size)| (name, Value::Quantity(size.clone())));
    match &part.shape {
        Shape::Sheet(_) => shared(sizes.chain([("cut_from", text("sheet"))]).collect()),
        Shape::Stick(stick) => {
            let section = stick.section.clone();
            let section =
                section.map_or(Value::Nothing, |(width, height)| Value::Size(Size { width, height, depth: None }));
            let own = [("cut_from", text("stick")), ("section", section), ("show", text(&stick.show))];
            shared(sizes.chain(own).collect())
        }
    }
}

/// What a check says.
#[expect(clippy::disallowed_methods, reason = "what a script asks for, it shows")]
pub(super) fn of_finding(finding: &Finding) -> Value {
    let text = |text: &str| Value::Text(text.into());
    Value::map([
        ("level", Value::Text(finding.level.to_string())),
        ("name", text(&finding.name)),
        ("says", Value::Text(finding.says.text())),
        ("mend", finding.mend.as_deref().map_or(Value::Nothing, text)),
    ])
}
