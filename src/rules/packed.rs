//! The rules in force, packed until something asks for more than a name.

use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, LazyLock, OnceLock};

use super::book::{Added, Book, NameKind};

/// A book of rules that many share. The shipped one stays packed until it is read: a sum needs none of it.
#[derive(Clone)]
pub struct Rules(Arc<OnceLock<Book>>);

/// Every name of the shipped rules with its kind, in order, written when the program is built.
static NAMES: &[(&str, NameKind)] = include!(concat!(env!("OUT_DIR"), "/names.rs"));

static SHIPPED: LazyLock<Rules> = LazyLock::new(Rules::packed);

/// The shipped rules.
pub fn shipped() -> Rules {
    SHIPPED.clone()
}

/// Another for every other program that reads rules or packs them.
pub const READER: &str = env!("BENCHRULE_RULES_READER");

impl Book {
    /// The book as bytes, without what it was read from.
    pub fn pack(&self) -> Option<Vec<u8>> {
        postcard::to_stdvec(self).ok()
    }

    /// The book that was packed by a program of the same [`READER`], read from these files. The bytes must be whole:
    /// whoever kept them has a mark of them.
    pub fn unpack(packed: &[u8], added: Added) -> Option<Self> {
        let book: Self = postcard::from_bytes(packed).ok()?;
        Some(Self { added, ..book })
    }
}

/// The shipped rules, unpacked afresh.
pub fn unpack() -> Book {
    let packed = include_bytes!(concat!(env!("OUT_DIR"), "/rules.bin"));
    postcard::from_bytes(packed).expect("packed from the same shapes when the program was built")
}

/// The kind of a name of the shipped rules.
pub fn shipped_kind(name: &str) -> Option<NameKind> {
    let place = NAMES.binary_search_by_key(&name, |(name, _)| name).ok()?;
    NAMES.get(place).map(|(_, kind)| *kind)
}

impl Rules {
    /// The shipped rules, packed, apart from those that others share.
    pub fn packed() -> Self {
        Self(Arc::default())
    }

    /// Whether they were read.
    pub fn is_unpacked(&self) -> bool {
        self.0.get().is_some()
    }

    /// Whether both are the very same book.
    pub fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    /// What a name stands for, without unpacking.
    pub fn kind(&self, name: &str) -> Option<NameKind> {
        match self.0.get() {
            Some(book) => book.kind(name),
            None => shipped_kind(name),
        }
    }
}

impl From<Book> for Rules {
    fn from(book: Book) -> Self {
        Self(Arc::new(OnceLock::from(book)))
    }
}

impl Deref for Rules {
    type Target = Book;

    fn deref(&self) -> &Book {
        self.0.get_or_init(unpack)
    }
}

impl fmt::Debug for Rules {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Rules").field("unpacked", &self.is_unpacked()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The table of names agrees with the rules.
    #[test]
    fn names_are_known_without_the_rules() {
        let book = unpack();
        assert_eq!(NAMES.len(), book.names.len());
        for name in book.all_names() {
            assert_eq!(shipped_kind(name), book.kind(name), "{name}");
        }
        for other in ["", "a", "art.", "reveel", "zzz"] {
            assert_eq!((shipped_kind(other), book.kind(other)), (None, None), "{other}");
        }
        let rules = Rules::packed();
        assert_eq!(rules.kind("reveal"), Some(NameKind::Value));
        assert_eq!(rules.kind("opening.width"), Some(NameKind::Figure));
        assert_eq!(rules.kind("wood"), Some(NameKind::Word));
        assert_eq!(rules.kind("note"), Some(NameKind::Text));
        assert!(!rules.is_unpacked());
        assert!(rules.slot("reveal").is_some() && rules.is_unpacked());
    }
}
