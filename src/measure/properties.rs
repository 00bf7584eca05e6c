//! What holds of every value: arithmetic against big fractions, rounding against its own definition.

use std::cmp::Ordering;

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{Signed, ToPrimitive, Zero};
use proptest::prelude::*;

use super::{Broken, Graduation, Kind, Manner, Quantity, Real, Toward, to_step};

/// Whole numbers, many of them where 64 bits end.
fn part() -> impl Strategy<Value = i64> {
    prop_oneof![
        -200..200_i64,
        any::<i64>(),
        (0..63_u32).prop_map(|bits| 1 << bits),
        (i64::MAX - 9)..=i64::MAX,
        i64::MIN..=(i64::MIN + 9),
        (i64::from(u32::MAX) - 9)..=(i64::from(u32::MAX) + 9),
    ]
}

fn small() -> impl Strategy<Value = (Real, BigRational)> {
    (part(), part().prop_filter("a denominator", |d| *d != 0))
        .prop_map(|(n, d)| (Real::ratio(n, d), BigRational::new(n.into(), d.into())))
}

/// A value beside the same value as the reference library holds it: in place, or spilled.
fn value() -> impl Strategy<Value = (Real, BigRational)> {
    prop_oneof![
        3 => small(),
        1 => (small(), small()).prop_map(|(a, b)| {
            let reference = a.1 * b.1;
            (Real::from_big(reference.clone()), reference)
        }),
    ]
}

/// Lengths as they are met at the bench, in inches.
fn length() -> impl Strategy<Value = Real> {
    prop_oneof![
        (-100_000..100_000_i64).prop_map(|n| Real::ratio(n, 64)),
        (-100_000..100_000_i64).prop_map(|n| Real::ratio(n, 254)),
        (-100_000..100_000_i64, 1..5000_i64).prop_map(|(n, d)| Real::ratio(n, d)),
    ]
}

fn graduation() -> impl Strategy<Value = Graduation> {
    prop::sample::select(Graduation::all().collect::<Vec<_>>())
}

fn kind() -> impl Strategy<Value = Kind> {
    prop::array::uniform7(-9..9_i8).prop_map(Kind::of_powers)
}

/// The same value, and kept in place exactly where it fits.
#[track_caller]
fn agree(real: &Real, reference: &BigRational) {
    assert_eq!(real.to_big().as_ref(), Some(reference));
    let fits = reference.numer().to_i64().zip(reference.denom().to_i64());
    assert_eq!(real.to_parts(), fits);
}

/// A decimal by long division, digit after digit, the last one raised where half or more is left.
fn long_division(value: &BigRational, places: usize) -> String {
    let below = value.denom();
    let above = value.numer().abs();
    let mut digits: Vec<u8> = (&above / below).to_string().bytes().map(|digit| digit - b'0').collect();
    let mut left = above % below;
    for _ in 0..places {
        left *= 10;
        digits.push((&left / below).to_u8().unwrap());
        left %= below;
    }
    if left * 2 >= *below {
        let mut at = digits.len();
        loop {
            if at == 0 {
                digits.insert(0, 1);
                break;
            }
            at -= 1;
            digits[at] = (digits[at] + 1) % 10;
            if digits[at] != 0 {
                break;
            }
        }
    }
    let sign = if value.is_negative() && digits.iter().any(|digit| *digit != 0) { "-" } else { "" };
    let text: String = digits.iter().map(|digit| char::from(b'0' + digit)).collect();
    let (before, after) = text.split_at(text.len() - places);
    if places == 0 { format!("{sign}{before}") } else { format!("{sign}{before}.{after}") }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 1000, ..ProptestConfig::default() })]

    #[test]
    fn the_four_operations_agree_with_big_fractions(a in value(), b in value()) {
        agree(&(a.0.clone() + b.0.clone()), &(&a.1 + &b.1));
        agree(&(a.0.clone() - b.0.clone()), &(&a.1 - &b.1));
        agree(&(a.0.clone() * b.0.clone()), &(&a.1 * &b.1));
        let ratio = a.0.clone() / b.0.clone();
        let rest = a.0.clone() % b.0.clone();
        if b.1.is_zero() {
            prop_assert_eq!(ratio.check().unwrap_err(), Broken::ByZero);
            prop_assert_eq!(rest.check().unwrap_err(), Broken::ByZero);
        } else {
            agree(&ratio, &(&a.1 / &b.1));
            agree(&rest, &(&a.1 % &b.1));
        }
        agree(&-a.0.clone(), &-a.1.clone());
        agree(&a.0.abs(), &a.1.abs());
    }

    #[test]
    fn order_and_equality_agree_with_big_fractions(a in value(), b in value()) {
        prop_assert_eq!(a.0.partial_cmp(&b.0), Some(a.1.cmp(&b.1)));
        prop_assert_eq!(a.0 == b.0, a.1 == b.1);
        prop_assert_eq!(a.0.same(&b.0), a.1 == b.1);
        prop_assert_eq!(a.0.is_negative(), a.1.is_negative());
        prop_assert_eq!(a.0.is_positive(), a.1.is_positive());
        prop_assert_eq!(a.0.partial_cmp(&(a.0.clone() + Real::ratio(1, i64::MAX))), Some(Ordering::Less));
    }

    #[test]
    fn whole_parts_agree_with_big_fractions(a in value()) {
        agree(&a.0.floor(), &a.1.floor());
        agree(&a.0.ceil(), &a.1.ceil());
    }

    #[test]
    fn powers_and_their_roots_come_back(a in small(), exponent in 0..6_i64) {
        let reference = (0..exponent).fold(BigRational::from_integer(1.into()), |product, _| product * &a.1);
        agree(&a.0.power(exponent), &reference);
        if !a.1.is_zero() {
            agree(&a.0.power(-exponent), &reference.recip());
        }
        agree(&a.0.power(2).sqrt(), &a.1.abs());
    }

    #[test]
    fn decimals_agree_with_long_division(a in value(), places in 0..9_u32) {
        prop_assert_eq!(a.0.to_fixed(places), long_division(&a.1, usize::try_from(places).unwrap()));
    }

    #[test]
    fn decimals_read_back(n in any::<i64>(), places in 0..19_u32) {
        let value = Real::whole(n) / Real::whole(10).power(places.into());
        prop_assert!(value.ends_within(places));
        prop_assert!(Real::from_decimal(&value.to_fixed(places)).unwrap().same(&value));
        prop_assert!(Real::from_decimal(&value.to_decimal(places)).unwrap().same(&value));
    }

    #[test]
    fn the_nearest_float_is_the_nearest(a in value()) {
        let float = a.0.to_f64();
        let off = |float: f64| BigRational::from_float(float).map(|float| (float - &a.1).abs());
        let off_nearest = off(float);
        for beside in [float.next_up(), float.next_down()] {
            prop_assert!(off_nearest <= off(beside), "{} is not nearest to {}", float, a.1);
        }
    }

    #[test]
    fn any_text_is_read_as_a_decimal_or_refused(text in "[-+._eE0-9]{0,8}") {
        if let Some(value) = Real::from_decimal(&text) {
            let float: f64 = text.replace('_', "").parse().unwrap();
            // Past the bits allowed it is said, and what is not said is the number.
            let near = |value: Real| float.is_infinite() || (value.to_f64() - float).abs() <= float.abs() * 1e-15;
            prop_assert!(value.check().map_or(float.abs() > 1e300 || float.abs() < 1e-300, near), "{}", text);
        }
    }

    #[test]
    fn rounding_stays_within_one_step_on_its_side(value in length(), graduation in graduation()) {
        let step = graduation.step.value;
        let (up, on_up) = to_step(&value, &step, Toward::Up);
        let (down, on_down) = to_step(&value, &step, Toward::Down);
        let (nearest, on_nearest) = to_step(&value, &step, Toward::Nearest);
        for mark in [&up, &down, &nearest] {
            prop_assert!((mark.clone() / step.clone()).to_whole().is_some(), "not a mark: {}", mark.to_text());
        }
        prop_assert!(up >= value && up.clone() - value.clone() < step);
        prop_assert!(down <= value && value.clone() - down.clone() < step);
        let off = (nearest.clone() - value.clone()) * Real::whole(2);
        prop_assert!(off.abs() <= step, "further than half a step");
        prop_assert!(off != -step, "a tie goes up");
        prop_assert_eq!((on_up, on_down), (on_nearest, on_nearest));
        prop_assert_eq!(on_nearest, up == down);
    }

    #[test]
    fn rounding_an_approximate_value_gives_a_mark_on_its_side(float in -1e6..1e6_f64, graduation in graduation()) {
        let (value, step) = (Real::approximate(float), graduation.step.value);
        // What counts as lying on a mark, doubled for the division itself.
        let slack = step.clone() * Real::ratio(2, 1_000_000_000);
        let exact = Real::from_big(BigRational::from_float(float).unwrap());
        for toward in [Toward::Up, Toward::Down, Toward::Nearest] {
            let (mark, _) = to_step(&value, &step, toward);
            prop_assert!(!mark.is_approximate() && (mark.clone() / step.clone()).to_whole().is_some());
            let over = mark - exact.clone();
            let (least, most) = match toward {
                Toward::Up => (Real::ZERO, step.clone()),
                Toward::Down => (-step.clone(), Real::ZERO),
                Toward::Nearest => (step.clone() * Real::ratio(-1, 2), step.clone() * Real::ratio(1, 2)),
            };
            prop_assert!(over >= least - slack.clone() && over <= most + slack.clone());
        }
    }

    #[test]
    fn what_is_shown_of_a_length_adds_up(value in length(), graduation in graduation()) {
        let shown = Manner { graduation }.short(&Quantity::inches(value.clone()));
        let off = read(&shown) - value;
        let assumed = if shown.contains("under") { 10_000 } else { 20_000 };
        prop_assert!(off.abs() <= Real::ratio(1, assumed), "{}", shown);
    }

    #[test]
    fn kinds_are_a_group(a in kind(), b in kind(), c in kind(), exponent in -3..4_i64) {
        let times = |left: Kind, right: Kind| (left * right).unwrap();
        prop_assert_eq!(times(times(a, b), c), times(a, times(b, c)));
        prop_assert_eq!(a * b, b * a);
        prop_assert_eq!(a * Kind::NUMBER, Some(a));
        prop_assert_eq!(times(a, b) / b, Some(a));
        prop_assert_eq!(a / a, Some(Kind::NUMBER));
        prop_assert_eq!(times(a, b).power(exponent), a.power(exponent).unwrap() * b.power(exponent).unwrap());
        prop_assert_eq!(a.power(2).unwrap().root(), Some(a));
    }
}

/// Reads back what is shown of a length: a mark, and perhaps what is left over.
fn read(shown: &str) -> Real {
    let (shown, sign) = match shown.strip_prefix('-') {
        Some(rest) => (rest, -Real::ONE),
        None => (shown, Real::ONE),
    };
    let (mark, rest) = match (shown.split_once(" + "), shown.split_once(" - ")) {
        (Some((mark, rest)), _) => (mark, sign.clone() * read_one(rest)),
        (_, Some((mark, rest))) => (mark, -(sign.clone() * read_one(rest))),
        _ => (shown, Real::ZERO),
    };
    // The sign before a mark is the mark's alone; what is left over has its own.
    let rest = if sign == Real::ONE { rest } else { -rest };
    sign * read_one(mark) + rest
}

fn read_one(text: &str) -> Real {
    let text = text.strip_prefix("under ").unwrap_or(text);
    let (text, unit) = match text.strip_suffix(" mm") {
        Some(text) => (text, Real::ratio(5, 127)),
        None => (text.strip_suffix('"').unwrap(), Real::ONE),
    };
    let sum = text.split(' ').fold(Real::ZERO, |sum, part| {
        sum + match part.split_once('/') {
            Some((n, d)) => Real::from_decimal(n).unwrap() / Real::from_decimal(d).unwrap(),
            None => Real::from_decimal(part).unwrap(),
        }
    });
    sum * unit
}

#[test]
fn the_long_division_of_these_tests_is_right() {
    let check = |n: i64, d: i64, places, expected: &str| {
        assert_eq!(long_division(&BigRational::new(BigInt::from(n), BigInt::from(d)), places), expected);
    };
    check(381, 20, 1, "19.1");
    check(999, 100, 1, "10.0");
    check(-1, 100, 1, "0.0");
    check(1, 3, 4, "0.3333");
    check(-2, 3, 0, "-1");
}
