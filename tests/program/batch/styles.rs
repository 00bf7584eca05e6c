//! Styles that break, and what is reported about them: the row in the table, and the place in the style.

use crate::program::{Home, Ran};

const JOBS: &str = "name,art,style\na,9 x 9 x 3/4,odd\nb,9 x 9 x 3/4,none\n";

fn framed(style: &str) -> Ran {
    let home = Home::new();
    std::fs::create_dir(home.path().join("styles")).unwrap();
    home.file("styles/odd.rhai", style);
    home.file("jobs.csv", JOBS);
    home.run(&["batch", "jobs.csv"])
}

#[track_caller]
fn breaks(style: &str, said: &[&str]) {
    let ran = framed(style);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("2 rows, 1 failed; "), "{}", ran.out);
    let reported = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in said {
        assert!(reported.contains(words), "{words}: {}", ran.err);
    }
}

#[test]
fn a_style_that_throws() {
    breaks(
        "fn build_for(art, asks) {\n    throw \"not this one\";\n}\n",
        &["jobs.csv, line 2:", "not this one", "in odd.rhai, line 2"],
    );
}

#[test]
fn a_style_that_gives_nothing_or_something_else() {
    for style in
        ["fn build_for(art, asks) { }", "fn build_for(art, asks) { 5 }", "fn build_for(art, asks) { \"float\" }"]
    {
        breaks(style, &["not a design; build_for must end with the design", "in jobs.csv, line 2, column 15", "^^^"]);
    }
}

#[test]
fn a_style_that_is_none() {
    breaks("fn build(art) { }", &["the style odd needs a function build_for", "in jobs.csv, line 2, column 15"]);
    breaks("fn build_for(art, asks) {", &["in odd.rhai, line 1"]);
}

#[test]
fn a_style_that_never_ends() {
    breaks("fn build_for(art, asks) { loop { } }", &["stopped after", "in jobs.csv, line 2, column 15"]);
}

#[test]
fn a_style_that_is_not_there() {
    let home = Home::new();
    home.file("jobs.csv", JOBS);
    let ran = home.run(&["batch", "jobs.csv"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("in jobs.csv, line 2, column 15"), "{}", ran.err);
    let usual = home.run(&["batch", "jobs.csv", "--style", "nowhere"]);
    assert_eq!((usual.out.as_str(), usual.status), ("", 1));
    assert!(usual.err.contains("nowhere"), "{}", usual.err);
}

#[test]
fn a_style_is_handed_over_as_a_file() {
    let home = Home::new();
    home.file("mine.rhai", "fn build_for(art, asks) { let d = new_design(); d.face = asks.wide ?? 1in; d }\n");
    home.file("jobs.csv", "name,art,wide\na,9 x 9 x 3/4,\nb,9 x 9 x 3/4,7/8\n");
    let rows = home.run(&["batch", "jobs.csv", "--style", "mine.rhai", "--json"]).objects();
    assert_eq!(rows[0]["style"], "mine");
    assert_eq!(rows[0]["design"]["fields"]["face"]["exact"], "1");
    assert_eq!(rows[1]["design"]["fields"]["face"]["exact"], "7/8");
    home.run(&["batch", "jobs.csv", "--style", "none.rhai"]).fails("error: there is no file none.rhai\n");
}
