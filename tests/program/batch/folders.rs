//! Folders that a run is to write to, and that are not as they should be.

use std::process::{Command, Stdio};

use super::contents;
use crate::program::{Home, finish};

const JOBS: &str = "name,art\na,9 x 9 x 3/4\nb,12 x 9 x 3/4\n";

fn home() -> Home {
    let home = Home::new();
    home.file("jobs.csv", JOBS);
    home
}

#[test]
fn a_folder_that_is_missing_is_made() {
    let home = home();
    let ran = home.run(&["batch", "jobs.csv", "--out", "new/and/deep"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    assert!(ran.out.ends_with("written to new/and/deep\n"), "{}", ran.out);
    let names: Vec<String> = contents(&home.path().join("new/and/deep")).into_keys().collect();
    assert_eq!(
        names,
        [
            "parts.csv",
            "run.jsonl",
            "summary.csv",
            "weights.csv",
            "works/0001-a.json",
            "works/0001-a.txt",
            "works/0002-b.json",
            "works/0002-b.txt"
        ]
    );
}

#[test]
fn files_that_are_there_stay_as_they_are() {
    let home = home();
    std::fs::create_dir(home.path().join("mine")).unwrap();
    home.file("mine/summary.csv", "mine");
    home.run(&["batch", "jobs.csv", "--out", "mine"]).fails(
        "\
error: the folder mine is not empty; a run needs a new or an empty folder
  try: --out mine/run
",
    );
    assert_eq!(home.read("mine/summary.csv"), "mine");
    assert_eq!(contents(&home.path().join("mine")).len(), 1);
    home.run(&["batch", "jobs.csv", "--out", "run"]);
    let before = contents(&home.path().join("run"));
    home.run(&["batch", "jobs.csv", "--out", "run"]).fails(
        "\
error: the folder run holds an earlier run; not overwritten
  try: --out run --resume
",
    );
    assert_eq!(contents(&home.path().join("run")), before);
}

#[test]
fn a_file_is_no_folder() {
    let home = home();
    home.run(&["batch", "jobs.csv", "--out", "jobs.csv"]).fails("error: jobs.csv is a file; a run needs a folder\n");
    let below = home.run(&["batch", "jobs.csv", "--out", "jobs.csv/out"]);
    assert!(below.err.starts_with("error: jobs.csv/out cannot be used"), "{}", below.err);
    assert_eq!((below.status, home.read("jobs.csv").as_str()), (1, JOBS));
}

/// A disk is full where files may be no longer than so much, and the program learns that instead of being ended.
#[cfg(unix)]
#[test]
fn a_disk_that_is_full_is_told_with_the_way_to_go_on() {
    let home = home();
    let mut command = Command::new("sh");
    let program = env!("CARGO_BIN_EXE_benchrule");
    let line = format!("trap '' XFSZ; ulimit -f 16; exec '{program}' --home . batch jobs.csv --out out");
    command.arg("-c").arg(line).current_dir(home.path());
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(command.spawn().unwrap());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("works/0001-a.json cannot be used: "), "{}", ran.err);
    assert!(ran.err.ends_with("try: benchrule batch jobs.csv --out out --resume\n"), "{}", ran.err);
    // Whole or not at all.
    let made = contents(&home.path().join("out"));
    assert!(made.keys().all(|name| name == "run.jsonl" || name == "works/0001-a.txt"), "{:?}", made.keys());
    let again = home.run(&["batch", "jobs.csv", "--out", "out", "--resume"]);
    assert_eq!((again.err.as_str(), again.status), ("", 0));
    let whole = home.run(&["batch", "jobs.csv", "--out", "whole"]);
    assert_eq!(whole.status, 0);
    assert_eq!(contents(&home.path().join("out")), contents(&home.path().join("whole")));
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_told() {
    let home = home();
    // Not even the one who may do everything may make a file there.
    let ran = home.run(&["batch", "jobs.csv", "--out", "/proc/benchrule"]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("/proc/benchrule"), "{}", ran.err);
}

#[test]
fn names_of_works_lead_nowhere_else() {
    let home = Home::new();
    home.file("jobs.csv", "name,art\n../../up,9 x 9 x 3/4\nCON,9 x 9 x 3/4\ncon,9 x 9 x 3/4\na/b:c,9 x 9 x 3/4\n");
    let ran = home.run(&["batch", "jobs.csv", "--out", "out"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    let names: Vec<String> = contents(&home.path().join("out/works")).into_keys().collect();
    let sheets: Vec<&str> = names.iter().filter_map(|name| name.strip_suffix(".txt")).collect();
    assert_eq!(sheets, ["0001-up", "0002-CON", "0003-con", "0004-a-b-c"]);
    assert_eq!(home.names(), ["jobs.csv", "out"]);
}

#[test]
fn designs_are_kept_in_the_book() {
    let home = home();
    let ran = home.run(&["batch", "jobs.csv", "--keep"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    let said = home.run(&["--json", "-e", "open b", "-e", "art.width"]);
    assert_eq!(said.objects()[1]["shown"], "12\"");
    // What cannot be a name in the book is reported, and the others are kept.
    home.file("odd.csv", "name,art\nmoth@3,9 x 9 x 3/4\nold moth,9 x 9 x 3/4\nold-moth,9 x 9 x 3/4\n");
    let odd = home.run(&["batch", "odd.csv", "--keep"]);
    assert_eq!(odd.status, 1);
    assert!(odd.err.starts_with("error: moth@3 is not saved in the book: "), "{}", odd.err);
    assert!(
        odd.err.ends_with("old-moth is not saved in the book: another row of this run has the name\n       old-moth\n"),
        "{}",
        odd.err
    );
    assert_eq!(home.run(&["-e", "open old-moth"]).status, 0);
}
