//! The rules of a shop as last read, packed in a file: unpacking takes a hundredth of the time.
//!
//! The file counts only with the right mark, which covers the program, the texts and every packed byte. A file with any
//! other mark is replaced.

use std::io::Read;
use std::path::PathBuf;

use super::style::hash;
use crate::host::{Host, Trouble};
use crate::rules::{Added, Book, READER};

/// The file, in the data folder.
const FILE: &str = "rules.packed";
/// More bytes than the rules of any shop.
const LARGEST: u64 = 16 << 20;
/// The bytes of the mark, which come first.
const MARK: usize = 8;

/// The saved rule book of these files, if there is one.
pub(super) fn kept(host: &dyn Host, files: &[(String, String)]) -> Option<Book> {
    let mut bytes = Vec::new();
    host.reading(&file(host)?).ok()?.take(LARGEST).read_to_end(&mut bytes).ok()?;
    let (found, packed) = bytes.split_at_checked(MARK)?;
    let added = || Added { files: files.to_vec(), ..Added::default() };
    if found == mark(files, packed) { Book::unpack(packed, added()) } else { None }
}

/// Saves the rule book of these files. If that fails, the files are read again at the next start.
pub(super) fn keep(host: &dyn Host, files: &[(String, String)], book: &Book) {
    let (Some(file), Some(packed)) = (file(host), book.pack()) else { return };
    let mark = mark(files, &packed);
    let write = || {
        host.writing(&file, &mut |out| {
            out.write_all(&mark)?;
            out.write_all(&packed)
        })
    };
    // Writing a text makes a missing folder.
    if write().is_err_and(|fault| fault.trouble == Trouble::Missing) && host.write(&file, "").is_ok() {
        let _ = write();
    }
}

fn file(host: &dyn Host) -> Option<PathBuf> {
    host.data().map(|folder| folder.join(FILE))
}

fn mark(files: &[(String, String)], packed: &[u8]) -> [u8; MARK] {
    let program = [READER, env!("CARGO_PKG_VERSION")];
    let texts = program.into_iter().chain(files.iter().flat_map(|(name, text)| [name.as_str(), text.as_str()]));
    // No text has this byte, so it separates them.
    let texts = texts.flat_map(|text| text.bytes().chain([0xff]));
    hash(texts.chain(packed.iter().copied())).to_le_bytes()
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::super::shop_rules::rules;
    use super::*;
    use crate::host::Disk;

    const CRATE: &str = "crate.width = outside.width + 4in -- width of the crate\n";

    fn home(text: &str) -> tempfile::TempDir {
        let home = tempfile::tempdir().unwrap();
        std::fs::create_dir(home.path().join("rules")).unwrap();
        std::fs::write(home.path().join("rules/crate.rules"), text).unwrap();
        home
    }

    fn host(home: &Path) -> Disk {
        Disk::new(Some(home.into()))
    }

    /// The names of the rules of a home, which must be without fault.
    #[track_caller]
    fn names(home: &Path) -> Vec<String> {
        let (rules, found) = rules(&host(home));
        assert!(found.is_empty(), "{found:?}");
        rules.all_names().map(Into::into).collect()
    }

    #[test]
    fn rules_are_read_once() {
        let home = home(CRATE);
        let file = home.path().join(FILE);
        assert!(names(home.path()).iter().any(|name| name == "crate.width"));
        let first = std::fs::read(&file).unwrap();
        // The right mark alone decides: here the shipped rules have the mark of the text.
        let texts = [(home.path().join("rules/crate.rules").display().to_string(), CRATE.to_string())];
        keep(&host(home.path()), &texts, &crate::rules::unpack());
        assert!(!names(home.path()).iter().any(|name| name == "crate.width"));
        std::fs::write(&file, &first).unwrap();
        let (packed, _) = rules(&host(home.path()));
        assert!(packed.slot("crate.width").is_some());
        assert_eq!(packed.added.files, texts);
        // Another text is read, and replaces the file.
        std::fs::write(home.path().join("rules/crate.rules"), CRATE.replace("crate.width", "box.width")).unwrap();
        assert!(names(home.path()).iter().any(|name| name == "box.width"));
        assert_ne!(std::fs::read(&file).unwrap(), first);
    }

    /// Whatever the packed file holds, the rules are those of the texts, and the file is sound afterwards.
    #[test]
    fn a_damaged_file_is_replaced() {
        let home = home(CRATE);
        let file = home.path().join(FILE);
        let all = names(home.path());
        let whole = std::fs::read(&file).unwrap();
        let flipped = |at: usize| {
            let mut bytes = whole.clone();
            bytes[at] ^= 0x41;
            bytes
        };
        let cut = |end: usize| whole[..end].to_vec();
        let damages = [
            Vec::new(),
            cut(MARK - 1),
            cut(MARK),
            cut(whole.len() - 1),
            flipped(0),
            flipped(MARK),
            flipped(whole.len() / 2),
            flipped(whole.len() - 1),
            vec![0xff; 4096],
            [whole.as_slice(), b"more"].concat(),
        ];
        for damaged in damages {
            std::fs::write(&file, &damaged).unwrap();
            assert_eq!(kept(&host(home.path()), &[]).map(|_| ()), None);
            assert_eq!(names(home.path()), all);
            assert_eq!(std::fs::read(&file).unwrap(), whole);
        }
        // The rules are read even if the file cannot be written.
        std::fs::remove_file(&file).unwrap();
        std::fs::create_dir(&file).unwrap();
        assert_eq!(names(home.path()), all);
    }

    /// Damaged bytes do not unpack: cut to every length, and with single bytes changed.
    #[test]
    fn no_bytes_break_the_unpacking() {
        let packed = crate::rules::unpack().pack().unwrap();
        for at in (0..packed.len()).step_by(997) {
            let mut bytes = packed.clone();
            bytes[at] = bytes[at].wrapping_add(0x55);
            let _ = Book::unpack(&bytes, Added::default());
            assert!(Book::unpack(&packed[..at], Added::default()).is_none());
        }
    }
}
