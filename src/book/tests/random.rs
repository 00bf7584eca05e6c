//! Whatever is given to a design reads back as the very same.

use proptest::prelude::*;

use super::{bench, set};
use crate::book::text;
use crate::measure::{Kind, Real};
use crate::rules::{BUILD, Datum, Design, Type};

/// Any number that the bench may hold: small fractions, long ones, approximate ones.
fn amount() -> impl Strategy<Value = Real> {
    prop_oneof![
        (-9999_i64..9999, 1_i64..128).prop_map(|(n, d)| Real::ratio(n, d)),
        (any::<i64>(), 1..i64::MAX).prop_map(|(n, d)| Real::ratio(n, d)),
        (any::<i64>(), any::<i64>(), 1..i64::MAX)
            .prop_map(|(a, b, d)| { Real::whole(a) * Real::whole(b) / Real::whole(d) + Real::ratio(1, 127) }),
        (-1e6..1e6).prop_map(Real::approximate),
        prop_oneof![Just(1e-9), Just(1e-300), Just(5e-324), Just(0.1 + 0.2), Just(123_456_789.123_456_7)]
            .prop_map(Real::approximate),
    ]
}

/// Something of everything that a name may hold, whatever its range: what is kept is not judged.
fn given() -> impl Strategy<Value = Vec<(usize, Real, String)>> {
    let text = prop_oneof!["\\PC{0,12}", any::<String>(), Just("a\nb\r\n\"c\"\\ 'd'; DROP \0 \u{202e}x".to_string())];
    prop::collection::vec((0_usize..1000, amount(), text), 0..24)
}

fn give(design: &mut Design, at: usize, amount: Real, words: &str) {
    let book = design.book().clone();
    let name = &book.names[at % book.names.len()];
    if name.role == crate::rules::Role::Gather || name.is_of_the_shop() || name.text == BUILD {
        return;
    }
    let datum = match name.of {
        Type::Quantity(_) | Type::Share => Datum::Amount(amount),
        Type::List(_) => Datum::List([amount.clone(), amount].into()),
        Type::Whole => Datum::Amount(Real::whole(4)),
        Type::Word => match book.tables.get(at % book.tables.len()).and_then(|table| table.words.first()) {
            Some(word) => Datum::Word(word.as_str().into()),
            None => return,
        },
        Type::Text => Datum::Word(words.into()),
        Type::Truth | Type::Size | Type::Record(_) | Type::Nothing => return,
    };
    design.give(&name.text, datum);
}

proptest! {
    #[test]
    fn every_design_reads_back_as_the_very_same(build in 0_usize..4, values in given()) {
        let mut design = bench();
        let names: Vec<String> = design.book().builds.iter().map(|build| build.name.to_string()).collect();
        set(&mut design, "build", &names[build]);
        for (at, amount, words) in values {
            give(&mut design, at, amount, &words);
        }
        let written = text::fields(&design);
        let mut back = bench();
        for (name, value) in text::lines(&written) {
            let of = back.book().name(back.book().slot(name).unwrap()).of;
            back.give(name, text::read(value, of).unwrap());
        }
        prop_assert!(back.same_givens(&design), "{}", written);
        prop_assert_eq!(text::fields(&back), written);
    }

    #[test]
    fn no_text_breaks_the_reading(fields in "(\\PC|\n){0,80}") {
        let _ = text::design(&fields, bench());
        let _ = text::differences(&fields, &fields);
    }
}

/// Every kind that a field may be of: the approximate mark outlives it all.
#[test]
fn approximate_values_keep_their_mark() {
    for kind in [Kind::LENGTH, Kind::NUMBER, Kind::ANGLE, Kind::MASS, Kind::MONEY, Kind::AREA, Kind::FORCE] {
        for amount in [Real::whole(2).sqrt(), -Real::whole(2).sqrt(), Real::whole(2)] {
            let of = Type::Quantity(kind);
            let mut design = bench();
            set(&mut design, "art", "16 x 20");
            let written = text::write(&Datum::Amount(amount.clone()), of);
            let back = text::read(&written, of).unwrap();
            assert!(back.same(&Datum::Amount(amount.clone())), "{written}");
        }
    }
}
