//! What a line answers, as a page.

mod book;
mod changed;
mod engineering;
mod help;
mod lists;
mod plan;
mod sheet;
mod whole;
mod why;

use super::text::{Label, Text};
use super::{Page, tape};
use crate::lang::Value;
use crate::measure::write::{Manner, ROUGHLY, percent};
use crate::measure::{Kind, Quantity};
use crate::rules::{Answer, Datum, Design, Known, Slot, Type};
use crate::session::Reply;
use crate::show::spoken;

pub use plan::{Asked, plan, plan_pages, unplanned};
pub use sheet::sheet;

/// The page of a reply, for a terminal of `width` columns.
///
/// A page is laid out when it is rendered; only the drawing of a tape needs the width before.
pub fn page(reply: &Reply, manner: &Manner, width: usize) -> Page {
    match reply {
        Reply::Nothing | Reply::Quit | Reply::Ran => Page::new(),
        Reply::Value(value) => of_value(value, manner),
        Reply::Known { answer, .. } => Page::new().text(of_answer(answer, manner)),
        Reply::Changed(changed) => changed::page(changed),
        Reply::Sheet(design, style) => sheet(design, style.as_deref()),
        Reply::Why(design, steps) => why::page(design, steps),
        Reply::Tape(length) => tape::tape(length, manner, width).unwrap_or_default(),
        Reply::Page(design, name) => engineering::page(design, name),
        Reply::Hang { designs, places } => engineering::hang(designs, places.as_ref(), manner),
        Reply::Tolerance(design, about) => engineering::tolerance(design, *about),
        Reply::Parts(parts, stops) => findings(lists::parts(parts, manner), stops),
        Reply::Plan(planned) => whole::page(planned, manner, width),
        Reply::Stock { rack, said } => whole::stock(rack, said.as_deref(), manner),
        Reply::Written { what, file, stops } => {
            findings(Page::new().text(Text::of(Label::Good, format!("{what} written to {file}"))), stops)
        }
        Reply::Figures(design) => lists::figures(design),
        Reply::Checked(checked) => lists::checked(checked),
        Reply::Styles(styles) => lists::styles(styles),
        Reply::Shop { settings, shown, file } => lists::shop(settings, shown, file.as_deref()),
        Reply::Book(booked) => book::page(booked, manner),
        Reply::Help(help) => help::page(help, manner),
    }
}

fn of_value(value: &Value, manner: &Manner) -> Page {
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

fn of_answer(answer: &Answer, manner: &Manner) -> Text {
    match answer {
        Answer::Quantity(drawn, None) => quantity_text(drawn, manner),
        Answer::Quantity(drawn, Some(cut)) => {
            let text = quantity_text(cut, manner);
            let drawn = manner.short(drawn);
            if alike(&drawn, &manner.short(cut)) { text } else { text.and(Label::Dim, format!("   drawn {drawn}")) }
        }
        Answer::Share(_) | Answer::Text(_) | Answer::List(_) => Text::of(Label::Value, in_short(answer, manner)),
        Answer::Size(extents) => {
            let other: Vec<String> = extents.iter().map(|extent| manner.other(extent).replace(" mm", "")).collect();
            let unit = if manner.graduation.metric { "" } else { " mm" };
            Text::of(Label::Value, in_short(answer, manner))
                .and(Label::Plain, "   ")
                .and(Label::Other, format!("{}{unit}", other.join(" x ")))
        }
    }
}

/// A value in a list: as drawn, in the bench unit alone.
fn in_short(answer: &Answer, manner: &Manner) -> String {
    let each = |several: &mut dyn Iterator<Item = String>, between: &str| several.collect::<Vec<_>>().join(between);
    match answer {
        Answer::Quantity(drawn, _) => manner.short(drawn),
        Answer::Share(share) => percent(&share.amount),
        Answer::Text(text) => text.to_string(),
        Answer::List(several) => each(&mut several.iter().map(|one| in_short(one, manner)), ", "),
        Answer::Size(extents) => each(&mut extents.iter().map(|extent| manner.short(extent)), " x "),
    }
}

/// The made value of a name, the same in the other unit, and the drawn one where it is another.
struct Shown {
    value: String,
    other: String,
    drawn: Option<String>,
}

fn shown(design: &Design, slot: Slot, known: &Known) -> Shown {
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

/// Whether two values are the same as far as they are shown.
fn alike(one: &str, other: &str) -> bool {
    one.trim_start_matches(ROUGHLY) == other.trim_start_matches(ROUGHLY)
}

/// The cautions that apply, and whom they defer to.
fn cautioned(page: Page, cautions: &[&str]) -> Page {
    if cautions.is_empty() {
        return page;
    }
    let page =
        cautions.iter().fold(page.heading("Cautions"), |page, caution| page.text(Text::of(Label::Dim, *caution)));
    page.text(Text::of(Label::Dim, "Local codes and licensed trades come first."))
}

/// The findings of a design, each with the line that would mend it.
fn findings<'a>(page: Page, findings: impl IntoIterator<Item = &'a crate::rules::Finding>) -> Page {
    use crate::rules::Level;
    findings.into_iter().fold(page, |page, finding| {
        let label = match finding.level {
            Level::Stop => Label::Stop,
            Level::Warn => Label::Warn,
            Level::Note => Label::Note,
        };
        let page = page.said(label, &spoken(&finding.says));
        match &finding.mend {
            Some(line) => page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line)),
            None => page,
        }
    })
}
