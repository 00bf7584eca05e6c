//! Programs that are cut off while they keep designs.

use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdout, Stdio};

use super::{is_sound, revisions};
use crate::long::sample;
use crate::program::{Home, feed};

/// A program that keeps one design after another, and says when each is on disk.
struct Keeper {
    child: Child,
    answers: BufReader<ChildStdout>,
}

impl Keeper {
    fn start(home: &Home) -> Self {
        let mut child = home.command(&["--json"]).stdin(Stdio::piped()).spawn().unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap());
        Self { child, answers }
    }

    fn answer(&mut self) -> String {
        let mut said = String::new();
        self.answers.read_line(&mut said).unwrap();
        said
    }

    /// Asks for a revision without waiting for it.
    fn ask(&mut self, name: &str, width: usize) {
        feed(&mut self.child, &format!("art.width {width}/64\nkeep {name}\n"));
    }

    /// Keeps a revision, and hears that it is kept.
    #[track_caller]
    fn keep(&mut self, name: &str, width: usize) {
        self.ask(name, width);
        self.answer();
        let said = self.answer();
        assert!(said.contains("\"written\":true"), "{said}");
    }

    /// Kills it, as a machine that stops does.
    fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

/// The program is killed after it has confirmed so many revisions, while it keeps the next one.
const KILLED_AFTER: &[usize] = &[0, 1, 2, 3, 5, 8, 13, 21, 34, 55];

#[test]
fn what_was_heard_of_is_there_after_a_kill() {
    let kills = usize::try_from(sample("programs killed while they keep a design", 10)).unwrap();
    // A long run kills after every count.
    let counts = if kills > KILLED_AFTER.len() { (0..kills).collect() } else { KILLED_AFTER.to_vec() };
    let home = Home::new();
    let mut width = 0;
    let mut heard = Vec::new();
    for count in &counts {
        let mut keeper = Keeper::start(&home);
        for _ in 0..*count {
            width += 1;
            keeper.keep("moth", width);
            heard.push(width);
        }
        // Whether this one came through nobody knows, but it is whole or not there.
        width += 1;
        keeper.ask("moth", width);
        keeper.kill();
        let there: Vec<String> = if heard.is_empty() {
            Vec::new()
        } else {
            revisions(home.path(), "moth").into_iter().map(|one| one.draft.fields).collect()
        };
        for width in &heard {
            let line = format!("art.width {}\n", inches(*width));
            assert!(there.iter().any(|fields| fields.ends_with(&line)), "{width}/64 was kept and is gone");
        }
        if !heard.is_empty() {
            is_sound(home.path());
        }
    }
    assert_eq!(heard.len(), counts.iter().sum::<usize>());
}

/// So many sixty-fourths of an inch as a person writes them.
fn inches(sixty_fourths: usize) -> String {
    let (whole, mut above, mut below) = (sixty_fourths / 64, sixty_fourths % 64, 64);
    while above % 2 == 0 && below > 1 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (whole, 0) => format!("{whole}\""),
        (0, above) => format!("{above}/{below}\""),
        (whole, above) => format!("{whole} {above}/{below}\""),
    }
}

/// Power that fails while the log is written leaves an end of it torn off or wrong: what comes before is there.
#[test]
fn a_torn_end_of_the_log_takes_only_what_was_written_last() {
    const COUNT: usize = 12;
    let home = Home::new();
    let mut keeper = Keeper::start(&home);
    (1..=COUNT).for_each(|width| keeper.keep("moth", width));
    keeper.kill();
    let (main, log) =
        (std::fs::read(home.path().join("book.db")).unwrap(), std::fs::read(home.path().join("book.db-wal")).unwrap());
    let put = |log: &[u8]| {
        let torn = Home::new();
        torn.file("book.db", &main);
        torn.file("book.db-wal", log);
        torn
    };
    assert_eq!(revisions(put(&log).path(), "moth").len(), COUNT);
    let mut before = 0;
    for part in 5..=20 {
        // Torn off.
        let end = log.len() * part / 20;
        let torn = put(log.get(..end).unwrap());
        let there = revisions(torn.path(), "moth").len();
        assert!(there >= before && (there < COUNT || part == 20), "{there} of {end} bytes");
        is_sound(torn.path());
        before = there;
        // Written wrongly.
        let mut wrong = log.clone();
        wrong[end - 1] ^= 0x5a;
        let torn = put(&wrong);
        assert!(revisions(torn.path(), "moth").len() <= COUNT);
        is_sound(torn.path());
    }
    assert!(before == COUNT);
}

/// A disk that is full, as far as one file can show: it may not grow past so many blocks.
#[test]
fn a_full_disk_is_told_and_takes_nothing() {
    let home = Home::new();
    let mut command = std::process::Command::new("sh");
    // The signal that goes with the limit is passed over, so that the writing itself fails.
    command.arg("-c").arg("trap '' XFSZ; ulimit -f 1600; exec \"$@\"").arg("sh");
    command.arg(env!("CARGO_BIN_EXE_benchrule")).arg("--json").arg("--home").arg(home.path());
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    let mut answer = |child: &mut Child, line: &str| {
        child.stdin.as_mut().unwrap().write_all(line.as_bytes()).unwrap();
        let mut said = String::new();
        answers.read_line(&mut said).unwrap();
        said
    };
    let note = "x".repeat(10_000);
    let mut heard = 0;
    let refused = loop {
        answer(&mut child, &format!("art.width {}\n", heard + 1));
        let said = answer(&mut child, &format!("keep moth \"{note}\"\n"));
        if !said.contains("\"written\":true") {
            break said;
        }
        heard += 1;
        assert!(heard < 100, "the file grows and grows");
    };
    assert!(refused.contains("book.db cannot grow") && refused.contains("make room"), "{refused}");
    // The design is still at the bench, and the book can still be read.
    assert!(answer(&mut child, "art.width\n").contains(&format!("\"exact\":\"{}\"", heard + 1)));
    assert!(answer(&mut child, "book\n").contains(&format!("\"revision\":{heard}")));
    drop(child.stdin.take());
    child.wait().unwrap();
    assert!(heard > 2);
    assert_eq!(revisions(home.path(), "moth").len(), heard);
    is_sound(home.path());
    // With room again it goes on.
    let ran = home.say(&["art.width 99", "keep moth"]);
    assert!(ran.out.ends_with(&format!("moth@{}\n", heard + 1)), "{}{}", ran.out, ran.err);
}
