//! The line that shows how far a run is, on a terminal and nowhere else.

use std::fs::File;
use std::io::Read;
use std::os::fd::OwnedFd;
use std::process::Stdio;

use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};

use crate::program::Home;

#[test]
fn a_terminal_is_told_how_far_the_run_is() {
    let home = Home::new();
    let rows: String = (0..600).map(|row| format!("work {row},{} x 20 x 3/4\n", 8 + row % 40)).collect();
    home.file("jobs.csv", format!("name,art\n{rows}bad,x\n"));
    let terminal: OwnedFd = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).unwrap();
    grantpt(&terminal).unwrap();
    unlockpt(&terminal).unwrap();
    let name = ptsname(&terminal, Vec::new()).unwrap();
    let mut command = home.command(&["--color", "never", "batch", "jobs.csv"]);
    let line = File::options().read(true).write(true).open(name.to_str().unwrap()).unwrap();
    command.env("TERM", "xterm").stdout(Stdio::null()).stderr(Stdio::from(line));
    let mut child = command.spawn().unwrap();
    // The command holds an end of the terminal of its own.
    drop(command);
    let mut screen = File::from(terminal);
    let (mut shown, mut bytes) = (Vec::new(), [0; 4096]);
    // When its last user goes, a terminal ends in an error.
    while let Ok(count) = screen.read(&mut bytes) {
        shown.extend_from_slice(&bytes[..count]);
    }
    assert_eq!(child.wait().unwrap().code(), Some(1));
    let shown = String::from_utf8(shown).unwrap();
    assert!(shown.contains(" rows, ") && shown.contains(" a second"), "{shown}");
    assert!(shown.contains(" left"), "{shown}");
    // What is wrong with a row has lines of its own.
    assert!(shown.contains("\n  in jobs.csv, line 602, column 5"), "{shown}");
}

#[test]
fn a_pipe_is_not() {
    let home = Home::new();
    home.file("jobs.csv", "name,art\na,9 x 9 x 3/4\n");
    let ran = home.run(&["batch", "jobs.csv"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
}
