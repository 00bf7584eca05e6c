//! Plain English: phrases that no one says at a bench.

use regex_lite::Regex;

use crate::source::{below, files, root};

/// What is not said, with what to write instead.
const PHRASES: &[(&str, &str)] = &[
    (r"\b(told|tells?|telling)\b", "shows, says, reports"),
    (r"\bdeeds?\b", "handler, action"),
    (r"\bhangs?_on\b", "depends_on"),
    (r"\breckon", "works out, estimates"),
    (r"\b(is|are|be|was|were) none\b", "is not a …, there is no …"),
    (r"\b(is|are) no [a-z]", "is not a …"),
    (r"\bof those there are\b", "in stock, on hand"),
    (r"\b(is|are|be) due\b", "is needed"),
    (r"\bgo(es)? on with\b", "continues"),
    (r"\bcalls?\b[^.;]{0,30}\botherwise\b", "renames"),
    (r"\bstands? (in|behind|alone|beside|there|before|at|under|above|with|on)\b", "is in, follows, is"),
    (r"\b(takes?|given) back\b|\btakes? [a-z ]{1,20} back\b", "clears, undoes"),
    (r"\bin the hands of\b", "depends on"),
    (r"\bat the most\b", "at most"),
    (r"\b(is|are) there already\b", "exists"),
    (r"\bbroke something inside\b", "internal error"),
    (r"\bsays? of\b|\bsaid of\b", "says about"),
    (r"\bnothing of\b", "nothing about"),
    (r"\bit is left as it is\b", "not overwritten"),
    (r"\bwhat is said\b|\bis said when\b", "the message"),
    (r"\bcalled so\b", "has this name"),
    (r"\bcame in (as|otherwise)\b|\btak(en|es|ing) in an? (export|file)\b", "is imported as, imports"),
    (r"\bwritten over\b", "overwritten"),
    (r"\bif you like\b", "if needed"),
    (r"\bgoes without saying\b", "is assumed"),
    (r"\bspeaks? up\b", "reports"),
    (r"\bsizes hang on\b", "depend on"),
    (r"\bof today\b", "now, no longer"),
    (r"\bdoes not do\b", "is not allowed, does not work"),
    (r"\b(goes|go|stays?) under one('s)? (name|word)\b", "has one name"),
];

/// The files that hold the phrases themselves, and lists of what other files say.
const LISTS: &[&str] = &["tests/tidy/phrases.rs", "tests/bench/registry/reference.txt", "tests/sentences.txt"];

/// Every phrase in a text, with its line. `there is no …` and `there are none` are good English, and `put back` is a word
/// of the prompt.
fn found<'t>(text: &'t str, patterns: &[(Regex, &'static str)]) -> Vec<(usize, &'t str, &'static str)> {
    let mut all = Vec::new();
    for (at, line) in text.lines().enumerate() {
        for (pattern, instead) in patterns {
            let hits = pattern.find_iter(line).filter(|hit| {
                let before = line[..hit.start()].trim_end().to_lowercase();
                let is_absent = hit.as_str().contains(" no ") || hit.as_str().ends_with(" none");
                !(hit.as_str().ends_with("put back") || before.ends_with("there") && is_absent)
            });
            all.extend(hits.map(|hit| (at + 1, hit.as_str(), *instead)));
        }
    }
    all
}

fn patterns() -> Vec<(Regex, &'static str)> {
    PHRASES.iter().map(|(pattern, instead)| (Regex::new(&format!("(?i){pattern}")).unwrap(), *instead)).collect()
}

#[test]
fn no_file_has_a_phrase_that_no_one_says() {
    let patterns = patterns();
    let kinds = [".rs", ".rules", ".toml", ".rhai", ".md", ".pest", ".sh", ".ci/run"];
    let mut all = String::new();
    for path in files(root()) {
        let name = below(&path, root());
        if !kinds.iter().any(|end| name.ends_with(end)) || LISTS.contains(&name.as_str()) {
            continue;
        }
        // Other files than text have no sentences.
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        for (line, phrase, instead) in found(&text, &patterns) {
            all += &format!("{name}:{line}: {phrase} → {instead}\n");
        }
    }
    assert!(all.is_empty(), "{all}");
}

#[test]
fn phrases_are_found() {
    let count = |text: &str| found(text, &patterns()).len();
    assert_eq!(count("a row is told with its line"), 1);
    assert_eq!(count("oka is no wood of the tables"), 1);
    assert_eq!(count("there is no wood called oka"), 0);
    assert_eq!(count("Calls a design otherwise, with all its revisions."), 1);
    assert_eq!(count("Takes a given value back."), 1);
    assert_eq!(count("Renames a design and all its revisions."), 0);
}
