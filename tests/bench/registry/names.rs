//! Every name of every table, and that none of them can be taken for another.

use std::collections::BTreeMap;

use benchrule::lang::{DESIGN, builtins};
use benchrule::measure::UNITS;
use benchrule::rules::{NATIVES, shipped};
use benchrule::session::WORDS;
use benchrule::session::style::SHIPPED;
use benchrule::shop::Settings;

use crate::bench::Bench;

/// What a name is a name of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Table {
    Word,
    Name,
    Build,
    Function,
    Property,
    Unit,
    Check,
    Setting,
    Style,
}

/// Every name with its table.
pub fn all() -> Vec<(String, Table)> {
    let book = shipped();
    let mut all: Vec<(String, Table)> = Vec::new();
    let mut add = |name: &str, table| all.push((name.into(), table));
    WORDS.iter().for_each(|word| add(word.name, Table::Word));
    book.all_names().for_each(|name| add(name, Table::Name));
    book.builds.iter().for_each(|build| add(&build.name, Table::Build));
    builtins().for_each(|row| add(row.name, if row.property { Table::Property } else { Table::Function }));
    UNITS.iter().flat_map(|unit| unit.names).for_each(|name| add(name, Table::Unit));
    book.checks.iter().for_each(|check| add(&check.name, Table::Check));
    Settings::default().all().iter().for_each(|setting| add(&setting.name, Table::Setting));
    SHIPPED.iter().for_each(|(name, _)| add(name, Table::Style));
    all
}

/// Names of two tables that differ by where they are used.
const BOTH: &[(&str, Table, Table)] = &[
    // A word takes a value behind a blank, a function its values in brackets: `clear reveal`, `list.clear()`.
    ("clear", Table::Word, Table::Function),
    ("sheet", Table::Word, Table::Function),
    ("plan", Table::Word, Table::Function),
    ("parts", Table::Word, Table::Function),
    // A field alone or with a value behind a blank, a function before a bracket: `brad 1 1/4`, `brad(…)`.
    ("brad", Table::Name, Table::Function),
    ("keep", Table::Word, Table::Function),
    ("book", Table::Word, Table::Function),
    ("find", Table::Word, Table::Function),
    // The depth of a size: `size.depth`.
    ("depth", Table::Name, Table::Property),
    // A setting follows `shop`.
    ("wood", Table::Name, Table::Setting),
    // What is cut off the ends of a text, and of a stick.
    ("trim", Table::Function, Table::Setting),
];

/// A unit follows a number, a function before a bracket: `5mm`, `mm(x)`; `30min`, `min(a, b)`.
const UNIT_FUNCTIONS: &[&str] = &["cm", "feet", "inches", "m", "min", "mm", "psi"];

#[test]
fn a_name_has_one_meaning() {
    let mut meanings: BTreeMap<String, Vec<Table>> = BTreeMap::new();
    for (name, table) in all() {
        let tables = meanings.entry(name).or_default();
        // A check may be written for each build anew.
        if table != Table::Check || !tables.contains(&table) {
            tables.push(table);
        }
    }
    let mut twice: Vec<String> = Vec::new();
    for (name, mut tables) in meanings.into_iter().filter(|(_, tables)| tables.len() > 1) {
        tables.sort();
        let known = BOTH.iter().any(|(both, one, other)| *both == name && tables == [*one, *other])
            || tables == [Table::Function, Table::Unit] && UNIT_FUNCTIONS.contains(&name.as_str());
        if !known {
            twice.push(format!("{name}: {tables:?}"));
        }
    }
    assert_eq!(twice, <[String; 0]>::default());
}

/// A dotted name begins with a name too: `rail.top` must not be the top of a word or a function.
#[test]
fn the_beginnings_of_dotted_names_are_free() {
    for name in shipped().all_names() {
        let first = name.split('.').next().unwrap();
        // `shop.wood` is how the rules know the shop's wood; no one types it.
        if first != "shop" {
            assert!(WORDS.iter().all(|word| word.name != first), "{name}");
        }
        // Figures have the names of the functions that find them, `screw.length`; the bracket distinguishes them.
        let finds = NATIVES.iter().any(|native| native.name == first);
        assert!(finds || builtins().all(|row| row.property || row.name != first), "{name}");
        assert!(first != DESIGN && first != "args", "{name}");
    }
}

#[test]
fn the_script_language_keeps_none_of_them_for_itself() {
    for name in shipped().all_names() {
        // Never called, so that it does not matter what is missing.
        let line = format!("fn never(x) {{ x + design.{name}; x.{name} = {name}; }} 5");
        let shown = Bench::new().line(&line);
        assert_eq!(shown.text, "5\n", "{line}");
    }
    let engine = rhai::Engine::new_raw();
    for name in [DESIGN, "args"] {
        assert!(engine.compile(format!("let {name} = 1; {name}")).is_ok(), "{name}");
    }
    for row in builtins() {
        let call = if row.property { format!("x.{}", row.name) } else { format!("{}(x)", row.name) };
        assert!(engine.compile(&call).is_ok(), "{call}");
    }
}

#[test]
fn names_are_written_alike() {
    let letter = |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || "._-".contains(letter);
    for (name, table) in all() {
        assert!(table == Table::Unit || name.chars().all(letter), "{name}");
        assert!(!name.is_empty(), "{table:?}");
    }
}

#[test]
fn a_check_is_written_once_for_a_build() {
    let book = shipped();
    let mut seen: Vec<(&str, u8)> = Vec::new();
    for check in &book.checks {
        for build in &check.builds {
            assert!(!seen.contains(&(&check.name, *build)), "{}", check.name);
            seen.push((&check.name, *build));
        }
    }
}
