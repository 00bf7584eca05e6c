//! Findings: faults under the text that was typed, and the checks of a design at the end of a page.

use super::excerpt::{excerpt, place};
use super::page::Page;
use super::text::{Label, Text};
use crate::diag::{Diagnostic, Says, line_column};
use crate::rules::{Finding, Level};

/// A finding as the framer sees it: the fault, its place in the text with carets under it, and a line that works.
///
/// The place counts in `typed`, unless the finding brings its own text.
///
/// ```
/// use benchrule::diag::{Diagnostic, codes};
/// use benchrule::show::finding;
///
/// let line = "wire_sag(12, 20\")";
/// let says = "span is a length, and 12 has no unit";
/// let found = Diagnostic::of(&codes::script::ARGUMENT, says).at(9..11).hint("wire_sag(12\", 20\")");
/// let shown = "\
/// error: span is a length, and 12 has no unit
///   wire_sag(12, 20\")
///            ^^
///   try: wire_sag(12\", 20\")
/// ";
/// assert_eq!(finding(&found, line, 80).render(80, false), shown);
/// ```
pub fn finding(diagnostic: &Diagnostic, typed: &str, width: usize) -> Page {
    let mut page = Page::new().said(Label::Error, &spoken(&diagnostic.says));
    if let Some(text) = whereabouts(diagnostic, typed) {
        page = page.hanging(text, 4);
    }
    let text = source(diagnostic, typed);
    if let Some(span) = diagnostic.span.as_ref().filter(|_| !text.trim().is_empty()) {
        page = excerpt(text, span, width).into_iter().fold(page, Page::fixed);
    }
    let page = diagnostic.fixed(typed).iter().fold(page, |page, line| hinted(page, line));
    match diagnostic.choices() {
        [] => page,
        choices => page.hanging(Text::of(Label::Plain, "  one of: ").and(Label::Hint, choices.join(", ")), 10),
    }
}

/// The findings of the checks of a design, each with a line that mends it.
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

/// The text of a message: only this function takes it out.
#[expect(clippy::disallowed_methods, reason = "what is shown is text")]
pub fn spoken(says: &Says) -> String {
    says.text()
}

/// The text that the finding's place counts in.
fn source<'a>(diagnostic: &'a Diagnostic, typed: &'a str) -> &'a str {
    diagnostic.source.as_ref().map_or(typed, |source| &source.text)
}

/// The name of the text, the line and the column, if the text is not the typed line.
fn whereabouts(diagnostic: &Diagnostic, typed: &str) -> Option<Text> {
    let source = diagnostic.source.as_ref()?;
    let name = Text::of(Label::Dim, "  in ").and(Label::Name, &source.name);
    Some(match position(diagnostic, typed) {
        Some((line, column)) => name.and(Label::Dim, format!(", line {line}, column {column}")),
        None => name,
    })
}

/// Line and column of the place, counted in characters from 1.
pub(super) fn position(diagnostic: &Diagnostic, typed: &str) -> Option<(usize, usize)> {
    let text = source(diagnostic, typed);
    let span = diagnostic.span.as_ref()?;
    let (line, column) = line_column(text, place(text, span).start);
    let before = diagnostic.source.as_ref().map_or(0, |source| source.line.saturating_sub(1));
    Some((before + line, column))
}

/// The line to type instead, never broken, so that it can be pasted.
fn hinted(page: Page, hint: &str) -> Page {
    let word = Label::Hint.word().unwrap_or_default();
    hint.lines().enumerate().fold(page, |page, (at, line)| {
        let before = if at == 0 { format!("  {word}: ") } else { " ".repeat(4 + word.len()) };
        page.fixed(Text::of(Label::Plain, before).and(Label::Hint, line))
    })
}

#[cfg(test)]
mod tests;
