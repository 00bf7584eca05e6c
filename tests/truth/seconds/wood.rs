//! Movement, stiffness, corners as sawn, by another road.

use super::{Fields, Method, number};

/// The methods of this part.
pub const METHODS: &[(&str, Method)] = &[("what the word says", named), ("coefficient from shrinkage", coefficient)];

/// The size by which a row of a table is called: `hook 75 lb`, `5/4`, `two-hole ring`.
fn named(_: &Fields, subject: &str) -> f64 {
    let word = subject.rsplit(": ").next().unwrap_or_default();
    let counts = ["one-", "two-", "three-", "four-"];
    if let Some((count, _)) = (1_u8..).zip(counts).find(|(_, count)| word.starts_with(count)) {
        return count.into();
    }
    let size = word.split(' ').find(|part| part.starts_with(|letter: char| letter.is_ascii_digit()));
    size.map_or(f64::NAN, number)
}

/// Shrinkage from green to ovendry of each wood, Wood Handbook (2010) Table 4-3.
const SHRINKAGE: &str = include_str!("../../table/shrinkage.tsv");

/// Movement for each percent of moisture of a board that dries from green, seen at 10 %: two sizes a percent apart on the
/// straight line from where shrinking begins to ovendry.
fn coefficient(_: &Fields, subject: &str) -> f64 {
    let (column, word) = subject.split_once(": ").unwrap_or_default();
    let of = |line: &&str| {
        let mut cells = line.split('\t');
        cells.next() == Some(word) && cells.next().is_some_and(|grain| column.ends_with(grain))
    };
    let row: Vec<&str> = SHRINKAGE.lines().find(of).map(|line| line.split('\t').collect()).unwrap_or_default();
    let (total, saturation) = (number(row[2]) / 100.0, number(row[3]));
    let size = |moisture: f64| 1.0 - total * (saturation - moisture) / saturation;
    (size(10.5) - size(9.5)) / size(10.0)
}
