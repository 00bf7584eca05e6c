//! What the shop has to cut from.

use super::super::Page;
use super::super::fact::page::table;
use super::super::text::{Label, Text};
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::plan::{BareRow, Item, Rack, Readings};

/// A line that records stock, by the rule of inches and by that of millimeters.
const EXAMPLES: [&str; 2] = [
    "stock add stick, 8ft, , 4, 12.50, cherry, 3/4in x 1 1/2in",
    "stock add stick, 2400mm, , 4, 12.50, cherry, 19mm x 38mm",
];

/// The stock, below what was done with it.
pub(super) fn stock(rack: &Rack, done: Option<&str>, manner: &Manner) -> Page {
    let page = done.map_or_else(Page::new, |done| Page::new().text(Text::of(Label::Good, done)));
    if rack.items.is_empty() && rack.unread == 0 && !rack.columns.is_empty() {
        return offered(page.text("the stock is recorded as empty, and no plan takes anything from it"), manner);
    }
    if rack.items.is_empty() {
        return offered(page.text("no stock on record"), manner);
    }
    let rows: Vec<_> = rack.items.iter().enumerate().map(fact::<Item>).collect();
    table(page, &rows, manner)
}

/// Stock in which lengths have no unit, in both readings.
pub(super) fn bare_stock(stock: &Readings, manner: &Manner) -> Page {
    let page =
        Page::new().said(Label::Stop, "lengths in stock have no unit; nothing is planned from it until they have");
    let rows: Vec<_> = stock.rows.iter().enumerate().map(fact::<BareRow>).collect();
    let line = format!("stock unit {}", stock.likely);
    table(page, &rows, manner).text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line))
}

/// A page with the line that records stock.
pub(super) fn offered(page: Page, manner: &Manner) -> Page {
    let [inches, metric] = EXAMPLES;
    let example = if manner.graduation.metric { metric } else { inches };
    page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, example))
}
