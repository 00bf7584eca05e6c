//! Every row of truth holds by itself, and the shipped rules meet it.

use benchrule::rules::shipped;

use crate::long::report;
use crate::row::{Holder, rows};
use crate::runner::failures;

#[test]
fn every_row_holds_by_itself() {
    let faults: Vec<String> =
        rows().iter().filter_map(|row| Some(format!("{}: {}: {}", row.place, row.subject, row.fault()?))).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_shipped_rules_meet_every_row() {
    let failures = failures(&rows(), &shipped());
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// How many rows each way of knowing holds.
#[test]
fn the_rows_are_counted() {
    let rows = rows();
    let of = |is: fn(&Holder) -> bool| rows.iter().filter(|row| is(&row.holder)).count();
    let published = of(|holder| matches!(holder, Holder::Published(_)));
    let second = of(|holder| matches!(holder, Holder::Second(_)));
    report(&format!("{} rows of truth: {published} published, {second} by a second method", rows.len()));
}
