//! Samples: a few in `cargo test`, many in `.ci/long`.

use std::io::{Write, stderr};

/// How many times a usual sample is wanted: as `LONG` says, or once.
pub fn times() -> u64 {
    std::env::var("LONG").map_or(1, |times| times.parse().expect("LONG is a whole number"))
}

/// `few` in `cargo test`; that many times [`times`] in a long run, which prints the count.
pub fn sample(what: &str, few: u64) -> u64 {
    let count = few * times();
    if times() > 1 {
        report(&format!("{count} {what}"));
    }
    count
}

/// The test harness holds back what is printed, but not what goes to the stream itself.
pub fn report(line: &str) {
    writeln!(stderr(), "{line}").expect("the error stream takes a line");
}
