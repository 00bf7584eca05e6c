//! Files that are not what they should be: said with the file and what to do, the design still at the bench, nothing
//! overwritten.

use std::path::Path;

use super::{newest, with_revisions};
use crate::program::Home;

/// Keeping fails with these words, the bench goes on, and the file is as it was.
#[track_caller]
fn is_refused(home: &Home, said: &[&str]) {
    let file = home.path().join("book.db");
    let before = std::fs::read(&file).unwrap();
    let ran = home.say(&["art.width 16", "keep moth", "art.width"]);
    assert_eq!(ran.status, 1, "{}", ran.out);
    assert!(ran.out.ends_with("16\"   406.4 mm\n"), "{}", ran.out);
    // An error is broken at blanks to fit the screen.
    let err = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in said.iter().chain(&["book.db"]) {
        assert!(err.contains(words), "{words}: {}", ran.err);
    }
    assert_eq!(std::fs::read(&file).unwrap(), before, "it was written to");
}

#[test]
fn what_is_no_book_is_left_alone() {
    let home = Home::new();
    home.file("book.db", "Dear all, the frames are ready on Friday. ".repeat(40));
    is_refused(&home, &["is not a design book", "move the file elsewhere"]);
    let other = Home::new();
    let raw = rusqlite::Connection::open(other.path().join("book.db")).unwrap();
    raw.execute_batch("CREATE TABLE recipe (dish TEXT); INSERT INTO recipe VALUES ('soup')").unwrap();
    drop(raw);
    is_refused(&other, &["is not a design book"]);
}

#[test]
fn a_newer_book_is_left_alone() {
    let home = with_revisions(2);
    let raw = rusqlite::Connection::open(home.path().join("book.db")).unwrap();
    raw.pragma_update(None, "user_version", 99).unwrap();
    raw.pragma_update(None, "journal_mode", "delete").unwrap();
    drop(raw);
    is_refused(&home, &["written by a newer program (format 99", "use the newer program"]);
}

/// Every page of a book in turn is overwritten with bytes that belong nowhere.
#[test]
fn a_corrupted_page_is_told_and_nothing_written() {
    const PAGE: usize = 4096;
    let home = with_revisions(40);
    settle(home.path());
    let whole = std::fs::read(home.path().join("book.db")).unwrap();
    let mut reported = 0;
    for page in 1..whole.len() / PAGE {
        let hurt = Home::new();
        let mut bytes = whole.clone();
        bytes[page * PAGE..(page + 1) * PAGE].fill(0xa5);
        hurt.file("book.db", &bytes);
        let ran = hurt.say(&["art.width 16", "keep moth", "revisions moth", "find moth", "art.width"]);
        // What a line does not touch it cannot miss; whatever it does touch it reports.
        assert!(ran.out.ends_with("16\"   406.4 mm\n"), "{}", ran.out);
        for line in ran.err.lines().filter(|line| line.starts_with("error: ")) {
            assert!(line.contains("the design book"), "{}", ran.err);
        }
        if ran.err.contains("damaged") {
            reported += 1;
        }
        if ran.err.matches("error: ").count() == 3 {
            // Nothing could be done, so nothing was.
            assert!(std::fs::read(hurt.path().join("book.db")).unwrap() == bytes, "page {page} was overwritten");
        }
    }
    assert!(reported > whole.len() / PAGE / 2, "{reported}");
}

#[test]
fn a_truncated_book_is_told_and_left_alone() {
    let home = with_revisions(40);
    settle(home.path());
    let whole = std::fs::read(home.path().join("book.db")).unwrap();
    for part in [1, 5, 9] {
        let cut = Home::new();
        cut.file("book.db", &whole[..whole.len() * part / 10]);
        is_refused(&cut, &["is damaged", "put a backup in its place"]);
    }
    // Cut inside its first page it is not even known for one.
    let cut = Home::new();
    cut.file("book.db", &whole[..600]);
    is_refused(&cut, &["put a backup in its place"]);
}

/// Puts all of a book into its one file, as a backup has it.
fn settle(home: &Path) {
    let raw = rusqlite::Connection::open(home.join("book.db")).unwrap();
    raw.pragma_update(None, "journal_mode", "delete").unwrap();
}

#[test]
fn a_folder_that_is_missing_is_made() {
    let home = Home::new();
    let deep = home.path().join("a/b");
    let mut command = crate::program::bare(home.path());
    command.arg("--home").arg(&deep).args(["-e", "art.width 16", "-e", "keep moth"]);
    assert_eq!(crate::program::finish(command.spawn().unwrap()).err, "");
    assert_eq!(newest(&deep, "moth").number, 1);
}

#[test]
fn a_folder_that_is_a_file_is_told() {
    let home = Home::new();
    let file = home.file("letter", "dear all");
    for name in ["", "below"] {
        let mut command = crate::program::bare(home.path());
        command.arg("--home").arg(file.join(name)).args(["-e", "art.width 16", "-e", "keep moth", "-e", "art.width"]);
        let ran = crate::program::finish(command.spawn().unwrap());
        let err = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(err.contains("book.db cannot be opened") && err.contains("--home"), "{err}");
        assert!(ran.out.ends_with("16\"   406.4 mm\n"), "{}", ran.out);
        assert_eq!(home.read("letter"), "dear all");
    }
    let folder = Home::new();
    std::fs::create_dir(folder.path().join("book.db")).unwrap();
    let ran = folder.say(&["art.width 16", "keep moth"]);
    assert!(ran.err.contains("book.db cannot be opened"), "{}", ran.err);
}

/// An empty file cannot be read as a book, and is not what there was: a new one is begun, and that is reported once.
#[test]
fn an_empty_file_is_told() {
    let home = Home::new();
    home.file("book.db", "");
    let ran = home.say(&["art.width 16", "keep moth", "book"]);
    assert_eq!(ran.out.matches("was empty, so a new one was started").count(), 1, "{}", ran.out);
    assert!(ran.out.contains("put a backup in its place\nmoth@1\n"), "{}", ran.out);
    assert!(!home.say(&["book"]).out.contains("empty"));
}

/// Looking makes no book.
#[test]
fn a_book_is_made_when_something_is_kept_and_not_before() {
    let home = Home::new();
    let ran = home.say(&["art.width 16", "book", "find moth", "revisions moth", "find if art.width > 1in"]);
    assert!(ran.err.starts_with("error: there is no design called moth\n"), "{}", ran.err);
    assert_eq!(home.names(), <[String; 0]>::default());
    home.say(&["1 + 1", "art 16 x 20", "sheet"]);
    assert_eq!(home.names(), <[String; 0]>::default());
}
