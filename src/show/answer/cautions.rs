//! Cautions: their short lines where the hands are, their full texts on sheets, all with sources behind `cautions`.

use super::super::Page;
use super::super::text::{Label, Text};
use super::value::cited;
use crate::shop::Caution;

/// The short lines of cautions, and the precedence of codes and trades.
pub fn cautioned(page: Page, cautions: &[Caution]) -> Page {
    caution_lines(page, cautions.iter().map(|caution| caution.short.as_str()))
}

/// The full texts of cautions, and the precedence of codes and trades.
pub fn cautioned_in_full(page: Page, cautions: &[Caution]) -> Page {
    caution_lines(page, cautions.iter().map(|caution| caution.full.as_str()))
}

fn caution_lines<'a>(page: Page, lines: impl Iterator<Item = &'a str>) -> Page {
    let mut lines = lines.peekable();
    if lines.peek().is_none() {
        return page;
    }
    let page = lines.fold(page.heading("Cautions"), |page, line| page.text(Text::of(Label::Dim, line)));
    page.text(Text::of(Label::Dim, "Follow local codes, and hire a licensed contractor where they require one."))
}

/// Every caution in full, with its source.
pub(super) fn page(cautions: &[Caution]) -> Page {
    if cautions.is_empty() {
        return Page::new()
            .text("no cautions yet; set the work first")
            .text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, "art 16\" x 20\" x 3/4\""));
    }
    let page = cautioned_in_full(Page::new(), cautions).heading("Sources");
    let mut sources: Vec<(&str, Vec<&str>)> = Vec::new();
    for caution in cautions {
        match sources.iter_mut().find(|(source, _)| *source == caution.source) {
            Some((_, names)) if names.contains(&caution.name.as_str()) => {}
            Some((_, names)) => names.push(&caution.name),
            None => sources.push((&caution.source, vec![&caution.name])),
        }
    }
    sources.into_iter().fold(page, |page, (source, names)| {
        let names = format!("  {}: ", names.join(", "));
        page.hanging(Text::of(Label::Name, names).and(Label::Dim, cited(source)), 4)
    })
}
