//! Who may write to the terminal, touch files, look at the clock, colour.

use crate::source::sources;

/// Only these files hold any of these words.
#[track_caller]
fn only(files: &[&str], words: &[&str]) {
    for source in sources() {
        let may = files.iter().any(|file| source.path == *file || source.path.starts_with(&format!("{file}/")));
        for word in words.iter().filter(|_| !may) {
            assert!(!source.code.contains(word), "{} has {word}", source.path);
        }
    }
}

#[test]
fn few_write_to_the_terminal() {
    only(
        &["shell", "drive.rs", "start.rs", "start", "main.rs"],
        &["stdout(", "stderr(", "stdin(", "print!(", "println!(", "dbg!(", "Stdout", "Stderr", ".print()"],
    );
}

#[test]
fn one_file_touches_files() {
    // The history of the line editor is its own; a database sees to its own file.
    only(&["host.rs", "host", "shell/mod.rs", "book"], &["std::fs", "fs::", "File::"]);
    only(&["book"], &["rusqlite"]);
    only(&["host.rs"], &["dirs::", "current_dir"]);
    only(&["start.rs", "main.rs"], &["std::env", "env::var", "env::args", "process::exit"]);
    only(&["start.rs", "shell/mod.rs"], &["ctrlc::"]);
}

#[test]
fn no_one_reaches_farther() {
    only(&[], &["std::net", "process::Command", "thread::sleep", "unsafe "]);
    // A saved revision has its day.
    only(&["host.rs"], &["SystemTime"]);
    // A script and a plan are held to their time, and nothing else asks for it.
    only(&["lang/script/watch.rs", "session/planning.rs", "start/plan.rs"], &["Instant"]);
}

#[test]
fn one_file_has_escape_codes() {
    only(&["show/ansi.rs"], &["\\x1b", "\\x1B", "\\u{1b}", "\\u{1B}", "\u{1b}", "nu_ansi_term"]);
}
