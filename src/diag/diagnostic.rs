//! One finding about a text.

use super::{Code, Fix, Says, Source, Span};

/// What is wrong, where, and what would work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Its row in the table of codes.
    pub code: &'static Code,
    /// What is wrong, in the framer's own words and figures.
    pub says: Says,
    /// The field, figure or design that it is about.
    pub name: Option<Box<str>>,
    /// The stretch of the source text at fault, if it has one.
    pub span: Option<Span>,
    /// What would work, the best first.
    pub fixes: Vec<Fix>,
    /// The text that `span` counts in, where it is not the line just typed (a script file, a rules file).
    pub source: Option<Box<Source>>,
}

impl Diagnostic {
    /// A finding without a place.
    pub fn of(code: &'static Code, says: impl Into<Says>) -> Self {
        Self { code, says: says.into(), name: None, span: None, fixes: Vec::new(), source: None }
    }

    /// The same finding, placed at `span`.
    #[must_use]
    pub fn at(mut self, span: Span) -> Self {
        self.span = Some(span);
        self
    }

    /// The same finding, about the field, figure or design `name`.
    #[must_use]
    pub fn about(mut self, name: impl AsRef<str>) -> Self {
        self.name = Some(name.as_ref().into());
        self
    }

    /// The same finding with one more thing that would work.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Self {
        self.fixes.push(fix);
        self
    }

    /// The same finding with this line as its only fix.
    #[must_use]
    pub fn hint(self, line: impl Into<String>) -> Self {
        self.only([line.into()])
    }

    /// The same finding with one more text that would do in its place.
    #[must_use]
    pub fn instead(self, text: impl Into<String>) -> Self {
        self.fix(Fix::Value(text.into()))
    }

    /// The same finding with these lines as its only fixes.
    #[must_use]
    pub fn only(mut self, lines: impl IntoIterator<Item = String>) -> Self {
        self.fixes = lines.into_iter().map(Fix::Line).collect();
        self
    }

    /// The same finding, with a line where it has no fix.
    #[must_use]
    pub fn or_else(self, line: impl FnOnce() -> Option<String>) -> Self {
        if self.fixes.is_empty() { self.only(line()) } else { self }
    }

    /// The same finding with every line it offers rewritten.
    #[must_use]
    pub fn lines(mut self, rewrite: impl Fn(&str) -> String) -> Self {
        for fix in &mut self.fixes {
            if let Fix::Line(line) = fix {
                *line = rewrite(line);
            }
        }
        self
    }

    /// The same finding, with `context: ` before what it says.
    #[must_use]
    pub fn within(mut self, context: impl Into<Says>) -> Self {
        self.says = self.says.within(context);
        self
    }

    /// Every line that would work, where the finding is placed in `typed` or in a text of its own.
    pub fn fixed(&self, typed: &str) -> Vec<String> {
        let text = self.source.as_ref().map_or(typed, |source| &source.text);
        self.fixes.iter().filter_map(|fix| fix.line(text, self.span.as_ref())).collect()
    }

    /// Everything that may be written in its place, where that is known.
    pub fn choices(&self) -> &[String] {
        let choices = self.fixes.iter().find_map(|fix| match fix {
            Fix::Choices(choices) => Some(choices.as_slice()),
            Fix::Line(_) | Fix::Value(_) | Fix::Setting(..) => None,
        });
        choices.unwrap_or_default()
    }

    /// The first line that would work and needs no text around it.
    pub fn line(&self) -> Option<String> {
        self.fixes.iter().find_map(|fix| fix.line("", None))
    }

    /// The same finding, counted in another text.
    #[must_use]
    pub fn inside(self, name: impl Into<String>, text: impl Into<String>) -> Self {
        self.inside_from(name, text, 1)
    }

    /// The same finding, counted in a part of another text that begins on line `line` there.
    #[must_use]
    pub fn inside_from(mut self, name: impl Into<String>, text: impl Into<String>, line: usize) -> Self {
        self.source = Some(Box::new(Source { name: name.into(), text: text.into(), line }));
        self
    }

    /// The same finding with its place moved right by `bytes`, for a text that was part of a longer one.
    #[must_use]
    pub fn shifted(mut self, bytes: usize) -> Self {
        // A place in a text of its own does not move.
        if self.source.is_none() {
            self.span = self.span.map(|span| span.start + bytes..span.end + bytes);
        }
        self
    }
}

#[cfg(test)]
impl Diagnostic {
    /// A finding of no kind, for tests of what is done with any.
    pub fn new(says: impl Into<Says>) -> Self {
        Self::of(&super::codes::BROKEN, says)
    }

    /// What it says, for tests of this crate; those outside ask `show`.
    #[allow(clippy::disallowed_methods)]
    pub fn message(&self) -> String {
        self.says.text()
    }

    /// The lines that it offers, one behind the other.
    pub fn offered(&self, typed: &str) -> Option<String> {
        let lines = self.fixed(typed);
        (!lines.is_empty()).then(|| lines.join("  or  "))
    }
}
