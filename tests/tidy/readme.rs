//! The pages about the program are true.
//!
//! A block of `text` whose lines begin with `> ` is typed at a fresh bench and gets the answers on the page. A block of
//! `rhai` is a house style that frames a work; a block of `csv` is stock to plan from.

use crate::bench::Bench;
use crate::source::root;

const PAGES: &[&str] = &["README.md", "DEVELOPERS.md"];

/// The blocks of a page, each with the words behind its fence.
fn blocks(page: &str) -> Vec<(String, String)> {
    let Ok(text) = std::fs::read_to_string(root().join(page)) else {
        return Vec::new();
    };
    let mut blocks = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if let Some(kind) = line.strip_prefix("```") {
            let block: String =
                lines.by_ref().take_while(|line| *line != "```").map(|line| format!("{line}\n")).collect();
            blocks.push((kind.to_string(), block));
        }
    }
    blocks
}

/// The block as it comes out today.
fn replayed(block: &str) -> String {
    let mut bench = Bench::new();
    let mut answers = String::new();
    for line in block.lines() {
        if let Some(typed) = line.strip_prefix("> ") {
            answers += &format!("{line}\n{}", bench.line(typed).text);
        }
    }
    answers
}

#[test]
fn what_is_typed_answers_as_written() {
    for page in PAGES {
        for (kind, block) in blocks(page) {
            if ["text", "console"].contains(&kind.as_str()) && block.lines().any(|line| line.starts_with("> ")) {
                let replayed = replayed(&block);
                if std::env::var_os("BLESS").is_some() {
                    let text = std::fs::read_to_string(root().join(page)).unwrap();
                    std::fs::write(root().join(page), text.replace(&block, &replayed)).unwrap();
                    continue;
                }
                let differs = block.lines().zip(replayed.lines()).find(|(written, now)| written != now);
                assert_eq!(differs, None, "{page}; BLESS=1 writes it anew");
                assert_eq!(block.lines().count(), replayed.lines().count(), "{page}");
            }
        }
    }
}

#[test]
fn styles_that_are_shown_frame_a_work() {
    for page in PAGES {
        for (_, style) in blocks(page).iter().filter(|(kind, _)| kind == "rhai") {
            let mut bench = Bench::with(&[("/home/styles/shown.rhai", style)]);
            bench.line("art 16 x 20 x 3/4");
            let shown = bench.line("style shown");
            assert!(!shown.failed() && !shown.outcome.stopped, "{page}: {}", shown.text);
        }
    }
}

#[test]
fn pages_name_files_that_are_there() {
    for page in PAGES {
        let text = std::fs::read_to_string(root().join(page)).unwrap_or_default();
        for word in text.split(|letter: char| letter.is_whitespace() || "`()|,;".contains(letter)) {
            let word = word.trim_end_matches([':', '.']);
            let inside =
                ["src/", "tests/", "scripts/", "benches/", "grammar/"].iter().any(|folder| word.starts_with(folder));
            if inside && !word.contains('*') {
                assert!(root().join(word).exists(), "{page} names {word}");
            }
        }
    }
}

#[test]
fn stock_that_is_shown_reads() {
    let shown = PAGES.iter().flat_map(|page| blocks(page)).find(|(kind, _)| kind == "csv");
    let (_, stock) = shown.expect("the README shows the format of the stock");
    let mut bench = Bench::with(&[("/home/stock.csv", &stock)]);
    let rows = bench.line("stock");
    assert!(!rows.failed(), "{}", rows.text);
    // Four board feet of 4/4 at $5.20 each.
    for word in ["31 1/4\"", "$20.80", "mat board"] {
        assert!(rows.text.contains(word), "{word} in {}", rows.text);
    }
    bench.line("art 16 x 20 x 3/4");
    let plan = bench.line("plan");
    assert!(!plan.failed() && !plan.text.contains("assumed"), "{}", plan.text);
}
