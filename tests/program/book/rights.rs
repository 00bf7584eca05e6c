//! Folders and files that may not be written.

use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};

use super::{newest, with_revisions};
use crate::program::{Home, Ran, bare, finish};

/// Someone who owns nothing.
const NOBODY: u32 = 65_534;

/// The program as someone without rights runs it, wherever the tests are run by root.
struct Stranger {
    /// A folder that anyone may enter, with a program that anyone may run.
    folder: Home,
    program: PathBuf,
}

impl Stranger {
    fn new() -> Self {
        let folder = Home::new();
        let program = folder.path().join("program");
        std::fs::copy(env!("CARGO_BIN_EXE_benchrule"), &program).unwrap();
        allow(&program, 0o755);
        allow(folder.path(), 0o755);
        Self { folder, program }
    }

    fn say(&self, home: &Path, lines: &[&str]) -> Ran {
        let mut command = std::process::Command::new(&self.program);
        command.current_dir(self.folder.path()).env_clear().arg("--home").arg(home);
        command.stdin(std::process::Stdio::null());
        command.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::piped());
        lines.iter().for_each(|line| {
            command.arg("-e").arg(line);
        });
        if std::fs::metadata(self.folder.path()).unwrap().uid() == 0 {
            command.uid(NOBODY).gid(NOBODY);
        }
        finish(command.spawn().unwrap())
    }
}

fn allow(path: &Path, rights: u32) {
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(rights)).unwrap();
}

#[track_caller]
fn is_told(ran: &Ran, said: &[&str]) {
    let err = ran.err.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in said {
        assert!(err.contains(words), "{words}: {}", ran.err);
    }
    assert!(ran.out.ends_with("16\"   406.4 mm\n"), "{}", ran.out);
}

const KEEP: &[&str] = &["art.width 16", "keep moth", "art.width"];

#[test]
fn a_folder_that_may_not_be_written_is_told() {
    let stranger = Stranger::new();
    let empty = Home::new();
    allow(empty.path(), 0o555);
    is_told(&stranger.say(empty.path(), KEEP), &["book.db cannot be opened", "check its folder and permissions"]);
    is_told(&stranger.say(&empty.path().join("below"), KEEP), &["book.db cannot be opened", "permissions"]);
    let home = with_revisions(3);
    allow(&home.path().join("book.db"), 0o444);
    allow(home.path(), 0o555);
    is_told(&stranger.say(home.path(), KEEP), &["book.db", "permissions"]);
    allow(home.path(), 0o755);
    assert_eq!(newest(home.path(), "moth").number, 3);
}

#[test]
fn a_file_that_may_not_be_written_is_told_and_can_be_read() {
    let stranger = Stranger::new();
    let home = with_revisions(3);
    allow(&home.path().join("book.db"), 0o444);
    allow(home.path(), 0o777);
    let ran = stranger.say(home.path(), KEEP);
    is_told(&ran, &["book.db is read-only", "check the permissions"]);
    let ran = stranger.say(home.path(), &["open moth", "art.width"]);
    assert!(ran.out.starts_with("moth@3 ") && ran.err.is_empty(), "{}{}", ran.out, ran.err);
    assert_eq!(newest(home.path(), "moth").number, 3);
}

/// A folder that takes no files of the database's own is read all the same.
#[test]
fn a_home_that_may_only_be_read_is_read() {
    let stranger = Stranger::new();
    let home = with_revisions(3);
    allow(&home.path().join("book.db"), 0o444);
    allow(home.path(), 0o555);
    let ran = stranger.say(home.path(), &["book", "open moth@2", "art.width"]);
    assert!(
        ran.out.starts_with("moth  @3 ") && ran.out.contains("moth@2 ") && ran.err.is_empty(),
        "{}{}",
        ran.out,
        ran.err
    );
    is_told(&stranger.say(home.path(), KEEP), &["book.db is read-only", "check the permissions"]);
    allow(home.path(), 0o755);
}

#[test]
fn a_copy_that_cannot_be_written_is_told() {
    let stranger = Stranger::new();
    let home = with_revisions(1);
    allow(&home.path().join("book.db"), 0o666);
    allow(home.path(), 0o777);
    let locked = Home::new();
    allow(locked.path(), 0o555);
    for (word, file) in [("backup", "copy.db"), ("export", "copy.jsonl")] {
        let file = locked.path().join(file);
        let ran = stranger.say(home.path(), &[&format!("book {word} {}", file.display())]);
        assert!(ran.status == 1 && ran.err.contains("copy."), "{}", ran.err);
        assert!(!file.exists());
    }
    // Whoever may, may.
    let mut command = bare(home.path());
    command.arg("--home").arg(home.path()).args(["-e", "book export copy.jsonl"]);
    assert_eq!(finish(command.spawn().unwrap()).err, "");
}
