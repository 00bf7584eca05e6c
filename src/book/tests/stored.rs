//! What the store keeps, and what it refuses.

use proptest::prelude::*;

use super::{bench, draft, float, open, set};
use crate::book::{Address, BookFault, Mark, text};

/// A second of the year 2026.
const NOW: i64 = 1_772_452_800;

fn newest(name: &str) -> Address {
    Address::read(name).unwrap()
}

#[test]
fn a_design_is_kept_revision_by_revision() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = open(folder.path());
    let (first, second) = (float("16"), float("17"));
    let keep = |book: &mut super::DesignBook, note, draft| {
        let kept = book.keep("moth-07", note, draft, NOW).unwrap();
        (kept.number, kept.written)
    };
    assert_eq!(keep(&mut book, Some("a first try"), &first), (1, true));
    // Nothing is written where nothing changed; a note said anew is a change.
    assert_eq!(keep(&mut book, None, &first), (1, false));
    assert_eq!(keep(&mut book, Some("a first try"), &first), (1, false));
    assert_eq!(keep(&mut book, Some("as agreed"), &first), (2, true));
    assert_eq!(keep(&mut book, None, &second), (3, true));
    drop(book);
    let book = open(folder.path());
    let all = book.revisions("moth-07").unwrap();
    assert_eq!(all.iter().map(|one| one.number).collect::<Vec<_>>(), [1, 2, 3]);
    assert_eq!(all.iter().map(|one| one.note.as_str()).collect::<Vec<_>>(), ["a first try", "as agreed", ""]);
    assert_eq!((&all[0].draft, &all[2].draft), (&first, &second));
    assert_eq!((all[0].time.as_str(), all[0].when.as_str()), ("2026-03-02T12:00:00Z", "2026-03-02 12:00"));
    assert_eq!(book.revision(&newest("moth-07@2")).unwrap(), all[1]);
    assert_eq!(book.revision(&newest("moth-07")).unwrap(), all[2]);
}

#[test]
fn the_style_is_kept_with_its_version() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = open(folder.path());
    let mut framed = float("16");
    framed.style = Some(Mark { name: "narrow-float".into(), version: "cbf29ce484222325".into() });
    book.keep("moth", None, &framed, NOW).unwrap();
    assert_eq!(book.revision(&newest("moth")).unwrap().draft, framed);
    // The same design by another text of the style is another revision.
    framed.style = Some(Mark { name: "narrow-float".into(), version: "af63dc4c8601ec8c".into() });
    assert_eq!(book.keep("moth", None, &framed, NOW).unwrap().number, 2);
}

#[test]
fn no_revision_is_changed_or_deleted_by_anyone() {
    let folder = tempfile::tempdir().unwrap();
    open(folder.path()).keep("moth", None, &float("16"), NOW).unwrap();
    let raw = rusqlite::Connection::open(folder.path().join("book.db")).unwrap();
    for statement in [
        "UPDATE revision SET note = 'x'",
        "UPDATE revision SET number = 7",
        "DELETE FROM revision",
        "DELETE FROM design",
        "INSERT INTO revision (design, number, time, note, program, tape, fields, figures) \
         VALUES (1, 1, '', '', '', '', '', '')",
        "INSERT INTO design (name) VALUES ('moth')",
    ] {
        assert!(raw.execute(statement, []).is_err(), "{statement}");
    }
}

#[test]
fn names_are_found_changed_and_hidden() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = open(folder.path());
    for name in ["moth-07", "moth-08", "größe"] {
        book.keep(name, None, &float("16"), NOW).unwrap();
    }
    assert_eq!(book.names("moth", 10).unwrap(), ["moth-07", "moth-08"]);
    assert_eq!(book.names("", 2).unwrap(), ["größe", "moth-07"]);
    book.rename("moth-08", "lantern").unwrap();
    let taken = book.rename("moth-07", "lantern").unwrap_err();
    assert_eq!(taken, BookFault::Taken { name: "lantern".into() });
    assert_eq!(book.find("lant", 10).unwrap().1, 1);
    assert_eq!(book.find("moth-08", 10).unwrap().1, 0);
    book.set_retired("lantern", true).unwrap();
    assert_eq!(book.set_retired("lantern", true), Err(BookFault::AlreadyRetired { name: "lantern".into() }));
    assert_eq!(book.keep("lantern", None, &float("9"), NOW), Err(BookFault::Retired { name: "lantern".into() }));
    assert_eq!(book.find("lantern", 10).unwrap().1, 0);
    let names = |retired| {
        let (entries, _) = book.list(retired, 10).unwrap();
        entries.into_iter().map(|entry| entry.name).collect::<Vec<_>>()
    };
    assert_eq!((names(false), names(true)), (vec!["größe".into(), "moth-07".into()], vec!["lantern".to_string()]));
    book.set_retired("lantern", false).unwrap();
    assert_eq!(book.set_retired("lantern", false), Err(BookFault::NotRetired { name: "lantern".into() }));
    let copied = book.copy(&newest("größe"), "größer", NOW).unwrap();
    assert_eq!(copied.number, 1);
    let copy = book.revision(&newest("größer")).unwrap();
    assert_eq!((copy.note.as_str(), copy.draft), ("copy of größe@1", float("16")));
    let unknown = book.revision(&newest("motj-07")).unwrap_err();
    assert_eq!(unknown, BookFault::Unknown { name: "motj-07".into(), near: vec!["moth-07".into()] });
    let past = book.revision(&newest("moth-07@2")).unwrap_err();
    assert_eq!(past, BookFault::NoRevision { name: "moth-07".into(), asked: 2, newest: 1 });
}

#[test]
fn words_are_found_in_name_client_and_note() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = open(folder.path());
    let mut design = bench();
    set(&mut design, "art", "16 x 20");
    set(&mut design, "name", "Évening tide");
    set(&mut design, "client", "Two Lanterns");
    set(&mut design, "note", "fragile (glass)");
    book.keep("moth-07", Some("as agreed on site"), &draft(&design), NOW).unwrap();
    book.keep("other", None, &float("16"), NOW).unwrap();
    for (words, found) in [
        ("moth", 1),
        ("07", 1),
        ("evening", 1),
        ("LANTERNS two", 1),
        ("lant agree glass", 1),
        ("lanterns elsewhere", 0),
        ("\"fragile", 1),
        ("fragile) OR (other", 0),
        ("note:fragile", 0),
        ("moth* NEAR", 0),
        ("o", 2),
    ] {
        assert_eq!(book.find(words, 10).map(|found| found.1), Ok(found), "{words}");
    }
    for words in ["", "  ", "\"", "- *"] {
        assert_eq!(book.find(words, 10), Err(BookFault::NoWords), "{words:?}");
    }
    assert_eq!(book.find("o", 1).unwrap().0.len(), 1);
    // Only the newest revision is searched.
    book.keep("moth-07", None, &float("9"), NOW).unwrap();
    assert_eq!(book.find("lanterns", 10).unwrap().1, 0);
}

#[test]
fn a_note_of_a_mib_is_kept_and_a_longer_one_refused() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = open(folder.path());
    let long = "½\"; 'x' ".repeat(1 << 20);
    let end = (1 << 20) - (1 << 20) % "½\"; 'x' ".len();
    let fits = &long[..end];
    book.keep("moth", Some(fits), &float("16"), NOW).unwrap();
    assert_eq!(book.revision(&newest("moth")).unwrap().note, fits);
    assert!(matches!(book.keep("moth", Some(&long), &float("16"), NOW), Err(BookFault::Note(_))));
    assert!(matches!(book.keep("moth", Some("a\0b"), &float("16"), NOW), Err(BookFault::Note(_))));
    assert_eq!(book.revisions("moth").unwrap().len(), 1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Texts are stored or refused, never mangled; and no search text acts as a statement.
    #[test]
    fn any_text_is_kept_as_it_is_or_refused(name in any::<String>(), note in any::<String>()) {
        let mut book = super::DesignBook::empty().unwrap();
        let _ = book.find(&note, 10);
        let _ = book.find(&name, 10);
        match book.keep(&name, Some(&note), &float("16"), NOW) {
            Ok(_) => {
                let kept = book.revision(&Address { name: name.clone(), revision: None }).unwrap();
                prop_assert_eq!((kept.name, kept.note), (name, note));
            }
            Err(BookFault::Name(_) | BookFault::Note(_)) => {
                prop_assert_eq!(book.list(false, 10).unwrap().1, 0);
            }
            Err(other) => return Err(TestCaseError::fail(format!("{other:?}"))),
        }
    }
}

/// A saved figure that the rules now work out differently is reported, and so is a field that they no longer take.
#[test]
fn what_is_not_as_it_was_kept_is_told() {
    let kept = float("16");
    let (design, left) = text::design(&kept.fields, bench());
    assert!(left.is_empty());
    assert_eq!(text::differences(&kept.figures, &text::figures(&design)), []);
    let older = kept.figures.replace("opening.width 16 1/2\"", "opening.width 16 3/8\" made 16 7/16\"");
    let differences = text::differences(&older, &text::figures(&design));
    let reported: Vec<_> =
        differences.iter().map(|one| (one.name.as_str(), one.was.as_deref(), one.is.as_deref())).collect();
    assert_eq!(reported, [("opening.width", Some("16 3/8\" made 16 7/16\""), Some("16 1/2\""))]);
    // A sine need not come out alike to the last figure on every machine.
    let close = kept.figures.replace("outside.diagonal ~28.42", "outside.diagonal ~28.420000000001");
    assert_ne!(close, kept.figures);
    let fields = "build float\nart.width -3\"\nface.colour red\nsetback 5lb\nwood brass\nart.height 20\"\n";
    let (design, left) = text::design(fields, bench());
    let why: Vec<String> = left
        .iter()
        .map(|one| format!("{} {}: {}", one.name, one.value, crate::diag::Diagnostic::new(one.why.clone()).message()))
        .collect();
    assert_eq!(
        why,
        [
            "face.colour red: there is no longer a field called face.colour",
            "setback 5lb: setback is now a length",
            "art.width -3\": art.width must be above 0\", not -3\"",
            "wood brass: there is no wood called brass",
        ]
    );
    assert_eq!(text::fields(&design), "build float\nart.height 20\"\n");
}

/// Whoever waits for a book that another holds is answered while still waiting for it.
#[test]
fn a_held_book_is_waited_for_a_few_seconds() {
    let folder = tempfile::tempdir().unwrap();
    let book = open(folder.path());
    let patience: i64 = book.connection.pragma_query_value(None, "busy_timeout", |row| row.get(0)).unwrap();
    assert!((2_000..=5_000).contains(&patience), "{patience} ms");
}
