//! Runs that are gone on with: what is done stays, what is not or says something else now is made, and in the end all is
//! as if it had been one run.

use super::{contents, shop};
use crate::program::Home;

const JOBS: &str = include_str!("jobs.csv");
const WORDS: &[&str] = &["batch", "jobs.csv", "--style", "thin-edge", "--plan", "--out"];

fn run(home: &Home, out: &str, more: &[&str]) -> String {
    let ran = home.run(&[WORDS, &[out], more].concat());
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    ran.out
}

/// A home with a whole run in `whole`, and the same in `out`.
fn twice() -> Home {
    let home = shop();
    home.file("jobs.csv", JOBS);
    run(&home, "whole", &[]);
    run(&home, "out", &[]);
    home
}

#[track_caller]
fn is_whole(home: &Home) {
    assert_eq!(contents(&home.path().join("out")), contents(&home.path().join("whole")));
}

#[test]
fn a_run_that_was_cut_off_comes_out_the_same() {
    let home = twice();
    let journal = home.read("out/run.jsonl");
    let lines: Vec<&str> = journal.lines().collect();
    for cut in [0, 1, 2, 7, 12] {
        // The last line is cut off in its middle, as a machine that stops leaves it; files of rows behind it are gone.
        let mut text: String = lines[..cut].iter().map(|line| format!("{line}\n")).collect();
        text.extend(lines.get(cut).map(|line| &line[..line.len() / 2]));
        home.file("out/run.jsonl", text);
        for name in contents(&home.path().join("out")).into_keys() {
            let row: Option<usize> = name.strip_prefix("works/").and_then(|name| name[..4].parse().ok());
            if name.ends_with(".csv") || row.is_some_and(|row| row >= cut.max(1)) {
                std::fs::remove_file(home.path().join("out").join(name)).unwrap();
            }
        }
        if cut == 0 {
            // Half a head does not say what the run was made by.
            let ran = home.run(&[WORDS, &["out", "--resume"]].concat());
            assert_eq!(ran.status, 1);
            home.file("out/run.jsonl", format!("{}\n", lines[0]));
        }
        let said = run(&home, "out", &["--resume"]);
        let before = cut.saturating_sub(1);
        assert_eq!(said.contains(&format!(", {before} done before")), before > 0, "{said}");
        is_whole(&home);
    }
}

#[test]
fn what_is_done_is_not_made_again() {
    let home = twice();
    // Who made it again would write it again.
    home.file("out/works/0004-Kite.txt", "mine");
    let said = run(&home, "out", &["--resume"]);
    assert!(said.starts_with("12 rows, 12 done before; "), "{said}");
    assert_eq!(home.read("out/works/0004-Kite.txt"), "mine");
}

#[test]
fn a_row_that_says_something_else_is_made_again() {
    let home = twice();
    home.file("jobs.csv", JOBS.replace("30 x 40 x 1 1/2", "30 x 42 x 1 1/2"));
    let said = run(&home, "out", &["--resume"]);
    assert!(said.starts_with("12 rows, 11 done before; "), "{said}");
    std::fs::remove_dir_all(home.path().join("whole")).unwrap();
    run(&home, "whole", &[]);
    is_whole(&home);
}

#[test]
fn a_style_that_says_something_else_frames_its_works_again() {
    let home = twice();
    let style = home.read("styles/dark-well.rhai").replace("d.face = 1in", "d.face = 1 1/4in");
    home.file("styles/dark-well.rhai", style);
    let said = run(&home, "out", &["--resume"]);
    assert!(said.starts_with("12 rows, 9 done before; "), "{said}");
    std::fs::remove_dir_all(home.path().join("whole")).unwrap();
    run(&home, "whole", &[]);
    is_whole(&home);
}

/// A house that stops every frame with a face below an inch.
const STRICT: &str = "\
fn build_for(art, asks) { let d = new_design(); d.face = asks.face ?? 3/4in; d }
fn check(design) {
    if design.face < 1in { [#{ level: \"stop\", says: \"the house frames nothing so thin\" }] } else { [] }
}
";

/// A figure of its own makes a design another one, and the house judges that too.
#[test]
fn the_house_judges_what_is_gone_on_with() {
    let home = Home::new();
    home.file("styles/strict.rhai", STRICT);
    let jobs = "name,art,face,figure.shelf\na,9 x 9 x 3/4,,\nb,9 x 9 x 3/4,1,\nc,9 x 9 x 3/4,,outside.width + 1in\n";
    home.file("jobs.csv", jobs);
    let words = ["batch", "jobs.csv", "--style", "strict", "--json", "--out", "out"];
    let first = home.run(&words);
    let made = contents(&home.path().join("out"));
    assert_eq!(first.status, 1);
    let summary = home.read("out/summary.csv");
    let states: Vec<&str> = summary.lines().skip(1).map(|line| line.split(',').nth(8).unwrap()).collect();
    assert_eq!(states, ["stop", "made", "stop"]);
    assert!(!home.read("out/parts.csv").contains("a/"), "{}", home.read("out/parts.csv"));
    let again = home.run(&[&words[..], &["--resume"]].concat());
    assert_eq!(again.status, 1);
    let [mut first, mut again] = [first, again].map(|ran| ran.objects());
    let ends = [first.pop(), again.pop()].map(|end| end.unwrap()["done_before"].clone());
    assert_eq!((ends, &first), ([0.into(), 3.into()], &again));
    assert_eq!(contents(&home.path().join("out")), made);
    // Each object says which style framed it.
    assert!(again.iter().all(|object| object["style"] == "strict"));
}

/// A field that the journal has and the rules do not take any more.
#[test]
fn what_cannot_be_made_again_as_it_was_is_framed_anew() {
    let home = twice();
    let journal = home.read("out/run.jsonl");
    home.file("out/run.jsonl", journal.replacen("\\nname ", "\\ngone 3\\nname ", 1));
    let said = run(&home, "out", &["--resume"]);
    assert!(said.starts_with("12 rows, 11 done before; "), "{said}");
    is_whole(&home);
}

/// A style that frames by another one hangs on that too, and on what it imports; others go by their own text alone.
#[test]
fn a_style_depends_on_what_it_uses() {
    let home = shop();
    home.file("styles/lib/faces.rhai", "fn face() { 1in }\n");
    let style =
        "import \"lib/faces\" as faces;\nfn build_for(art, asks) { let d = new_design(); d.face = faces::face(); d }\n";
    home.file("styles/leaning.rhai", style);
    home.file("styles/inner.rhai", "fn build_for(art, asks) { styled(new_design(), \"dark-well\", #{}) }\n");
    let row = |name: &str, style: &str| format!("{name},9 x 9 x 3/4,{style}\n");
    let rows = [row("a", "leaning"), row("b", "inner"), row("c", "dark-well"), row("d", "thin-edge")].concat();
    home.file("jobs.csv", format!("name,art,style\n{rows}"));
    let run = |more: &[&str]| {
        let ran = home.run(&[&["batch", "jobs.csv", "--out", "out"], more].concat());
        assert_eq!((ran.err.as_str(), ran.status), ("", 0));
        ran.out
    };
    let face = |file: &str| {
        let object: serde_json::Value = serde_json::from_str(&home.read(&format!("out/works/{file}.json"))).unwrap();
        object["design"]["fields"]["face"]["exact"].as_str().unwrap().to_string()
    };
    run(&[]);
    assert_eq!((face("0001-a"), face("0002-b")), ("1".into(), "1".into()));
    assert!(run(&["--resume"]).starts_with("4 rows, 4 done before; "));
    home.file("styles/lib/faces.rhai", "fn face() { 1 1/4in }\n");
    assert!(run(&["--resume"]).starts_with("4 rows, 2 done before; "));
    assert_eq!(face("0001-a"), "5/4");
    let well = home.read("styles/dark-well.rhai").replace("d.face = 1in", "d.face = 1 1/2in");
    home.file("styles/dark-well.rhai", well);
    assert!(run(&["--resume"]).starts_with("4 rows, 1 done before; "));
    assert_eq!((face("0001-a"), face("0002-b"), face("0003-c")), ("5/4".into(), "3/2".into(), "3/2".into()));
}

/// Only the last line may be cut off: where another says nothing, the run is somebody's to look at.
#[test]
fn a_journal_that_is_broken_in_its_middle_stays_as_it_is() {
    let home = twice();
    let journal = home.read("out/run.jsonl");
    let broken = journal.replacen("\"row\":4", "\"row\":", 1);
    home.file("out/run.jsonl", &broken);
    let ran = home.run(&[WORDS, &["out", "--resume"]].concat());
    ran.fails("error: out/run.jsonl cannot be read: line 5 is not about a row\n  try: --out out-2\n");
    assert_eq!(home.read("out/run.jsonl"), broken);
}

/// A machine that stops asks nobody whether a letter is whole.
#[test]
fn a_last_line_may_be_cut_off_in_a_letter() {
    let home = twice();
    let journal = home.read("out/run.jsonl");
    let lines: Vec<&str> = journal.lines().collect();
    let mut bytes = format!("{}\n{}\n", lines[0], lines[1]).into_bytes();
    bytes.extend(b"{\"row\":2,\"file\":\"\xc3");
    home.file("out/run.jsonl", bytes);
    assert!(run(&home, "out", &["--resume"]).starts_with("12 rows, 1 done before; "));
    is_whole(&home);
}

#[test]
fn rows_that_are_gone_leave_files_that_are_told() {
    let home = twice();
    home.file("jobs.csv", JOBS.replace("Lantern,6 x 8 1/3 x 3/4,,,,3/4,,,Hall,off the tape\n", ""));
    let said = run(&home, "out", &["--resume"]);
    assert!(
        said.contains("warn: left over from an earlier run, for no row of this one: works/0012-Lantern\n"),
        "{said}"
    );
}

#[test]
fn a_shop_with_other_settings_begins_anew() {
    let home = twice();
    home.file("shop.toml", "unit = \"mm\"\n");
    let ran = home.run(&[WORDS, &["out", "--resume"]].concat());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("was made with other settings"), "{}", ran.err);
}

#[test]
fn designs_that_are_kept_are_kept_once() {
    let home = twice();
    let keep = ["out", "--resume", "--keep"];
    for _ in 0..2 {
        let ran = home.run(&[WORDS, &keep].concat());
        // Two have letters that no name in the book has; the others are kept.
        assert_eq!(ran.err.matches("error: ").count(), 2, "{}", ran.err);
    }
    let revisions = home.run(&["--json", "-e", "revisions Weir"]);
    assert_eq!(revisions.out.matches("\"revision\":").count(), 1, "{}", revisions.out);
}

/// Rows are handed over until the program, asked to stop, takes no more; what it finished is there and is continued.
#[cfg(unix)]
#[test]
fn a_run_that_is_interrupted_keeps_what_is_finished() {
    use std::io::{BufRead, BufReader, Write};
    use std::process::Stdio;
    use std::sync::mpsc::channel;
    use std::thread::spawn;

    use rustix::process::{Pid, Signal, kill_process};

    let home = Home::new();
    // Remarks fill the pipe, so that few rows are under way.
    let remark = format!("# {}\n", "-".repeat(8000));
    let row = |number: usize| format!("work {number},{} x 20 x 3/4\n{remark}", 8 + number % 40);
    let mut child = home.command(&["batch", "-", "--json", "--out", "out"]).stdin(Stdio::piped()).spawn().unwrap();
    let mut input = child.stdin.take().unwrap();
    let mut answers = BufReader::new(child.stdout.take().unwrap());
    let (sender, first) = channel();
    let listener = spawn(move || {
        let mut line = String::new();
        answers.read_line(&mut line).unwrap();
        sender.send(()).unwrap();
        // Whoever writes is never kept waiting.
        std::io::copy(&mut answers, &mut std::io::sink()).unwrap();
    });
    let mut table = String::from("name,art\n");
    input.write_all(table.as_bytes()).unwrap();
    for number in 1.. {
        let row = row(number);
        if input.write_all(row.as_bytes()).is_err() {
            break;
        }
        table += &row;
        // As many rows as are framed at once are read, so that there is an answer.
        if number == 300 {
            first.recv().unwrap();
            kill_process(Pid::from_child(&child), Signal::INT).unwrap();
        }
    }
    drop(input);
    listener.join().unwrap();
    let ran = crate::program::finish(child);
    assert_eq!(ran.status, 1);
    assert!(ran.err.starts_with("error: stopped after "), "{}", ran.err);
    let done = home.read("out/run.jsonl").lines().count() - 1;
    let words: Vec<&str> = ran.err.split(' ').collect();
    assert_eq!(words[3], done.to_string(), "{}", ran.err);
    assert_eq!(contents(&home.path().join("out/works")).len(), 2 * done);
    home.file("jobs.csv", &table);
    let again = home.run(&["batch", "jobs.csv", "--out", "out", "--resume"]);
    assert_eq!((again.err.as_str(), again.status), ("", 0));
    assert!(again.out.contains(&format!(", {done} done before; ")), "{}", again.out);
    let whole = home.run(&["batch", "jobs.csv", "--out", "whole"]);
    assert_eq!(whole.status, 0);
    assert!(contents(&home.path().join("out")) == contents(&home.path().join("whole")));
}

/// A row is done if its files lie there; through a link nothing is written.
#[test]
fn a_work_that_is_gone_is_framed_again() {
    let home = shop();
    let run = |more: &[&str]| {
        home.file("jobs.csv", JOBS);
        home.run(&[&["batch", "jobs.csv", "--style", "thin-edge", "--out", "out"], more].concat())
    };
    assert_eq!(run(&[]).status, 0);
    let whole = contents(&home.path().join("out"));
    std::fs::remove_file(home.path().join("out/works/0004-Kite.txt")).unwrap();
    std::fs::remove_file(home.path().join("out/works/0002-Low-tide--evening.json")).unwrap();
    assert_eq!(run(&["--resume"]).status, 0);
    assert_eq!(contents(&home.path().join("out")), whole);
    #[cfg(unix)]
    {
        std::fs::rename(home.path().join("out/works"), home.path().join("elsewhere")).unwrap();
        std::os::unix::fs::symlink(home.path().join("elsewhere"), home.path().join("out/works")).unwrap();
        std::fs::remove_file(home.path().join("elsewhere/0004-Kite.txt")).unwrap();
        let ran = run(&["--resume"]);
        assert_eq!(ran.status, 1);
        assert!(ran.err.contains("is a link that leads out"), "{}", ran.err);
        assert!(!home.path().join("elsewhere/0004-Kite.txt").exists());
    }
}
