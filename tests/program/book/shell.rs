//! The interactive shell at a terminal of its own: a bench that outlives it.

use std::fs::File;
use std::io::{Read, Write};
use std::os::fd::OwnedFd;
use std::process::{Child, Stdio};

use rustix::pty::{OpenptFlags, grantpt, openpt, ptsname, unlockpt};

use crate::program::Home;

/// A shell, and the terminal that it runs in.
pub struct Shell {
    child: Child,
    screen: File,
    shown: String,
}

const PROMPT: &str = "> ";

impl Shell {
    pub fn start(home: &Home) -> Self {
        let terminal: OwnedFd = openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY).unwrap();
        grantpt(&terminal).unwrap();
        unlockpt(&terminal).unwrap();
        let name = ptsname(&terminal, Vec::new()).unwrap();
        let line = File::options().read(true).write(true).open(name.to_str().unwrap()).unwrap();
        let end = || Stdio::from(line.try_clone().unwrap());
        let mut command = home.command(&["--color", "never"]);
        // A terminal that can do nothing keeps the screen free of movements.
        command.env("TERM", "dumb").stdin(end()).stdout(end()).stderr(end());
        let child = command.spawn().unwrap();
        let mut shell = Self { child, screen: File::from(terminal), shown: String::new() };
        shell.shown = shell.read();
        shell
    }

    /// What is shown up to the next prompt.
    fn read(&mut self) -> String {
        let mut shown = Vec::new();
        let mut bytes = [0; 4096];
        loop {
            let count = self.screen.read(&mut bytes).unwrap();
            shown.extend_from_slice(&bytes[..count]);
            if shown.ends_with(PROMPT.as_bytes()) {
                return String::from_utf8(shown).unwrap().replace('\r', "");
            }
        }
    }

    pub fn line(&mut self, line: &str) -> String {
        self.screen.write_all(format!("{line}\n").as_bytes()).unwrap();
        self.read()
    }

    fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    fn quit(self) {
        self.end("quit\n");
    }

    /// Types what ends it, and waits until it has.
    pub fn end(mut self, typed: &str) {
        self.screen.write_all(typed.as_bytes()).unwrap();
        self.child.wait().unwrap();
    }
}

#[test]
fn a_bench_outlives_its_shell() {
    let home = Home::new();
    let mut shell = Shell::start(&home);
    assert_eq!(shell.shown, PROMPT);
    for line in ["art 16 x 20 x 3/4", "name Evening", "reveal 3/8", "face 1", "undo"] {
        shell.line(line);
    }
    shell.kill();
    let mut next = Shell::start(&home);
    let reported = next.shown.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(reported.starts_with("picked up the bench of 2"), "{reported}");
    assert!(reported.contains("Evening, float, art 16\" x 20\" x 3/4\""), "{reported}");
    assert!(reported.ends_with("3 steps to undo, `new` clears it >"), "{reported}");
    // What was undone can be done again, what was done be undone.
    assert!(next.line("redo").contains("redone: face 1"));
    assert!(next.line("undo").contains("undone: face 1"));
    assert!(next.line("undo").contains("undone: reveal 3/8"));
    next.quit();
    let mut last = Shell::start(&home);
    assert!(last.shown.contains("2 steps to undo"), "{}", last.shown);
    assert!(last.line("reveal").contains("1/4\""));
    assert!(last.line("redo").contains("redone: reveal 3/8"));
    last.line("new");
    last.quit();
    let cleared = Shell::start(&home);
    assert!(cleared.shown.contains("4 steps to undo"), "{}", cleared.shown);
    cleared.kill();
}

#[test]
fn two_shells_have_a_bench_each() {
    let home = Home::new();
    let mut one = Shell::start(&home);
    let mut other = Shell::start(&home);
    one.line("art 16 x 20");
    other.line("art 5 x 7");
    // Both keep to one book.
    assert!(one.line("keep moth").contains("moth@1"));
    assert!(other.line("keep moth").contains("moth@2"));
    one.kill();
    let third = Shell::start(&home);
    assert!(third.shown.contains("art 16\" x 20\""), "{}", third.shown);
    other.kill();
    let fourth = Shell::start(&home);
    assert!(fourth.shown.contains("art 5\" x 7\""), "{}", fourth.shown);
    third.kill();
    fourth.kill();
}

/// Without a place to write the bench down the shell says so, once, and goes on.
#[test]
fn a_bench_that_cannot_be_written_down_is_told_once() {
    let home = Home::new();
    home.file("benches", "no folder");
    let mut shell = Shell::start(&home);
    let reported = shell.shown.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(reported.starts_with("error: the bench is not saved, and a crash would lose it: "), "{reported}");
    assert!(!shell.line("art 16 x 20").contains("not written down"));
    assert!(shell.line("art.width").contains("16\""));
    shell.kill();
}
