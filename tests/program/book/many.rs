//! Many programs at one book.

use std::fs::File;

use super::{is_sound, revisions};
use crate::program::{Home, finish};

const PROGRAMS: usize = 8;
const EACH: usize = 200;

/// All begin at once, with no book there yet, and keep two designs turn and turn about.
#[test]
fn eight_programs_at_once_keep_all_they_say() {
    let home = Home::new();
    let children: Vec<_> = (0..PROGRAMS)
        .map(|program| {
            let lines: String = (0..EACH)
                .map(|turn| {
                    let name = if turn % 2 == 0 { "moth" } else { "größe" };
                    format!("art.width {}/64\nkeep {name}\n", 1 + program * EACH + turn)
                })
                .collect();
            let input = home.file(&format!("lines{program}"), lines);
            home.command(&["--json"]).stdin(File::open(input).unwrap()).spawn().unwrap()
        })
        .collect();
    for child in children {
        let ran = finish(child);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0));
        assert_eq!(ran.out.matches("\"written\":true").count(), EACH, "{}", ran.out);
    }
    let mut all = revisions(home.path(), "moth");
    all.extend(revisions(home.path(), "größe"));
    assert_eq!(all.len(), PROGRAMS * EACH);
    let mut fields: Vec<String> = all.into_iter().map(|one| one.draft.fields).collect();
    fields.sort();
    fields.dedup();
    assert_eq!(fields.len(), PROGRAMS * EACH);
    is_sound(home.path());
}

/// A backup and an export are of one moment, whoever writes meanwhile.
#[test]
fn copies_are_whole_while_others_write() {
    let home = Home::new();
    let lines: String = (1..=EACH).map(|turn| format!("art.width {turn}/64\nkeep moth\n")).collect();
    let input = home.file("lines", lines);
    home.say(&["art.width 5", "keep first"]);
    let writer = home.command(&["--json"]).stdin(File::open(input).unwrap()).spawn().unwrap();
    for turn in 0..8 {
        let ran = home.say(&[&format!("book backup copy{turn}.db"), &format!("book export copy{turn}.jsonl")]);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    }
    assert_eq!(finish(writer).status, 0);
    for turn in 0..8 {
        let copy = Home::new();
        std::fs::copy(home.path().join(format!("copy{turn}.db")), copy.path().join("book.db")).unwrap();
        is_sound(copy.path());
        let file = home.path().join(format!("copy{turn}.jsonl"));
        let taken = Home::new().say(&[&format!("book import {}", file.display())]);
        assert_eq!((taken.err.as_str(), taken.status), ("", 0));
    }
}
