//! What could not be done, shown under the text that was typed, and as JSON.

use serde::Serialize;

use super::excerpt::{excerpt, place};
use super::page::Page;
use super::text::{Label, Text};
use crate::diag::{Diagnostic, Says, line_column};

/// A finding as the framer sees it: what is wrong, the place in the text with carets under it, a line that would do.
///
/// `typed` is the text that the finding's place counts in, unless the finding brings its own.
///
/// ```
/// use benchrule::{diag::Diagnostic, show::finding};
///
/// let line = "wire_sag(12, 20\")";
/// let found = Diagnostic::new("span is a length, and 12 has no unit").at(9..11).hint("wire_sag(12\", 20\")");
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

/// What a finding says, as text: the one place where it becomes one.
#[expect(clippy::disallowed_methods, reason = "what is shown is text")]
pub fn spoken(says: &Says) -> String {
    says.text()
}

/// The text that the finding's place counts in.
fn source<'a>(diagnostic: &'a Diagnostic, typed: &'a str) -> &'a str {
    diagnostic.source.as_ref().map_or(typed, |source| &source.text)
}

/// Which text, line and column, where it is not the line just typed.
fn whereabouts(diagnostic: &Diagnostic, typed: &str) -> Option<Text> {
    let source = diagnostic.source.as_ref()?;
    let name = Text::of(Label::Dim, "  in ").and(Label::Name, &source.name);
    Some(match position(diagnostic, typed) {
        Some((line, column)) => name.and(Label::Dim, format!(", line {line}, column {column}")),
        None => name,
    })
}

/// Line and column of the place, in characters from 1.
fn position(diagnostic: &Diagnostic, typed: &str) -> Option<(usize, usize)> {
    let text = source(diagnostic, typed);
    let span = diagnostic.span.as_ref()?;
    let (line, column) = line_column(text, place(text, span).start);
    let before = diagnostic.source.as_ref().map_or(0, |source| source.line.saturating_sub(1));
    Some((before + line, column))
}

/// The line to type instead, in one piece however long it is, so that it can be pasted.
fn hinted(page: Page, hint: &str) -> Page {
    let word = Label::Hint.word().unwrap_or_default();
    hint.lines().enumerate().fold(page, |page, (at, line)| {
        let before = if at == 0 { format!("  {word}: ") } else { " ".repeat(4 + word.len()) };
        page.fixed(Text::of(Label::Plain, before).and(Label::Hint, line))
    })
}

/// An error as JSON writes it.
#[derive(Serialize)]
struct Written<'a> {
    error: WrittenError<'a>,
}

#[derive(Serialize)]
struct WrittenError<'a> {
    code: String,
    message: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    hint: Option<&'a str>,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    fixes: &'a [String],
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    choices: &'a [String],
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<usize>,
}

/// A finding as a JSON object: `{"error":{"code":…,"message":…,"hint":…,"fixes":[…],"line":1,"column":5}}`. The hint is
/// the first fix, columns are in characters from 1, what is not known is left out.
pub fn finding_json(diagnostic: &Diagnostic, typed: &str) -> serde_json::Value {
    let (line, column) = position(diagnostic, typed).unzip();
    let (message, fixes) = (spoken(&diagnostic.says), diagnostic.fixed(typed));
    let error = WrittenError {
        code: diagnostic.code.to_string(),
        message: &message,
        hint: fixes.first().map(String::as_str),
        fixes: &fixes,
        choices: diagnostic.choices(),
        line,
        column,
    };
    // Texts and whole numbers under text keys: there is nothing that JSON could not hold.
    serde_json::to_value(Written { error }).unwrap_or_default()
}

#[cfg(test)]
mod tests;
