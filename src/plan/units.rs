//! Lengths as text that carries its unit, so that what is stored means the same on any bench.

use crate::measure::read::{Reading, read};
use crate::measure::write::exactly;
use crate::measure::{Kind, Unit};

/// The two units that a bare number may be in, each with the mark that is written behind it.
const MARKS: [(&str, &str); 2] = [("in", "\""), ("mm", "mm")];

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

/// Whether a text is a length or a size in which a number has no unit: it is another on a bench of the other unit.
pub(super) fn is_bare(text: &str) -> bool {
    let read_as = |name: &str| read(text, Unit::named(name)).ok();
    match MARKS.map(|(name, _)| read_as(name)) {
        [Some(one), Some(other)] => !same(&one, &other),
        // A unit on one side alone says nothing certain of the other.
        [one, other] => one.is_some() != other.is_some(),
    }
}

/// The same length or size with its unit, as it reads with bare numbers in `unit`. What is not a length stays as it is.
pub(super) fn with_unit(text: &str, unit: &Unit) -> String {
    let (true, Ok(reading)) = (is_bare(text), read(text, Some(unit))) else { return text.into() };
    let mark = MARKS.iter().find(|(name, _)| unit.names.contains(name)).map_or("", |(_, mark)| mark);
    let marked = |part: &str| format!("{}{mark}", part.trim());
    let written = text.split(['x', 'X', '×']).map(marked).collect::<Vec<_>>().join(" x ");
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
        for text in ["8ft", "2400mm", "3/4\" x 1 1/2\"", "profile 12", "", "8' 6\""] {
            assert!(!is_bare(text), "{text}");
            assert_eq!(with_unit(text, inch), text);
        }
    }
}
