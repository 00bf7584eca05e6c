//! `.ci/advisories.tsv`: what the RustSec database knew of each locked package on the day of the last review.
//!
//! The test needs no network: a package or version that the review has not seen makes it fail. To review, get a copy of
//! the database, then `ADVISORIES=FOLDER BLESS=1 cargo test --test tidy advisories`; put the day and the state of the
//! database into the first lines, and a verdict behind each open advisory.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use semver::{Version, VersionReq};
use toml_edit::{DocumentMut, Item};

use crate::packages::{Package, locked};
use crate::source::root;

/// A row: what does not concern our version any more, what does, and what we make of it.
struct Review {
    closed: Vec<String>,
    open: Vec<String>,
    verdict: String,
}

fn written() -> String {
    std::fs::read_to_string(root().join(".ci/advisories.tsv")).unwrap_or_default()
}

fn reviews(text: &str) -> BTreeMap<Package, Review> {
    let list = |cell: &str| cell.split_whitespace().map(String::from).collect();
    let row = |line: &str| {
        let cells: Vec<&str> = line.split('\t').collect();
        let [name, version, closed, open, verdict] = cells[..] else { panic!("five cells, not {line:?}") };
        let review = Review { closed: list(closed), open: list(open), verdict: verdict.to_string() };
        ((name.to_string(), version.to_string()), review)
    };
    text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).map(row).collect()
}

/// Whether an advisory concerns a version: it was not withdrawn, and no range that is free of the fault holds it.
fn concerns(advisory: &DocumentMut, version: &Version) -> bool {
    let free = ["patched", "unaffected"].iter().any(|key| {
        let ranges = advisory["versions"].get(key).and_then(Item::as_array);
        let ranges = ranges.into_iter().flatten().filter_map(|range| range.as_str());
        ranges.map(|range| VersionReq::parse(range).unwrap()).any(|range| range.matches(version))
    });
    advisory["advisory"].get("withdrawn").is_none() && !free
}

/// The advisories of a database for one package; each file begins with a block of TOML.
fn review(database: &Path, package: &Package, verdicts: &BTreeMap<Package, Review>) -> Review {
    let mut review = Review { closed: Vec::new(), open: Vec::new(), verdict: String::new() };
    let mut files: Vec<_> = std::fs::read_dir(database.join("crates").join(&package.0))
        .map(|entries| entries.map(|entry| entry.unwrap().path()).collect())
        .unwrap_or_default();
    files.sort();
    let version = Version::parse(&package.1).unwrap();
    for file in files {
        let text = std::fs::read_to_string(&file).unwrap();
        let front = text.split("```").nth(1).and_then(|block| block.strip_prefix("toml")).unwrap();
        let advisory: DocumentMut = front.parse().unwrap();
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        if concerns(&advisory, &version) { review.open.push(name) } else { review.closed.push(name) }
    }
    if let Some(before) = verdicts.get(package).filter(|before| before.open == review.open) {
        review.verdict.clone_from(&before.verdict);
    }
    review
}

#[test]
fn every_locked_package_was_reviewed() {
    let before = reviews(&written());
    if let (Some(_), Some(database)) = (std::env::var_os("BLESS"), std::env::var_os("ADVISORIES")) {
        let mut text: String =
            written().lines().filter(|line| line.starts_with('#')).map(|line| format!("{line}\n")).collect();
        for package in locked().keys() {
            let review = review(Path::new(&database), package, &before);
            let (closed, open) = (review.closed.join(" "), review.open.join(" "));
            text += &format!("{}\t{}\t{closed}\t{open}\t{}\n", package.0, package.1, review.verdict);
        }
        std::fs::write(root().join(".ci/advisories.tsv"), text).unwrap();
    }
    let text = written();
    let reviewed: BTreeSet<Package> = reviews(&text).into_keys().collect();
    let locked: BTreeSet<Package> = locked().into_keys().collect();
    let differ: Vec<&Package> = reviewed.symmetric_difference(&locked).collect();
    assert!(differ.is_empty(), ".ci/advisories.tsv is stale: review these packages: {differ:?}");
    for ((name, version), review) in reviews(&text) {
        assert!(review.open.is_empty() || !review.verdict.is_empty(), "{name} {version}: {:?}", review.open);
    }
    let date = regex_lite::Regex::new(r"(?m)^# Reviewed \d{4}-\d\d-\d\d .* of \d{4}-\d\d-\d\d\.$").unwrap();
    assert!(date.is_match(&text), "the day of the review is missing");
}

#[test]
fn ranges_are_read() {
    let advisory = |text: &str| text.parse::<DocumentMut>().unwrap();
    let one =
        advisory("[advisory]\n[versions]\npatched = [\">= 0.7.4, < 0.8.0\", \">= 0.8.1\"]\nunaffected = [\"< 0.2.0\"]");
    let concerned = |version: &str| concerns(&one, &Version::parse(version).unwrap());
    assert_eq!(["0.1.9", "0.7.3", "0.7.9", "0.8.0", "0.8.1"].map(concerned), [false, true, false, true, false]);
    let withdrawn = advisory("[advisory]\nwithdrawn = \"2021-04-19\"\n[versions]\npatched = []");
    assert!(!concerns(&withdrawn, &Version::new(1, 0, 0)));
}
