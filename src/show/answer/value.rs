//! Values, answers and figures as text.

use crate::lang::Value;
use crate::measure::write::{Manner, ROUGHLY, percent};
use crate::measure::{Kind, Quantity};
use crate::rules::{Answer, Datum, Design, Known, Slot, Type};
use crate::show::Page;
use crate::show::text::{Label, Text};

pub(super) fn of_value(value: &Value, manner: &Manner) -> Page {
    match value {
        Value::Nothing => Page::new(),
        Value::Quantity(quantity) => Page::new().text(quantity_text(quantity, manner)),
        Value::Size(_)
        | Value::Truth(_)
        | Value::Text(_)
        | Value::List(_)
        | Value::Map(_)
        | Value::Design(_)
        | Value::Shown(_) => text_of(value, manner).lines().fold(Page::new(), Page::text),
    }
}

/// A value as text in one unit, as `print` and lists show it.
pub fn text_of(value: &Value, manner: &Manner) -> String {
    match value {
        Value::Nothing => String::new(),
        Value::Truth(truth) => truth.to_string(),
        Value::Quantity(quantity) => manner.short(quantity),
        Value::Size(size) => {
            let extents = [Some(&size.width), Some(&size.height), size.depth.as_ref()];
            extents.into_iter().flatten().map(|extent| manner.short(extent)).collect::<Vec<_>>().join(" x ")
        }
        Value::Text(text) | Value::Shown(text) => text.clone(),
        Value::List(values) => {
            let values: Vec<String> = values.iter().map(|value| within(value, manner)).collect();
            format!("[{}]", values.join(", "))
        }
        Value::Map(entries) => {
            let entries: Vec<String> =
                entries.iter().map(|(name, value)| format!("{name}: {}", within(value, manner))).collect();
            format!("#{{{}}}", entries.join(", "))
        }
        Value::Design(_) => "design".into(),
    }
}

/// A value inside a list: text in quotes, nothing as `()`.
fn within(value: &Value, manner: &Manner) -> String {
    match value {
        Value::Text(text) => format!("{text:?}"),
        Value::Nothing => "()".into(),
        Value::Truth(_)
        | Value::Quantity(_)
        | Value::Size(_)
        | Value::List(_)
        | Value::Map(_)
        | Value::Design(_)
        | Value::Shown(_) => text_of(value, manner),
    }
}

/// A quantity with the other unit beside it.
fn quantity_text(quantity: &Quantity, manner: &Manner) -> Text {
    let text = Text::of(Label::Value, manner.short(quantity));
    if quantity.kind == Kind::LENGTH {
        text.and(Label::Plain, "   ").and(Label::Other, manner.other(quantity))
    } else {
        text
    }
}

pub(super) fn of_answer(answer: &Answer, manner: &Manner) -> Text {
    match answer {
        Answer::Quantity(drawn, None) => quantity_text(drawn, manner),
        Answer::Quantity(drawn, Some(cut)) => {
            let text = quantity_text(cut, manner);
            let drawn = manner.short(drawn);
            if alike(&drawn, &manner.short(cut)) { text } else { text.and(Label::Dim, format!("   drawn {drawn}")) }
        }
        Answer::Share(_) | Answer::Text(_) | Answer::List(_) => Text::of(Label::Value, in_short(answer, manner)),
        Answer::Size(extents) => {
            let text = Text::of(Label::Value, in_short(answer, manner));
            text.and(Label::Plain, "   ").and(Label::Other, size_otherwise(extents, manner))
        }
    }
}

/// A size in the other unit, which it names once.
pub(super) fn size_otherwise(extents: &[Quantity], manner: &Manner) -> String {
    let other: Vec<String> = extents.iter().map(|extent| manner.other(extent).replace(" mm", "")).collect();
    let unit = if manner.graduation.metric { "" } else { " mm" };
    format!("{}{unit}", other.join(" x "))
}

/// A value in a list: as drawn, in the bench unit alone.
pub(super) fn in_short(answer: &Answer, manner: &Manner) -> String {
    let each = |several: &mut dyn Iterator<Item = String>, between: &str| several.collect::<Vec<_>>().join(between);
    match answer {
        Answer::Quantity(drawn, _) => manner.short(drawn),
        Answer::Share(share) => percent(&share.amount),
        Answer::Text(text) => text.to_string(),
        Answer::List(several) => each(&mut several.iter().map(|one| in_short(one, manner)), ", "),
        Answer::Size(extents) => each(&mut extents.iter().map(|extent| manner.short(extent)), " x "),
    }
}

/// The made value of a name, the value in the other unit, and the drawn value if it differs.
pub(super) struct Shown {
    pub(super) value: String,
    pub(super) other: String,
    pub(super) drawn: Option<String>,
}

pub(super) fn shown(design: &Design, slot: Slot, known: &Known) -> Shown {
    let of = design.book().name(slot).of;
    let value = design.show(known.made(), of);
    let other = match (known.made(), of) {
        (Datum::Amount(amount), Type::Quantity(Kind::LENGTH)) => {
            design.manner().other(&Quantity::inches(amount.clone()))
        }
        _ => String::new(),
    };
    let drawn = known.cut.as_ref().map(|_| design.show(&known.drawn, of));
    let drawn = drawn.filter(|drawn| !alike(drawn, &value));
    Shown { value, other, drawn }
}

/// A source as a framer reads it. The rules note whether a source was read or is from memory; where the trade alone knows,
/// they say so twice.
pub(super) fn cited(source: &str) -> String {
    source
        .replace(" (read)", "")
        .replace(" (memory)", ", from memory")
        .replace("common practice, no source", "common practice")
}

/// Whether two values are the same as far as they are shown.
fn alike(one: &str, other: &str) -> bool {
    one.trim_start_matches(ROUGHLY) == other.trim_start_matches(ROUGHLY)
}
