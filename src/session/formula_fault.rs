//! Faults of formulas and conditions, with fixes.

use crate::diag::{Diagnostic, Fix, codes};
use crate::rules::{Book, Condition, Type};

/// A finding about a condition, with a readable condition as its fix, if one is known.
pub(super) fn mended(found: Diagnostic, condition: &str, rules: &Book, unit: &str) -> Diagnostic {
    let found = with_unit(found, condition, unit);
    match meant(&found, condition, rules) {
        Some(instead) => Diagnostic { fixes: vec![Fix::Value(instead)], ..found },
        None => found,
    }
}

/// The text to put in place of a fault: a word in quotes, or a comparison with the name.
fn meant(found: &Diagnostic, condition: &str, rules: &Book) -> Option<String> {
    let at = condition.get(found.span.clone()?)?;
    let instead = if found.code == &codes::rules::NAME_UNKNOWN {
        format!("\"{at}\"")
    } else if found.code == &codes::rules::CONDITION_WANTED {
        compared(at, rules)?
    } else {
        return None;
    };
    let reads = |line: &String| Condition::read(line, rules).is_ok();
    Fix::Value(instead.clone()).line(condition, found.span.as_ref()).filter(reads).map(|_| instead)
}

/// A comparison of a name with a possible value.
fn compared(name: &str, rules: &Book) -> Option<String> {
    let slot = rules.slot(name)?;
    match rules.name(slot).of {
        Type::Quantity(_) | Type::Whole | Type::Share => Some(format!("given({name})")),
        Type::Word => {
            let build = rules.build(rules.builds_with(slot).first()?)?;
            let words = rules.rule(build, slot).and_then(|rule| rules.words(rule))?;
            words.last().map(|word| format!("{name} == \"{word}\""))
        }
        Type::Text => Some(format!("{name} == \"\"")),
        Type::List(_) | Type::Record(_) | Type::Truth | Type::Size | Type::Nothing => None,
    }
}

/// A finding about a formula, with the unit of the bench as the fix for a bare number beside a length.
pub(super) fn with_unit(found: Diagnostic, formula: &str, unit: &str) -> Diagnostic {
    let at = found.span.clone().and_then(|span| formula.get(span)).unwrap_or_default();
    let bare = found.code == &codes::rules::UNIT_MISSING && at.ends_with(|last: char| last.is_ascii_digit());
    let instead = format!("{at}{unit}");
    if bare { Diagnostic { fixes: vec![Fix::Value(instead)], ..found } } else { found }
}
