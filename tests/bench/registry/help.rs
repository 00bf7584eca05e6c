//! Help on everything that has a name, and what it offers can be typed.

use benchrule::rules::{Type, shipped};
use benchrule::session::Reply;

use super::names::all;
use crate::bench::Bench;

#[test]
fn there_is_help_on_every_name() {
    let mut bench = Bench::new();
    for (name, table) in all() {
        let shown = bench.line(&format!("help {name}"));
        assert!(matches!(shown.outcome.reply, Ok(Reply::Help(_))), "{name}, {table:?}: {}", shown.text);
        let mut lines = shown.text.lines();
        let first = lines.next().unwrap_or_default();
        assert!(first.contains(&name) || shown.text.contains(&format!(" {name}")), "{name}: {first}");
        assert!(lines.next().is_some(), "{name}: {first}");
    }
}

/// The line that help offers.
fn offered(help: &str) -> Option<&str> {
    help.lines().find_map(|line| line.trim().strip_prefix("try: "))
}

#[test]
fn what_help_offers_for_a_field_sets_it() {
    let book = shipped();
    let mut wrong = Vec::new();
    for build in &book.builds {
        for slot in &build.order {
            let rule = book.rules.get(usize::from(build.rules[usize::from(*slot)].unwrap())).unwrap();
            let name = &book.name(*slot).text;
            if !rule.given && rule.gather.is_none() {
                continue;
            }
            let mut bench = Bench::new();
            bench.line(&format!("build {}", build.name));
            let help = bench.line(&format!("help {name}")).text;
            let Some(line) = offered(&help) else {
                wrong.push(format!("help {name} offers nothing"));
                continue;
            };
            let line = line.to_string();
            let shown = bench.line(&line);
            if !matches!(shown.outcome.reply, Ok(Reply::Changed(_))) {
                wrong.push(format!("{}: {line}: {}", build.name, shown.text.lines().next().unwrap_or_default()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_field_may_be_asked_why_once_there_is_a_work() {
    for name in shipped().names.iter().filter(|name| name.of != Type::Size) {
        let mut bench = Bench::new();
        bench.line("art 16 x 20 x 3/4");
        let shown = bench.line(&format!("why {}", name.text));
        // Names of other builds and of other shapes are refused, in words.
        assert!(!shown.text.contains("internal error") && !shown.text.is_empty(), "{}", shown.text);
    }
}

/// Two letters in the middle change places.
fn misspelt(name: &str) -> Option<String> {
    let mut letters: Vec<char> = name.chars().collect();
    let at = letters.len() / 2;
    let whole = |letter: char| letter.is_ascii_lowercase();
    if letters.len() < 5 || letters[at] == letters[at - 1] || !whole(letters[at]) || !whole(letters[at - 1]) {
        return None;
    }
    letters.swap(at - 1, at);
    Some(letters.into_iter().collect())
}

#[test]
fn what_was_meant_is_offered() {
    let names: Vec<String> = all().into_iter().map(|(name, _)| name).collect();
    let mut bench = Bench::new();
    let mut tried = 0;
    for name in &names {
        let Some(wrong) = misspelt(name).filter(|wrong| !names.contains(wrong)) else {
            continue;
        };
        let shown = bench.line(&format!("help {wrong}"));
        assert!(shown.failed(), "{wrong}: {}", shown.text);
        assert!(shown.text.contains(name.as_str()), "{wrong}, meant {name}: {}", shown.text);
        let hint = offered(&shown.text).unwrap_or_else(|| panic!("{}", shown.text)).to_string();
        assert!(!bench.line(&hint).failed(), "{hint}");
        tried += 1;
    }
    assert!(tried > 100, "{tried}");
}
