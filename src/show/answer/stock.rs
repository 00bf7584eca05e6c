//! What the shop has to cut from.

use super::super::Page;
use super::super::fact::page::table;
use super::super::text::{Label, Text};
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::plan::{BareRow, Item, Rack};

/// A line that records stock.
const EXAMPLE: &str = "stock add stick, 8ft, , 4, 12.50, cherry, 3/4 x 1 1/2";

/// The stock, below what was done with it.
pub(super) fn stock(rack: &Rack, done: Option<&str>, manner: &Manner) -> Page {
    let page = done.map_or_else(Page::new, |done| Page::new().text(Text::of(Label::Good, done)));
    if rack.items.is_empty() {
        return offered(page.text("no stock recorded"));
    }
    let rows: Vec<_> = rack.items.iter().enumerate().map(fact::<Item>).collect();
    table(page, &rows, manner)
}

/// Stock in which lengths have no unit, in both readings.
pub(super) fn bare_stock(rows: &[BareRow], manner: &Manner) -> Page {
    let page =
        Page::new().said(Label::Stop, "lengths in stock have no unit; nothing is planned from it until they have");
    let rows: Vec<_> = rows.iter().enumerate().map(fact::<BareRow>).collect();
    table(page, &rows, manner).text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, "stock unit in"))
}

/// A page with the line that records stock.
pub(super) fn offered(page: Page) -> Page {
    page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, EXAMPLE))
}
