//! Sums, products and quotients of fractions against big fractions, at the edges of 64 bits as well.

use benchrule::measure::Real;
use num_rational::BigRational;
use num_traits::Zero;

const TOPS: &[i64] = &[0, 1, -1, 3, -7, 16, 127, 1 << 20, 1 << 62, -(1 << 62), i64::MAX, i64::MIN, i64::MIN + 1];
const BELOW: &[i64] = &[1, 2, 3, 16, 64, 127, 8128, 1 << 31, 1 << 62, i64::MAX];

fn fractions() -> Vec<(Real, BigRational)> {
    let mut all = Vec::new();
    for top in TOPS {
        for below in BELOW {
            all.push((Real::ratio(*top, *below), BigRational::new((*top).into(), (*below).into())));
        }
    }
    all
}

/// Same value, and kept in place exactly when it fits 64 bits.
#[track_caller]
fn same(is: Real, wanted: &BigRational, what: &str) {
    let short = i64::try_from(wanted.numer().clone()).is_ok() && i64::try_from(wanted.denom().clone()).is_ok();
    assert_eq!(is.to_big().as_ref(), Some(wanted), "{what}");
    assert_eq!(is.to_parts().is_some(), short, "{what}");
}

#[test]
fn arithmetic_is_that_of_big_fractions() {
    let all = fractions();
    for (a, big_a) in &all {
        same(-a.clone(), &-big_a, "negative");
        for (b, big_b) in &all {
            let what = format!("{} and {}", a.to_text(), b.to_text());
            same(a.clone() + b.clone(), &(big_a + big_b), &what);
            same(a.clone() - b.clone(), &(big_a - big_b), &what);
            same(a.clone() * b.clone(), &(big_a * big_b), &what);
            if !big_b.is_zero() {
                same(a.clone() / b.clone(), &(big_a / big_b), &what);
            }
            assert_eq!(a.partial_cmp(b), big_a.partial_cmp(big_b), "{what}");
        }
    }
}
