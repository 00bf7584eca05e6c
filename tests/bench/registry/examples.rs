//! Examples are typed at a fresh bench and answer what they promise.

use benchrule::lang::builtins;
use benchrule::session::WORDS;

use crate::bench::Bench;

#[test]
fn every_word_does_what_its_example_shows() {
    for word in WORDS {
        let mut bench = Bench::new();
        let (lines, promised) = word.example;
        let (last, before) = lines.split_last().unwrap();
        for line in before {
            let shown = bench.line(line);
            assert!(!shown.failed(), "{line}: {}", shown.text);
        }
        let shown = bench.line(last).text;
        // A drawing begins with blanks.
        assert!(shown.trim_start().starts_with(promised), "{last} answers {shown} and not {promised}");
        assert!(!promised.is_empty() || shown.is_empty(), "{last} promises nothing and answers {shown}");
        assert!(lines.iter().any(|line| line.starts_with(word.name)), "{}", word.name);
    }
}

#[test]
fn every_function_does_what_its_examples_show() {
    for row in builtins() {
        for (line, answer) in row.examples {
            let shown = Bench::new().line(line);
            assert!(!shown.failed(), "{line}: {}", shown.text);
            // A length has the other unit beside it.
            let first = shown.text.trim_end().split("   ").next().unwrap();
            let printed = shown.outcome.printed.join("\n");
            assert_eq!(first, if answer.is_empty() { &printed } else { *answer }, "{line}");
        }
    }
}

/// What a line answers is what a script prints of it.
#[test]
fn values_are_printed_as_they_are_answered() {
    for value in [
        "5",
        "11 3/8 + 1/3",
        "16 x 20",
        "\"cherry\"",
        "true",
        "[1, [\"a\", 3/4in], (), true]",
        "#{ a: \"b\", c: [2in x 3in], d: new_design() }",
        "new_design()",
        "[|x| x]",
    ] {
        let mut bench = Bench::new();
        let answered = bench.line(value).text;
        let printed = bench.line(&format!("print({value})"));
        assert!(!printed.failed(), "{}", printed.text);
        assert_eq!(printed.text, answered, "{value}");
    }
}

#[test]
fn what_things_are_is_said_in_a_sentence() {
    let sentence = |text: &str| text.starts_with(|c: char| c.is_uppercase()) && text.ends_with('.');
    for word in WORDS {
        assert!(sentence(word.brief), "{}: {}", word.name, word.brief);
    }
    for row in builtins() {
        assert!(sentence(row.brief), "{}: {}", row.name, row.brief);
        for param in row.params {
            assert!(!param.brief.ends_with('.'), "{}: {}", row.name, param.brief);
        }
    }
}

#[test]
fn what_names_are_is_said_in_a_few_words() {
    let book = benchrule::rules::shipped();
    let names = book.names.iter().map(|name| (name.text.as_str(), name.doc.as_str()));
    let builds = book.builds.iter().map(|build| (&*build.name, build.doc.as_str()));
    let units = benchrule::measure::UNITS.iter().map(|unit| (unit.names[0], unit.brief));
    let settings = benchrule::shop::Settings::default().all();
    let settings = settings.iter().map(|setting| (&*setting.name, &*setting.brief));
    for (name, doc) in names.chain(builds).chain(units).chain(settings) {
        assert!(!doc.is_empty() && doc.trim() == doc, "{name}: {doc:?}");
        assert!(!doc.ends_with('.'), "{name}: {doc}");
        // Small letters, but for a name: British, US.
        let first = doc.split(' ').next().unwrap();
        assert!(first == first.to_lowercase() || first == "US", "{name}: {doc}");
    }
    for group in book.groups.iter().map(|group| group.name.as_str()).filter(|name| !name.is_empty()) {
        assert!(group.starts_with(|c: char| c.is_uppercase()), "{group}");
    }
}
