//! Values as text, as shown and as typed.

use rhai::{Array, Dynamic, FnPtr, Map};

use super::design::Design;
use super::limits::Reached;
use super::stack;
use super::trouble::Raised;
use super::value::{to_quantity, to_text};
use crate::measure::write::{Manner, exactly};
use crate::measure::{Kind, Quantity, Size};

/// `value` inside a text: a length on the tape of the bench, text without quotes, nothing as an empty text.
///
/// # Errors
/// The value is nested too deep.
pub fn shown(value: &Dynamic, manner: &Manner) -> Result<String, Reached> {
    if let Some(text) = to_text(value) {
        return Ok(text.into());
    }
    if value.is_unit() { Ok(String::new()) } else { within(value, manner) }
}

/// `value` inside a list: text in quotes, nothing as `()`.
fn within(value: &Dynamic, manner: &Manner) -> Result<String, Reached> {
    if stack::is_used_up() {
        return Err(Reached::Stack);
    }
    if let Some(quantity) = to_quantity(value) {
        return Ok(manner.short(&quantity));
    }
    if let Some(text) = to_text(value) {
        return Ok(format!("{:?}", text.as_str()));
    }
    if let Some(size) = value.read_lock::<Size>() {
        return Ok(sides(&size, |side| manner.short(side)));
    }
    if let Ok(list) = value.as_array_ref() {
        return shown_list(&list, manner);
    }
    if let Ok(map) = value.as_map_ref() {
        return shown_map(&map, manner);
    }
    Ok(of_the_rest(value))
}

fn shown_list(list: &Array, manner: &Manner) -> Result<String, Reached> {
    let entries = list.iter().map(|entry| within(entry, manner)).collect::<Result<Vec<_>, _>>()?;
    Ok(format!("[{}]", entries.join(", ")))
}

fn shown_map(map: &Map, manner: &Manner) -> Result<String, Reached> {
    let entry = |(name, value)| Ok(format!("{name}: {}", within(value, manner)?));
    Ok(format!("#{{{}}}", map.iter().map(entry).collect::<Result<Vec<_>, Reached>>()?.join(", ")))
}

fn of_the_rest(value: &Dynamic) -> String {
    if let Some(function) = value.read_lock::<FnPtr>() {
        return if function.is_anonymous() { "function".into() } else { function.fn_name().into() };
    }
    if let Some(raised) = value.read_lock::<Raised>() {
        return raised.to_string();
    }
    if value.is::<Design>() {
        return "design".into();
    }
    if value.is_unit() { "()".into() } else { value.to_string() }
}

/// The lengths of a size, joined by `x`.
pub fn sides(size: &Size, side: impl Fn(&Quantity) -> String) -> String {
    let sides = [Some(&size.width), Some(&size.height), size.depth.as_ref()];
    sides.into_iter().flatten().map(side).collect::<Vec<_>>().join(" x ")
}

/// `value` as one could type it, if that is short enough.
pub fn typed(value: &Dynamic) -> Option<String> {
    if let Some(quantity) = to_quantity(value) {
        return typed_quantity(&quantity);
    }
    if let Some(text) = to_text(value) {
        return (text.len() <= 40).then(|| format!("{:?}", text.as_str()));
    }
    if let Some(size) = value.read_lock::<Size>() {
        return Some(sides(&size, exactly));
    }
    value.as_bool().ok().map(|truth| truth.to_string())
}

/// A quantity as one could type it, if that is short enough.
pub fn typed_quantity(quantity: &Quantity) -> Option<String> {
    let text = exactly(quantity);
    (text.len() <= 40 && quantity.kind.row().is_some()).then_some(text)
}

/// The plain number `bare` with the usual unit of `kind`, which was most likely meant.
pub fn with_unit(bare: &Quantity, kind: Kind) -> Option<String> {
    if bare.kind != Kind::NUMBER || kind == Kind::NUMBER {
        return None;
    }
    typed_quantity(&Quantity::new(bare.amount.clone(), kind))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Real;

    fn inches(n: i64, d: i64) -> Dynamic {
        Dynamic::from(Quantity::inches(Real::ratio(n, d)))
    }

    #[test]
    fn values_are_shown_and_typed() {
        let manner = Manner::default();
        let list = Dynamic::from_array(vec![inches(91, 8), "a".into(), 3.into(), Dynamic::UNIT]);
        assert_eq!(shown(&list, &manner).unwrap(), r#"[11 3/8", "a", 3, ()]"#);
        assert_eq!(shown(&"a".into(), &manner).unwrap(), "a");
        let size =
            Size { width: Quantity::inches(Real::whole(18)), height: Quantity::inches(Real::ratio(1, 3)), depth: None };
        assert_eq!(typed(&Dynamic::from(size)).unwrap(), r#"18" x 1/3in"#);
        assert_eq!(with_unit(&Quantity::number(Real::whole(5)), Kind::LENGTH).unwrap(), "5\"");
        assert_eq!(with_unit(&Quantity::inches(Real::ONE), Kind::LENGTH), None);
    }
}
