//! The book as a file, out and in.

use std::path::Path;

use super::{bench, draft, float, open, set};
use crate::book::{BookFault, DesignBook, Mark};
use crate::host::{Host, Memory};
use crate::rules::shipped;

const NOW: i64 = 1_772_452_800;
const FILE: &str = "/book.jsonl";

/// A book with all that may be in one.
fn full(folder: &Path) -> DesignBook {
    let mut book = open(folder);
    let mut framed = float("16 1/64");
    framed.style = Some(Mark { name: "narrow-float".into(), version: "1".into() });
    book.keep("moth", Some("quotes \" and ; and\nlines"), &float("16"), NOW).unwrap();
    book.keep("moth", None, &framed, NOW + 60).unwrap();
    let mut design = bench();
    set(&mut design, "art", "400mm x 500mm");
    set(&mut design, "client", "Zwei Laternen 🖼 لوحة");
    book.keep("größe", None, &draft(&design), NOW + 120).unwrap();
    book.keep("old", None, &float("9"), NOW + 180).unwrap();
    book.set_retired("old", true).unwrap();
    book
}

fn text(host: &Memory) -> String {
    host.read(Path::new(FILE)).unwrap()
}

#[test]
fn an_export_taken_into_an_empty_book_is_exported_alike() {
    let (one, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let host = Memory::default();
    assert_eq!(full(one.path()).export(&host, Path::new(FILE)).unwrap(), (3, 4));
    let first = text(&host);
    let mut book = open(other.path());
    let done = book.import(&host, Path::new(FILE), &shipped()).unwrap();
    assert_eq!((done.designs, done.revisions, done.remarks.len()), (3, 4, 0));
    book.export(&host, Path::new(FILE)).unwrap();
    assert_eq!(text(&host), first);
    // A second time nothing is new.
    let again = book.import(&host, Path::new(FILE), &shipped()).unwrap();
    assert_eq!((again.designs, again.revisions), (0, 0));
    assert_eq!(
        again.remarks,
        [
            "größe: 1 revision left out; the book has it already",
            "moth: 2 revisions left out; the book has them already",
            "old: 1 revision left out; the book has it already",
        ]
    );
    book.export(&host, Path::new(FILE)).unwrap();
    assert_eq!(text(&host), first);
}

#[test]
fn what_is_there_is_never_replaced() {
    let (one, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let host = Memory::default();
    full(one.path()).export(&host, Path::new(FILE)).unwrap();
    let mut book = open(other.path());
    book.keep("moth", None, &float("30"), NOW).unwrap();
    book.keep("old", None, &float("31"), NOW).unwrap();
    let done = book.import(&host, Path::new(FILE), &shipped()).unwrap();
    assert_eq!((done.designs, done.revisions), (1, 4));
    assert_eq!(
        done.remarks,
        [
            "moth@1 was imported as moth@2",
            "moth@2 was imported as moth@3",
            "old@1 was imported as old@2",
            "old is retired in the file and stays in use here",
        ]
    );
    assert_eq!(book.revisions("moth").unwrap()[0].draft, float("30"));
}

/// Each slip in a file has its message, and nothing is imported.
#[test]
fn of_a_damaged_file_nothing_is_taken() {
    let folder = tempfile::tempdir().unwrap();
    let host = Memory::default();
    full(folder.path()).export(&host, Path::new(FILE)).unwrap();
    let whole = text(&host);
    let cases: Vec<(String, usize, &str)> = vec![
        (String::new(), 1, "the file is empty"),
        ("art 16 x 20\n".into(), 1, "the line is not a JSON object"),
        ("{\"a\":1}\n".into(), 1, "the first line of an export must be"),
        (whole.replace("\"format\":1", "\"format\":9"), 1, "a newer program wrote it (format 9"),
        (whole[..whole.len() - 40].into(), 5, "the line is not a JSON object"),
        (whole.replace("\"time\":\"2026-03-02T12:01:00Z\",", ""), 4, "time is missing"),
        (whole.replace("2026-03-02T12:01:00Z", "yesterday"), 4, "time must look like 2026-03-02T12:01:00Z, not"),
        (
            whole.replace("2026-03-02T12:01:00Z", "9999-99-99T99:99:99Z"),
            4,
            "time must look like 2026-03-02T12:01:00Z, not",
        ),
        (
            whole.replace("2026-03-02T12:01:00Z", "2026-02-29T12:01:00Z"),
            4,
            "time must look like 2026-03-02T12:01:00Z, not",
        ),
        (
            whole.replace("2026-03-02T12:01:00Z", "2026-03-02T24:01:00Z"),
            4,
            "time must look like 2026-03-02T12:01:00Z, not",
        ),
        (whole.replace("\"tape\":\"1/16 in\"", "\"tape\":\"0\""), 2, "a tape is marked in 1/8 in"),
        (whole.replace("\"tape\":\"1/16 in\"", "\"tape\":\"-1/16 in\""), 2, "a tape is marked in 1/8 in"),
        (
            whole.replace("\"art.height\":\"20\\\"\"", "\"art.height\":\"-20\\\"\""),
            3,
            "art.height must be above 0\", not -20\"",
        ),
        (whole.replace("\"design\":\"moth\"", "\"design\":\"mo th\""), 3, "names contain only letters"),
        (whole.replace("\"revision\":2", "\"revision\":0"), 4, "revision must be a whole number from 1"),
        (whole.replace("\"tape\"", "\"tpae\""), 2, "lines of an export have no \"tpae\""),
        (whole.replace("\"art.height\":\"20\\\"\"", "\"art.height\":\"20lb\""), 3, "art.height is a length"),
        (whole.replace("\"build\":\"float\"", "\"build\":\"boat\""), 2, "there is no build called boat"),
        (
            whole.replace("\"art.height\":\"20\\\"\"", "\"art.height\":\"20\\\"\\nwood oak\""),
            3,
            "the value of art.height",
        ),
        (
            whole.replace("{\"retired\":\"old\"}", "{\"retired\":\"new\"}"),
            6,
            "new is retired before its first revision",
        ),
        (whole.replace("\"design\":\"old\"", "\"design\":7"), 5, "design is missing"),
        (format!("{whole}\n"), 7, "the line is empty"),
    ];
    let empty = tempfile::tempdir().unwrap();
    let mut book = open(empty.path());
    for (damaged, at, said) in cases {
        assert_ne!(damaged, whole, "{said}");
        host.write(Path::new(FILE), &damaged).unwrap();
        match book.import(&host, Path::new(FILE), &shipped()) {
            Err(BookFault::Import { line, why, .. }) => {
                assert!(
                    said_by(&why).starts_with(said) && line == at,
                    "line {line}: {why:?}, and not line {at}: {said}"
                );
            }
            other => panic!("{said}: {other:?}"),
        }
        assert_eq!(book.list(false, 10).unwrap().1, 0, "{said}");
    }
    assert!(matches!(book.import(&host, Path::new("/none"), &shipped()), Err(BookFault::File(_))));
}

#[test]
fn an_export_goes_over_an_older_one_and_nothing_else() {
    let folder = tempfile::tempdir().unwrap();
    let book = full(folder.path());
    let host = Memory::with(&[("/letter.txt", "dear all\n"), ("/empty", "")]);
    book.export(&host, Path::new(FILE)).unwrap();
    book.export(&host, Path::new(FILE)).unwrap();
    for file in ["/letter.txt", "/empty"] {
        assert!(matches!(book.export(&host, Path::new(file)), Err(BookFault::There { .. })), "{file}");
    }
    assert_eq!(host.read(Path::new("/letter.txt")).unwrap(), "dear all\n");
}

#[test]
fn a_backup_is_a_book_and_goes_over_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = full(folder.path());
    let file = folder.path().join("copy").with_extension("db");
    book.backup(&file).unwrap();
    // What is kept later is not in it.
    book.keep("later", None, &float("16"), NOW).unwrap();
    assert!(matches!(book.backup(&file), Err(BookFault::There { .. })));
    let copy = DesignBook::open(&file, crate::host::Zone::Universal).unwrap();
    assert_eq!(copy.revisions("moth").unwrap(), book.revisions("moth").unwrap());
    assert!(matches!(copy.revisions("later"), Err(BookFault::Unknown { .. })));
}

/// A byte-order mark is skipped; a field that the rules do not know is kept and reported.
#[test]
fn a_file_from_an_editor_is_read_and_what_is_unknown_is_told() {
    let (one, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let host = Memory::default();
    full(one.path()).export(&host, Path::new(FILE)).unwrap();
    let plain = text(&host);
    let marked =
        format!("\u{feff}{plain}").replace("\"build\":\"float\"", "\"build\":\"float\",\"face.colour\":\"red\"");
    host.write(Path::new(FILE), &marked).unwrap();
    let mut book = open(other.path());
    let done = book.import(&host, Path::new(FILE), &shipped()).unwrap();
    let remark = "there is no field called face.colour; its value is saved as it is";
    assert!(done.remarks.iter().any(|one| one.ends_with(remark)), "{:?}", done.remarks);
    assert!(book.revisions("moth").unwrap()[0].draft.fields.contains("face.colour red\n"));
    // The file is still an export, which an export may replace.
    book.export(&host, Path::new(FILE)).unwrap();
}

#[test]
fn a_copy_that_cannot_be_written_is_told_as_a_copy() {
    let folder = tempfile::tempdir().unwrap();
    let book = full(folder.path());
    let fault = book.backup(&folder.path().join("none/copy")).unwrap_err();
    let fault = said_by(&crate::diag::Fault::says(&fault));
    assert!(fault.starts_with("the copy ") && fault.contains("cannot be written: there is no folder "), "{fault}");
}

/// What a fault says, as text.
fn said_by(says: &crate::diag::Says) -> String {
    crate::diag::Diagnostic::new(says.clone()).message()
}
