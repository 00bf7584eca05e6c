//! Files of data → tables. A file has `[columns]`, a kind for each, and `[[row]]`s with the word, other words for it
//! (`also`), a text for each column, and a `source`. What is not known of a word is left out. Columns that are published
//! elsewhere have their source in `[sources]`, and single values in the `sources` of their row.

use std::sync::Arc;

use toml_edit::{Document, Item, TableLike};

use super::book::{Cell, Column, Table, Type};
use super::resolve::unknown;
use super::term::Placed;
use crate::diag::{Diagnostic, Says, Span, codes};
use crate::measure::{Kind, Real, read};

/// Reads the table called `name` from its file.
///
/// # Errors
/// A file that is not among the data; a text that is not a file of data, with its place.
pub fn table(name: &str, file: &Placed, data: &[(&str, &str)]) -> Result<Table, Diagnostic> {
    let Some((called, text)) = data.iter().find(|(one, _)| *one == file.0) else {
        return Err(unknown("file of data", file, data.iter().map(|(one, _)| *one)));
    };
    read_table(name, text).map_err(|found| found.inside(*called, *text))
}

fn read_table(name: &str, text: &str) -> Result<Table, Diagnostic> {
    let document = Document::parse(text.to_string()).map_err(|error| {
        Diagnostic::of(&codes::rules::SYNTAX, Says::quoted(error.message())).at(error.span().unwrap_or_default())
    })?;
    let columns = document.get("columns").and_then(Item::as_table_like);
    let columns = columns
        .ok_or_else(|| Diagnostic::of(&codes::rules::SYNTAX, "a file of data starts with [columns]").at(0..0))?;
    let mut table = Table::of_words(name, Vec::new());
    for (column, item) in columns.iter() {
        let kind = item.as_str().unwrap_or_default();
        let of = match kind {
            "word" => Some(Type::Word),
            other => Kind::named(other).map(Type::Quantity),
        };
        let of = of
            .ok_or_else(|| Diagnostic::of(&codes::rules::SYNTAX, format!("there is no kind {kind}")).at(place(item)))?;
        table.columns.push(Column::new(column, of));
    }
    if let Some(sources) = document.get("sources").and_then(Item::as_table_like) {
        for (name, item) in sources.iter() {
            let (column, source) = cited(&mut table, name, item)?;
            column.source = source;
        }
    }
    let rows = document.get("row").and_then(Item::as_array_of_tables);
    for row in rows.into_iter().flatten() {
        read_row(&mut table, row)?;
    }
    Ok(table)
}

fn read_row(table: &mut Table, row: &toml_edit::Table) -> Result<(), Diagnostic> {
    let fault = |message: String, item: Option<&Item>| {
        Diagnostic::of(&codes::rules::SYNTAX, message).at(item.map_or_else(|| row.span().unwrap_or_default(), place))
    };
    let word = row.get("word").and_then(Item::as_str).ok_or_else(|| fault("a row has a word".into(), None))?;
    let source = row.get("source").and_then(Item::as_str).filter(|source| !source.trim().is_empty());
    let source = source.ok_or_else(|| fault(format!("{word} has no source"), None))?;
    let row_number = u16::try_from(table.words.len()).map_err(|_| fault("too many rows".into(), None))?;
    let also = row.get("also").and_then(Item::as_array);
    let also = also.into_iter().flatten().filter_map(|value| value.as_str());
    for one in [word].into_iter().chain(also) {
        if table.meant(one).is_some() || one.to_lowercase() != one {
            let message = format!("{one} is in its table twice, or is not in small letters");
            return Err(fault(message, row.get("word")));
        }
        if one == word {
            table.words.push(word.into());
        } else {
            table.also.push((one.into(), row_number));
        }
    }
    table.sources.push(source.into());
    for column in &mut table.columns {
        let item = row.get(&column.name);
        column.cells.push(item.map(|item| cell(item, column.of)).transpose()?);
    }
    if let Some(sources) = row.get("sources").and_then(Item::as_table_like) {
        for (name, item) in sources.iter() {
            let (column, source) = cited(table, name, item)?;
            column.elsewhere.push((row_number, source));
        }
    }
    let known = |key: &str| ["word", "also", "source", "sources"].contains(&key) || table.column(key).is_some();
    match TableLike::iter(row).find(|(key, _)| !known(key)) {
        Some((key, item)) => Err(fault(format!("there is no column {key}"), Some(item))),
        None => Ok(()),
    }
}

/// The column of that name, and where its values are published.
fn cited<'a>(table: &'a mut Table, name: &str, item: &Item) -> Result<(&'a mut Column, String), Diagnostic> {
    let fault = |message: String| Diagnostic::of(&codes::rules::SYNTAX, message).at(place(item));
    let source = item.as_str().filter(|source| !source.trim().is_empty());
    let source = source.ok_or_else(|| fault(format!("the source of {name} is a text in quotes")))?;
    let column = table.columns.iter_mut().find(|column| column.name == name);
    Ok((column.ok_or_else(|| fault(format!("there is no column {name}")))?, source.into()))
}

fn cell(item: &Item, of: Type) -> Result<Cell, Diagnostic> {
    let text = item
        .as_str()
        .ok_or_else(|| Diagnostic::of(&codes::rules::SYNTAX, "a cell is a text in quotes").at(place(item)))?;
    if of == Type::Word {
        return Ok(Cell::Word(Arc::from(text)));
    }
    let quantity = read::quantity(text, None).map_err(|found| found.shifted(place(item).start + 1))?;
    if Type::Quantity(quantity.kind) != of {
        let message = format!("this is {}, and the column has {of}", quantity.kind.with_article());
        return Err(Diagnostic::of(&codes::rules::SYNTAX, message).at(place(item)));
    }
    let amount: Real = quantity
        .amount
        .check()
        .map_err(|why| Diagnostic::of(&codes::rules::SYNTAX, why.to_string()).at(place(item)))?;
    Ok(Cell::Amount(amount))
}

fn place(item: &Item) -> Span {
    item.span().unwrap_or_default()
}
