//! House styles: scripts with `build_for(art, asks)` that frame a work by the house's rules.

use crate::diag::{Diagnostic, Span};

/// A line that names a style.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The name of the style.
    pub name: String,
    /// The place of the name.
    pub span: Span,
    /// Keys and the texts of their values, with the places of both.
    pub pairs: Vec<Pair>,
}

/// One `key=value`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The key.
    pub key: String,
    /// The value, as typed.
    pub value: String,
    /// The place of the pair.
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

/// A finding about a style, placed at the pair it names or at the style's name.
pub fn place(found: Diagnostic, asked: &Asked) -> Diagnostic {
    let named = asked.pairs.iter().find(|pair| found.name.as_deref() == Some(&*pair.key));
    let span = named.map_or(&asked.span, |pair| &pair.span);
    place_at(found, span.clone())
}

/// A finding at a place of the line, unless it has one.
pub fn place_at(found: Diagnostic, span: Span) -> Diagnostic {
    if found.span.is_some() || found.source.is_some() { found } else { found.at(span) }
}

/// The description of a script: the text of its `about()`, or its first comment.
pub fn first_line(text: &str) -> String {
    let about = text.split("fn about()").nth(1).and_then(|rest| rest.split('"').nth(1));
    let comment = text.lines().find_map(|line| line.trim().strip_prefix("//")).map(str::trim);
    about.or(comment).unwrap_or("no description").to_string()
}

/// The version of a style, which differs for every text; see [`hash`].
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

    /// Values of the hash's own test vectors, as typed from memory of its published tables.
    #[test]
    fn a_version_is_of_the_text() {
        assert_eq!(version(""), "cbf29ce484222325");
        assert_eq!(version("a"), "af63dc4c8601ec8c");
        assert_eq!(version("foobar"), "85944171f73967e8");
    }

    #[test]
    fn every_shipped_style_says_what_it_is_for() {
        for (name, text) in SHIPPED {
            assert!(first_line(text).ends_with('.'), "{name}");
        }
    }
}
