//! What the tests against tables share.

use benchrule::measure::Real;

/// The rows of a table of tab-separated columns; lines that begin with `#` are remarks.
pub fn rows(table: &str, columns: usize) -> Vec<Vec<&str>> {
    let rows: Vec<Vec<&str>> = table
        .lines()
        .filter(|line| !line.starts_with('#') && !line.is_empty())
        .map(|line| line.split('\t').collect())
        .collect();
    for row in &rows {
        assert!(row.len() >= columns, "{} columns of {columns}: {row:?}", row.len());
    }
    rows
}

/// `3/8`, `1 3/8`, `0.375`, `-40`: exactly.
pub fn fraction(text: &str) -> Real {
    let decimal = |text: &str| Real::from_decimal(text).unwrap_or_else(|| panic!("not a number: {text}"));
    text.split(' ').fold(Real::ZERO, |sum, part| {
        sum + match part.split_once('/') {
            Some((above, below)) => decimal(above) / decimal(below),
            None => decimal(part),
        }
    })
}
