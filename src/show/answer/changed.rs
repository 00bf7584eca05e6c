//! The page of a change of the design.

use super::super::Page;
use super::super::finding::findings;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use super::value::{of_answer, shown};
use crate::diag::Fault;
use crate::diag::list;
use crate::measure::Real;
use crate::rules::{Absent, Aimed, Datum, Design, Known, Refusal, Slot, Way};
use crate::session::{Changed, Done};
use crate::show::spoken;

pub(super) fn page(changed: &Changed) -> Page {
    let design = &changed.design;
    let mut page = match &changed.done {
        Done::Set { name, asleep } => set_line(design, name, *asleep),
        Done::Clear(name) => Page::new().text(of_name(design, name).and(Label::Dim, "   cleared")),
        Done::Aimed { name, figure, aimed } => aimed_at(design, name, figure, aimed),
        Done::Figure(name) => {
            let page = Page::new().text(of_name(design, name));
            match design.answer(name) {
                Ok(_) => page,
                Err(refusal) => page.said(Label::Note, &spoken(&refusal.says())),
            }
        }
        Done::New => Page::new().text(Text::of(Label::Good, format!("a fresh {}", design.build_name()))),
        Done::Undo(line) => Page::new().text(Text::of(Label::Good, "undone: ").and(Label::Plain, line)),
        Done::Redo(line) => Page::new().text(Text::of(Label::Good, "redone: ").and(Label::Plain, line)),
        Done::Script => Page::new(),
    };
    let set = match &changed.done {
        Done::Set { name, .. } | Done::Clear(name) | Done::Aimed { name, .. } => design.book().slot(name),
        Done::Figure(_) | Done::New | Done::Undo(_) | Done::Redo(_) | Done::Script => None,
    };
    let known: Vec<(Slot, &Known)> = changed
        .changed
        .iter()
        .filter_map(|(slot, known)| Some((*slot, known.as_ref().ok()?)))
        .filter(|(slot, _)| !hidden(design, *slot))
        // A size, or a word with its value, is shown by its parts.
        .filter(|(slot, _)| {
            !design.rule(*slot).is_some_and(|rule| matches!(rule.gather, Some(Way::Size | Way::With | Way::Row)))
        })
        .collect();
    let parts = set.and_then(|slot| design.rule(slot)).filter(|rule| rule.gather.is_some());
    let known: Vec<(Slot, &Known)> =
        known.into_iter().filter(|(slot, _)| parts.is_none_or(|parts| !parts.reads.contains(slot))).collect();
    for (slot, known) in merged(design, &known) {
        let shown = shown(design, slot, known);
        let remark = shown.drawn.map(|drawn| format!("drawn {drawn}")).unwrap_or_default();
        page = page.row([
            Cell::of(Label::Name, format!("  {}", design.book().name(slot).text)),
            Cell::right(Text::of(Label::Value, shown.value)),
            Cell::right(Text::of(Label::Other, shown.other)).yielding(1),
            Cell::of(Label::Dim, remark).yielding(2),
        ]);
    }
    page = waiting(page, design, changed);
    for name in &changed.mended {
        page = page.text(Text::from("  ").and(Label::Good, format!("{name} no longer applies")));
    }
    findings(page, changed.findings.iter().filter(|(_, news)| *news).map(|(finding, _)| finding))
}

/// Whether a name is left out: a setting of the shop, or a name that sheets leave out.
fn hidden(design: &Design, slot: Slot) -> bool {
    design.rule(slot).is_none_or(|rule| rule.aside) || design.book().name(slot).is_of_the_shop()
}

/// Names of one rule with one value are shown once; so are the parts of a gathered name that agree.
fn merged<'a>(design: &Design, known: &[(Slot, &'a Known)]) -> Vec<(Slot, &'a Known)> {
    let rule_of = |slot: Slot| design.rule(slot).map(std::ptr::from_ref);
    let mut rows: Vec<(Slot, &Known)> = Vec::new();
    for (slot, value) in known {
        let gathered = known
            .iter()
            .any(|(other, _)| other != slot && is_around(design, *other).is_some_and(|parts| parts.contains(slot)));
        let twin = rows.iter().any(|(other, same)| rule_of(*other) == rule_of(*slot) && same.same(value));
        if !gathered && !twin {
            rows.push((*slot, value));
        }
    }
    rows
}

/// The parts of a gathered name whose sides agree.
fn is_around(design: &Design, slot: Slot) -> Option<&[Slot]> {
    design.rule(slot).filter(|rule| rule.gather == Some(Way::Around)).map(|rule| rule.reads.as_slice())
}

fn of_name(design: &Design, name: &str) -> Text {
    let text = Text::of(Label::Name, name).and(Label::Plain, "  ");
    let rule = design.book().slot(name).and_then(|slot| design.rule(slot));
    if let Some(rule) = rule.filter(|rule| matches!(rule.gather, Some(Way::With | Way::Row))) {
        let values: Vec<String> = rule.reads.iter().filter_map(|part| design.shown(*part)).collect();
        let between = if rule.gather == Some(Way::Row) { ", " } else { " " };
        return text.and(Label::Value, values.join(between));
    }
    match design.answer(name) {
        Ok(answer) => {
            let mut text = text;
            text.append(&of_answer(&answer, design.manner()));
            text
        }
        Err(Refusal::Differ { fields, .. }) => {
            let values: Vec<&str> = fields.iter().map(|(_, value)| value.as_str()).collect();
            text.and(Label::Value, values.join(", ")).and(Label::Dim, "   from the top, clockwise")
        }
        Err(_) => Text::of(Label::Name, name),
    }
}

fn set_line(design: &Design, name: &str, asleep: bool) -> Page {
    if asleep {
        let given = design.book().slot(name).and_then(|slot| design.given_text(slot)).unwrap_or_default();
        let text = Text::of(Label::Name, name).and(Label::Plain, "  ").and(Label::Value, given);
        let because = design.book().slot(name).map(|slot| design.kept_idle_by(slot)).unwrap_or_default();
        let because: Vec<String> = because.iter().map(|(name, value)| format!("{name} is {value}")).collect();
        let note = match list(&because, "and") {
            none if none.is_empty() => format!("{name} has no effect on this {}", design.build_name()),
            because => format!("{name} does nothing here: {because}"),
        };
        return Page::new().text(text).said(Label::Note, &note);
    }
    Page::new().text(of_name(design, name))
}

/// The field that was set, the figure that was aimed at, and how near it comes.
fn aimed_at(design: &Design, name: &str, figure: &str, aimed: &Aimed) -> Page {
    let shown = |amount: Real| design.show(&Datum::Amount(amount), aimed.of);
    let text = Text::of(Label::Dim, format!("   for {figure} ")).and(Label::Value, shown(aimed.reached.clone()));
    let mut line = of_name(design, name);
    line.append(&text);
    let page = Page::new().text(line);
    let off = shown(aimed.off.abs());
    // A difference too small to show is left out.
    if aimed.off.is_exact_zero() || off == shown(Real::approximate(0.0)) {
        return page;
    }
    let way = if aimed.off.is_negative() { "under" } else { "over" };
    page.said(Label::Note, &format!("{off} {way} the value wanted; no mark on the tape is closer"))
}

/// The fields that the rest still needs.
fn waiting(page: Page, design: &Design, changed: &Changed) -> Page {
    let mut fields: Vec<Slot> = Vec::new();
    let mut waiting = 0;
    for (_, value) in &changed.changed {
        if let Err(Absent::Missing(missing)) = value {
            waiting += 1;
            fields.extend(missing.iter().filter(|slot| !fields.contains(slot)).copied().collect::<Vec<_>>());
        }
    }
    if waiting == 0 {
        return page;
    }
    let names: Vec<&str> = fields.iter().map(|slot| design.book().name(*slot).text.as_str()).collect();
    page.text(Text::of(Label::Dim, format!("  still to set: {}", names.join(", "))))
}
