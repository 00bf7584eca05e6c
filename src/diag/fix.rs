//! What would work instead.

use super::Span;

/// Something that a framer can do about a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fix {
    /// A whole line to type.
    Line(String),
    /// A text to put in the place of the finding.
    Value(String),
    /// A field or a setting, and its value.
    Setting(String, String),
    /// Everything that may be written there, where nothing is near to what was.
    Choices(Vec<String>),
}

/// A line longer than this is not worth repeating.
const LONGEST: usize = 160;

impl Fix {
    /// The line to type, where the finding is placed at `span` of `text`; choices give none.
    pub fn line(&self, text: &str, span: Option<&Span>) -> Option<String> {
        match self {
            Self::Line(line) => Some(line.clone()).filter(|line| line.len() <= 2 * LONGEST),
            Self::Setting(name, value) => Some(format!("{name} {value}")),
            Self::Value(value) => mended(text, span?, value),
            Self::Choices(_) => None,
        }
    }
}

/// The line of `text` that `span` is in, with `value` in place of that stretch.
fn mended(text: &str, span: &Span, value: &str) -> Option<String> {
    let start = text.get(..span.start)?.rfind('\n').map_or(0, |at| at + 1);
    let end = text.get(span.end..)?.find('\n').map_or(text.len(), |at| span.end + at);
    let (before, after) = (text.get(start..span.start)?, text.get(span.end..end)?);
    let line = format!("{before}{value}{after}").trim().to_string();
    (!line.is_empty() && before.len() + after.len() <= LONGEST).then_some(line)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_is_put_into_its_line() {
        let value = Fix::Value("3/8".into());
        assert_eq!(value.line("let a = 1\nlet b = 3/0", Some(&(18..21))).as_deref(), Some("let b = 3/8"));
        assert_eq!(value.line("3/0", None), None);
        assert_eq!(value.line("é", Some(&(1..2))), None);
    }
}
