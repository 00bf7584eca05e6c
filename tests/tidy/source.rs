//! The source text, read as text.

use std::path::{Path, PathBuf};

/// A file of `src`.
pub struct Source {
    /// Below `src`, with slashes: `show/answer/mod.rs`.
    pub path: String,
    /// Without comments and unit tests.
    pub code: String,
}

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder, in order; what is built or hidden is left out.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut waiting = vec![folder.to_path_buf()];
    while let Some(folder) = waiting.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy();
            if name == "target" || name.starts_with(".git") {
                continue;
            }
            if path.is_dir() { waiting.push(path) } else { found.push(path) }
        }
    }
    found.sort();
    found
}

/// A path below the project, with slashes.
pub fn below(path: &Path, folder: &Path) -> String {
    let parts: Vec<_> = path.strip_prefix(folder).unwrap().iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}

/// Every file of the program, unit tests left out.
pub fn sources() -> Vec<Source> {
    let folder = root().join("src");
    files(&folder)
        .into_iter()
        .filter(|path| path.extension().is_some_and(|ending| ending == "rs"))
        .map(|path| Source { code: code(&std::fs::read_to_string(&path).unwrap()), path: below(&path, &folder) })
        .filter(|source| !source.path.split('/').any(|part| part == "tests" || part == "tests.rs"))
        .collect()
}

impl Source {
    /// The module it belongs to: `show` for `show/answer/mod.rs`.
    pub fn module(&self) -> &str {
        self.path.split('/').next().unwrap().trim_end_matches(".rs")
    }

    /// How many modules it lies in: 1 for `drive.rs` and `show/mod.rs`, 2 for `show/json.rs`.
    pub fn depth(&self) -> usize {
        self.path.split('/').count() - usize::from(self.path.ends_with("/mod.rs"))
    }
}

/// The text without comments and without unit tests beside the code.
fn code(text: &str) -> String {
    let mut code = String::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if line == "#[cfg(test)]" {
            let tests = lines.next().unwrap_or_default();
            if tests.ends_with('{') {
                // Formatted code closes at the margin.
                lines.by_ref().find(|line| *line == "}");
            }
            continue;
        }
        if !line.trim_start().starts_with("//") {
            code += line.split(" // ").next().unwrap_or_default();
            code.push('\n');
        }
    }
    code
}

/// The words that follow `mark` in a text: of `crate::a` and `crate::{b::c, d}` behind `crate::` these are a, b and d.
pub fn named_behind<'t>(text: &'t str, mark: &str) -> Vec<&'t str> {
    let word = |text: &'t str| {
        let end = text.find(|letter: char| !letter.is_alphanumeric() && letter != '_').unwrap_or(text.len());
        &text[..end]
    };
    let mut named = Vec::new();
    for (at, _) in text.match_indices(mark) {
        let rest = &text[at + mark.len()..];
        let Some(list) = rest.strip_prefix('{') else {
            named.push(word(rest));
            continue;
        };
        let mut depth = 1;
        let mut start = 0;
        for (at, letter) in list.char_indices() {
            match letter {
                '{' => depth += 1,
                '}' => depth -= 1,
                _ => {}
            }
            if depth == 0 || depth == 1 && letter == ',' {
                named.push(word(list[start..at].trim_start()));
                start = at + 1;
            }
            if depth == 0 {
                break;
            }
        }
    }
    named.retain(|name| !name.is_empty());
    named
}

#[test]
fn names_are_found() {
    assert_eq!(named_behind("use crate::a::b; crate::{c::{d, e}, f}; x(crate::G)", "crate::"), ["a", "c", "f", "G"]);
}

#[test]
fn comments_and_tests_are_left_out() {
    let text = "//! a\nfn b() {} // c\n#[cfg(test)]\nmod tests {\n    d\n}\n#[cfg(test)]\nmod tests;\ne\n";
    assert_eq!(code(text), "fn b() {}\ne\n");
}
