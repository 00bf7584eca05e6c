//! Figures, styles, settings.

use super::super::Page;
use super::super::table::Cell;
use super::super::text::{Label, Text};
use crate::rules::Design;
use crate::session::{Checked, StyleRow};
use crate::shop::{Settings, usual_limit};

pub(super) fn figures(design: &Design) -> Page {
    if design.own_figures().is_empty() {
        return Page::new().text("no figures added to this design").text(
            Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, "figure own.width = outside.width + 3in"),
        );
    }
    design.own_figures().iter().fold(Page::new(), |page, (name, formula)| {
        let value = design.book().slot(name).and_then(|slot| design.shown(slot));
        page.row([
            Cell::of(Label::Name, name),
            Cell::right(Text::of(Label::Value, value.unwrap_or_else(|| "-".into()))),
            Cell::flowing(Text::of(Label::Dim, format!("= {formula}"))),
        ])
    })
}

pub(super) fn styles(styles: &[StyleRow]) -> Page {
    styles.iter().fold(Page::new(), |page, style| {
        page.row([
            Cell::of(Label::Name, &style.name),
            Cell::flowing(Text::from(style.about.as_str()).and(Label::Dim, format!("  {}", style.from))),
        ])
    })
}

pub(super) fn checked(checked: &Checked) -> Page {
    let said = format!("{}: no fault in {} designs", checked.name, checked.designs);
    let page = Page::new().text(Text::of(Label::Good, said));
    checked.seen.iter().fold(page, |page, (level, name, count)| {
        page.row([
            Cell::of(Label::Dim, format!("  {level}")),
            Cell::of(Label::Name, name),
            Cell::flowing(Text::of(Label::Dim, format!("in {count} of them"))),
        ])
    })
}

pub(super) fn shop(settings: &Settings, shown: &[String], file: Option<&str>) -> Page {
    let rows = settings.all().into_iter().filter(|setting| shown.iter().any(|name| *name == setting.name));
    let page = rows.fold(Page::new(), |page, setting| {
        let value = settings.get(&setting.name);
        let label = if value.is_some() { Label::Value } else { Label::Dim };
        let value = value.or_else(|| usual_limit(&setting.name)).unwrap_or_default();
        page.row([
            Cell::of(Label::Name, &*setting.name),
            Cell::of(label, value),
            Cell::flowing(Text::of(Label::Dim, &*setting.brief)).yielding(1),
        ])
    });
    match file {
        Some(file) => page.text(Text::of(Label::Good, format!("written to {file}"))),
        None => page,
    }
}
