//! Findings: lines of `tests/findings` and the codes that they raise.
//!
//! A story is a file of lines: `> ` is typed at a bench that knows the lines above it, `= CODE` says what the line before
//! it raises, `! file PATH` writes the lines up to `! end` to a file, and a blank line begins again at an empty bench.

use std::path::Path;
use std::rc::Rc;

use benchrule::diag::Diagnostic;
use benchrule::host::Memory;
use benchrule::session::Session;
use benchrule::show::Press;

/// A line at a bench: its files, the lines before it, the line, and the codes that it raises.
struct Case {
    files: Vec<(String, String)>,
    before: Vec<String>,
    line: String,
    codes: Vec<String>,
}

fn cases() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/findings");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files.iter().flat_map(|file| read(&std::fs::read_to_string(file).unwrap())).collect()
}

fn read(story: &str) -> Vec<Case> {
    let mut cases: Vec<Case> = Vec::new();
    let (mut files, mut before) = (Vec::new(), Vec::new());
    let mut lines = story.lines();
    while let Some(line) = lines.next() {
        if line.is_empty() {
            (files, before) = (Vec::new(), Vec::new());
        } else if let Some(path) = line.strip_prefix("! file ") {
            let text: Vec<&str> = lines.by_ref().take_while(|line| *line != "! end").collect();
            files.push((path.to_string(), text.join("\n") + "\n"));
        } else if let Some(typed) = line.strip_prefix("> ") {
            let case = Case { files: files.clone(), before: before.clone(), line: typed.into(), codes: Vec::new() };
            before.push(typed.to_string());
            cases.push(case);
        } else if let Some(code) = line.strip_prefix("= ") {
            cases.last_mut().unwrap().codes.push(code.into());
        } else {
            assert!(line.starts_with('#'), "what is this? {line}");
        }
    }
    cases
}

/// A bench with these files, after these lines; and what is wrong with the files.
fn bench(files: &[(String, String)], before: &[String]) -> (Session, Vec<Diagnostic>) {
    let named: Vec<(&str, &str)> = files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let host = Rc::new(Memory::with(&named));
    let (settings, found) = Session::settings(&*host);
    let mut session = Session::new(host, settings, Rc::new(Press { width: 80 }));
    for line in before {
        session.line(line);
    }
    (session, found)
}

#[test]
fn every_line_raises_its_codes() {
    let mut wrong = String::new();
    for case in cases() {
        let (mut session, at_start) = bench(&case.files, &case.before);
        let found = match session.line(&case.line).reply {
            Ok(_) => Vec::new(),
            Err(found) => found,
        };
        let both = at_start.iter().filter(|_| case.before.is_empty()).chain(&found);
        let codes: Vec<String> = both.map(|one| one.code.to_string()).collect();
        if codes != case.codes {
            wrong += &format!("{}\n  raises {codes:?}, not {:?}\n", case.line, case.codes);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}
