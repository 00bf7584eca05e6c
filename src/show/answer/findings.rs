//! Findings, at the end of a page.

use crate::rules::{Finding, Level};
use crate::show::text::{Label, Text};
use crate::show::{Page, spoken};

/// The findings of a design, each with the line that would mend it.
pub(super) fn findings<'a>(page: Page, findings: impl IntoIterator<Item = &'a Finding>) -> Page {
    findings.into_iter().fold(page, |page, finding| {
        let label = match finding.level {
            Level::Stop => Label::Stop,
            Level::Warn => Label::Warn,
            Level::Note => Label::Note,
        };
        let page = page.said(label, &spoken(&finding.says));
        match &finding.mend {
            Some(line) => page.text(Text::from("  ").and(Label::Hint, "try: ").and(Label::Plain, line)),
            None => page,
        }
    })
}
