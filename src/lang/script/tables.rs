//! Tables of text with marks between their cells, as lists of maps and back.

use std::collections::{BTreeMap, BTreeSet};

use csv::{QuoteStyle, ReaderBuilder, StringRecord, Trim, WriterBuilder};

use super::literal::sides;
use super::value::Value;
use crate::diag::Diagnostic;
use crate::measure::read::read;
use crate::measure::write::exactly;

/// Reads a table whose first row names its columns: each row a map of its cells by column.
///
/// A cell is a quantity or a size where it reads as one in the bench notation, text otherwise, nothing where it is empty.
/// What begins with zeros, `007`, is no number but text.
///
/// # Errors
/// Columns of one name, a row with another number of cells, a quote that never closes; placed in the text.
pub fn read_table(name: &str, text: &str) -> Result<Vec<BTreeMap<String, Value>>, Diagnostic> {
    let told = |found: Diagnostic| found.inside(name, text);
    let mark = delimiter(text);
    if let Some(at) = unclosed(text, mark) {
        return Err(told(Diagnostic::new("the quote that begins this cell is never closed").at(at..at + 1)));
    }
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(mark)
        .trim(Trim::All)
        .from_reader(text.as_bytes());
    let mut records = reader.records().map_while(Result::ok);
    let Some(head) = records.next() else { return Err(Diagnostic::new(format!("the table {name} is empty"))) };
    let columns: Vec<&str> = head.iter().collect();
    for (at, column) in columns.iter().enumerate() {
        if column.is_empty() {
            let message = format!("column {} of the table has no name", at + 1);
            return Err(told(Diagnostic::new(message).at(line_of(text, &head))));
        }
        if columns[..at].contains(column) {
            return Err(told(Diagnostic::new(format!("two columns are called {column}")).at(line_of(text, &head))));
        }
    }
    let mut rows = Vec::new();
    for record in records {
        if record.len() != columns.len() {
            let message = format!("this row has {} cells, and there are {} columns", record.len(), columns.len());
            return Err(told(Diagnostic::new(message).at(line_of(text, &record))));
        }
        let cells = columns.iter().zip(&record).map(|(column, cell)| ((*column).to_string(), value(cell)));
        rows.push(cells.collect());
    }
    Ok(rows)
}

/// What stands between two cells: the likeliest of comma, semicolon and tab by the first line.
fn delimiter(text: &str) -> u8 {
    let head = text.lines().next().unwrap_or_default();
    let count = |mark: u8| head.bytes().filter(|byte| *byte == mark).count();
    b",;\t".iter().copied().max_by_key(|mark| (count(*mark), *mark == b',')).unwrap_or(b',')
}

/// Where the quote stands that opens a cell and is never closed. Inside a cell a quote is an inch mark.
fn unclosed(text: &str, mark: u8) -> Option<usize> {
    let (mut open, mut fresh) = (None, true);
    for (at, byte) in text.bytes().enumerate() {
        match (byte, open) {
            (b'"', Some(_)) => open = None,
            // Two quotes together are one of the cell's letters: the second opens it again.
            (b'"', None) if fresh || at > 0 && text.as_bytes()[at - 1] == b'"' => open = Some(at),
            _ => {}
        }
        fresh = byte == mark || byte == b'\n' || byte == b'\r' || fresh && byte == b' ';
    }
    open
}

/// The line that a record begins on.
fn line_of(text: &str, record: &StringRecord) -> std::ops::Range<usize> {
    let start = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(0)).min(text.len());
    let blank = text.get(start..).map_or(0, |rest| rest.len() - rest.trim_start_matches(['\n', '\r']).len());
    let start = start + blank;
    let end = text.get(start..).and_then(|rest| rest.find(['\n', '\r'])).map_or(text.len(), |end| start + end);
    start..end
}

fn value(cell: &str) -> Value {
    if cell.is_empty() {
        return Value::Nothing;
    }
    // What was marked as text by `spoken` is that text.
    if let Some(marked) = cell.strip_prefix('\'').filter(|marked| runs(marked)) {
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
    let mut writer = WriterBuilder::new().quote_style(QuoteStyle::Necessary).from_writer(Vec::new());
    let failed = |error: csv::Error| Diagnostic::new(format!("the table cannot be written: {error}"));
    writer.write_record(columns.iter().map(|column| spoken(column))).map_err(failed)?;
    for (number, row) in rows.iter().enumerate() {
        let mut cells = Vec::with_capacity(columns.len());
        for column in &columns {
            let text = row.get(column).map_or(Ok(String::new()), cell);
            cells.push(text.map_err(|what| {
                let message = format!("{column} of row {} is {what}, and a cell takes one value", number + 1);
                Diagnostic::new(message)
            })?);
        }
        writer.write_record(&cells).map_err(failed)?;
    }
    let bytes = writer.into_inner().map_err(|error| Diagnostic::new(error.to_string()))?;
    Ok(String::from_utf8(bytes).unwrap_or_default())
}

fn cell(value: &Value) -> Result<String, String> {
    if let Value::Text(text) = value {
        return Ok(spoken(text));
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

/// Text as a spreadsheet shows it and does not run it: what begins like a formula gets an apostrophe before it, which marks
/// text there and which [`read_table`] takes off again.
///
/// A number or a quantity, `-1/4` or `-3/8"`, stays what it is, whether the script holds it as one or as text: it has
/// digits, a unit and marks alone, and no call, no name of a cell and no command. The most a spreadsheet makes of it is
/// the same number.
pub fn spoken(text: &str) -> String {
    if runs(text) && read(text, None).is_err() { format!("'{text}") } else { text.into() }
}

/// Whether a spreadsheet may take text for a formula: by its first letter, the wide forms of some scripts too.
fn runs(text: &str) -> bool {
    let first = text.trim_start_matches(' ');
    let marks = ['=', '+', '-', '−', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];
    first.starts_with(marks) || first.starts_with('\'') && runs(&first[1..])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lang::script::tests::show;

    fn table(text: &str) -> Vec<BTreeMap<String, Value>> {
        read_table("t.csv", text).unwrap_or_else(|found| panic!("{}", found.message))
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
        for text in ["a;b\r\n1;x y\r\n", "a\tb\n1\tx y\n", "a,b\n1,\"x y\"\n", "a,b\n\n1,x y\n", "a , b\n 1 , x y"] {
            assert_eq!(shown(text, "b"), ["x y"], "{text}");
        }
        assert_eq!(shown("a,b\n\"say \"\"no\"\", twice\",3/4\"\n", "a"), ["say \"no\", twice"]);
        assert_eq!(shown("a,b\n\"two\nlines\",1\n", "a"), ["two\nlines"]);
    }

    #[track_caller]
    fn bad(text: &str, message: &str, line: usize) {
        let found = read_table("t.csv", text).unwrap_err();
        assert_eq!(found.message, message);
        assert_eq!(crate::diag::line_column(text, found.span.expect("a place").start).0, line);
    }

    #[test]
    fn what_is_no_table_is_told_with_its_line() {
        bad("a,b\n1,2\n1,2,3\n", "this row has 3 cells, and there are 2 columns", 3);
        bad("a,b\n1\n", "this row has 1 cells, and there are 2 columns", 2);
        bad("a,b,a\n1,2,3\n", "two columns are called a", 1);
        bad("a,,b\n1,2,3\n", "column 2 of the table has no name", 1);
        bad("a,b\n1,2\n\"no end,3\n4,5\n", "the quote that begins this cell is never closed", 3);
        assert_eq!(read_table("t.csv", "").unwrap_err().message, "the table t.csv is empty");
        assert!(table("a,b\n").is_empty());
    }

    /// Beginnings that spreadsheets take for formulas: those that OWASP's page on CSV injection lists (memory).
    #[test]
    fn no_cell_runs() {
        for text in ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", " =1", "＝1+1", "-A1"] {
            assert_eq!(spoken(text), format!("'{text}"), "{text}");
        }
        for text in ["-1/4", "-3/8\"", "+", "1/4", "moth", "a=b", "-1/4in", ""] {
            let marked = text == "+";
            assert_eq!(spoken(text), if marked { "'+".into() } else { text.to_string() }, "{text}");
        }
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
        assert_eq!(found.message, "a of row 1 is a list, and a cell takes one value");
    }
}
