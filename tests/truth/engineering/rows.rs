//! Every table that ships is whole: a source on each row, and in each column a value wherever it is known.

use benchrule::rules::book::{Cell, Table};
use benchrule::rules::shipped;

/// A cell that is an amount, in storage units.
pub fn amount(table: &Table, column: &str, row: usize) -> Option<f64> {
    match table.column(column).unwrap_or_else(|| panic!("{} has no {column}", table.name)).cells.get(row)?.as_ref()? {
        Cell::Amount(amount) => Some(amount.to_f64()),
        Cell::Word(_) => None,
    }
}

/// Rows that are nothing at all, and cells that are left out on purpose: table, word (or all), column (or all), why.
const BLANK: &[(&str, &str, &str, &str)] = &[
    ("glazings", "none", "", "no glazing"),
    ("boards", "none", "", "no board"),
    ("brads", "none", "", "no brad"),
    ("kinds", "canvas", "density", "a cloth is known by its area"),
    ("kinds", "panel", "grammage", "a panel is known by its volume"),
    ("kinds", "paper", "density", "a sheet is known by its area"),
    ("kinds", "textile", "density", "a cloth is known by its area"),
    ("kinds", "object", "", "an object is weighed"),
    ("woods", "", "dust", "most woods do nothing that the dust of every wood does not"),
    ("boards", "", "dust", "paper boards are cut with a knife"),
    ("screws", "", "design", "the design tables begin at no. 6 and leave out 11"),
    ("screws", "", "shortest", "the handbook names no length for no. 0 and 24"),
    ("screws", "", "longest", "the handbook names no length for no. 0 and 24"),
];

fn may_be_blank(table: &str, word: &str, column: &str) -> bool {
    BLANK.iter().any(|(of, row, cell, _)| *of == table && [word, ""].contains(row) && [column, ""].contains(cell))
}

#[test]
fn every_row_is_whole() {
    let book = shipped();
    let tables: Vec<&Table> = book.tables.iter().filter(|table| !table.columns.is_empty()).collect();
    let names: Vec<&str> = tables.iter().map(|table| &*table.name).collect();
    // The table of the builds has its rows from the rules.
    assert_eq!(names.len(), benchrule::rules::sheets::DATA.len() + 1, "{names:?}");
    for table in tables {
        assert_eq!(table.sources.len(), table.words.len(), "{}", table.name);
        for (row, word) in table.words.iter().enumerate() {
            let source = &table.sources[row];
            assert!(source.len() > 5 && !source.ends_with('.'), "{}, {word}: {source}", table.name);
            for column in &table.columns {
                let there = column.cells[row].is_some();
                assert!(there || may_be_blank(&table.name, word, &column.name), "{} of {word}", column.name);
            }
        }
    }
}

/// Where it was found is said in one of these ways: a document, "memory", or that there is none.
#[test]
fn every_source_says_how_it_is_known() {
    for table in shipped().tables.iter().filter(|table| !table.columns.is_empty()) {
        let columns = |row| table.columns.iter().map(move |column| table.source(column, row));
        let rows = table.words.iter().zip(&table.sources).enumerate();
        let cited =
            rows.flat_map(|(row, (word, source))| columns(row).chain([source.as_str()]).map(move |one| (word, one)));
        for (word, source) in cited {
            let known = ["read)", "(memory)", "common practice, no source", "by definition"]
                .iter()
                .any(|way| source.contains(way));
            assert!(known || may_be_blank(&table.name, word, ""), "{}, {word}: {source}", table.name);
        }
    }
}

#[test]
fn every_blank_is_still_one() {
    for (name, word, column, why) in BLANK {
        let book = shipped();
        let table = book.table(name).unwrap_or_else(|| panic!("{name}"));
        let rows = table.words.iter().enumerate().filter(|(_, one)| word.is_empty() || one == word);
        let blanks = rows.flat_map(|(row, _)| {
            table
                .columns
                .iter()
                .filter(move |one| (column.is_empty() || one.name == *column) && one.cells[row].is_none())
        });
        assert!(blanks.count() > 0, "{name}, {word}, {column}: {why}");
    }
}

/// Short everyday names, in any case and with any blanks.
#[test]
fn woods_answer_to_everyday_names() {
    let book = shipped();
    let woods = book.table("woods").unwrap();
    for (typed, meant) in [
        ("cherry", "cherry"),
        ("hard maple", "hard maple"),
        ("sugar maple", "hard maple"),
        ("rock maple", "hard maple"),
        ("red oak", "red oak"),
        ("yellow birch", "birch"),
        ("white ash", "ash"),
    ] {
        assert_eq!(woods.meant(typed), Some(meant));
        let frame = super::design(&[("wood", &typed.to_uppercase().replace(' ', "  "))]);
        assert!(matches!(super::drawn(&frame, "wood"), super::Datum::Word(is) if &*is == meant), "{typed}");
    }
}
