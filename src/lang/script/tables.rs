//! Tables of text with marks between their cells, as lists of maps and back.

use std::collections::{BTreeMap, BTreeSet};

use super::literal::sides;
use super::value::Value;
use crate::diag::{Diagnostic, codes};
use crate::measure::read::read;
use crate::measure::write::exactly;
use crate::table::{Column, Head, Headings, Holds, Lines, Reader, Row, not_a_date, table, unspoken};

/// Reads a table whose first row names its columns: each row a map of its cells by column.
///
/// A cell is a quantity or a size where it reads as one in the bench notation, text otherwise, nothing where it is empty.
/// What begins with zeros, `007`, is text. A date among quantities was a fraction before a spreadsheet took it for one.
///
/// # Errors
/// The first thing that is wrong with the table, placed in it.
pub fn read_table(name: &str, text: &str) -> Result<Vec<BTreeMap<String, Value>>, Diagnostic> {
    let mut lines = Lines::of_text(text);
    let empty = || Diagnostic::of(&codes::table::SHAPE, format!("the table {name} is empty"));
    // A text in memory is read without fail.
    let first = lines.next_row().ok().flatten().ok_or_else(empty)?;
    let (known, unknown) = (|_: &str| Some(Holds::Any), |_: &str| empty());
    let head = Head::read(&first.text, &Headings { known: &known, aliases: &[], own: &[], unknown: &unknown });
    if let Some(fault) = first.fault.or_else(|| head.faults.first().cloned()) {
        return Err(fault.inside_from(name, first.text, first.number));
    }
    let mut reader = Reader::new(lines, head);
    let mut rows = Vec::new();
    while let Some(row) = reader.next_row().ok().flatten() {
        if let Some(fault) = row.faults.first() {
            return Err(place(&row, name, fault));
        }
        rows.push(row);
    }
    let columns = reader.columns();
    for (at, column) in columns.iter().enumerate() {
        let measured = |row: &Row| !matches!(value(&row.cells[at].text), Value::Text(_) | Value::Nothing);
        if matches!(column, Column::Named(..)) && rows.iter().any(measured) {
            for row in &rows {
                not_a_date(&row.cells[at]).map_err(|fault| place(row, name, &fault))?;
            }
        }
    }
    let map = |row: Row| {
        let cells = columns.iter().zip(row.cells).filter_map(|(column, cell)| match column {
            Column::Named(column, _) => Some((column.to_string(), value(&cell.text))),
            Column::Unnamed | Column::Ignored => None,
        });
        cells.collect()
    };
    Ok(rows.into_iter().map(map).collect())
}

fn place(row: &Row, name: &str, fault: &Diagnostic) -> Diagnostic {
    fault.clone().inside_from(name, row.text.clone(), row.line)
}

fn value(cell: &str) -> Value {
    if cell.is_empty() {
        return Value::Nothing;
    }
    if let Some(marked) = unspoken(cell) {
        return Value::Text(marked.into());
    }
    let digits = cell.trim_start_matches(['-', '+']);
    let numbered =
        digits.len() > 1 && digits.starts_with('0') && digits[1..].starts_with(|next: char| next.is_ascii_digit());
    match read(cell, None) {
        Ok(reading) if !numbered => reading.into(),
        Ok(_) | Err(_) => Value::Text(cell.into()),
    }
}

/// Rows as a table with commas, in these columns, or in all that any row has, by the alphabet.
///
/// A quantity is written so that it reads back as the very same one; yes/no as `yes` and `no`; nothing as an empty cell.
///
/// # Errors
/// A value that fits in no cell; a column that no row has.
pub fn write_table(rows: &[BTreeMap<String, Value>], columns: Option<Vec<String>>) -> Result<String, Diagnostic> {
    let there: BTreeSet<&String> = rows.iter().flat_map(BTreeMap::keys).collect();
    let columns = columns.unwrap_or_else(|| there.into_iter().cloned().collect());
    let mut table_rows = vec![columns.clone()];
    for (number, row) in rows.iter().enumerate() {
        let cell = |column: &String| {
            row.get(column).map_or(Ok(String::new()), cell).map_err(|what| {
                Diagnostic::of(
                    &codes::table::SHAPE,
                    format!("{column} of row {} is {what}, and a cell takes one value", number + 1),
                )
            })
        };
        table_rows.push(columns.iter().map(cell).collect::<Result<_, _>>()?);
    }
    Ok(table(table_rows))
}

fn cell(value: &Value) -> Result<String, String> {
    if let Value::Text(text) = value {
        return Ok(text.clone());
    }
    if let Value::Truth(truth) = value {
        return Ok(if *truth { "yes" } else { "no" }.into());
    }
    if let Value::Size(size) = value {
        return Ok(sides(size, exactly));
    }
    match (value.quantity(), value) {
        (Some(quantity), _) => Ok(exactly(quantity)),
        (None, Value::Nothing) => Ok(String::new()),
        (None, other) => Err(other.what()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lang::script::tests::show;

    fn table(text: &str) -> Vec<BTreeMap<String, Value>> {
        read_table("t.csv", text).unwrap_or_else(|found| panic!("{}", found.message()))
    }

    fn shown(text: &str, column: &str) -> Vec<String> {
        table(text).into_iter().map(|mut row| show(row.remove(column).expect("a cell"))).collect()
    }

    #[test]
    fn cells_have_their_values() {
        let text = "name,width,count,art\nmoth,16 3/8\",2,16\" x 20\"\nlantern,400mm,,\n007,-1/4,1/3,2lb 4oz\n";
        assert_eq!(shown(text, "width"), ["16 3/8\"", "15 3/4\" - 0.002\"", "-1/4"]);
        assert_eq!(shown(text, "count"), ["2", "", "1/3"]);
        assert_eq!(shown(text, "name"), ["moth", "lantern", "007"]);
        assert_eq!(shown(text, "art")[0], "16\" x 20\"");
    }

    #[test]
    fn marks_and_quotes_are_as_they_come() {
        for text in [
            "a;b\r\n1;x y\r\n",
            "a\tb\n1\tx y\n",
            "\u{feff}a,b\r\n1,x y\r\n",
            "a,b\n1,\"x y\"\n",
            "a,b\n\n1,x y\n",
            "a , b\n 1 , x y",
        ] {
            assert_eq!(shown(text, "b"), ["x y"], "{text}");
        }
        assert_eq!(shown("a,b\n\"say \"\"no\"\", twice\",3/4\"\n", "a"), ["say \"no\", twice"]);
        assert_eq!(shown("a,b\n\"two\nlines\",1\n", "a"), ["two\nlines"]);
        assert_eq!(shown("a;b\n40,5;x, y\n", "a"), ["40 1/2"]);
        // A column of nothing but dates is one of dates.
        assert_eq!(shown("day,b\n4-Jan,1\n5-Jan,2\n", "day"), ["4-Jan", "5-Jan"]);
    }

    #[track_caller]
    fn bad(text: &str, message: &str, line: usize) {
        let found = read_table("t.csv", text).unwrap_err();
        assert_eq!(found.message(), message);
        assert_eq!(found.source.expect("a place").line, line);
    }

    #[test]
    fn what_is_no_table_is_told_with_its_line() {
        bad("a,b\n1,2\n1,2,3\n", "this row has more cells than the 2 columns", 3);
        bad(
            "a,b\n\n1,\"16\" x 20\"\n",
            "the quotes close before x 20\"; inside quotes an inch mark is written twice",
            3,
        );
        bad("a,b\n1\n", "this row has 1 cell, and there are 2 columns", 2);
        bad("a,b,a\n1,2,3\n", "the column a is there twice", 1);
        bad("a,,b\n1,2,3\n", "this cell has no heading above it", 2);
        bad("a;b\n1,250;2\n", "1,250 may be 1.25 or 1250", 2);
        bad("a,b\n16 3/8in,x\n4-Jan,y\n", "4-Jan is a date; a spreadsheet may have made it of 1/4", 3);
        bad("a,b\n1,\0\n", "this line holds a NUL byte, which is not text; the file may be in UTF-16", 2);
        bad("a,b\n1,2\n\"no end,3\n4,5\n", "a quote opens here and never closes", 3);
        assert_eq!(read_table("t.csv", "").unwrap_err().message(), "the table t.csv is empty");
        assert!(table("a,b\n").is_empty());
    }

    #[test]
    fn what_is_written_reads_back() {
        let rows = table("name,width,n\nmoth,16 3/8\",-1/4\nlantern,1/3in,\n");
        let mut rows: Vec<BTreeMap<String, Value>> = rows;
        let evil = |text: &str| Value::Text(text.into());
        for (row, text) in rows.iter_mut().zip(["=HYPERLINK(\"x\")", "'=1, \"quoted\""]) {
            row.insert("note".into(), evil(text));
        }
        let text = write_table(&rows, None).unwrap();
        assert_eq!(text.lines().next(), Some("n,name,note,width"));
        assert!(!text.contains(",=") && !text.contains("\"="), "{text}");
        let back = read_table("t.csv", &text).unwrap();
        assert_eq!(format!("{back:?}"), format!("{rows:?}"));
        let picked = write_table(&rows, Some(vec!["width".into(), "name".into()])).unwrap();
        assert_eq!(picked, "width,name\n\"16 3/8\"\"\",moth\n1/3in,lantern\n");
    }

    #[test]
    fn a_list_fits_in_no_cell() {
        let rows = [BTreeMap::from([("a".to_string(), Value::List(Vec::new()))])];
        let found = write_table(&rows, None).unwrap_err();
        assert_eq!(found.message(), "a of row 1 is a list, and a cell takes one value");
    }
}
