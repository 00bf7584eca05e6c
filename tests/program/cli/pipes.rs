//! Lines from a pipe, and answers into one.

use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;

use crate::program::{Home, feed, finish};

#[test]
fn the_last_line_needs_no_newline() {
    Home::new().pipe(&[], "1 + 1\n2 + 2").says("2\n4\n");
}

#[test]
fn lines_may_end_as_on_other_machines() {
    Home::new().pipe(&[], "1 + 1\r\nsetback 3/8\r\nclient Two Lanterns\r\nclient\r\n").says(
        "\
2
setback  3/8\"   9.5 mm
client  Two Lanterns
Two Lanterns
",
    );
}

#[test]
fn a_mark_of_byte_order_is_no_part_of_the_first_line() {
    Home::new().pipe(&[], "\u{feff}1 + 1\n").says("2\n");
}

#[test]
fn an_open_bracket_goes_on_in_the_next_line() {
    Home::new().pipe(&[], "(1 +\r\n2\r\n) * 2\nlet l = [\n  1,\n\n  2\n];\nl.len()\n").says("6\n2\n");
}

#[test]
fn a_bracket_that_stays_open_is_said_at_the_end() {
    Home::new().pipe(&[], "1\n(2 +\n3").fails(
        "\
error: ( is not closed
  (2 +
  ^
",
    );
}

#[test]
fn a_line_that_is_no_text_is_left_out() {
    let ran = Home::new().pipe(&[], b"1 + 1\n\xff\xfe5\n2 + 2\n");
    assert_eq!(ran.out, "2\n4\n");
    ran.fails("error: this line is not UTF-8 text\n");
    let ran = Home::new().pipe(&["--json"], b"1 + 1\n\xff\xfe5\n2 + 2\n");
    let objects = ran.objects();
    assert_eq!(objects[1]["error"]["message"], "this line is not UTF-8 text");
    assert_eq!(objects.len(), 3);
}

#[test]
fn nothing_in_is_nothing_out() {
    Home::new().pipe(&[], "").says("");
    Home::new().pipe(&[], "\n\n  \n// a remark\n").says("");
    Home::new().pipe(&["--json"], "").says("");
}

#[test]
fn a_failed_line_is_reported_and_the_next_one_done() {
    let ran = Home::new().pipe(&[], "1 +\n2 + 2\n");
    assert_eq!((ran.out.as_str(), ran.status), ("4\n", 1));
    assert!(ran.err.starts_with("error: "), "{}", ran.err);
}

#[test]
fn whoever_waits_for_an_answer_gets_it() {
    let mut child = Home::new().command(&[]).stdin(Stdio::piped()).spawn().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    for (line, answer) in [("reveal\n", "1/4\"   6.4 mm\n"), ("7 * 6\n", "42\n")] {
        feed(&mut child, line);
        let mut said = String::new();
        answers.read_line(&mut said).unwrap();
        assert_eq!(said, answer);
    }
    drop(child.stdin.take());
    assert_eq!(finish(child).status, 0);
}

/// As `| head -1` does it: one line is read, and then no one is there any more.
#[test]
fn a_reader_who_has_had_enough_ends_it_quietly() {
    let home = Home::new();
    let mut design = String::from("art 16 x 20 x 3/4\n");
    design += &"sheet\n".repeat(400);
    let lines = home.file("lines", design);
    let series = home
        .file("series.rhai", "for turn in 1..400 { let d = new_design(); d.art = 16 x 20 x 3/4; print(sheet(d)); }");
    let series = series.to_str().unwrap();
    for words in [&[][..], &["--json"], &["run", series], &["run", "--json", series]] {
        let mut child = home.command(words).stdin(std::fs::File::open(&lines).unwrap()).spawn().unwrap();
        let mut first = [0; 1];
        child.stdout.take().unwrap().read_exact(&mut first).unwrap();
        let ran = finish(child);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{words:?}");
    }
}

#[test]
fn errors_that_no_one_hears_keep_no_answer_back() {
    let home = Home::new();
    let lines = home.file("lines", "shete\n".repeat(100) + "1 + 1\n");
    let mut child = home.command(&[]).stdin(std::fs::File::open(lines).unwrap()).spawn().unwrap();
    drop(child.stderr.take());
    let ran = finish(child);
    assert_eq!((ran.out.as_str(), ran.status), ("2\n", 1));
}

/// A thousand lines in one bracket are read once each, and not each with all before it.
#[test]
fn a_long_function_comes_through() {
    let body: String = (0..1500).map(|turn| format!("  let a{turn} = (11 3/8in + {turn}in) * 2;\n")).collect();
    Home::new().pipe(&[], format!("fn f() {{\n{body}  5\n}}\nf()\n")).says("5\n");
}

#[test]
fn a_line_past_all_use_is_left_out() {
    let long = "9".repeat(5 << 20);
    let remarks = format!("// {}\n", "x".repeat(1 << 20)).repeat(4);
    let ran = Home::new().pipe(&[], format!("1 + 1\n{long}\n2 + 2\n(\n{remarks}3 + 3\n"));
    assert_eq!((ran.out.as_str(), ran.status), ("2\n4\n6\n", 1));
    assert!(ran.err.starts_with("error: this line is longer than 4 MiB\n"), "{}", ran.err);
    assert_eq!(ran.err.matches("longer than 4 MiB").count(), 2);
}
