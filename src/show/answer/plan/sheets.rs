//! The sheets of a plan: each in a line, and the place of each piece on it.

use super::super::super::Page;
use super::super::super::fact::page::{line, table_as};
use super::section::{SET_IN, facts, headed};
use crate::fact::fact;
use crate::measure::write::Manner;
use crate::plan::Whole;
use crate::plan::facts::{Layout, PlacedPiece, layouts, placed};

/// The sheets under their heading.
pub(super) fn sheets(page: Page, whole: &Whole, manner: &Manner) -> Page {
    layouts(whole).fold(page, |page, sheet| {
        let page = if sheet.0 == 0 { headed(page, "Sheets", false) } else { page };
        let page = page.hanging(line(&*fact::<Layout>(sheet), manner), 2);
        table_as(page, &facts::<PlacedPiece, _>(placed(sheet)), manner, SET_IN)
    })
}
