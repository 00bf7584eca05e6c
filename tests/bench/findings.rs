//! Findings: every code is raised by a line of `tests/findings`, and every line that is offered works.
//!
//! A story is a file of lines: `> ` is typed at a bench that knows the lines above it, `= CODE` says what the line before
//! it raises, `+ LINE` what it offers, `| CHOICES` what may be written there, `! file PATH` writes the lines up to `! end` to a file, and a blank line begins again at an empty bench. `$ ` runs
//! the program with these arguments in a folder with the files; it writes JSON, from which the codes are read.

use std::collections::BTreeSet;
use std::path::Path;
use std::rc::Rc;

use benchrule::diag::{Diagnostic, codes};
use benchrule::host::Memory;
use benchrule::rules::book::Cell;
use benchrule::rules::{Design, Input, Slot, shipped};
use benchrule::session::{Reply, Session};
use benchrule::show::Press;
use benchrule::show::answer::{Asked, unplanned};

use crate::fixes::{faults_of, faults_of_mends};

/// The beginning of a line that runs the program.
const PROGRAM: &str = "$ ";

/// A line at a bench: its files, the lines before it, the line, and the codes that it raises.
struct Case {
    files: Vec<(String, String)>,
    before: Vec<String>,
    /// Whether it is the first line at its bench, which also shows what is wrong with the files.
    is_first: bool,
    line: String,
    codes: Vec<String>,
    /// What it offers, where the story says: lines, and after `one of: ` choices.
    offers: Vec<String>,
}

fn cases() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/findings");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files.iter().flat_map(|file| read(&std::fs::read_to_string(file).unwrap())).collect()
}

fn read(story: &str) -> Vec<Case> {
    let mut cases: Vec<Case> = Vec::new();
    let (mut files, mut before, mut last) = (Vec::new(), Vec::new(), None);
    let mut lines = story.lines().peekable();
    while let Some(line) = lines.next() {
        if line.is_empty() {
            (files, before, last) = (Vec::new(), Vec::new(), None);
        } else if let Some(path) = line.strip_prefix("! file ") {
            let text: Vec<&str> = lines.by_ref().take_while(|line| *line != "! end").collect();
            files.push((path.to_string(), text.into_iter().map(|line| expanded(line) + "\n").collect::<String>()));
        } else if let Some(typed) = line.strip_prefix("> ") {
            let mut typed = expanded(typed);
            while let Some(more) = lines.next_if(|line| line.starts_with(". ")) {
                typed = typed + "\n" + &more[2..];
            }
            let is_first = last.is_none();
            // A line that failed left the bench as it was.
            before.extend(last.take().filter(|_| cases.last().is_some_and(|case| case.codes.is_empty())));
            let (files, before) = (files.clone(), before.clone());
            cases.push(Case { files, before, is_first, line: typed.clone(), codes: Vec::new(), offers: Vec::new() });
            last = Some(typed);
        } else if let Some(arguments) = line.strip_prefix("$ ") {
            let line = format!("{PROGRAM}{arguments}");
            cases.push(Case {
                files: files.clone(),
                before: Vec::new(),
                is_first: true,
                line,
                codes: Vec::new(),
                offers: Vec::new(),
            });
        } else if let Some(code) = line.strip_prefix("= ") {
            cases.last_mut().unwrap().codes.push(code.into());
        } else if let Some(offer) = line.strip_prefix("+ ") {
            cases.last_mut().unwrap().offers.push(offer.into());
        } else if let Some(choices) = line.strip_prefix("| ") {
            cases.last_mut().unwrap().offers.push(format!("one of: {choices}"));
        } else {
            assert!(line.starts_with('#'), "what is this? {line}");
        }
    }
    cases
}

/// `{TEXT*COUNT}` in a line stands for a text that is too long to write down.
fn expanded(line: &str) -> String {
    let parts = || {
        let (before, rest) = line.split_once('{')?;
        let (repeated, after) = rest.split_once('}')?;
        let (text, count) = repeated.split_once('*')?;
        Some(format!("{before}{}{after}", text.repeat(count.parse().ok()?)))
    };
    parts().unwrap_or_else(|| line.into())
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

fn codes_of_a_line(case: &Case) -> Vec<String> {
    let (mut session, at_start) = bench(&case.files, &case.before);
    let found = match session.line(&case.line).reply {
        Err(found) => found,
        Ok(Reply::Plan(planned)) => unplanned(&planned.whole, Asked::Bench, &session.manner()),
        Ok(_) => Vec::new(),
    };
    let both = at_start.iter().filter(|_| case.is_first).chain(&found);
    both.map(|one| one.code.to_string()).collect()
}

fn codes_of_a_run(files: &[(String, String)], arguments: &str) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    for (path, text) in files {
        let path = folder.path().join(path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }
    let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_benchrule"));
    let run = program.args(["--json", "--home", "home"]).args(arguments.split(' ')).current_dir(folder.path());
    let run = run.output().unwrap();
    let text = String::from_utf8_lossy(&run.stdout) + String::from_utf8_lossy(&run.stderr);
    text.split("\"code\":\"").skip(1).filter_map(|rest| rest.split('"').next()).map(Into::into).collect()
}

#[test]
fn every_line_raises_its_codes() {
    let mut raised = BTreeSet::new();
    let mut wrong = String::new();
    for case in cases() {
        let codes = match case.line.strip_prefix(PROGRAM) {
            Some(arguments) => codes_of_a_run(&case.files, arguments),
            None => codes_of_a_line(&case),
        };
        if codes != case.codes {
            wrong += &format!("{:.100}\n  raises {codes:?}, not {:?}\n", case.line, case.codes);
        }
        raised.extend(codes);
    }
    assert!(wrong.is_empty(), "{wrong}");
    let all = codes::ALL.iter().map(ToString::to_string);
    let silent: Vec<String> = all.filter(|code| !raised.contains(code)).collect();
    assert!(silent.is_empty(), "codes that no line raises: {silent:?}");
}

#[test]
fn what_is_offered_is_what_the_story_says() {
    let mut wrong = String::new();
    for case in cases().into_iter().filter(|case| !case.offers.is_empty()) {
        let found = bench(&case.files, &case.before).0.line(&case.line).reply.map(|_| ()).expect_err(&case.line);
        let lines = found.iter().flat_map(|one| one.fixed(&case.line));
        let choices = found.iter().map(Diagnostic::choices).filter(|choices| !choices.is_empty());
        let offers: Vec<String> = lines.chain(choices.map(|words| format!("one of: {}", words.join(", ")))).collect();
        if offers != case.offers {
            wrong += &format!("{:.100}\n  offers {offers:#?}, not {:#?}\n", case.line, case.offers);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Slips of one letter: each left out, doubled, changed, or swapped with the next.
fn slips(word: &str) -> Vec<String> {
    let letters: Vec<char> = word.chars().collect();
    let with = |at: usize, gone: usize, come: &[char]| -> String {
        letters[..at].iter().chain(come).chain(&letters[at + gone..]).collect()
    };
    let each = (0..letters.len()).flat_map(|at| {
        let swapped = letters.get(at + 1).map(|next| with(at, 2, &[*next, letters[at]]));
        [with(at, 1, &[]), with(at, 0, &[letters[at]]), with(at, 1, &['e'])].into_iter().chain(swapped)
    });
    each.collect()
}

/// Every word of every table, misspelt, in every field that takes it: what is offered is of the same rating, and what the
/// field is for.
#[test]
fn no_fix_of_a_word_crosses_ratings_or_purposes() {
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let (mut offered, mut wrong) = (0, String::new());
    let (mut session, _) = bench(&[], &["art 16 x 20 x 3/4".into()]);
    for build in ["float", "rabbeted"] {
        session.line(&format!("build {build}"));
        let design = session.design();
        for slot in &design.book().builds[usize::from(design.build())].order {
            let Some(table) = design.rule(*slot).and_then(|rule| design.book().word_table(rule)) else { continue };
            let field = &design.book().name(*slot).text;
            for typed in table.words.iter().flat_map(|word| slips(word)).filter(|typed| table.meant(typed).is_none()) {
                let refused = Design::clone(&design).set(field, Input::Text(typed.clone()));
                let Err(refusal) = refused else { continue };
                for fix in Diagnostic::from(refusal).fixed(&typed) {
                    let Some(meant) = fix.strip_prefix(&format!("{field} ")) else { continue };
                    offered += 1;
                    if !table.is_for(meant, field) || digits(meant) != digits(&typed) {
                        wrong += &format!("{field} {typed}: {fix}\n");
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty() && offered > 1000, "{offered}\n{wrong}");
}

/// Each purpose in a table is a field, or what fields are a part of, that takes words of the table; but for what is
/// nailed and never framed.
#[test]
fn a_purpose_is_a_field() {
    let book = shipped();
    for table in book.tables.iter().filter(|table| table.column("for").is_some()) {
        let slots =
            (0_u8..).zip(&book.builds).flat_map(|(build, one)| one.order.iter().map(move |slot| (build, *slot)));
        let takes = |(build, slot): &(u8, Slot)| {
            book.rule(*build, *slot).and_then(|rule| book.word_table(rule)).is_some_and(|of| of.name == table.name)
        };
        let head = |(_, slot): (u8, Slot)| book.name(slot).text.split('.').next().unwrap_or_default().to_string();
        let takers: BTreeSet<String> = slots.filter(takes).map(head).collect();
        for cell in table.column("for").into_iter().flat_map(|column| column.cells.iter().flatten()) {
            let Cell::Word(fields) = cell else { panic!("{}", table.name) };
            for field in fields.split(", ").filter(|field| *field != "crate") {
                assert!(takers.contains(field), "{}: {field} is not among {takers:?}", table.name);
            }
        }
    }
}

#[test]
fn every_line_that_is_offered_works() {
    let mut wrong = String::new();
    for case in cases().into_iter().filter(|case| !case.line.starts_with(PROGRAM)) {
        let again = || bench(&case.files, &case.before).0;
        let mut session = again();
        match session.line(&case.line).reply {
            Err(found) => wrong += &faults_of(&again, &case.line, &found),
            Ok(_) => wrong += &faults_of_mends(&again, &session.design(), &case.line),
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Every line typed in a transcript, at the bench as it is there.
#[test]
fn every_line_that_a_transcript_offers_works() {
    let mut wrong = String::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/session");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "txt") {
            continue;
        }
        let story = std::fs::read_to_string(&path).unwrap();
        let case = transcript(&story);
        let (mut session, _) = bench(&case.files, &[]);
        let mut before: Vec<String> = Vec::new();
        let again = |before: &[String]| {
            let (files, before) = (case.files.clone(), before.to_vec());
            move || bench(&files, &before).0
        };
        for line in case.before.clone() {
            match session.line(&line).reply {
                Err(found) => wrong += &faults_of(&again(&before), &line, &found),
                Ok(_) if shows_only(&line) => {}
                Ok(_) => {
                    wrong += &faults_of_mends(&again(&before), &session.design(), &line);
                    before.push(line);
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Whether a line only shows something, so that a bench is the same without it.
fn shows_only(line: &str) -> bool {
    const SHOWS: &[&str] = &[
        "sheet",
        "why",
        "help",
        "parts",
        "tolerance",
        "fixings",
        "find",
        "compare",
        "tape",
        "revisions",
        "hang",
        "style check",
    ];
    SHOWS.iter().any(|word| line.starts_with(word))
}

/// The files of a transcript and the lines that are typed in it.
fn transcript(story: &str) -> Case {
    let mut case = Case {
        files: Vec::new(),
        before: Vec::new(),
        is_first: true,
        line: String::new(),
        codes: Vec::new(),
        offers: Vec::new(),
    };
    let mut lines = story.lines().peekable();
    while let Some(line) = lines.next() {
        if let Some(path) = line.strip_prefix("! file ") {
            let text: Vec<&str> = lines.by_ref().take_while(|line| *line != "! end").collect();
            case.files.push((path.to_string(), text.join("\n") + "\n"));
        } else if line == "! unit mm" {
            case.before.push("shop unit mm".into());
        } else if let Some(typed) = line.strip_prefix("> ") {
            let mut typed = typed.to_string();
            while let Some(more) = lines.next_if(|line| line.starts_with(". ")) {
                typed.push('\n');
                typed += &more[2..];
            }
            case.before.push(typed);
        }
    }
    case
}
