//! The page of `why`.

use super::super::Page;
use super::super::text::{Label, Text};
use super::value::{cited, shown};
use crate::rules::{Cause, Design, Step};

pub(super) fn page(design: &Design, steps: &[Step]) -> Page {
    let page = steps.iter().fold(Page::new(), |page, step| one(page, design, step));
    let Some(step) = steps.first() else { return page };
    match design.tolerance(step.slot) {
        Ok(tolerance) if !tolerance.shares.is_empty() => {
            let amount = |value| super::engineering::amount(design, step.slot, value);
            let text = format!("± {} at worst, {} likely", amount(&tolerance.worst), amount(&tolerance.likely));
            page.text(Text::of(Label::Dim, text))
        }
        _ => page,
    }
}

fn one(page: Page, design: &Design, step: &Step) -> Page {
    let mut shown = shown(design, step.slot, &step.is);
    if !step.reasons.is_empty() {
        // The result of a function has no value of its own; its reasons follow.
        shown.value.clear();
    }
    let mut head = Text::of(Label::Name, &design.book().name(step.slot).text)
        .and(Label::Plain, "  ")
        .and(Label::Value, &shown.value)
        .and(Label::Plain, if shown.other.is_empty() { "" } else { "   " })
        .and(Label::Other, &shown.other);
    match step.cause {
        Cause::Given => head.push(Label::Given, "   given"),
        Cause::Usual => head.push(Label::Dim, "   usual"),
        Cause::Follows => {}
    }
    let mut page = page.text(head);
    let with = step.with.as_ref().filter(|with| step.formula.as_ref() != Some(*with));
    for line in [step.formula.as_ref(), with].into_iter().flatten() {
        page = page.hanging(Text::of(Label::Dim, "  = ").and(Label::Plain, line), 4);
    }
    for reason in &step.reasons {
        page = page.hanging(Text::of(Label::Dim, format!("  {reason}")), 4);
    }
    for source in &step.sources {
        page = page.hanging(Text::of(Label::Dim, format!("  source: {}", cited(source))), 4);
    }
    if let Some(toward) = step.rounded {
        let drawn = shown.drawn.map(|drawn| format!(" from {drawn}")).unwrap_or_default();
        let said = match toward {
            crate::measure::Toward::Up => "made up to the next mark",
            crate::measure::Toward::Down => "made down to the next mark",
            crate::measure::Toward::Nearest => "made to the nearest mark",
        };
        page = page.text(Text::of(Label::Dim, format!("  {said}{drawn}")));
    } else if let Some(drawn) = shown.drawn {
        page = page.text(Text::of(Label::Dim, format!("  drawn {drawn}")));
    }
    page
}
