//! The book is one file at rest: however a program ends, short of a kill, it leaves `book.db` alone and whole.

use std::io::{BufRead, BufReader, Read};
use std::process::Stdio;

use rustix::process::{Pid, Signal, kill_process};

use super::newest;
use super::shell::Shell;
use crate::program::{Home, Ran, feed, finish};

const WORK: &str = "art 16 x 20 x 3/4";

/// Only the one file is there, and a copy of it has the design.
#[track_caller]
fn is_one_file(home: &Home) {
    let names: Vec<String> = home.names().into_iter().filter(|name| name.starts_with("book")).collect();
    assert_eq!(names, ["book.db"]);
    let copy = Home::new();
    copy.file("book.db", std::fs::read(home.path().join("book.db")).unwrap());
    assert!(newest(copy.path(), "moth").draft.fields.contains("art.width 16\""));
}

#[track_caller]
fn is_one_file_after(home: &Home, ran: &Ran, status: i32) {
    assert_eq!(ran.status, status, "{ran:?}");
    is_one_file(home);
}

#[test]
fn after_lines_that_frame_by_a_style() {
    let home = Home::new();
    let ran = home.say(&[WORK, "style narrow-float", "keep moth"]);
    is_one_file_after(&home, &ran, 0);
    // A style that was asked for by a script, and a design that a variable of the prompt still holds.
    let lines = [WORK, "let d = styled(design, \"narrow-float\")", "keep(d, \"moth\")", "let f = || keep(d, \"moth\")"];
    let ran = home.say(&lines);
    is_one_file_after(&home, &ran, 0);
}

#[test]
fn after_lines_that_quit_or_fail() {
    for (last, status) in [("quit", 0), ("shete", 1), ("keep", 1), ("let f = || 1; throw f", 1)] {
        let home = Home::new();
        let ran = home.say(&[WORK, "style narrow-float", "keep moth", last]);
        is_one_file_after(&home, &ran, status);
    }
}

#[test]
fn after_a_pipe_that_ends_or_quits() {
    for last in ["", "quit\n", "keep moth", "book\n"] {
        let home = Home::new();
        let ran = home.pipe(&[], format!("{WORK}\nstyle narrow-float\nkeep moth\n{last}"));
        is_one_file_after(&home, &ran, 0);
    }
}

#[test]
fn after_a_reader_that_goes_away() {
    let home = Home::new();
    let mut child = home.command(&[]).stdin(Stdio::piped()).spawn().unwrap();
    feed(&mut child, &format!("{WORK}\nkeep moth\n"));
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    while !heard(&mut answers).contains("moth@1") {}
    drop(answers);
    feed(&mut child, "sheet\n");
    let ran = finish(child);
    is_one_file_after(&home, &ran, 0);
}

#[test]
fn after_scripts_that_end_throw_or_use_up_their_limits() {
    let keep = "design.art = 16\" x 20\" x 3/4\"; let d = styled(design, \"narrow-float\"); keep(d, \"moth\");";
    for (last, status) in [("", 0), ("throw \"no\";", 1), ("loop { }", 1)] {
        let home = Home::new();
        home.file("show.rhai", format!("{keep}\n{last}"));
        home.file("shop.toml", "[script]\nsteps = 100_000\n");
        let ran = home.run(&["run", "show.rhai"]);
        is_one_file_after(&home, &ran, status);
    }
}

#[test]
fn after_a_batch_that_keeps() {
    let home = Home::new();
    home.file("jobs.csv", "name,art,style\nmoth,16 x 20 x 3/4,narrow-float\nmoth,5 x 7 x 3/4,\n");
    // Two rows of one name: the second is not kept, and the run fails.
    let ran = home.run(&["batch", "jobs.csv", "--keep"]);
    is_one_file_after(&home, &ran, 1);
    let ran = home.run(&["batch", "jobs.csv", "--keep", "--out", "run", "--threads", "2"]);
    is_one_file_after(&home, &ran, 1);
}

fn heard(answers: &mut impl BufRead) -> String {
    let mut line = String::new();
    assert!(answers.read_line(&mut line).unwrap() > 0);
    line
}

/// Ctrl-C while the program waits for the next line of a pipe.
#[test]
fn after_an_interrupt_between_lines() {
    let home = Home::new();
    let mut child = home.command(&[]).stdin(Stdio::piped()).spawn().unwrap();
    feed(&mut child, &format!("{WORK}\nkeep moth\n"));
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    while !heard(&mut answers).contains("moth@1") {}
    kill_process(Pid::from_child(&child), Signal::INT).unwrap();
    // The pipe stays open until the program has ended, or its end would be what ends the program.
    answers.read_to_string(&mut String::new()).unwrap();
    let ran = finish(child);
    is_one_file_after(&home, &ran, 130);
}

/// Ctrl-C ends a script as an error of its own.
#[test]
fn after_an_interrupt_of_a_script() {
    let home = Home::new();
    let script = "design.art = 16\" x 20\" x 3/4\"; keep(design, \"moth\"); log(\"saved\"); loop { }";
    home.file("show.rhai", script);
    home.file("shop.toml", "[script]\nsteps = 1_000_000_000\nseconds = 60\n");
    let mut child = home.command(&["run", "show.rhai"]).spawn().unwrap();
    let mut log = BufReader::new(child.stderr.take().unwrap());
    assert_eq!(heard(&mut log), "saved\n");
    kill_process(Pid::from_child(&child), Signal::INT).unwrap();
    let mut rest = String::new();
    log.read_to_string(&mut rest).unwrap();
    let ran = finish(child);
    is_one_file_after(&home, &ran, 1);
}

#[test]
fn after_a_shell_that_quits_or_ends() {
    for last in ["quit\n", "\u{4}"] {
        let home = Home::new();
        let mut shell = Shell::start(&home);
        for line in [WORK, "style narrow-float", "keep moth"] {
            shell.line(line);
        }
        shell.end(last);
        is_one_file(&home);
        let benches: Vec<_> = std::fs::read_dir(home.path().join("benches")).unwrap().collect();
        assert_eq!(benches.len(), 1, "the bench is one file as well");
    }
}

/// Of two programs that have it open the last one leaves one file.
#[test]
fn after_the_last_of_two_programs() {
    let home = Home::new();
    let mut shell = Shell::start(&home);
    shell.line(WORK);
    shell.line("keep moth");
    assert_eq!(home.say(&["art 5 x 7", "keep lantern"]).status, 0);
    shell.end("quit\n");
    is_one_file(&home);
    assert_eq!(newest(home.path(), "lantern").number, 1);
}
