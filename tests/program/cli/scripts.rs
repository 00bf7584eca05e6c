//! `benchrule run FILE ARGS`.

use crate::program::Home;

#[test]
fn arguments_arrive_as_texts() {
    let home = Home::new();
    home.file("a.rhai", "print(args.len()); for arg in args { print(kind(arg) + \" \" + arg); }");
    home.run(&["run", "a.rhai", "3/4", "two words", "-x", "--json", ""]).says(
        "\
5
text 3/4
text two words
text -x
text --json
text\u{20}
",
    );
    home.run(&["run", "a.rhai"]).says("0\n");
}

#[test]
fn a_script_answers_with_its_last_value() {
    let home = Home::new();
    home.file("a.rhai", "\u{feff}// A remark.\r\nlet gap = 3/8\";\r\ndesign.reveal = gap;\r\ngap * 2\r\n");
    home.run(&["run", "a.rhai"]).says("3/4\"   19.1 mm\n");
    let ran = home.run(&["--json", "run", "a.rhai"]);
    assert_eq!(ran.objects()[0]["exact"], "3/4");
}

#[test]
fn a_fault_has_its_file_line_and_column() {
    let home = Home::new();
    home.file("a.rhai", "let a = 1;\nlet b = 2;\n  a + wide\n");
    let ran = home.run(&["run", "a.rhai"]);
    let (first, rest) = ran.err.split_once('\n').unwrap();
    assert!(first.starts_with("error: there is no value `wide`"), "{first}");
    assert_eq!(rest, "  in a.rhai, line 3, column 7\n    a + wide\n        ^^^^\n");
    assert_eq!((ran.out.as_str(), ran.status), ("", 1));
    let ran = home.run(&["run", "--json", "a.rhai"]);
    let error = &ran.objects()[0]["error"];
    assert_eq!((&error["line"], &error["column"], ran.status), (&3.into(), &7.into(), 1));
}

#[test]
fn a_script_that_cannot_be_read_runs_no_line_of_it() {
    let home = Home::new();
    home.file("a.rhai", "print(\"begun\");\nlet a = (1;\n");
    let ran = home.run(&["run", "a.rhai"]);
    assert_eq!(ran.out, "");
    assert!(ran.err.contains("in a.rhai, line 2, column 9"), "{}", ran.err);
    assert_eq!(ran.status, 1);
}

#[test]
fn what_was_printed_before_the_fault_is_there() {
    let home = Home::new();
    home.file("a.rhai", "print(\"begun\");\n5\" + 2lb\n");
    let ran = home.run(&["run", "a.rhai"]);
    assert_eq!(ran.out, "begun\n");
    assert!(ran.err.starts_with("error: cannot add a length and a mass\n"), "{}", ran.err);
}

#[test]
fn what_is_no_script_is_said() {
    let home = Home::new();
    home.file("empty.rhai", "");
    home.file("blank.rhai", " \r\n\t\n");
    home.file("latin.rhai", b"caf\xe9");
    std::fs::create_dir(home.path().join("folder")).unwrap();
    // A gigabyte of nothing takes no room on disk.
    std::fs::File::create(home.path().join("large.rhai")).unwrap().set_len(1 << 30).unwrap();
    for (file, said) in [
        ("none.rhai", "there is no file none.rhai"),
        ("empty.rhai", "empty.rhai is empty"),
        ("blank.rhai", "blank.rhai is empty"),
        ("folder", "folder is a folder, not a file"),
        ("latin.rhai", "latin.rhai is not UTF-8 text: byte 3 is not part of a letter"),
        ("large.rhai", "large.rhai is too large for a script: over 4 MiB"),
    ] {
        home.run(&["run", file]).fails(&format!("error: {said}\n"));
        let ran = home.run(&["run", "--json", file]);
        assert_eq!((&ran.objects()[0]["error"]["message"], ran.status), (&said.into(), 1));
    }
}

#[test]
fn a_script_on_nothing_but_remarks_answers_nothing() {
    let home = Home::new();
    home.file("a.rhai", "// nothing yet\n");
    home.run(&["run", "a.rhai"]).says("");
}

/// Ctrl-C while a script runs.
#[cfg(unix)]
#[test]
fn an_endless_script_is_stopped_by_an_interrupt() {
    use std::process::{Command, Stdio};

    use crate::program::{feed, finish};

    let home = Home::new();
    home.file("shop.toml", "[script]\nsteps = 1_000_000_000_000\nseconds = 120\n");
    let mut child = home.command(&["run", "/dev/stdin"]).stdin(Stdio::piped()).spawn().unwrap();
    // More than a pipe holds: once it is written, the program has begun to read it, and listens.
    feed(&mut child, &format!("loop {{}}\n{}", "// nothing\n".repeat(20_000)));
    drop(child.stdin.take());
    let sent = Command::new("kill").arg("-INT").arg(child.id().to_string()).status().unwrap();
    assert!(sent.success());
    let ran = finish(child);
    assert!(ran.err.starts_with("error: stopped\n"), "{}", ran.err);
    assert_eq!((ran.out.as_str(), ran.status), ("", 1));
}
