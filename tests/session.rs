//! Transcripts: what a framer types and sees, one story a file, through the same driver as pipes and the shell.
//!
//! `> ` begins a line that is typed, `. ` one that goes on with it; `! width 40` lays the rest out for 40 columns,
//! `! unit mm` and `! json` stand for the options, `! file PATH` puts the lines up to `! end` in a file. Between lines
//! `! home` goes on with the same files in a home where nothing was kept, and `! same PATH PATH` sees that two files are
//! alike. With `BLESS=1` the answers are written anew, and the difference is reviewed like code.

use std::cell::RefCell;
use std::io::{self, Write};
use std::path::Path;
use std::rc::Rc;

use benchrule::drive::{Driver, Manners};
use benchrule::host::{Host, Memory};
use benchrule::measure::Graduation;
use benchrule::session::Session;
use benchrule::show::Press;

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
    let mut told = String::new();
    let mut lines = story.lines().peekable();
    // Directives and remarks stand before the first typed line.
    while let Some(line) = lines.next_if(|line| !line.starts_with("> ") && *line != ">") {
        told += line;
        told.push('\n');
        match line.strip_prefix("! ").map(|words| words.split(' ').collect::<Vec<_>>()).as_deref() {
            Some(["width", columns]) => manners.width = columns.parse().expect("a number of columns"),
            Some(["unit", "mm"]) => graduation = Some(Graduation::millimetres()),
            Some(["json"]) => manners.json = true,
            // What is said before the first line stands behind this.
            Some(["start"]) => while lines.next_if(|line| !line.starts_with("> ")).is_some() {},
            Some(["file", path]) => {
                let mut text = String::new();
                for line in lines.by_ref() {
                    told += line;
                    told.push('\n');
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
    told += &begin;
    screen.0.borrow_mut().clear();
    if let Some(graduation) = graduation {
        settings.graduation = graduation;
    }
    let open = || Session::new(host.clone(), settings.clone(), press.clone());
    let mut session = open();
    while let Some(line) = lines.next() {
        if let Some(words) = line.strip_prefix("! ") {
            told += line;
            told.push('\n');
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
        told += line;
        told.push('\n');
        let mut typed = typed.strip_prefix(' ').unwrap_or(typed).to_string();
        while let Some(more) = lines.next_if(|line| line.starts_with(". ")) {
            told += more;
            told.push('\n');
            typed.push('\n');
            typed += &more[2..];
        }
        driver.line(&mut session, &typed).expect("a screen takes all");
        told += std::str::from_utf8(&screen.0.borrow()).expect("answers are text");
        screen.0.borrow_mut().clear();
    }
    told
}

#[test]
fn every_story_is_told_as_written() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/session");
    let bless = std::env::var_os("BLESS").is_some();
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    let mut wrong = Vec::new();
    for file in files.iter().filter(|file| file.extension().is_some_and(|ending| ending == "txt")) {
        let story = std::fs::read_to_string(file).unwrap();
        let told = replay(&story);
        if told == story {
            continue;
        }
        if bless {
            std::fs::write(file, told).unwrap();
        } else {
            wrong.push(format!("{}\n{}", file.display(), difference(&story, &told)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The first lines that differ.
fn difference(story: &str, told: &str) -> String {
    let at = story.lines().zip(told.lines()).take_while(|(one, other)| one == other).count();
    let few = |text: &str| text.lines().skip(at).take(6).map(|line| format!("    {line}\n")).collect::<String>();
    format!("  line {}, written:\n{}  told:\n{}", at + 1, few(story), few(told))
}
