//! Lines given with `-e`.

use crate::program::Home;

#[test]
fn lines_follow_one_another_at_one_bench() {
    Home::new().say(&["let gap = 3/8\"", "setback gap", "setback + gap"]).says(
        "\
setback  3/8\"   9.5 mm
3/4\"   19.1 mm
",
    );
}

#[test]
fn a_line_may_begin_with_a_minus() {
    Home::new().say(&["-2 + 5"]).says("3\n");
}

#[test]
fn a_failed_line_is_reported_and_the_next_one_done() {
    let ran = Home::new().say(&["setback 3/8", "setback 3/8lb", "setback", "shete"]);
    assert_eq!(ran.out, "setback  3/8\"   9.5 mm\n3/8\"   9.5 mm\n");
    ran.fails(
        "\
error: setback is a length, not a mass
  setback 3/8lb
          ^^^^^
  try: help setback
error: there is nothing called shete
  shete
  ^^^^^
  try: sheet
",
    );
}

#[test]
fn quitting_leaves_out_the_rest() {
    Home::new().say(&["1 + 1", "quit", "2 + 2"]).says("2\n");
}

#[test]
fn what_a_line_prints_comes_before_what_it_answers() {
    Home::new().say(&["print(\"a\"); print(\"b\"); 5"]).says("a\nb\n5\n");
}

#[test]
fn a_sheet_that_cannot_be_made_is_shown_and_counts_as_failed() {
    let made = Home::new().say(&["art 16 x 20 x 3/4", "sheet"]);
    assert_eq!((made.err.as_str(), made.status), ("", 0));
    let ran = Home::new().say(&["art 16 x 20 x 3/4", "depth 1", "sheet", "1 + 1"]);
    assert!(ran.out.contains("\nfloat frame\nstop: the rail of 1\" is 3/8\" too shallow"), "{}", ran.out);
    assert!(ran.out.ends_with("\n2\n"), "{}", ran.out);
    ran.fails("");
    // The line that sets the field shows the stop too, and counts as failed even where the next line mends it.
    for lines in [&["art 16 x 20 x 3/4", "depth 1"][..], &["art 16 x 20 x 3/4", "depth 1", "depth 2"]] {
        let set = Home::new().say(lines);
        assert!(set.out.contains("stop: "), "{}", set.out);
        set.fails("");
    }
}

#[test]
fn a_sheet_that_a_script_prints_counts_too() {
    let home = Home::new();
    let ran = home.say(&["let d = new_design(); d.art = 16 x 20 x 3/4; d.depth = 1; print(sheet(d))"]);
    assert!(ran.out.contains("stop: "), "{}", ran.out);
    ran.fails("");
}

#[test]
fn every_line_has_one_object() {
    let lines =
        ["reveal 3/8", "", "11 3/8\"", "shete", "print(\"a\"); 5", "sheet", "let a = 5;", "help", "tape 3", "quit"];
    let mut words = vec!["--json"];
    words.extend(lines.iter().flat_map(|line| ["-e", line]));
    let ran = Home::new().run(&words);
    let objects = ran.objects();
    assert_eq!((objects.len(), ran.status), (lines.len(), 1));
    assert_eq!(objects[0]["set"], "reveal");
    assert_eq!(objects[0]["to"]["exact"], "3/8");
    assert_eq!(objects[1]["kind"], "nothing");
    assert_eq!(objects[2]["exact"], "91/8");
    assert_eq!(objects[2]["mm"], 288.925);
    assert_eq!(objects[3]["error"]["message"], "there is nothing called shete");
    assert_eq!(objects[3]["error"]["hint"], "sheet");
    assert_eq!((&objects[3]["error"]["line"], &objects[3]["error"]["column"]), (&1.into(), &1.into()));
    assert_eq!(objects[4]["printed"][0], "a");
    assert_eq!(objects[5]["design"]["fields"]["reveal.top"]["exact"], "3/8");
}

#[test]
fn columns_are_counted_in_characters() {
    let ran = Home::new().run(&["--json", "-e", "let a = \"größe ½\"; sqrtt(4)"]);
    assert_eq!(ran.objects()[0]["error"]["column"], 20);
}
