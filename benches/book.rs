//! The design book of a shop of many years: 100 000 revisions of 30 000 designs, and what a line at its prompt takes.
//!
//! `cargo bench --bench book` prints each median beside what is asked of it.

use std::fmt::Write as _;
use std::path::Path;
use std::rc::Rc;
use std::time::{Duration, Instant};

use benchrule::book::{DesignBook, exchange, text};
use benchrule::host::{Disk, Host};
use benchrule::measure::write::Manner;
use benchrule::rules::{Design, shipped};
use benchrule::session::Session;
use benchrule::shop::Settings;
use benchrule::show::Press;
use serde_json::{Map, Value, json};

const DESIGNS: usize = 30_000;
const REVISIONS: usize = 100_000;
const RUNS: usize = 31;

/// A design like others of a shop; `turn` makes it another.
fn design(number: usize, turn: usize) -> Design {
    let mut design = Design::new(shipped(), Manner::default());
    let build = ["float", "shadowbox", "rabbeted", "box"][number % 4];
    let wood = ["cherry", "walnut", "poplar", "ash", "white oak"][number % 5];
    let client =
        format!("{} {}", ["North", "Two", "Old", "Tall"][number % 4], ["Lanterns", "Gulls", "Mills"][number % 3]);
    let mut fields = vec![
        ("build", build.to_string()),
        ("art", format!("{} {}/16in x {}in x 3/4in", 8 + number % 80, 1 + turn % 15, 10 + number % 60)),
        ("client", client),
        ("note", format!("piece {number} of the {} room", ["red", "blue", "long"][number % 3])),
        ("wood", wood.to_string()),
    ];
    if number % 4 < 2 {
        fields.push(("reveal", format!("{}/16in", 2 + turn % 9)));
    }
    for (name, value) in fields {
        let mut plain = |text: &str| panic!("{text} is not a value");
        let input = design.read_input(name, &value, &mut plain).expect("a value");
        design.set(name, input).expect("a field");
    }
    design
}

/// The revisions as an export has them.
fn export() -> String {
    let values = |text: &str| -> Value {
        text::lines(text).map(|(name, value)| (name.to_string(), Value::from(value))).collect::<Map<_, _>>().into()
    };
    let mut file = exchange::head_line() + "\n";
    for at in 0..REVISIONS {
        let (number, turn) = (at % DESIGNS, at / DESIGNS);
        let design = design(number, turn);
        let line = json!({
            "design": format!("piece-{number:05}"),
            "revision": turn + 1,
            "time": format!("20{:02}-{:02}-{:02}T{:02}:{:02}:00Z", 10 + turn, 1 + at % 12, 1 + at % 28, at % 24, at % 60),
            "note": format!("as agreed, turn {turn}"),
            "program": "0.1.0",
            "tape": "1/16 in",
            "fields": values(&text::fields(&design)),
            "figures": values(&text::figures(&design)),
        });
        writeln!(file, "{line}").expect("text takes all");
    }
    file
}

fn session(home: &Path) -> Session {
    let host = Rc::new(Disk::new(Some(home.into())));
    Session::new(host, Settings::default(), Rc::new(Press { width: 80 }))
}

fn timed(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

/// Prints the median of what lines take, each at a session of its own unless one is given.
fn row(what: &str, asked: f64, home: &Path, mut line: impl FnMut(usize) -> String, mut warm: Option<&mut Session>) {
    let mut taken: Vec<f64> = (0..RUNS)
        .map(|turn| {
            let mut fresh = session(home);
            let session = warm.as_deref_mut().unwrap_or(&mut fresh);
            let line = line(turn);
            // The bench is laid out before.
            session.line("art 16 x 20 x 3/4");
            session.line(&format!("art.width {} {}/64in", 10 + turn, turn));
            let mut outcome = None;
            let taken = timed(|| outcome = Some(session.line(&line)));
            let reply = outcome.expect("it ran").reply;
            assert!(reply.is_ok(), "{line}: {reply:?}");
            taken.as_secs_f64() * 1000.0
        })
        .collect();
    taken.sort_by(f64::total_cmp);
    print(&format!("{what:<58}{asked:>8.0}{:>10.2}{:>10.2}", taken[RUNS / 2], taken[RUNS - 1]));
}

#[allow(clippy::print_stdout)]
fn print(line: &str) {
    println!("{line}");
}

fn main() {
    let home = tempfile::tempdir().expect("a folder");
    let host = Disk::new(Some(home.path().into()));
    let file = home.path().join("all.jsonl");
    host.write(&file, &export()).expect("a file");
    let place = home.path().join("book.db");
    let mut book = DesignBook::open(&place, host.zone()).expect("a book");
    let taken = timed(|| {
        book.import(&host, &file, &benchrule::rules::shipped()).expect("an export");
    });
    drop(book);
    let size = std::fs::metadata(&place).map_or(0, |about| about.len() >> 20);
    print(&format!("{REVISIONS} revisions of {DESIGNS} designs taken in: {:.1} s, {size} MiB", taken.as_secs_f64()));
    print(&format!("{:<58}{:>8}{:>10}{:>10}", "ms", "asked", "median", "worst"));
    let home = home.path();
    row("open NAME, the book not open yet", 10.0, home, |turn| format!("open piece-{:05}", turn * 797), None);
    row("find two words", 50.0, home, |turn| format!("find lanterns {}", turn * 31), None);
    row("find a word of 10 000 designs", 50.0, home, |_| "find blue".into(), None);
    row("find a word of every design", 50.0, home, |_| "find piece".into(), None);
    let condition = "find if opening.width > 20in && wood == \"cherry\"";
    row(condition, 1000.0, home, |_| condition.into(), None);
    let condition = "find if outside.diagonal > 60in || given(reveal.top)";
    row(condition, 1000.0, home, |_| condition.into(), None);
    row("keep a new name, the book not open yet", 20.0, home, |turn| format!("keep new-{turn}"), None);
    let mut warm = session(home);
    row("keep a new revision, the book open", 20.0, home, |_| "keep piece-00007".into(), Some(&mut warm));
    row("book", 50.0, home, |_| "book".into(), None);
    row("revisions NAME", 50.0, home, |turn| format!("revisions piece-{:05}", turn * 797), None);
}
