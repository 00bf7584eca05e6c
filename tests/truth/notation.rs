//! Every row of `tests/table/notation.tsv`: notation and prompt lines against what they mean.

use benchrule::diag::Diagnostic;
use benchrule::lang::{Line, Mode, Names, Takes, is_complete, prepass, read_line};
use benchrule::show::spoken;

const TABLE: &str = include_str!("../table/notation.tsv");

/// A small bench: enough words, fields and figures to distinguish lines.
struct Bench;

const WORDS: &[(&str, Takes)] = &[
    ("aim", Takes::Formula),
    ("book", Takes::Nothing),
    ("clear", Takes::Name),
    ("compare", Takes::Name),
    ("figure", Takes::Formula),
    ("find", Takes::Text),
    ("help", Takes::Name),
    ("keep", Takes::Name),
    ("label", Takes::Text),
    ("new", Takes::Name),
    ("open", Takes::Name),
    ("run", Takes::Text),
    ("sheet", Takes::Nothing),
    ("style", Takes::Text),
    ("tape", Takes::Value),
    ("why", Takes::Name),
];

const FIELDS: &[(&str, Takes)] = &[
    ("art", Takes::Value),
    ("art.depth", Takes::Value),
    ("art.kind", Takes::Name),
    ("build", Takes::Name),
    ("client", Takes::Text),
    ("face", Takes::Value),
    ("mat.1.border.left", Takes::Value),
    ("note", Takes::Text),
    ("reveal", Takes::Value),
    ("reveal.left", Takes::Value),
    ("setback", Takes::Value),
];

const FIGURES: &[&str] = &[
    "gauge",
    "opening.height",
    "opening.width",
    "outside.width",
    "package.depth",
    "rail.top.long",
    "rail.top.long.point",
];

impl Names for Bench {
    fn word(&self, name: &str) -> Option<Takes> {
        WORDS.iter().find(|row| row.0 == name).map(|row| row.1)
    }
    fn field(&self, name: &str) -> Option<Takes> {
        FIELDS.iter().find(|row| row.0 == name).map(|row| row.1)
    }
    fn is_figure(&self, name: &str) -> bool {
        FIGURES.contains(&name)
    }
    fn is_variable(&self, name: &str) -> bool {
        ["y", "job", "face2"].contains(&name)
    }
    fn all(&self) -> Vec<String> {
        WORDS.iter().chain(FIELDS).map(|row| row.0).chain(FIGURES.iter().copied()).map(String::from).collect()
    }
}

fn unescaped(text: &str) -> String {
    let mut plain = String::new();
    let mut chars = text.chars();
    while let Some(next) = chars.next() {
        match next {
            '\\' => match chars.next() {
                Some('n') => plain.push('\n'),
                Some('t') => plain.push('\t'),
                Some(other) => plain.push(other),
                None => panic!("a row ends with a backslash: {text}"),
            },
            other => plain.push(other),
        }
    }
    plain
}

fn spelled(text: &str, line: &Line) -> String {
    let with =
        |what: &str, name: &str, rest: &str| format!("{what} {name} | {rest}").trim_end_matches(" | ").to_string();
    match line {
        Line::Blank => "blank".into(),
        Line::Set { field, value, .. } => with("setting", field, &text[value.clone()]),
        Line::Command { word, rest, .. } => with("command", word, &text[rest.clone()]),
        Line::Show { name, .. } => format!("show {name}"),
        Line::Expression => "expression".into(),
    }
}

/// What a row that is refused must speak of: the words in backticks all, or else the words before a comma.
#[track_caller]
fn speaks_of(text: &str, found: &[Diagnostic], wanted: &str, row: &str) {
    let said: String =
        found.iter().map(|one| format!("{}\n{}\n", spoken(&one.says), one.fixed(text).join("\n"))).collect();
    let quoted: Vec<&str> = wanted.split('`').skip(1).step_by(2).collect();
    let first = [wanted.split(',').next().unwrap_or_default()];
    for word in if quoted.is_empty() { &first[..] } else { &quoted } {
        assert!(said.contains(word), "{row}\n  said: {said}");
    }
}

/// A line that is offered runs: nothing is wrong with it any more, where only one thing was.
#[track_caller]
fn offers_what_runs(text: &str, found: &[Diagnostic], row: &str) {
    let [only] = found else { return };
    for line in &only.fixed(text) {
        let result = read_line(line, &Bench).map_err(|found| vec![found]);
        let result = result.and_then(|line_is| match line_is {
            Line::Expression => prepass(line, Mode::Prompt, &Bench).map(|_| ()),
            Line::Blank | Line::Set { .. } | Line::Command { .. } | Line::Show { .. } => Ok(()),
        });
        assert!(result.is_ok(), "{row}\n  offered {line}, and of that: {result:?}");
    }
}

/// A prompt line goes through both: what sort it is, and what the engine would run.
fn refusal(text: &str, mode: Mode) -> Vec<Diagnostic> {
    match prepass(text, mode, &Bench) {
        Ok(rewritten) => panic!("{text:?} was rewritten as {:?}", rewritten.script),
        Err(found) => found,
    }
}

#[track_caller]
fn check(row: &str) {
    let columns: Vec<&str> = row.split('\t').collect();
    let [kind, input, meaning] = columns[..] else { panic!("not three columns: {row}") };
    let (text, meaning) = (unescaped(input), unescaped(meaning));
    match kind {
        "ok" | "script" => match prepass(&text, Mode::Script, &Bench) {
            Ok(rewritten) => assert_eq!(rewritten.script, meaning, "{row}"),
            Err(found) => panic!("{row}\n  {found:?}"),
        },
        "prompt" => match prepass(&text, Mode::Prompt, &Bench) {
            Ok(rewritten) => assert_eq!(rewritten.script, meaning, "{row}"),
            Err(found) => panic!("{row}\n  {found:?}"),
        },
        "bad" => {
            let found = refusal(&text, Mode::Script);
            offers_what_runs(&text, &found, row);
            speaks_of(&text, &found, &meaning, row);
        }
        "line" => match (read_line(&text, &Bench), meaning.strip_prefix("error: ")) {
            (Ok(line), None) => assert_eq!(spelled(&text, &line), meaning, "{row}"),
            (Err(found), Some(wanted)) => {
                offers_what_runs(&text, std::slice::from_ref(&found), row);
                speaks_of(&text, &[found], wanted, row);
            }
            (result, _) => panic!("{row}\n  {result:?}"),
        },
        "open" | "whole" => assert_eq!(is_complete(&text, &Bench), kind == "whole", "{row}"),
        other => panic!("unknown kind of row {other}"),
    }
}

#[test]
fn every_row_means_what_it_says() {
    let rows = TABLE.lines().filter(|row| !row.is_empty() && !row.starts_with('#'));
    let faults: Vec<String> = rows
        .filter_map(|row| {
            let result = std::panic::catch_unwind(|| check(row));
            result.err().map(|why| why.downcast_ref::<String>().cloned().unwrap_or_else(|| row.to_string()))
        })
        .collect();
    assert!(faults.is_empty(), "{} rows fail:\n{}", faults.len(), faults.join("\n\n"));
}
