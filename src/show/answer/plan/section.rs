//! What the sections of a plan have in common: headings, tables under them, amounts in words.

use super::super::super::Page;
use super::super::super::fact::page::{Facts, Layout, table_as};
use super::super::super::text::{Label, Text};
use crate::fact::{Fact, Instance, fact};
use crate::measure::write::Manner;
use crate::measure::{Quantity, Real};

/// How tables are set in below the heading of their section.
pub(super) const SET_IN: Layout = Layout { indent: 2, both_units: false };

/// Facts as walkers take them.
pub(super) fn facts<'a, F: Fact, I: Iterator<Item = F::Of<'a>>>(all: I) -> Vec<Box<dyn Instance<'a> + 'a>> {
    all.map(fact::<F>).collect()
}

/// A table under a heading, or nothing where there are no rows.
pub(super) fn section<'a>(page: Page, heading: &str, rows: Facts<'_, 'a>, manner: &'a Manner, is_first: bool) -> Page {
    if rows.is_empty() {
        return page;
    }
    table_as(headed(page, heading, is_first), rows, manner, SET_IN)
}

/// A heading with a blank line before it, unless it is the first thing that is shown.
pub(super) fn headed(page: Page, heading: &str, is_first: bool) -> Page {
    if is_first { page } else { page.blank() }.text(Text::of(Label::Heading, heading))
}

pub(super) fn length(inches: &Real, manner: &Manner) -> String {
    manner.short(&Quantity::inches(inches.clone()))
}

/// `part` of `whole` in percent, to a tenth.
pub(super) fn percent(part: &Real, whole: &Real) -> String {
    if !whole.is_positive() {
        return "0 %".into();
    }
    format!("{} %", (part.clone() * Real::whole(100) / whole.clone()).to_fixed(1))
}
