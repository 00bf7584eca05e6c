//! `tests/sentences.txt`: every sentence that the program can show, file by file, to be read aloud.
//!
//! A sentence is a string literal of the program, a doc or a message of a rules file, a text of a data table, a script
//! or a style. `BLESS=1` rewrites the list; read the diff like prose.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use regex_lite::Regex;

use crate::source::{below, files, root};

/// What these calls take is for the programmer alone.
const NOT_SHOWN: &[&str] = &["expect", "expect_err", "assert", "assert_eq", "debug_assert", "unreachable", "panic"];

/// Statements of the database.
const STATEMENTS: &[&str] = &[
    "SELECT ", "INSERT ", "UPDATE ", "DELETE ", "CREATE ", "PRAGMA ", "BEGIN ", "ATTACH ", "ALTER ", "DROP ", "VACUUM ",
];

/// Every sentence with the file that it is in, in the order of the files.
pub fn sentences() -> Vec<(String, Vec<String>)> {
    let mut all = Vec::new();
    for folder in ["src", "scripts"] {
        for path in files(&root().join(folder)) {
            let text = std::fs::read_to_string(&path).unwrap();
            let found = match path.extension().and_then(|ending| ending.to_str()) {
                Some("rs") if !is_test(&path) => literals(&text),
                Some("rules") => rules(&text),
                Some("toml" | "rhai") => quoted(&without_remarks(&text)),
                _ => continue,
            };
            let mut found: Vec<String> = found.iter().flat_map(|text| text.lines()).filter_map(sentence).collect();
            let mut seen = BTreeSet::new();
            found.retain(|sentence| seen.insert(sentence.clone()));
            if !found.is_empty() {
                all.push((below(&path, root()), found));
            }
        }
    }
    all
}

fn is_test(path: &Path) -> bool {
    path.iter().any(|part| part == "tests" || part == "tests.rs" || part == "properties.rs")
}

/// A line of a text that has two words or more.
fn sentence(line: &str) -> Option<String> {
    let line = line.trim();
    let words = line.split_whitespace().filter(|word| word.chars().any(char::is_alphabetic)).count();
    (words >= 2 && !STATEMENTS.iter().any(|start| line.starts_with(start))).then(|| line.to_string())
}

/// The string literals of a Rust file, without unit tests and attributes, doc comments among them.
fn literals(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    gather(text.parse().expect("a Rust file"), &mut found);
    found
}

fn gather(tokens: TokenStream, found: &mut Vec<String>) {
    let mut tokens = tokens.into_iter().peekable();
    while let Some(token) = tokens.next() {
        match token {
            TokenTree::Punct(sign) if sign.as_char() == '#' => {
                tokens.next_if(|token| matches!(token, TokenTree::Punct(sign) if sign.as_char() == '!'));
                let attribute = tokens.next().map(|token| token.to_string()).unwrap_or_default();
                if attribute.replace(' ', "") == "[cfg(test)]" {
                    // The item that it belongs to ends with its block or its semicolon.
                    tokens.by_ref().find(|token| match token {
                        TokenTree::Group(group) => group.delimiter() == proc_macro2::Delimiter::Brace,
                        TokenTree::Punct(sign) => sign.as_char() == ';',
                        TokenTree::Ident(_) | TokenTree::Literal(_) => false,
                    });
                }
            }
            TokenTree::Ident(name) if NOT_SHOWN.iter().any(|call| name == call) => {
                tokens.next_if(|token| matches!(token, TokenTree::Punct(sign) if sign.as_char() == '!'));
                tokens.next_if(|token| matches!(token, TokenTree::Group(_)));
            }
            TokenTree::Group(group) => gather(group.stream(), found),
            TokenTree::Literal(literal) => {
                if let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) {
                    found.push(text.value());
                }
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => {}
        }
    }
}

/// Docs, messages and quoted texts of a rules file.
fn rules(text: &str) -> Vec<String> {
    let text = without_remarks(text);
    let mut found = Vec::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        if let Some((_, doc)) = line.split_once(" -- ") {
            found.push(doc.to_string());
        } else if let Some(start) = line.trim_start().strip_prefix("says ") {
            let mut message = start.to_string();
            let continues = |line: &&str| line.starts_with(' ') && !line.trim_start().starts_with("mend ");
            while let Some(more) = lines.next_if(continues) {
                message = format!("{message} {}", more.trim());
            }
            found.push(message);
        } else {
            found.extend(quoted(line));
        }
    }
    found
}

/// Quoted texts, a line at a time.
fn quoted(text: &str) -> Vec<String> {
    let pattern = Regex::new("\"((?:[^\"\\\\\n]|\\\\.)*)\"|`([^`]*)`").unwrap();
    let found = pattern.captures_iter(text).map(|found| {
        let text = found.get(1).or_else(|| found.get(2)).map_or("", |text| text.as_str());
        text.replace("\\\"", "\"")
    });
    found.collect()
}

fn without_remarks(text: &str) -> String {
    text.lines().filter(|line| !line.trim_start().starts_with("//") && !line.starts_with('#')).fold(
        String::new(),
        |mut kept, line| {
            kept += line;
            kept.push('\n');
            kept
        },
    )
}

#[test]
fn the_list_is_as_written() {
    let mut list =
        String::from("Every sentence that the program can show. `BLESS=1 cargo test --test tidy` rewrites it.\n");
    for (path, sentences) in sentences() {
        writeln!(list, "\n== {path}").unwrap();
        sentences.iter().for_each(|sentence| writeln!(list, "{sentence}").unwrap());
    }
    let file = root().join("tests/sentences.txt");
    if std::env::var_os("BLESS").is_some() {
        std::fs::write(&file, &list).unwrap();
    }
    let written = std::fs::read_to_string(&file).unwrap_or_default();
    let differs = written.lines().zip(list.lines()).find(|(written, now)| written != now);
    assert_eq!(differs, None, "stale; BLESS=1 rewrites it");
    assert_eq!(written.lines().count(), list.lines().count(), "stale; BLESS=1 rewrites it");
}

/// The tables themselves, read through the library: what `help` shows of each name is in the list.
#[test]
fn docs_of_every_table_are_listed() {
    let all: Vec<String> = sentences().into_iter().flat_map(|(_, found)| found).collect();
    let book = benchrule::rules::shipped();
    let fields = book.all_names().filter_map(|name| book.slot(name)).map(|slot| book.name(slot).doc.to_string());
    let builds = book.builds.iter().map(|build| build.doc.to_string());
    let words = benchrule::session::WORDS.iter().map(|word| word.brief.to_string());
    let functions = benchrule::lang::builtins().map(|row| row.brief.to_string());
    let units = benchrule::measure::UNITS.iter().map(|unit| unit.brief.to_string());
    let settings = benchrule::shop::Settings::default().all().into_iter().map(|setting| setting.brief.to_string());
    for doc in fields.chain(builds).chain(words).chain(functions).chain(units).chain(settings) {
        let listed = sentence(&doc).is_none_or(|doc| all.iter().any(|one| one.contains(&doc)));
        assert!(listed, "not in the list: {doc}");
    }
}

#[test]
fn literals_are_found() {
    let text = "//! a b\n/// c d\nfn f() { x(\"e \\\"f\\\"\"); y.expect(\"g h\"); format!(\"i {j}\"); }\n\
                #[cfg(test)]\nmod tests { const A: &str = \"k l\"; }\n";
    assert_eq!(literals(text), ["e \"f\"", "i {j}"]);
    assert_eq!(rules("a = 1 -- b c\nstop d if e\n  says f\n    g\n  mend h = 1\n"), ["b c", "f g"]);
    assert_eq!(quoted("a = \"b c\" `d e`"), ["b c", "d e"]);
}
