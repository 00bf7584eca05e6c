//! The design book as others meet it: programs that are killed, disks that are full, files that are something else.

#[cfg(unix)]
mod at_rest;
mod damage;
mod homes;
#[cfg(unix)]
mod killed;
mod many;
#[cfg(unix)]
mod rights;
#[cfg(unix)]
mod shell;
mod words;

use std::path::Path;

use benchrule::book::{Address, DesignBook, Revision};
use benchrule::host::Zone;

use crate::program::Home;

/// The book of a home.
#[track_caller]
fn book(home: &Path) -> DesignBook {
    DesignBook::open(&home.join("book.db"), Zone::Universal).unwrap()
}

/// Every revision of a design, which must follow one another without a gap.
#[track_caller]
fn revisions(home: &Path, name: &str) -> Vec<Revision> {
    let all = book(home).revisions(name).unwrap();
    let numbers: Vec<u32> = all.iter().map(|one| one.number).collect();
    assert_eq!(numbers, (1..).take(all.len()).collect::<Vec<u32>>(), "{name}");
    all
}

/// The database finds nothing wrong with itself, and every revision is whole.
#[track_caller]
fn is_sound(home: &Path) {
    let raw = rusqlite::Connection::open(home.join("book.db")).unwrap();
    let said: String = raw.query_row("PRAGMA integrity_check", [], |row| row.get(0)).unwrap();
    assert_eq!(said, "ok");
    let halves: i64 = raw
        .query_row(
            "SELECT count(*) FROM design LEFT JOIN revision ON revision.id = newest WHERE number IS NULL",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(halves, 0, "designs without a revision");
}

/// A home whose book has a design of so many revisions.
fn with_revisions(count: usize) -> Home {
    let home = Home::new();
    let lines: String = (1..=count).map(|at| format!("art.width {at}\nkeep moth\n")).collect();
    let ran = home.pipe(&["--json"], lines);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    home
}

/// The newest revision of a design.
#[track_caller]
fn newest(home: &Path, name: &str) -> Revision {
    book(home).revision(&Address::read(name).unwrap()).unwrap()
}
