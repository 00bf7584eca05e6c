//! Fractions that a spreadsheet took for dates: `1/4` typed there is shown as `4-Jan`, and `1/64` as `Jan-64`.

/// The first letters of the months, as spreadsheets of several countries abbreviate them, small.
const MONTHS: [(u32, &[&str]); 12] = [
    (1, &["jan"]),
    (2, &["feb", "fév", "fev"]),
    (3, &["mar", "mär", "mrz", "maa", "mrt"]),
    (4, &["apr", "avr", "abr"]),
    (5, &["may", "mai", "mei", "mag"]),
    (6, &["jun", "juin", "giu"]),
    (7, &["jul", "juil", "lug"]),
    (8, &["aug", "aoû", "aou", "ago"]),
    (9, &["sep", "set"]),
    (10, &["oct", "okt", "ott"]),
    (11, &["nov"]),
    (12, &["dec", "dez", "déc", "dic"]),
];

/// A piece of a date.
#[derive(Clone, Copy)]
enum Piece {
    Month(u32),
    /// A number, and with how many digits it is written.
    Number(u32, usize),
}

/// The fractions that a cell may have been before a spreadsheet made a date of it, the likeliest first; none if it is not
/// a date.
pub(super) fn fractions(text: &str) -> Option<Vec<String>> {
    // Most cells are short and plain numbers; a date begins and goes on in few ways.
    if text.len() < 5 || text.len() > 24 || !text.starts_with(|first: char| first.is_alphanumeric()) {
        return None;
    }
    let day = text.split_once(" 00:00").or_else(|| text.split_once("T00:00")).map_or(text, |(day, _)| day);
    let pieces: Vec<&str> = day.split(['-', '/', '.', ' ', ',']).filter(|piece| !piece.is_empty()).collect();
    if !(2..=3).contains(&pieces.len()) {
        return None;
    }
    let pieces = pieces.into_iter().map(piece).collect::<Option<Vec<_>>>()?;
    let all: Vec<(u32, u32)> = match *pieces.as_slice() {
        [Piece::Number(number, _), Piece::Month(month)] | [Piece::Month(month), Piece::Number(number, _)] => {
            vec![(month, number % 100), (number % 100, month)]
        }
        [Piece::Number(day, _), Piece::Month(month), Piece::Number(year, _)]
        | [Piece::Month(month), Piece::Number(day, _), Piece::Number(year, _)] => of_day(month, day, year),
        [Piece::Number(year, 4), Piece::Number(month, _), Piece::Number(day, _)] => of_day(month, day, year),
        [Piece::Number(first, 1 | 2), Piece::Number(second, 1 | 2), Piece::Number(year, 2 | 4)] => {
            [of_day(first, second, year), of_day(second, first, year)].concat()
        }
        _ => return None,
    };
    let fractions = named(all);
    (!fractions.is_empty()).then_some(fractions)
}

/// Fractions in words, each once: the proper ones alone where there are any, for nobody measures 4/1.
fn named(all: Vec<(u32, u32)>) -> Vec<String> {
    let is_day = |(over, under): &(u32, u32)| *over > 0 && *under > 0;
    let mut all: Vec<(u32, u32)> = all.into_iter().filter(is_day).collect();
    if all.iter().any(|(over, under)| over < under) {
        all.retain(|(over, under)| over < under);
    }
    let mut fractions: Vec<String> = Vec::new();
    for (over, under) in all {
        let fraction = format!("{over}/{under}");
        if !fractions.contains(&fraction) {
            fractions.push(fraction);
        }
    }
    fractions
}

/// The fractions that a plain number may have been before a spreadsheet made a date of it and then showed the date as the
/// number that it is stored as: days since 30 December 1899, so `45295` is 4 January 2024 (memory).
///
/// Such a number is only noted, not refused: 45295 mm are 45 m, which no frame has and a roll or a wall may, and a number
/// of pieces or a price may be that high. Days of 1990 to 2080 alone are meant: nobody types fractions into older years.
pub(super) fn serial(text: &str) -> Option<Vec<String>> {
    if text.len() != 5 || !text.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let days: i64 = text.parse().ok()?;
    let (year, month, day) = civil(days);
    let all = (1990..=2080).contains(&year).then(|| of_day(month, day, u32::try_from(year).unwrap_or(0)))?;
    let fractions = named(all);
    (!fractions.is_empty()).then_some(fractions)
}

/// Year, month and day of a number of days since 30 December 1899, by counting: whole years, then months.
fn civil(days: i64) -> (i64, u32, u32) {
    let is_leap = |year: i64| year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    // The first of January 1900 is day 2.
    let (mut year, mut left) = (1900, days - 2);
    while left >= 365 + i64::from(is_leap(year)) {
        left -= 365 + i64::from(is_leap(year));
        year += 1;
    }
    let february = 28 + i64::from(is_leap(year));
    let mut month = 1;
    for length in [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30] {
        if left < length {
            break;
        }
        left -= length;
        month += 1;
    }
    (year, month, u32::try_from(left + 1).unwrap_or(0))
}

/// What was typed for a day: month and day either way round. The first of a month is what a spreadsheet makes of a month
/// and a year, which it takes only for numbers that are not days of that month.
fn of_day(month: u32, day: u32, year: u32) -> Vec<(u32, u32)> {
    let mut all = vec![(month, day), (day, month)];
    if day == 1 && year % 100 > 28 {
        all.push((month, year % 100));
    }
    all
}

fn piece(text: &str) -> Option<Piece> {
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        return Some(Piece::Number(text.parse().ok().filter(|_| text.len() <= 4)?, text.len()));
    }
    let word = text.to_lowercase();
    if !word.chars().all(char::is_alphabetic) {
        return None;
    }
    let is_month = |names: &&[&str]| names.iter().any(|name| word.starts_with(name));
    MONTHS.iter().find(|(_, names)| is_month(names)).map(|(month, _)| Piece::Month(*month))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What common spreadsheets make of fractions in an American and a European country: checked by hand (memory).
    #[test]
    fn dates_are_the_fractions_that_they_were() {
        for (text, wanted) in [
            ("4-Jan", &["1/4"][..]),
            ("Jan-64", &["1/64"]),
            ("Jan-32", &["1/32"]),
            ("8-Mar", &["3/8"]),
            ("3-Aug", &["3/8"]),
            ("04.Jan", &["1/4"]),
            ("4. Jan", &["1/4"]),
            ("8. Mrz", &["3/8"]),
            ("16-Nov", &["11/16"]),
            ("1/4/2026", &["1/4"]),
            ("2026-01-04", &["1/4"]),
            ("2026-01-04 00:00:00", &["1/4"]),
            ("1964-01-01", &["1/64"]),
            ("04.01.2026", &["1/4"]),
            ("4-Jan-26", &["1/4"]),
            ("January 4, 2026", &["1/4"]),
            ("1-Jan", &["1/1"]),
        ] {
            assert_eq!(fractions(text).unwrap_or_default(), wanted, "{text}");
        }
    }

    /// Numbers of days: 45295 is 4 January 2024 and 25569 is 1 January 1970 in common spreadsheets (memory).
    #[test]
    fn numbers_of_days_are_the_fractions_that_they_were() {
        assert_eq!(
            [25_569, 45_295, 45_351, 66_111].map(civil),
            [(1970, 1, 1), (2024, 1, 4), (2024, 2, 29), (2080, 12, 31)]
        );
        for (text, wanted) in [
            ("45295", &["1/4"][..]),
            ("45359", &["3/8", "8/3"][..1]),
            ("45612", &["11/16"]),
            ("25569", &[]),
            ("66112", &[]),
            ("1200", &[]),
            ("4529.5", &[]),
            ("452950", &[]),
        ] {
            assert_eq!(serial(text).unwrap_or_default(), wanted, "{text}");
        }
    }

    #[test]
    fn what_is_measured_is_not_a_date() {
        for text in [
            "1/4",
            "16-3/8",
            "5'-6\"",
            "16 3/8",
            "1/4in",
            "400mm",
            "16 x 20 x 3/4",
            "5ft 3in",
            "1 mil",
            "5 min",
            "3/4 x 2",
            "40.5",
            "12.50/ft",
            "marble",
            "2 oz",
            "9.50/bdft",
            "1e3",
            "8.10.12.14",
            "40,5 x 30,5",
            "",
        ] {
            assert_eq!(fractions(text), None, "{text}");
        }
    }
}
