//! Transcripts: what a framer types and sees, one story a file, through the driver that pipes and the shell use.
//!
//! A line that begins with `> ` is typed; one that begins with `. ` continues it. Directives come before the first typed
//! line: `! width 40` sets the columns, `! unit mm` and `! json` are the options, `! file PATH` writes the lines up
//! to `! end` to a file. Between typed lines `! home` opens a new session over the same files, and `! same PATH PATH`
//! checks that two files are alike. `BLESS=1` rewrites the answers; read the diff like code.

use std::cell::RefCell;
use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;
use std::rc::Rc;

use benchrule::drive::{Driver, Manners};
use benchrule::host::{Host, Memory};
use benchrule::measure::Graduation;
use benchrule::session::Session;
use benchrule::show::Press;
use libtest_mimic::{Arguments, Failed, Trial};

/// Answers and errors in one stream, as on a terminal.
#[derive(Clone, Default)]
struct Screen(Rc<RefCell<Vec<u8>>>);

impl Write for Screen {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }
    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// The transcript as it comes out today.
fn replay(story: &str) -> String {
    let mut manners = Manners { json: false, width: 80, colour: false, error_colour: false };
    let mut graduation = None;
    let mut files: Vec<(String, String)> = Vec::new();
    let mut page = String::new();
    let mut lines = story.lines().peekable();
    // Directives and remarks come before the first typed line.
    while let Some(line) = lines.next_if(|line| !line.starts_with("> ") && *line != ">") {
        page += line;
        page.push('\n');
        match line.strip_prefix("! ").map(|words| words.split(' ').collect::<Vec<_>>()).as_deref() {
            Some(["width", columns]) => manners.width = columns.parse().expect("a number of columns"),
            Some(["unit", "mm"]) => graduation = Some(Graduation::millimetres()),
            Some(["json"]) => manners.json = true,
            // The messages before the first line follow this.
            Some(["start"]) => while lines.next_if(|line| !line.starts_with("> ")).is_some() {},
            Some(["file", path]) => {
                let mut text = String::new();
                for line in lines.by_ref() {
                    page += line;
                    page.push('\n');
                    if line == "! end" {
                        break;
                    }
                    text += line;
                    text.push('\n');
                }
                files.push(((*path).to_string(), text));
            }
            _ => assert!(line.is_empty() || line.starts_with('#'), "what is this? {line}"),
        }
    }
    let named: Vec<(&str, &str)> = files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let screen = Screen::default();
    let (mut out, mut err) = (screen.clone(), screen.clone());
    let mut driver = Driver::new(&mut out, &mut err, manners);
    let host = Rc::new(Memory::with(&named));
    let press = Rc::new(Press { width: manners.width });
    let (mut settings, found) = Session::settings(&*host);
    for one in &found {
        driver.complain(one, "").expect("a screen takes all");
    }
    let begin = std::str::from_utf8(&screen.0.borrow()).expect("answers are text").to_string();
    page += &begin;
    screen.0.borrow_mut().clear();
    if let Some(graduation) = graduation {
        settings.graduation = graduation;
    }
    let open = || Session::new(host.clone(), settings.clone(), press.clone());
    let mut session = open();
    while let Some(line) = lines.next() {
        if let Some(words) = line.strip_prefix("! ") {
            page += line;
            page.push('\n');
            match words.split(' ').collect::<Vec<_>>().as_slice() {
                ["home"] => session = open(),
                ["same", one, other] => {
                    let read = |path: &str| host.read(Path::new(path)).expect("a file");
                    assert_eq!(read(one), read(other), "{line}");
                }
                _ => panic!("what is this? {line}"),
            }
        }
        let Some(typed) = line.strip_prefix('>') else { continue };
        page += line;
        page.push('\n');
        let mut typed = typed.strip_prefix(' ').unwrap_or(typed).to_string();
        while let Some(more) = lines.next_if(|line| line.starts_with(". ")) {
            page += more;
            page.push('\n');
            typed.push('\n');
            typed += &more[2..];
        }
        driver.line(&mut session, &typed).expect("a screen takes all");
        page += std::str::from_utf8(&screen.0.borrow()).expect("answers are text");
        screen.0.borrow_mut().clear();
    }
    page
}

/// The first lines that differ.
fn difference(story: &str, replayed: &str) -> String {
    let at = story.lines().zip(replayed.lines()).take_while(|(one, other)| one == other).count();
    let few = |text: &str| text.lines().skip(at).take(6).map(|line| format!("    {line}\n")).collect::<String>();
    format!("  line {}, written:\n{}  now:\n{}", at + 1, few(story), few(replayed))
}

/// Plays a transcript; with `BLESS` the answers are written anew.
fn play(file: &Path) -> Result<(), Failed> {
    let story = std::fs::read_to_string(file)?;
    let replayed = replay(&story);
    if replayed == story {
        Ok(())
    } else if std::env::var_os("BLESS").is_some() {
        Ok(std::fs::write(file, replayed)?)
    } else {
        Err(difference(&story, &replayed).into())
    }
}

/// One test for each transcript, by its name: `cargo test --test session first-frame`.
fn main() -> ExitCode {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/session");
    let entries = std::fs::read_dir(folder).expect("a folder of transcripts");
    let files = entries.map(|entry| entry.expect("an entry").path());
    let mut trials: Vec<Trial> = files
        .filter(|file| file.extension().is_some_and(|ending| ending == "txt"))
        .map(|file| {
            let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            Trial::test(name, move || play(&file))
        })
        .collect();
    assert!(trials.len() >= 30, "{} transcripts", trials.len());
    trials.sort_by(|one, other| one.name().cmp(other.name()));
    libtest_mimic::run(&Arguments::from_args(), trials).exit_code()
}
