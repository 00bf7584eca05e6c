//! Cautions, at the end of a page.

use crate::show::Page;
use crate::show::text::{Label, Text};

/// The cautions that apply, and whom they defer to.
pub(super) fn cautioned(page: Page, cautions: &[&str]) -> Page {
    if cautions.is_empty() {
        return page;
    }
    let page =
        cautions.iter().fold(page.heading("Cautions"), |page, caution| page.text(Text::of(Label::Dim, *caution)));
    page.text(Text::of(Label::Dim, "Local codes and licensed trades come first."))
}
