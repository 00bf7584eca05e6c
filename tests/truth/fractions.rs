//! Inch fractions and millimetres, both ways, against the table.

use crate::rows::{fraction, rows};
use benchrule::measure::write::millimetres;
use benchrule::measure::{Graduation, Manner, Quantity, Real, Toward, Unit, to_step};

const TABLE: &str = include_str!("../table/fractions.tsv");

fn table(kind: &str) -> Vec<Vec<&'static str>> {
    rows(TABLE, 8).into_iter().filter(|row| row[0] == kind).collect()
}

#[test]
fn inches_in_millimetres() {
    let rows = table("inch");
    assert_eq!(rows.len(), 43);
    let mut parted = 0;
    for row in rows {
        let mm = millimetres(&fraction(row[1]));
        assert!(mm.same(&fraction(row[2])), "{}\" is {} mm", row[1], mm.to_text());
        // Half up, as ours, not half to even: the columns part at 3/8, 3/4 and 7/8.
        assert_eq!((mm.to_fixed(2).as_str(), mm.to_fixed(1).as_str()), (row[4], row[6]), "{}\"", row[1]);
        // Half away from zero: a length below zero is the mirror of the one above.
        let below = -mm.clone();
        assert_eq!(below.to_fixed(2), format!("-{}", row[4]));
        assert_eq!(below.to_fixed(1), format!("-{}", row[6]));
        let differs = row[3] != row[4] || row[5] != row[6];
        if differs {
            assert!(mm.to_fixed(2) != row[3] || mm.to_fixed(1) != row[5], "{}\"", row[1]);
        }
        parted += usize::from(differs);
        let shown = Manner::default().other(&Quantity::inches(fraction(row[1])));
        assert_eq!(shown, format!("{} mm", row[6]));
    }
    assert_eq!(parted, 3);
}

#[test]
fn millimetres_on_inch_tapes() {
    let rows = table("mm");
    assert_eq!(rows.len(), 22);
    let mm = Unit::named("mm").unwrap();
    for row in rows {
        let value = mm.to_storage(fraction(row[1]));
        assert_eq!(value.to_fixed(10), row[2], "{} mm", row[1]);
        for (name, column) in [("1/16 in", 3), ("1/32 in", 5), ("1/64 in", 7)] {
            let graduation = Graduation::all().find(|one| one.name == name).unwrap();
            let (mark, exact) = to_step(&value, &graduation.step.value, Toward::Nearest);
            assert!(mark.same(&fraction(row[column])) && !exact, "{} mm on {name}: {}", row[1], mark.to_text());
            let manner = Manner { graduation };
            assert_eq!(manner.mark(&mark), format!("{}\"", row[column]));
            // Printed to four places, some of them by another rule for halves than ours.
            let off = millimetres(&mark) - fraction(row[1]);
            assert!(
                (off.clone() - fraction(row[column + 1])).abs() <= Real::ratio(1, 20_000),
                "{} mm on {name}",
                row[1]
            );
            // What the bench sees: the mark, and on which side of it the length lies.
            let shown = manner.short(&Quantity::inches(value.clone()));
            let sign = if off.is_negative() { '+' } else { '-' };
            assert!(shown.starts_with(&format!("{}\" {sign} ", row[column])), "{shown}");
        }
    }
}
