//! Tables as text: cells in quotes where they need them, and none that a spreadsheet would run.

use crate::measure::read::read;

/// A cell as it is written in a table with this mark between cells: in quotes where it must be.
pub fn field(text: &str, mark: char) -> String {
    let quoted = text.contains(['"', '\n', '\r', mark]);
    if quoted { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.into() }
}

/// Rows of a table with commas, in which no cell runs.
pub fn table<T: AsRef<str>>(rows: impl IntoIterator<Item = impl IntoIterator<Item = T>>) -> String {
    let mut text = String::new();
    for row in rows {
        let start = text.len();
        for (at, cell) in row.into_iter().enumerate() {
            if at > 0 {
                text.push(',');
            }
            text += &field(&spoken(cell.as_ref()), ',');
        }
        // A row of one empty cell would be an empty line, which is not a row.
        if text.len() == start {
            text += "\"\"";
        }
        text.push('\n');
    }
    text
}

/// Text as a spreadsheet shows it and does not run it: what begins like a formula gets an apostrophe before it, which marks
/// text there and which [`unspoken`] takes off again.
///
/// A number or a quantity, `-1/4` or `-3/8"`, stays what it is, whether it was one or text: it has digits, a unit and
/// marks alone, and no call, no name of a cell and no command. The most a spreadsheet makes of it is the same number.
pub fn spoken(text: &str) -> String {
    if runs(text) && read(text, None).is_err() { format!("'{text}") } else { text.into() }
}

/// The text of a cell that was marked as text by [`spoken`].
pub fn unspoken(cell: &str) -> Option<&str> {
    cell.strip_prefix('\'').filter(|marked| runs(marked))
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

    /// Beginnings that spreadsheets take for formulas: those that OWASP's page on CSV injection lists (memory).
    #[test]
    fn no_cell_runs() {
        for text in ["=1+1", "+1+1", "-1+1", "@SUM(A1)", "\t=1", "\r=1", "=cmd|' /C calc'!A0", " =1", "＝1+1", "-A1"] {
            assert_eq!(spoken(text), format!("'{text}"), "{text}");
            assert_eq!(unspoken(&spoken(text)), Some(text));
        }
        for text in ["-1/4", "-3/8\"", "+", "1/4", "moth", "a=b", "-1/4in", ""] {
            let marked = text == "+";
            assert_eq!(spoken(text), if marked { "'+".into() } else { text.to_string() }, "{text}");
        }
    }

    #[test]
    fn cells_are_quoted_where_they_must_be() {
        let rows = [vec!["name", "length"], vec!["a, b", "16 1/2\""], vec!["=1", "two\nlines"], vec![""]];
        assert_eq!(table(rows), "name,length\n\"a, b\",\"16 1/2\"\"\"\n'=1,\"two\nlines\"\n\"\"\n");
    }
}
