use super::*;
use crate::lang::script::Value;
use crate::lang::script::tests::{run, show};
use crate::lang::{Mode, Names, Takes, prepass};

/// A bench without names.
struct Nameless;

impl Names for Nameless {
    fn word(&self, _: &str) -> Option<Takes> {
        None
    }
    fn field(&self, _: &str) -> Option<Takes> {
        None
    }
    fn is_figure(&self, _: &str) -> bool {
        false
    }
    fn is_variable(&self, _: &str) -> bool {
        false
    }
    fn all(&self) -> Vec<String> {
        Vec::new()
    }
}

fn notate(line: &str) -> String {
    prepass(line, Mode::Script, &Nameless).unwrap_or_else(|found| panic!("{line}: {found:?}")).script
}

/// Examples that need no design: the others are run at a bench.
fn examples(row: &Builtin) -> impl Iterator<Item = &'static (&'static str, &'static str)> {
    row.examples.iter().filter(|(line, _)| !line.contains("design"))
}

#[test]
fn every_name_is_there_once() {
    let mut names: Vec<_> = all().map(|row| row.name).collect();
    names.sort_unstable();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count);
}

#[test]
fn every_row_is_whole() {
    for row in all() {
        assert!(rhai::is_valid_identifier(row.name), "{}", row.name);
        assert!(row.brief.ends_with('.') && row.brief.starts_with(|c: char| c.is_uppercase()), "{}", row.name);
        // Designs and files are there only in a session; transcripts show theirs.
        assert!(
            !row.examples.is_empty()
                || matches!(
                    row.name,
                    "new_design"
                        | "styled"
                        | "made"
                        | "sheet"
                        | "plan"
                        | "keep"
                        | "open_design"
                        | "book"
                        | "read_text"
                        | "write_text"
                        | "read_table"
                        | "write_table"
                        | "read_json"
                        | "write_json"
                ),
            "{}",
            row.name
        );
        assert!(row.least == usize::MAX || row.least <= row.params.len(), "{}", row.name);
        assert!(!row.many || !row.params.is_empty(), "{}", row.name);
        for param in row.params {
            assert!(!param.brief.ends_with('.'), "{}", row.name);
        }
    }
}

#[test]
fn every_example_gives_its_answer() {
    for row in all() {
        for (line, answer) in examples(row) {
            match run(&notate(line)) {
                Ok(Value::Nothing) => assert_eq!(*answer, "", "{line}"),
                Ok(value) => assert_eq!(show(value), *answer, "{line}"),
                Err(found) => panic!("{line}: {}", found.message()),
            }
        }
    }
}

/// What a row says it gives is what it gives.
#[test]
fn every_example_gives_what_the_row_says() {
    for row in all().filter(|row| row.name != "parse" && row.name != "number") {
        for (line, _) in examples(row).filter(|(line, _)| line.starts_with(row.name) && line.ends_with(')')) {
            let answer = run(&notate(line)).unwrap().into_dynamic();
            assert!(row.returns.takes(&answer), "{line}");
        }
    }
}

#[test]
fn signatures_read_well() {
    assert_eq!(named("round").unwrap().signature(), "round(x, [step])");
    assert_eq!(named("min").unwrap().signature(), "min(x, …)");
    assert_eq!(named("sqrt").unwrap().signature(), "sqrt(x)");
    assert_eq!(all().find(|row| row.property).unwrap().signature(), "size.width");
}
