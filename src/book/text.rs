//! Designs as text that a person can read and that reads back as exactly the same design.
//!
//! Each line is a name, a space and a value in the ordinary notation. `~` marks a value that went through a root or a sine;
//! text is in quotes, its line ends and control letters escaped as in JSON; a figure of the design's own is its formula as
//! text, under its name with `figure.` before it; a figure whose made size differs from the drawn one has ` made ` and the
//! made size after it. The first line is the build; the others are in alphabetical order, so that the same design always
//! gives the same text.

use std::collections::BTreeMap;

use crate::diag::{Diagnostic, Says, says};
use crate::measure::read::quantity;
use crate::measure::write::{ROUGHLY, exactly};
use crate::measure::{Kind, Quantity, Real};
use crate::rules::{BUILD, Datum, Design, FIGURE, Input, Known, Slot, Type};

/// The mark between the drawn and the made size of a figure.
const MADE: &str = " made ";

/// The fields of a design that are set.
pub fn fields(design: &Design) -> String {
    let book = design.book();
    let mut text = format!("{BUILD} {}\n", design.build_name());
    // The default build may change, so the build is saved even if nobody set it.
    for slot in book.sorted.iter().filter(|slot| book.build_field != Some(**slot)) {
        let name = book.name(*slot);
        if let Some(given) = design.given(*slot).filter(|_| !name.is_of_the_shop()) {
            push(&mut text, &name.text, &write(given, name.of));
        }
    }
    for (name, formula) in design.own_figures() {
        push(&mut text, &format!("{FIGURE}{name}"), &quoted(formula));
    }
    text
}

/// All other known values of a design: defaults and figures, drawn and made, without texts.
pub fn figures(design: &Design) -> String {
    let book = design.book();
    let mut text = String::new();
    for slot in &book.sorted {
        let name = book.name(*slot);
        let gathers = design.rule(*slot).is_none_or(|rule| rule.gather.is_some());
        if gathers || matches!(name.of, Type::Text | Type::Size | Type::Record(_)) || name.is_of_the_shop() {
            continue;
        }
        if let Ok(known) = design.known(*slot) {
            push(&mut text, &name.text, &write_known(&known, name.of));
        }
    }
    text
}

fn push(text: &mut String, name: &str, value: &str) {
    text.push_str(name);
    text.push(' ');
    text.push_str(value);
    text.push('\n');
}

fn write_known(known: &Known, of: Type) -> String {
    let drawn = write(&known.drawn, of);
    match &known.cut {
        Some(cut) => format!("{drawn}{MADE}{}", write(cut, of)),
        None => drawn,
    }
}

/// A value in the ordinary notation.
pub(super) fn write(value: &Datum, of: Type) -> String {
    match value {
        Datum::Amount(amount) => {
            let rough = if amount.is_approximate() { ROUGHLY } else { "" };
            format!("{rough}{}", exactly(&Quantity::new(amount.clone(), kind_of(of))))
        }
        Datum::Word(word) if of == Type::Text => quoted(word),
        Datum::Word(word) => word.to_string(),
        Datum::Truth(truth) => truth.to_string(),
        Datum::List(list) => {
            let each = list.iter().map(|one| write(&Datum::Amount(one.clone()), of));
            each.collect::<Vec<_>>().join(", ")
        }
        // The parts of a function's result are values of their own.
        Datum::Record(_) => String::new(),
    }
}

fn kind_of(of: Type) -> Kind {
    if let Type::Quantity(kind) | Type::List(kind) = of { kind } else { Kind::NUMBER }
}

/// A text in quotes, on one line.
pub fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

/// The text that [`quoted`] wrote.
pub fn unquoted(text: &str) -> Option<String> {
    serde_json::from_str(text).ok()
}

/// Reads a value that [`fields`] wrote.
pub fn read(text: &str, of: Type) -> Option<Datum> {
    match of {
        Type::Quantity(_) | Type::Whole | Type::Share => amount(text, kind_of(of)).map(Datum::Amount),
        Type::List(kind) => {
            let each = text.split(", ").filter(|one| !one.is_empty()).map(|one| amount(one, kind));
            each.collect::<Option<Vec<_>>>().map(|list| Datum::List(list.into()))
        }
        Type::Text => unquoted(text).map(|text| Datum::Word(text.as_str().into())),
        Type::Word => (!text.is_empty()).then(|| Datum::Word(text.into())),
        Type::Truth => text.parse().ok().map(Datum::Truth),
        Type::Size | Type::Record(_) | Type::Nothing => None,
    }
}

fn amount(text: &str, kind: Kind) -> Option<Real> {
    let exact = text.strip_prefix(ROUGHLY);
    let read = quantity(exact.unwrap_or(text), None).ok().filter(|read| read.kind == kind)?;
    let amount = read.amount.check().ok()?;
    Some(if exact.is_some() { Real::approximate(amount.to_f64()) } else { amount })
}

/// Reads a value that [`figures`] wrote.
pub fn read_known(text: &str, of: Type) -> Option<Known> {
    match text.split_once(MADE).filter(|_| matches!(of, Type::Quantity(_) | Type::Whole | Type::Share | Type::List(_)))
    {
        Some((drawn, cut)) => Some(Known { drawn: read(drawn, of)?, cut: Some(read(cut, of)?) }),
        None => Some(Known { drawn: read(text, of)?, cut: None }),
    }
}

/// The lines of a text: names and values.
pub fn lines(text: &str) -> impl Iterator<Item = (&str, &str)> {
    text.lines().filter_map(|line| line.split_once(' '))
}

/// The value of a name in a text.
pub fn value<'t>(text: &'t str, name: &str) -> Option<&'t str> {
    let mut from = 0;
    while let Some(found) = text.get(from..)?.find(name) {
        let (start, end) = (from + found, from + found + name.len());
        let begins = start == 0 || text.as_bytes().get(start - 1) == Some(&b'\n');
        if begins && text.as_bytes().get(end) == Some(&b' ') {
            return text.get(end + 1..)?.lines().next();
        }
        from = end;
    }
    None
}

/// A text field as typed.
pub fn words(fields: &str, name: &str) -> String {
    value(fields, name).and_then(unquoted).unwrap_or_default()
}

/// A saved field that the rules no longer take.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// The field.
    pub name: String,
    /// The saved value.
    pub value: String,
    /// Why it is not set.
    pub why: Says,
}

/// Sets the fields of a text on a fresh design, and gives those that the rules no longer take.
pub fn design(fields: &str, mut design: Design) -> (Design, Vec<LeftOut>) {
    let mut left = Vec::new();
    let own = lines(fields).filter_map(|(name, value)| Some((name.strip_prefix(FIGURE)?.into(), unquoted(value)?)));
    let own: BTreeMap<String, String> = own.collect();
    if !own.is_empty() {
        let (with, left_out) = design.with_figures(own.clone());
        design = with;
        left.extend(left_out.into_iter().map(|(name, why)| LeftOut {
            value: own.get(&name).cloned().unwrap_or_default(),
            name: format!("{FIGURE}{name}"),
            why,
        }));
    }
    let mut leave = |name: &str, value: &str, why: Says| {
        left.push(LeftOut { name: name.into(), value: value.into(), why });
    };
    for (name, value) in lines(fields) {
        if name.starts_with(FIGURE) {
            continue;
        }
        let of = design.book().slot(name).map(|slot| design.book().name(slot).of);
        match of.map(|of| (of, read(value, of))) {
            None => leave(name, value, says!("there is no longer a field called {}", name)),
            Some((of, None)) => leave(name, value, says!("{} is now {}", name, of.with_article())),
            Some((_, Some(datum))) => design.give(name, datum),
        }
    }
    for (slot, why) in refused(&design) {
        let name = design.book().name(slot).text.clone();
        leave(&name, value(fields, &name).unwrap_or_default(), why);
        // The field is set, so it can be cleared.
        let _ = design.clear(&name);
    }
    (design, left)
}

/// Fields that the rules now refuse: a word that left its table, a range that narrowed.
fn refused(design: &Design) -> Vec<(Slot, Says)> {
    let book = design.book();
    let mut trial = design.clone();
    let mut found = Vec::new();
    for slot in &book.sorted {
        // Fields of other builds are checked when the design has those builds.
        if design.rule(*slot).is_none() {
            continue;
        }
        let name = book.name(*slot);
        let input = match design.given(*slot) {
            Some(Datum::Amount(amount)) => Input::Quantity(Quantity::new(amount.clone(), kind_of(name.of))),
            Some(Datum::Word(word)) => Input::Text(word.to_string()),
            Some(Datum::List(list)) => {
                let kind = kind_of(name.of);
                Input::List(list.iter().map(|one| Quantity::new(one.clone(), kind)).collect())
            }
            Some(Datum::Truth(_) | Datum::Record(_)) | None => continue,
        };
        if let Err(refusal) = trial.set(&name.text, input) {
            found.push((*slot, Diagnostic::from(refusal).says));
        }
    }
    found
}

/// A name whose values in two texts differ.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The name.
    pub name: String,
    /// The value in the first text, if it has one.
    pub was: Option<String>,
    /// The value in the second text, if it has one.
    pub is: Option<String>,
}

/// Every name whose values differ, in alphabetical order.
pub fn differences(was: &str, is: &str) -> Vec<Difference> {
    let mut both: BTreeMap<&str, (Option<&str>, Option<&str>)> = BTreeMap::new();
    lines(was).for_each(|(name, value)| both.entry(name).or_default().0 = Some(value));
    lines(is).for_each(|(name, value)| both.entry(name).or_default().1 = Some(value));
    let same = |was: &str, is: &str| was == is || is_close(was, is);
    both.into_iter()
        .filter(|(_, pair)| !matches!(pair, (Some(was), Some(is)) if same(was, is)))
        .map(|(name, (was, is))| Difference { name: name.into(), was: was.map(Into::into), is: is.map(Into::into) })
        .collect()
}

/// Whether two approximate values differ by less than two machines would: their sines need not agree in the last digit.
fn is_close(was: &str, is: &str) -> bool {
    let parts = |text: &str| -> Option<Vec<f64>> {
        let parts = text.split(MADE).map(|part| {
            let number = part.strip_prefix(ROUGHLY)?;
            let end = number.find(|letter: char| !(letter.is_ascii_digit() || "-.".contains(letter)));
            number.get(..end.unwrap_or(number.len()))?.parse().ok()
        });
        parts.collect()
    };
    match (parts(was), parts(is)) {
        (Some(one), Some(other)) if one.len() == other.len() => {
            one.iter().zip(&other).all(|(one, other)| (one - other).abs() <= 1e-9 * one.abs().max(1.0))
        }
        _ => false,
    }
}

/// A saved value as the bench shows it, with the made size if there are two.
pub fn shown(design: &Design, name: &str, value: &str) -> String {
    if name.starts_with(FIGURE) {
        return unquoted(value).unwrap_or_else(|| value.into());
    }
    let of = design.book().slot(name).map(|slot| design.book().name(slot).of);
    match of.and_then(|of| read_known(value, of).map(|known| (known, of))) {
        Some((known, of)) => design.show(known.made(), of),
        None => value.into(),
    }
}
