//! A cutting plan: what is proven of it, the stock that it needs, where to set the stop, each stick, board and sheet.

mod bar;
mod boards;
mod left;
mod sheets;
mod sticks;
mod summary;

pub use self::left::{Asked, unplanned};
use super::super::Page;
use super::super::fact::page::{Facts, table, table_in_both_units};
use super::super::finding::findings;
use super::super::text::Label;
use super::cautions::cautioned;
use super::stock::offered;
use crate::diag::{Diagnostic, line_column};
use crate::fact::{Instance, fact};
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};
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
    unsaid(page, whole, manner)
}

/// The plan itself, one page below the other: a plan of a million parts is never laid out as a whole.
pub fn pages<'a>(whole: &'a Whole, manner: &'a Manner, width: usize) -> impl Iterator<Item = Page> + use<'a> {
    let first = std::iter::once_with(move || top(whole, manner));
    let last = std::iter::once_with(move || {
        let page = boards::boards(Page::new(), whole, manner);
        let page = sheets::sheets(page, whole, manner);
        let is_first = summary::is_empty(whole);
        let page = listed(page, "Sheets to get", &facts::<WantedSheet, _>(whole.sheets_to_get()), manner, is_first);
        short_parts(page, whole, manner)
    });
    first.chain(sticks::sticks(whole, manner, width)).chain(last)
}

/// What is proven of the plan, and what to prepare before the first cut.
fn top(whole: &Whole, manner: &Manner) -> Page {
    let page = summary::summary(whole, manner);
    let needed = purchases(whole).into_iter().filter(|one| !matches!(one.what, "part" | "piece"));
    let page = listed(page, "Stock needed", &facts::<Purchase, _>(needed), manner, false);
    let settings = facts::<StopSetting, _>(whole.sticks.stop_settings().into_iter());
    if settings.is_empty() {
        return page;
    }
    table_in_both_units(page.heading("Stop settings"), &settings, manner)
}

/// Facts as walkers take them.
fn facts<'a, F: crate::fact::Fact, I: Iterator<Item = F::Of<'a>>>(all: I) -> Vec<Box<dyn Instance<'a> + 'a>> {
    all.map(fact::<F>).collect()
}

/// A table under a heading, or nothing where there are no rows.
fn listed<'a>(page: Page, heading: &str, rows: Facts<'_, 'a>, manner: &'a Manner, is_first: bool) -> Page {
    if rows.is_empty() {
        return page;
    }
    table(headed(page, heading, is_first), rows, manner)
}

/// A heading with a blank line before it, unless it is the first thing that is shown.
fn headed(page: Page, heading: &str, is_first: bool) -> Page {
    if is_first { page } else { page.blank() }.text(super::super::text::Text::of(Label::Heading, heading))
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
    let count: u64 = lacking.iter().map(|one| u64::from(one.quantity())).sum();
    let parts = if count == 1 { "part" } else { "parts" };
    let page = page.heading("Not planned").said(Label::Stop, &format!("this plan leaves out {count} {parts}"));
    let page = table(page, &facts::<Unplanned, _>(lacking.into_iter()), manner);
    match unplanned(whole, Asked::Bench, manner).iter().find_map(Diagnostic::line) {
        Some(line) => page.text(super::super::text::Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line)),
        None => page,
    }
}

/// What was taken for granted where the shop has recorded no stock.
pub fn unsaid(page: Page, whole: &Whole, manner: &Manner) -> Page {
    if whole.is_said {
        return page;
    }
    let each = whole.rack.items.first().map(|item| length(&item.length, manner)).unwrap_or_default();
    offered(page.blank().said(Label::Note, &format!("no stock recorded; {each} sticks assumed, as many as needed")))
}

/// What is wrong with a table of stock, its place, and what came of it: `stock.csv, line 3: …`.
fn left_out(found: &Diagnostic) -> String {
    let Some(source) = &found.source else { return spoken(&found.says) };
    let (below, _) = line_column(&source.text, found.span.as_ref().map_or(0, |span| span.start));
    let line = source.line + below - 1;
    // A fault in the first line leaves no row out.
    let row = if line > 1 { "; the row is left out" } else { "" };
    format!("{}, line {line}: {}{row}", source.name, spoken(&found.says))
}

fn length(inches: &Real, manner: &Manner) -> String {
    manner.short(&Quantity::inches(inches.clone()))
}

/// `part` of `whole` in percent, to a tenth.
fn percent(part: &Real, whole: &Real) -> String {
    if !whole.is_positive() {
        return "0 %".into();
    }
    format!("{} %", (part.clone() * Real::whole(100) / whole.clone()).to_fixed(1))
}

/// So many of a thing, in words.
fn count(number: u64, word: &str) -> String {
    if number == 1 { format!("1 {word}") } else { format!("{number} {word}s") }
}
