//! Right and wrong usage.

use crate::program::Home;

#[test]
fn help_and_version_are_no_mistakes() {
    let home = Home::new();
    for words in [&["--help"][..], &["-h"], &["help"], &["run", "--help"], &["help", "run"], &["plan", "--help"]] {
        let ran = home.run(words);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{words:?}");
        assert!(ran.out.contains("Usage: "), "{}", ran.out);
    }
    home.run(&["--version"]).says(concat!("benchrule ", env!("CARGO_PKG_VERSION"), "\n"));
    for word in ["-e", "--home", "--unit", "--color", "--json", "run", "plan"] {
        assert!(home.run(&["--help"]).out.contains(word), "{word}");
    }
}

#[test]
fn wrong_usage_has_a_status_of_its_own() {
    let home = Home::new();
    for words in [
        &["dance"][..],
        &["run"],
        &["plan"],
        &["plan", "parts.csv", "--stock", "stock.csv", "--limit", "-1"],
        &["-e"],
        &["--unit", "ell"],
        &["--unit"],
        &["--color", "sometimes"],
        &["--jsn"],
        &["--home"],
    ] {
        let ran = home.run(words);
        assert_eq!((ran.out.as_str(), ran.status), ("", 2), "{words:?}");
        assert!(ran.err.starts_with("error: "), "{}", ran.err);
        assert!(!ran.err.contains('\u{1b}'), "{}", ran.err);
    }
}

#[test]
fn what_was_meant_is_offered() {
    let ran = Home::new().run(&["--jsn", "-e", "1"]);
    assert!(ran.err.contains("--json"), "{}", ran.err);
}
