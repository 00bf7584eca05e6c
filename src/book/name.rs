//! Names of designs, `moth-07`, and of one revision, `moth-07@3`.

use unicode_segmentation::UnicodeSegmentation;

use crate::diag::codes::{book, word};
use crate::diag::{Code, Fault, Says, says};

/// The most characters of a name.
pub const LONGEST_NAME: usize = 64;

/// A design, or one revision of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Address {
    /// The name of the design.
    pub name: String,
    /// The number of the revision; none for the newest.
    pub revision: Option<u32>,
}

/// Why a text cannot be the name of a design.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum NameFault {
    Missing,
    Long { count: usize },
    Letter { name: String, letter: String },
    Bare { name: String },
    Revision { name: String, text: String },
    Reserved { name: String },
}

impl Fault for NameFault {
    fn code(&self) -> &'static Code {
        match self {
            Self::Missing => &word::VALUE_MISSING,
            Self::Revision { .. } => &book::REVISION_UNKNOWN,
            Self::Long { .. } | Self::Letter { .. } | Self::Bare { .. } | Self::Reserved { .. } => &book::NAME,
        }
    }

    fn says(&self) -> Says {
        match self {
            Self::Missing => says!("the name of a design is missing"),
            Self::Long { count } => says!("names have at most {} characters; this one has {}", LONGEST_NAME, count),
            Self::Letter { letter, .. } => {
                says!("names contain only letters, digits, -, _ and .; not {}", format!("{letter:?}"))
            }
            Self::Bare { name } => says!("names need at least one letter or digit; {} has none", name),
            Self::Reserved { name } => says!("{} is a word of the prompt; choose another name", name),
            Self::Revision { text, .. } => {
                says!("the number of a revision after @ is a whole number from 1, not {}", format!("{text:?}"))
            }
        }
    }
}

impl Address {
    /// Reads `NAME` or `NAME@REVISION`.
    ///
    /// # Errors
    /// The text is not a name, or not a revision.
    pub fn read(text: &str) -> Result<Self, NameFault> {
        let Some((name, number)) = text.split_once('@') else {
            check_name(text)?;
            return Ok(Self { name: text.into(), revision: None });
        };
        check_name(name)?;
        match number.parse::<u32>() {
            // A number is written in one way, so that a revision has one address.
            Ok(revision) if revision > 0 && revision.to_string() == number => {
                Ok(Self { name: name.into(), revision: Some(revision) })
            }
            _ => Err(NameFault::Revision { name: name.into(), text: number.into() }),
        }
    }
}

/// Whether designs can have this name: letters of any script with their marks, digits, `-`, `_`, `.`, at most 64.
///
/// # Errors
/// The first reason against the name.
pub fn check_name(name: &str) -> Result<(), NameFault> {
    if name.is_empty() {
        return Err(NameFault::Missing);
    }
    let count = name.chars().count();
    if count > LONGEST_NAME {
        return Err(NameFault::Long { count });
    }
    match name.graphemes(true).find(|letter| !is_letter(letter)) {
        Some(letter) => Err(NameFault::Letter { name: name.into(), letter: letter.into() }),
        None if !name.contains(char::is_alphanumeric) => Err(NameFault::Bare { name: name.into() }),
        None => Ok(()),
    }
}

/// A letter with its marks. Invisible joiners and variants are refused, because they would make two names look alike.
fn is_letter(cluster: &str) -> bool {
    let mut letters = cluster.chars();
    let first = letters.next().is_some_and(|letter| letter.is_alphanumeric() || "-_.".contains(letter));
    let unseen = |letter: char| {
        matches!(letter, '\u{34f}' | '\u{180b}'..='\u{180f}' | '\u{200c}' | '\u{200d}' | '\u{fe00}'..='\u{fe0f}')
            || letter >= '\u{1f000}'
    };
    first && !letters.any(unseen)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_of_any_script() {
        for name in
            ["moth-07", "a", "7", "größe_2", "額縁", "пейзаж.2", "لوحة", "चित्र", "e\u{301}t\u{e9}", &"x".repeat(64)]
        {
            assert_eq!(check_name(name), Ok(()), "{name}");
        }
    }

    #[test]
    fn what_is_no_name_is_refused() {
        for name in
            ["a b", "a\"b", "a;b", "a'b", "a/b", "a@b", "🖼", "a\0", "a\u{200d}b", "a\u{202e}b", "a\nb", "1\u{fe0f}"]
        {
            assert!(matches!(check_name(name), Err(NameFault::Letter { .. })), "{name:?}");
        }
        assert_eq!(check_name(""), Err(NameFault::Missing));
        assert_eq!(check_name("-._"), Err(NameFault::Bare { name: "-._".into() }));
        assert_eq!(check_name(&"é".repeat(65)), Err(NameFault::Long { count: 65 }));
    }

    #[test]
    fn a_revision_stands_behind_the_name() {
        let read = |text| Address::read(text).map(|address| (address.name, address.revision));
        assert_eq!(read("moth@3"), Ok(("moth".into(), Some(3))));
        assert_eq!(read("moth"), Ok(("moth".into(), None)));
        for text in ["moth@", "moth@0", "moth@-1", "moth@+1", "moth@01", "moth@1.5", "moth@99999999999", "moth@1@2"] {
            assert!(matches!(read(text), Err(NameFault::Revision { .. })), "{text}");
        }
    }
}
