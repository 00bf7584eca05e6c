//! House styles: scripts with `build_for(art, asks)` that frame a work by the house's rules.

use crate::diag::{Diagnostic, Span};

/// A style as it was asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Which style.
    pub name: String,
    /// Keys and the texts of their values, with the places of both.
    pub pairs: Vec<Pair>,
}

/// One `key=value`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The key.
    pub key: String,
    /// Its value, as typed.
    pub value: String,
    /// Where the pair stands.
    pub span: Span,
}

/// The styles that ship: name and text.
pub const SHIPPED: &[(&str, &str)] = &[
    ("canted-tray", include_str!("../../scripts/styles/canted-tray.rhai")),
    ("deep-well", include_str!("../../scripts/styles/deep-well.rhai")),
    ("narrow-float", include_str!("../../scripts/styles/narrow-float.rhai")),
    ("object-box", include_str!("../../scripts/styles/object-box.rhai")),
    ("slim-moulding", include_str!("../../scripts/styles/slim-moulding.rhai")),
    ("textile-panel", include_str!("../../scripts/styles/textile-panel.rhai")),
];

/// The folder of a shop's own styles, in its config folder.
pub const FOLDER: &str = "styles";

/// How the file of a style ends.
pub const ENDING: &str = ".rhai";

/// Reads `NAME key=value key=value`; a value goes on to the next key.
///
/// # Errors
/// No name; something behind it that is no pair.
pub fn asked(text: &str) -> Result<Asked, Diagnostic> {
    let trimmed = text.trim_start();
    let start = text.len() - trimmed.len();
    let end = trimmed.find(char::is_whitespace).unwrap_or(trimmed.len());
    let (name, rest) = trimmed.split_at(end);
    if name.is_empty() {
        return Err(Diagnostic::new("style takes the name of a style; `styles` lists them").hint("style narrow-float"));
    }
    let offset = start + end;
    let starts: Vec<usize> = rest.match_indices('=').map(|(at, _)| key_start(rest, at)).collect();
    let mut pairs = Vec::new();
    let before = starts.first().copied().unwrap_or(rest.len());
    if !rest[..before].trim().is_empty() {
        let at = offset + rest.len() - rest.trim_start().len();
        return Err(Diagnostic::new("after the name of a style come pairs such as face=3/4")
            .at(at..offset + before)
            .hint(format!("style {name} face=3/4")));
    }
    for (place, from) in starts.iter().enumerate() {
        let to = starts.get(place + 1).copied().unwrap_or(rest.len());
        let (key, value) = rest[*from..to].split_once('=').unwrap_or_default();
        let span = offset + from..offset + from + rest[*from..to].trim_end().len();
        if value.trim().is_empty() {
            return Err(Diagnostic::new(format!("{} has no value", key.trim())).about(key.trim()).at(span));
        }
        pairs.push(Pair { key: key.trim().into(), value: value.trim().into(), span });
    }
    Ok(Asked { name: name.into(), pairs })
}

/// Where the key before the `=` at `at` begins.
fn key_start(text: &str, at: usize) -> usize {
    let before = text[..at].trim_end();
    before.rfind(char::is_whitespace).map_or(0, |blank| blank + 1)
}

/// A finding about a style, placed at the pair it names or at the style's name.
pub fn place(found: Diagnostic, asked: &Asked, start: usize) -> Diagnostic {
    let named = asked.pairs.iter().find(|pair| found.name.as_deref() == Some(&*pair.key));
    let span = named.map_or(start..start + asked.name.len(), |pair| start + pair.span.start..start + pair.span.end);
    place_at(found, span)
}

/// A finding at a place of the line, unless it has one.
pub fn place_at(found: Diagnostic, span: Span) -> Diagnostic {
    if found.span.is_some() || found.source.is_some() { found } else { found.at(span) }
}

/// The first line of what a script says about itself: what its `about` gives, or its first comment.
pub fn first_line(text: &str) -> String {
    let about = text.split("fn about()").nth(1).and_then(|rest| rest.split('"').nth(1));
    let comment = text.lines().find_map(|line| line.trim().strip_prefix("//")).map(str::trim);
    about.or(comment).unwrap_or("says nothing about itself").to_string()
}

/// The version of a style: another for every other text, by [`hash`].
pub fn version(text: &str) -> String {
    format!("{:016x}", hash(text.bytes()))
}

/// The FNV-1a hash of 64 bits.
///
/// Source: Fowler, Noll, Vo, Eastlake, The FNV Non-Cryptographic Hash Algorithm.
pub fn hash(bytes: impl IntoIterator<Item = u8>) -> u64 {
    const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0000_0100_0000_01b3;
    bytes.into_iter().fold(BASIS, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pairs_go_on_to_the_next_key() {
        let asked = asked("narrow-float face=1 1/4 wood=hard maple").unwrap();
        let pairs: Vec<(&str, &str)> =
            asked.pairs.iter().map(|pair| (pair.key.as_str(), pair.value.as_str())).collect();
        assert_eq!(pairs, [("face", "1 1/4"), ("wood", "hard maple")]);
        assert_eq!(asked.pairs[0].span, 13..23);
    }

    /// Values of the hash's own test vectors, as typed from memory of its published tables.
    #[test]
    fn a_version_is_of_the_text() {
        assert_eq!(version(""), "cbf29ce484222325");
        assert_eq!(version("a"), "af63dc4c8601ec8c");
        assert_eq!(version("foobar"), "85944171f73967e8");
    }

    #[test]
    fn what_is_no_pair_is_refused() {
        assert!(asked("").is_err());
        assert_eq!(asked("narrow-float wide face=1").unwrap_err().span, Some(13..18));
        assert_eq!(asked("narrow-float face=").unwrap_err().message(), "face has no value");
    }

    #[test]
    fn every_shipped_style_says_what_it_is_for() {
        for (name, text) in SHIPPED {
            assert!(first_line(text).ends_with('.'), "{name}");
        }
    }
}
