//! A cutting plan: what is proven of it, the stock that it needs, where to set the stop, each stick, board and sheet.

mod bar;
mod boards;
mod left;
mod section;
mod sheets;
mod sticks;
mod summary;

pub use self::left::{Asked, unplanned};
use self::section::{SET_IN, facts, headed, length, section};
use super::super::Page;
use super::super::fact::page::{Layout, table_as};
use super::super::finding::findings;
use super::super::text::{Label, Text};
use super::cautions::cautioned;
use super::stock::offered;
use crate::diag::{Diagnostic, codes, line_column};
use crate::measure::write::Manner;
use crate::plan::{Lacking, Purchase, StopSetting, Unplanned, WantedSheet, Whole, purchases};
use crate::session::Planned;
use crate::show::spoken;

/// The page of a plan in a terminal of `width` columns.
pub(super) fn page(planned: &Planned, manner: &Manner, width: usize) -> Page {
    let whole = &planned.whole;
    let mut page = Page::new();
    for found in &planned.found {
        page = page.said(Label::Warn, &left_out(found));
    }
    page = pages(whole, manner, width).fold(page, Page::append);
    page = not_planned(page, whole, manner);
    page = cautioned(page, &planned.cautions);
    if !planned.stops.is_empty() {
        page = findings(page.blank(), &planned.stops);
    }
    assumed(page, whole, manner)
}

/// The plan itself, one page below the other: a plan of a million parts is never laid out as a whole.
pub fn pages<'a>(whole: &'a Whole, manner: &'a Manner, width: usize) -> impl Iterator<Item = Page> + use<'a> {
    let first = std::iter::once_with(move || top(whole, manner));
    let last = std::iter::once_with(move || {
        let page = boards::boards(Page::new(), whole, manner);
        let page = sheets::sheets(page, whole, manner);
        let is_first = summary::is_empty(whole);
        let page = section(page, "Sheets to get", &facts::<WantedSheet, _>(whole.sheets_to_get()), manner, is_first);
        short_parts(page, whole, manner)
    });
    first.chain(sticks::sticks(whole, manner, width)).chain(last)
}

/// What is proven of the plan, and what to prepare before the first cut.
fn top(whole: &Whole, manner: &Manner) -> Page {
    let page = left::left_out(whole).iter().fold(Page::new(), |page, line| page.said(Label::Stop, line));
    let page = page.append(summary::summary(whole, manner));
    let needed = purchases(whole).into_iter().filter(|one| !matches!(one.what, "part" | "piece"));
    let page = section(page, "Stock needed", &facts::<Purchase, _>(needed), manner, false);
    let settings = facts::<StopSetting, _>(whole.sticks.stop_settings().into_iter());
    if settings.is_empty() {
        return page;
    }
    table_as(page.heading("Stop settings"), &settings, manner, Layout { both_units: true, ..SET_IN })
}

/// Parts that a hand cannot hold at the saw.
fn short_parts(page: Page, whole: &Whole, manner: &Manner) -> Page {
    let short = whole.sticks.short_parts();
    if short.is_empty() {
        return page;
    }
    short.iter().fold(headed(page, "Short parts", false), |page, part| {
        let length = length(&part.length, manner);
        page.said(Label::Warn, &format!("{} is {length}, too short to hold at the saw: {}", part.name, part.advice()))
    })
}

/// Parts that the plan leaves out, and a line that helps.
fn not_planned(page: Page, whole: &Whole, manner: &Manner) -> Page {
    let lacking: Vec<Lacking> = whole.lacking().collect();
    if lacking.is_empty() {
        return page;
    }
    let page = table_as(page.heading("Not planned"), &facts::<Unplanned, _>(lacking.into_iter()), manner, SET_IN);
    match unplanned(whole, Asked::Bench, manner).iter().find_map(Diagnostic::line) {
        Some(line) => page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line)),
        None => page,
    }
}

/// What was taken for granted where the shop has recorded no stock.
pub fn assumed(page: Page, whole: &Whole, manner: &Manner) -> Page {
    if whole.is_recorded {
        return page;
    }
    let each = whole.rack.items.first().map(|item| length(&item.length, manner)).unwrap_or_default();
    let message = format!("no stock on record; the plan assumes as many {each} sticks as needed");
    offered(page.blank().said(Label::Note, &message), manner)
}

/// What is wrong with a table of stock, its place, and what came of it: `stock.csv, line 3: …`.
fn left_out(found: &Diagnostic) -> String {
    let Some(source) = &found.source else { return spoken(&found.says) };
    let (below, _) = line_column(&source.text, found.span.as_ref().map_or(0, |span| span.start));
    let line = source.line + below - 1;
    // A heading that is not read leaves its column out, and no row.
    let row = if found.code == &codes::table::HEADING { "" } else { "; the row is left out" };
    format!("{}, line {line}: {}{row}", source.name, spoken(&found.says))
}
