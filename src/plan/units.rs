//! Lengths as text that carries its unit, so that what is stored means the same on any bench.

use crate::measure::read::{Reading, read};
use crate::measure::write::exactly;
use crate::measure::{Kind, Unit};

/// The two units that a bare number may be in, each with the mark that is written behind it.
const MARKS: [(&str, &str); 2] = [("in", "\""), ("mm", "mm")];

/// What stands between the parts of a size.
const CROSSES: [char; 3] = ['x', 'X', '×'];

/// Whether two readings are of the same lengths.
fn same(one: &Reading, other: &Reading) -> bool {
    match (one, other) {
        (Reading::Quantity(one), Reading::Quantity(other)) => one.kind == other.kind && one.amount.same(&other.amount),
        (Reading::Size(one), Reading::Size(other)) => {
            one.extents().count() == other.extents().count()
                && one.extents().zip(other.extents()).all(|(one, other)| one.amount.same(&other.amount))
        }
        (Reading::Quantity(_), Reading::Size(_)) | (Reading::Size(_), Reading::Quantity(_)) => false,
    }
}

/// A size with the unit of its last part at every part, where the parts before it are plain numbers: `19 x 38mm` is
/// `19mm x 38mm` on every bench. Any other text stays as it is.
pub(super) fn spread(text: &str) -> String {
    let parts: Vec<&str> = text.split(CROSSES).map(str::trim).collect();
    let Some((last, before)) = parts.split_last().filter(|(_, before)| !before.is_empty()) else { return text.into() };
    let is_in_number = |letter: char| letter.is_ascii_digit() || ". /-".contains(letter);
    let unit = last.trim_start_matches(is_in_number);
    let is_plain = |part: &&str| !part.is_empty() && part.chars().all(is_in_number);
    if unit.is_empty() || unit.contains(|letter: char| letter.is_ascii_digit()) || !before.iter().all(is_plain) {
        return text.into();
    }
    let whole = before.iter().map(|part| format!("{part}{unit}")).chain([(*last).to_string()]);
    let whole = whole.collect::<Vec<_>>().join(" x ");
    if matches!(read(&whole, None), Ok(Reading::Size(_))) { whole } else { text.into() }
}

/// Whether a text is a length or a size in which a number has no unit: it is another on a bench of the other unit.
pub(super) fn is_bare(text: &str) -> bool {
    let text = spread(text);
    let read_as = |name: &str| read(&text, Unit::named(name)).ok();
    match MARKS.map(|(name, _)| read_as(name)) {
        [Some(one), Some(other)] => !same(&one, &other),
        // A unit on one side alone says nothing certain of the other.
        [one, other] => one.is_some() != other.is_some(),
    }
}

/// The same length or size with its unit, as it reads with bare numbers in `unit`. What is not a length stays as it is.
pub(super) fn with_unit(text: &str, unit: &Unit) -> String {
    let spread = spread(text);
    let text = spread.as_str();
    let (true, Ok(reading)) = (is_bare(text), read(text, Some(unit))) else { return text.into() };
    let mark = MARKS.iter().find(|(name, _)| unit.names.contains(name)).map_or("", |(_, mark)| mark);
    let marked = |part: &str| format!("{}{mark}", part.trim());
    let written = text.split(CROSSES).map(marked).collect::<Vec<_>>().join(" x ");
    if read(&written, None).is_ok_and(|again| same(&again, &reading)) {
        return written;
    }
    match &reading {
        Reading::Quantity(length) if length.kind == Kind::LENGTH => exactly(length),
        Reading::Quantity(_) => text.into(),
        Reading::Size(size) => size.extents().map(exactly).collect::<Vec<_>>().join(" x "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_length_is_written_with_its_unit() {
        let [inch, mm] = ["in", "mm"].map(|name| Unit::named(name).unwrap());
        for (text, by_inch, by_mm) in [
            ("96", "96\"", "96mm"),
            ("8 1/2", "8 1/2\"", "8 1/2mm"),
            ("3/4 x 1 1/2", "3/4\" x 1 1/2\"", "3/4mm x 1 1/2mm"),
            ("20 x 40", "20\" x 40\"", "20mm x 40mm"),
        ] {
            assert!(is_bare(text), "{text}");
            assert_eq!((with_unit(text, inch), with_unit(text, mm)), (by_inch.into(), by_mm.into()));
            assert!(!is_bare(by_inch) && !is_bare(by_mm));
        }
        // A unit at the last part alone is that of every part, whatever the bench is in.
        for (text, whole) in [
            ("19.05 x 38.1mm", "19.05mm x 38.1mm"),
            ("19 x 38 mm", "19mm x 38 mm"),
            ("3/4 x 1 1/2in", "3/4in x 1 1/2in"),
        ] {
            assert!(!is_bare(text), "{text}");
            assert_eq!([inch, mm].map(|unit| with_unit(text, unit)), [whole, whole]);
        }
        // A unit at the first part alone leaves the last without one.
        assert!(is_bare("19mm x 38"));
        for text in ["8ft", "2400mm", "3/4\" x 1 1/2\"", "profile 12", "", "8' 6\""] {
            assert!(!is_bare(text), "{text}");
            assert_eq!(with_unit(text, inch), text);
        }
    }
}
