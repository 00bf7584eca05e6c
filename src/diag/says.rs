//! What a finding says: words and values, whose text only `show` takes out.

use std::borrow::Cow;
use std::fmt;

/// One part of a message.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// Words of the program.
    Words(Cow<'static, str>),
    /// A name, a size, a text: what the message is about, as a framer writes it.
    Value(String),
}

/// A message: lower case, no full stop, the framer's own words and figures.
///
/// It has no text of its own to compare or to search. What a caller must know of a finding is in its code, its name,
/// its place and its fixes; lints forbid [`Says::parts`] and [`Says::text`] outside `show`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Says(Vec<Part>);

#[allow(clippy::disallowed_methods)]
impl Says {
    /// `words` with each `{}` in it replaced by the next of `values`; [`says!`] checks their number.
    pub fn of(words: &'static str, values: &[&dyn fmt::Display]) -> Self {
        let mut parts = Vec::new();
        let mut values = values.iter();
        for (at, words) in words.split("{}").enumerate() {
            if at > 0 {
                parts.extend(values.next().map(|value| Part::Value(value.to_string())));
            }
            if !words.is_empty() {
                parts.push(Part::Words(words.into()));
            }
        }
        Self(parts)
    }

    /// A message that is a value from end to end: what a script throws, what another program reports.
    pub fn quoted(text: impl Into<String>) -> Self {
        Self(vec![Part::Value(text.into())])
    }

    /// `context: this message`.
    #[must_use]
    pub fn within(self, context: impl Into<Self>) -> Self {
        context.into().and(": ").and(self)
    }

    /// This message and `more` behind it.
    #[must_use]
    pub fn and(mut self, more: impl Into<Self>) -> Self {
        self.0.extend(more.into().0);
        self
    }

    /// The same message, with each name in it that `rename` knows under its other name.
    #[must_use]
    pub fn renamed(mut self, rename: impl Fn(&str) -> Option<&str>) -> Self {
        for part in &mut self.0 {
            if let Part::Value(value) = part
                && let Some(other) = rename(value)
            {
                *value = other.to_string();
            }
        }
        self
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.text().trim().is_empty()
    }

    /// Its words and values in order, for `show` alone.
    pub fn parts(&self) -> &[Part] {
        &self.0
    }

    /// Its text, for `show` alone.
    pub fn text(&self) -> String {
        let each = self.0.iter().map(|part| match part {
            Part::Words(words) => words.as_ref(),
            Part::Value(value) => value.as_str(),
        });
        each.collect()
    }
}

impl From<&str> for Says {
    fn from(words: &str) -> Self {
        Self(vec![Part::Words(words.to_string().into())])
    }
}

impl From<String> for Says {
    fn from(words: String) -> Self {
        Self(vec![Part::Words(words.into())])
    }
}

impl FromIterator<Part> for Says {
    fn from_iter<I: IntoIterator<Item = Part>>(parts: I) -> Self {
        Self(parts.into_iter().collect())
    }
}

/// A message from words with `{}` and as many values: `says!("{} takes {} values", name, most)`.
///
/// A macro, since only the compiler's own check of a format can hold the number of values against the words.
macro_rules! says {
    ($words:literal) => { $crate::diag::says::Says::from($words) };
    ($words:literal, $($value:expr),+ $(,)?) => {{
        if false {
            let _ = format_args!($words, $($value),+);
        }
        $crate::diag::says::Says::of($words, &[$(&$value),+])
    }};
}
pub(crate) use says;

#[cfg(test)]
mod tests {
    #![allow(clippy::disallowed_methods)]

    use super::*;

    #[test]
    fn words_and_values_stay_apart() {
        let says = says!("{} is {}, not {}", "face", "a length", 3);
        let value = |text: &str| Part::Value(text.into());
        let words = |text: &'static str| Part::Words(text.into());
        assert_eq!(says.parts(), [value("face"), words(" is "), value("a length"), words(", not "), value("3")]);
    }

    #[test]
    fn context_goes_before_a_message() {
        let says = Says::from("not a length").within(says!("row {}", 3));
        assert_eq!(says.text(), "row 3: not a length");
    }
}
