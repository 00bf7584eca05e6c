use super::*;

#[track_caller]
fn check(value: Real, expected: &str) {
    assert_eq!(value.to_text(), expected);
}

#[test]
fn fractions_stay_in_lowest_terms() {
    check(Real::ratio(1, 3) + Real::ratio(1, 6), "1/2");
    check(Real::ratio(3, 8) + Real::ratio(5, 8), "1");
    check(Real::ratio(3, 4) * Real::ratio(8, 9), "2/3");
    check(Real::ratio(3, 4) / Real::ratio(-9, 8), "-2/3");
    check(Real::ratio(7, 16) - Real::ratio(1, 2), "-1/16");
    check(Real::ratio(7, 2) % Real::whole(1), "1/2");
}

#[test]
fn a_long_sum_spills_and_comes_back() {
    // 1/2 + 1/3 + 1/5 + … over the primes: a 64-bit ratio goes wrong without a word at 1/43.
    let primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61];
    let sum = primes.iter().fold(Real::ZERO, |sum, &p| sum + Real::ratio(1, p));
    let back = primes.iter().fold(sum.clone(), |sum, &p| sum - Real::ratio(1, p));
    assert!(sum.to_parts().is_none());
    check(back, "0");
}

#[test]
fn nothing_wraps() {
    let top = Real::whole(i64::MAX);
    check(top.clone() + Real::ONE, "9223372036854775808");
    check(-Real::whole(i64::MIN), "9223372036854775808");
    check(Real::whole(i64::MIN) * Real::ratio(1, 2), "-4611686018427387904");
    check(Real::ratio(i64::MIN, i64::MIN), "1");
    let mut product = top;
    for _ in 0..10 {
        product = product.clone() * product;
    }
    assert_eq!(product.check().unwrap_err(), Broken::TooLarge);
    assert_eq!(Real::whole(10).power(4_000_000).check().unwrap_err(), Broken::TooLarge);
}

#[test]
fn by_zero_is_said() {
    assert_eq!((Real::ONE / Real::ZERO).check().unwrap_err(), Broken::ByZero);
    assert_eq!((Real::ONE % Real::ZERO).check().unwrap_err(), Broken::ByZero);
    let first = Real::broken(Broken::NotReal);
    assert_eq!((first.clone() % Real::ZERO).check().unwrap_err(), Broken::NotReal);
    assert_eq!((Real::ONE % first.clone()).check().unwrap_err(), Broken::NotReal);
    assert_eq!(first.power(0).check().unwrap_err(), Broken::NotReal);
    assert_eq!((Real::ZERO * (Real::ONE / Real::ZERO)).check().unwrap_err(), Broken::ByZero);
}

#[test]
fn roots_are_exact_where_they_can_be() {
    check(Real::ratio(9, 16).sqrt(), "3/4");
    assert!(!Real::ratio(9, 16).sqrt().is_approximate());
    assert!(Real::whole(2).sqrt().is_approximate());
    assert_eq!((-Real::ONE).sqrt().check().unwrap_err(), Broken::NotReal);
    let rough = Real::whole(2).sqrt();
    assert!((rough.clone() + Real::ONE).is_approximate());
    check(rough * Real::ZERO, "0");
}

#[test]
fn decimals_are_read_and_written_exactly() {
    check(Real::from_decimal("40.5").unwrap(), "81/2");
    check(Real::from_decimal("1e3").unwrap(), "1000");
    check(Real::from_decimal("1_000.25").unwrap(), "4001/4");
    for bad in ["", ".", "-", ".-5", "1.+5", "_1", "1_", "1__0", "1_.5", "1._5", "1e", "1e5_", "0x1"] {
        assert!(Real::from_decimal(bad).is_none(), "{bad}");
    }
    assert!(Real::from_decimal("1e999999999").unwrap().check().is_err());
    assert_eq!(Real::ratio(381, 20).to_fixed(1), "19.1");
    assert_eq!(Real::ratio(-381, 20).to_fixed(1), "-19.1");
    assert_eq!(Real::ratio(-1, 100).to_fixed(1), "0.0");
    assert_eq!(Real::ratio(1, 8).to_decimal(6), "0.125");
    assert_eq!(Real::whole(100).to_decimal(0), "100");
}

#[test]
fn order_holds_across_the_forms() {
    assert!(Real::ratio(1, 3) < Real::ratio(3, 8));
    assert!(Real::whole(2).sqrt() < Real::ratio(3, 2));
    assert!(Real::whole(i64::MAX) < Real::whole(i64::MAX) + Real::ONE);
    assert!(Real::ratio(1, 2) == Real::approximate(0.5));
    assert!(!Real::ratio(1, 2).same(&Real::approximate(0.5)));
}

/// Fractions short and long, about the bounds of 64 and 128 bits, against the library's of any size.
#[test]
fn long_fractions_are_those_of_the_library() {
    let mut all = vec![BigRational::from_integer(0.into())];
    for bits in [1, 62, 63, 64, 126, 127, 128] {
        let power = BigInt::from(1) << bits;
        for (over, under) in [(1, 1), (5, 7), (-9, 16)] {
            for off in [-1, 0, 1] {
                let near: BigInt = &power + off;
                all.push(BigRational::new(&near * over, under.into()));
                if near != BigInt::from(0) {
                    all.push(BigRational::new(over.into(), near * under));
                }
            }
        }
    }
    let same = |real: Real, big: BigRational| assert_eq!(real.to_text(), big.to_string());
    for a in &all {
        let left = Real::from_big(a.clone());
        for b in &all {
            let right = Real::from_big(b.clone());
            same(left.clone() + right.clone(), a + b);
            same(left.clone() - right.clone(), a - b);
            same(left.clone() * right.clone(), a * b);
            if *b != BigRational::from_integer(0.into()) {
                same(left.clone() / right.clone(), a / b);
            }
            assert_eq!(left.partial_cmp(&right), a.partial_cmp(b));
        }
    }
}
