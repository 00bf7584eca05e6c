//! A notation for tests alone: enough for the examples of the table, none of the real one's rules.

use crate::measure::{Kind, Real, Unit};

/// Puts constructors in the place of dimensions such as `11 3/8"`, `12lb 4oz`, `18" x 24"`.
pub(crate) fn notate(line: &str) -> String {
    let mut result = String::new();
    let mut rest = line;
    let mut before = ' ';
    while let Some(first) = rest.chars().next() {
        let starts = first.is_ascii_digit() && !before.is_alphanumeric() && before != '_' && before != '.';
        if starts && let Some((script, taken)) = dimension(rest) {
            result.push_str(&script);
            rest = &rest[taken..];
            before = ')';
        } else if matches!(first, '"' | '`') {
            let taken = quoted(rest, first);
            result.push_str(&rest[..taken]);
            rest = &rest[taken..];
            before = first;
        } else {
            result.push(first);
            rest = &rest[first.len_utf8()..];
            before = first;
        }
    }
    result
}

fn quoted(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (index, letter) in text.char_indices().skip(1) {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            _ if letter == quote => return index + 1,
            _ => {}
        }
    }
    text.len()
}

/// One quantity or a size of them at the beginning of `text`, as a script, and its length.
fn dimension(text: &str) -> Option<(String, usize)> {
    let (first, mut taken) = quantity(text)?;
    let mut sides = vec![first];
    while let Some(next) = text[taken..].strip_prefix(" x ")
        && let Some((side, length)) = quantity(next)
    {
        sides.push(side);
        taken += 3 + length;
    }
    Some(if sides.len() == 1 { (sides.remove(0), taken) } else { (format!("__size({})", sides.join(",")), taken) })
}

/// Amounts with units, added up: `12lb 4oz`.
fn quantity(text: &str) -> Option<(String, usize)> {
    let (kind, mut sum, mut taken) = part(text)?;
    while let Some(next) = text[taken..].strip_prefix(' ')
        && let Some((more, amount, length)) = part(next)
        && more == kind
    {
        sum = sum + amount;
        taken += 1 + length;
    }
    let (above, below) = sum.to_parts()?;
    Some((format!("__qty(\"{kind}\",{above},{below})"), taken))
}

fn part(text: &str) -> Option<(Kind, Real, usize)> {
    let (amount, taken) = amount(text)?;
    let rest = &text[taken..];
    let word = rest.find(|letter: char| !letter.is_ascii_alphanumeric()).unwrap_or(rest.len());
    let name = if rest.starts_with(['"', '\'']) { &rest[..1] } else { &rest[..word] };
    let unit = Unit::named(name)?;
    Some((unit.kind, unit.to_storage(amount), taken + name.len()))
}

fn digits(text: &str) -> usize {
    text.find(|letter: char| !letter.is_ascii_digit() && letter != '.').unwrap_or(text.len())
}

/// `11`, `3/8`, `11 3/8`, `0.5`.
fn amount(text: &str) -> Option<(Real, usize)> {
    let whole = digits(text);
    let value = Real::from_decimal(&text[..whole])?;
    let fraction = |text: &str| {
        let above = digits(text);
        let below = text.get(above..)?.strip_prefix('/')?;
        let length = digits(below);
        let value = Real::from_decimal(&text[..above])? / Real::from_decimal(&below[..length])?;
        Some((value, above + 1 + length))
    };
    if let Some(found) = fraction(text) {
        return Some(found);
    }
    match text[whole..].strip_prefix(' ').and_then(fraction) {
        Some((part, length)) => Some((value + part, whole + 1 + length)),
        None => Some((value, whole)),
    }
}

#[test]
fn enough_for_the_examples() {
    assert_eq!(notate("11 3/8\" + 5"), "__qty(\"length\",91,8) + 5");
    assert_eq!(notate("f(12lb 4oz, \"5\\\" x\")"), "f(__qty(\"mass\",49,4), \"5\\\" x\")");
    assert_eq!(notate("9\" x 12\""), "__size(__qty(\"length\",9,1),__qty(\"length\",12,1))");
    assert_eq!(notate("x1 + 7/2"), "x1 + 7/2");
}
