//! A run of the program in a home of its own.

use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use serde_json::Value as Json;
use tempfile::TempDir;

/// An empty folder that a run keeps everything under, and works in.
pub struct Home(TempDir);

/// How a run ended.
#[derive(Debug)]
pub struct Ran {
    pub out: String,
    pub err: String,
    pub status: i32,
}

impl Home {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    /// Puts a file in it.
    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, bytes).unwrap();
        path
    }

    pub fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// What is in it, by name.
    pub fn names(&self) -> Vec<String> {
        let entries = std::fs::read_dir(self.path()).unwrap();
        let mut names: Vec<String> = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    /// The program, given nothing but its home.
    pub fn command(&self, words: &[&str]) -> Command {
        let mut command = bare(self.path());
        command.arg("--home").arg(self.path()).args(words);
        command
    }

    pub fn run(&self, words: &[&str]) -> Ran {
        finish(self.command(words).spawn().unwrap())
    }

    /// With this on standard input.
    pub fn pipe(&self, words: &[&str], input: impl AsRef<[u8]>) -> Ran {
        let input = self.file("input", input);
        finish(self.command(words).stdin(File::open(input).unwrap()).spawn().unwrap())
    }

    /// These lines with `-e`.
    pub fn say(&self, lines: &[&str]) -> Ran {
        self.run(&lines.iter().flat_map(|line| ["-e", line]).collect::<Vec<_>>())
    }
}

/// The program in a folder, with nothing from the world around: no input, no settings.
pub fn bare(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_benchrule"));
    for name in ["BENCHRULE_HOME", "NO_COLOR", "COLUMNS"] {
        command.env_remove(name);
    }
    command.current_dir(folder).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

pub fn finish(child: Child) -> Ran {
    let output = child.wait_with_output().unwrap();
    Ran {
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        status: output.status.code().unwrap_or(-1),
    }
}

impl Ran {
    /// It went well, said this and complained of nothing.
    #[track_caller]
    pub fn says(&self, out: &str) {
        assert_eq!((self.out.as_str(), self.err.as_str(), self.status), (out, "", 0));
    }

    /// It failed, and complained of this.
    #[track_caller]
    pub fn fails(&self, err: &str) {
        assert_eq!((self.err.as_str(), self.status), (err, 1), "{}", self.out);
    }

    /// The object of each line.
    #[track_caller]
    pub fn objects(&self) -> Vec<Json> {
        assert_eq!(self.err, "");
        let object = |line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{line}: {error}"));
        let objects: Vec<Json> = self.out.lines().map(object).collect();
        assert!(objects.iter().all(Json::is_object));
        objects
    }
}

/// Writes to a child, which may have had enough.
pub fn feed(child: &mut Child, text: &str) {
    child.stdin.as_mut().unwrap().write_all(text.as_bytes()).unwrap();
}
