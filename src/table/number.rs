//! Numbers as spreadsheets of several countries write them: decimal commas, and thousands that might be decimals.

use super::cells::Cell;
use super::column::Holds;
use super::date;
use crate::diag::{Diagnostic, codes, list};
use crate::measure::read::read;

/// Reads a cell in the way of its table: in a table with semicolons `40,5` becomes 40.5. Gives what was written, if that
/// is something else.
///
/// # Errors
/// What can be read two ways, `1,250`; a date that was a fraction. The finding is placed in the row.
pub(super) fn settle(cell: &mut Cell, holds: Holds, mark: char) -> Result<Option<String>, Diagnostic> {
    if holds == Holds::Text || !cell.text.bytes().any(|byte| byte.is_ascii_digit()) {
        return Ok(None);
    }
    if holds != Holds::Any {
        not_a_date(cell)?;
    }
    if holds == Holds::Amounts || !cell.text.contains([',', '.']) {
        return Ok(None);
    }
    let by_comma = mark == ';';
    let decimal = match decimal(&cell.text, by_comma) {
        Ok(decimal) => decimal,
        Err(_) if holds == Holds::Any && !is_amount(&cell.text) => return Ok(None),
        Err(two) => return Err(two.at(cell.span.clone())),
    };
    match decimal {
        // Of a script's table only what is an amount as a whole is one.
        Some(text) if holds == Holds::Amount || read(&text, None).is_ok() => {
            Ok(Some(std::mem::replace(&mut cell.text, text)))
        }
        Some(_) | None => Ok(None),
    }
}

/// Refuses a cell that a spreadsheet turned into a date.
///
/// # Errors
/// It is one; the fix is the likeliest fraction that it may have been.
pub fn not_a_date(cell: &Cell) -> Result<(), Diagnostic> {
    let Some(fractions) = date::fractions(&cell.text) else { return Ok(()) };
    let was = list(&fractions, "or");
    let message = format!("{} is a date; a spreadsheet may have made it of {was}", cell.text);
    Err(Diagnostic::of(&codes::table::CELL, message).at(cell.span.clone()).only(fractions))
}

/// Whether a text is one number with marks in it and nothing else.
fn is_amount(text: &str) -> bool {
    text.chars().all(|letter| letter.is_ascii_digit() || ".,-".contains(letter))
}

/// A text with a point for each decimal comma, where it has any.
///
/// # Errors
/// One to three digits, a comma and exactly three digits: 1,250 is 1.25 or 1250, and in a table with decimal commas 1.250
/// is as well. After a zero they are decimals.
fn decimal(text: &str, by_comma: bool) -> Result<Option<String>, Diagnostic> {
    let bytes = text.as_bytes();
    let is_digit = |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
    let mut decimal = None;
    for (at, mark) in text.match_indices([',', '.']) {
        if !is_digit(at.checked_sub(1)) || !is_digit(Some(at + 1)) {
            continue;
        }
        let before = bytes[..at].iter().rev().take_while(|byte| byte.is_ascii_digit()).count();
        let after = bytes[at + 1..].iter().take_while(|byte| byte.is_ascii_digit()).count();
        let (whole, part) = (&text[at - before..at], &text[at + 1..at + 1 + after]);
        if after == 3 && whole != "0" && (mark == "," || by_comma && before <= 3) {
            return Err(two_ways(text, at, whole, part));
        }
        if mark == "," && by_comma {
            decimal.get_or_insert_with(|| text.to_string()).replace_range(at..=at, ".");
        }
    }
    Ok(decimal)
}

/// `1,250`: both readings, each as it can be written.
fn two_ways(text: &str, at: usize, whole: &str, part: &str) -> Diagnostic {
    let (before, after) = (&text[..at - whole.len()], &text[at + 1 + part.len()..]);
    // Four decimals cannot be thousands.
    let short = part.trim_end_matches('0');
    let decimals = if short.len() == 3 { format!("{whole}.{part}0") } else { format!("{whole}.{short}") };
    let readings = [decimals.trim_end_matches('.').to_string(), format!("{whole}{part}")];
    // Of 1.250,5 only the thousands are a number.
    let is_number = |text: &String| !text.split_whitespace().any(|word| word.matches([',', '.']).count() > 1);
    let readings = readings.map(|number| format!("{before}{number}{after}")).into_iter().filter(is_number);
    let readings: Vec<String> = readings.collect();
    let message = format!("{} may be {}", super::brief(text), list(&readings, "or"));
    Diagnostic::of(&codes::table::CELL, message).only(readings)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, mark: char, wanted: Result<&str, &str>) {
        let mut cell = Cell { text: text.into(), span: 0..text.len(), verbatim: true };
        let found = settle(&mut cell, Holds::Amount, mark);
        match (found, wanted) {
            (Ok(_), Ok(wanted)) => assert_eq!(cell.text, wanted),
            (Err(found), Err(wanted)) => assert_eq!(found.message(), wanted),
            (found, wanted) => panic!("{text}: {found:?}, not {wanted:?}"),
        }
    }

    #[test]
    fn commas_are_decimal_where_semicolons_part_the_cells() {
        check("40,5", ';', Ok("40.5"));
        check("40,5 x 30,25 mm", ';', Ok("40.5 x 30.25 mm"));
        check("0,125", ';', Ok("0.125"));
        check("12,3456", ';', Ok("12.3456"));
        check("16 3/8", ';', Ok("16 3/8"));
        // In a table with commas a comma inside quotes is left to the notation, which refuses it.
        check("40,5", ',', Ok("40,5"));
        check("1.250", ',', Ok("1.250"));
    }

    #[test]
    fn what_reads_two_ways_is_refused_with_both() {
        check("1,250", ';', Err("1,250 may be 1.25 or 1250"));
        check("1,250", ',', Err("1,250 may be 1.25 or 1250"));
        check("1.250", ';', Err("1.250 may be 1.25 or 1250"));
        check("2,125 mm", ';', Err("2,125 mm may be 2.1250 mm or 2125 mm"));
        check("1.250,5", ';', Err("1.250,5 may be 1250,5"));
        check("4,000", ';', Err("4,000 may be 4 or 4000"));
        check("4-Jan", ',', Err("4-Jan is a date; a spreadsheet may have made it of 1/4"));
    }
}
