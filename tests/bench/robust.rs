//! Lines that no one meant to type: nothing breaks, a line that fails changes nothing, and what one changed is undone.

use std::path::Path;
use std::sync::OnceLock;

use benchrule::diag::Diagnostic;
use benchrule::measure::Manner;
use benchrule::session::Reply;
use benchrule::show::{answer, finding, json};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::RngSeed;

use crate::bench::{Bench, Shown};
use crate::fixes::{faults_of, faults_of_mends};
use crate::long::sample;

/// Every line that is typed in a transcript.
fn typed() -> &'static [String] {
    static LINES: OnceLock<Vec<String>> = OnceLock::new();
    LINES.get_or_init(|| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/session");
        let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.sort();
        let stories = files.iter().map(|file| std::fs::read_to_string(file).unwrap());
        let mut lines: Vec<String> = stories
            .flat_map(|story| {
                story.lines().filter_map(|line| line.strip_prefix("> ").map(String::from)).collect::<Vec<_>>()
            })
            .collect();
        lines.sort();
        lines.dedup();
        assert!(lines.len() > 100);
        lines
    })
}

/// What slips into a line: signs of notation and scripts, wide and narrow letters, ends of things.
const SLIPS: &[&str] = &[
    "\"",
    "'",
    "′",
    "″",
    "½",
    "/",
    "-",
    "−",
    "x",
    "×",
    ".",
    ",",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "#{",
    "${",
    "`",
    "=",
    "==",
    " ",
    "\t",
    "\n",
    "\r\n",
    "\u{a0}",
    "0",
    "9",
    "3/8",
    "1e9",
    "99999999999999999999",
    "in",
    "mm",
    "°",
    "~",
    "//",
    "/*",
    "*/",
    "\\",
    "é",
    "木",
    "🖼",
    "\u{301}",
    "\u{feff}",
    "\0",
    ";",
    "|",
    "||",
    "art",
    "reveal",
    "design",
    "let ",
    "fn f() {",
    "**",
    "??",
    "..",
    "::",
    "'a",
    "$",
    "%",
    "none",
    "new_design()",
    "this",
    "undo",
];

/// A change to a line: at some letter, so many letters go and something comes.
fn slipped(line: &str, at: Index, gone: usize, come: &str) -> String {
    let letters: Vec<char> = line.chars().collect();
    let at = at.index(letters.len() + 1);
    let after = (at + gone).min(letters.len());
    letters[..at].iter().copied().chain(come.chars()).chain(letters[after..].iter().copied()).collect()
}

fn any_line() -> impl Strategy<Value = String> {
    let slip = (any::<Index>(), 0..4_usize, prop_oneof![Just(""), select(SLIPS)]);
    let meant = || select(typed());
    let misspelt = (meant(), prop::collection::vec(slip, 1..4)).prop_map(|(line, slips)| {
        slips.into_iter().fold(line, |line, (at, gone, come)| slipped(&line, at, gone, come))
    });
    let spliced = (meant(), meant(), any::<Index>()).prop_map(|(one, other, at)| slipped(&one, at, 99, &other));
    let heap_of_slips = prop::collection::vec(select(SLIPS), 0..12).prop_map(|slips| slips.concat());
    prop_oneof![4 => misspelt, 2 => spliced, 2 => heap_of_slips, 1 => "\\PC{0,40}", 1 => any::<String>(), 1 => meant()]
}

/// All that is known of the design.
fn design(bench: &Bench) -> String {
    json::reply(&Reply::Sheet(bench.0.design(), None), &bench.0.manner()).to_string()
}

fn after(lines: &[String]) -> Bench {
    let mut bench = Bench::new();
    for limit in ["shop script.steps 20000", "shop script.memory 16"] {
        assert!(!bench.line(limit).failed());
    }
    for line in lines {
        bench.line(line);
    }
    bench
}

/// Whether something broke that was caught.
fn broke(shown: &Shown) -> bool {
    shown.text.contains("internal error")
}

/// How many lines each test types.
fn lines() -> u32 {
    u32::try_from(sample("lines nobody meant to type", 64)).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        cases: lines(),
        // The same lines each time: a change is blamed for its own faults alone. `SEED` draws others.
        rng_seed: RngSeed::Fixed(std::env::var("SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(1)),
        ..ProptestConfig::default()
    })]

    #[test]
    fn whatever_is_typed_nothing_breaks(before in prop::collection::vec(select(typed()), 0..5), line in any_line()) {
        let mut bench = after(&before);
        let shown = bench.line(&line);
        prop_assert!(!broke(&shown), "{line:?}");
        // It can be shown in every way.
        match &shown.outcome.reply {
            Ok(reply) => {
                let manner = bench.0.manner();
                let _ = json::reply(reply, &manner).to_string();
                for width in [1, 20, 200] {
                    let _ = answer::page(reply, &manner, width).render(width, true);
                }
            }
            Err(found) => {
                prop_assert!(!found.is_empty(), "{line:?}");
                for one in found {
                    well_placed(one, &line)?;
                    for width in [1, 20, 200] {
                        let _ = finding(one, &line, width).render(width, true);
                    }
                }
            }
        }
        // And the bench is there for the next line, unless this one left it next to no steps.
        bench.line("shop script.steps 20000");
        let next = bench.line("11 + 2*5/8");
        prop_assert_eq!(next.text.as_str(), "12 1/4\n", "{:?}", line);
    }

    #[test]
    fn a_line_that_fails_changes_nothing(before in prop::collection::vec(select(typed()), 0..5), line in any_line()) {
        let mut bench = after(&before);
        let then = design(&bench);
        let steps = undone(after(&before));
        if bench.line(&line).failed() {
            prop_assert_eq!(design(&bench), then, "{:?}", line);
            prop_assert_eq!(undone(bench), steps, "{:?}", line);
        }
    }

    #[test]
    fn what_a_line_changes_is_undone_and_done_again(before in prop::collection::vec(select(typed()), 0..5), line in any_line()) {
        let mut bench = after(&before);
        let then = design(&bench);
        let shown = bench.line(&line);
        let now = design(&bench);
        let walks = ["undo", "redo", "shop"].iter().any(|word| line.trim_start().starts_with(word));
        if shown.failed() || now == then || walks {
            return Ok(());
        }
        prop_assert!(!bench.line("undo").failed(), "{line:?}");
        prop_assert_eq!(design(&bench), then, "{:?}", line);
        prop_assert!(!bench.line("redo").failed(), "{line:?}");
        prop_assert_eq!(design(&bench), now, "{:?}", line);
    }

    #[test]
    fn what_a_slip_is_offered_works(before in prop::collection::vec(select(typed()), 0..3), line in any_line()) {
        let mut bench = after(&before);
        // Who types sees what each line is answered before the next.
        let line = line.replace('\n', " ");
        let again = || after(&before).0;
        let wrong = match bench.line(&line).outcome.reply {
            Err(found) => faults_of(&again, &line, &found),
            Ok(_) => faults_of_mends(&again, &bench.0.design(), &line),
        };
        prop_assert!(wrong.is_empty(), "{before:?}\n{wrong}");
    }
}

/// How many steps back there are, and where they lead.
fn undone(mut bench: Bench) -> (usize, String) {
    let mut steps = 0;
    while let Ok(Reply::Changed(_)) = bench.line("undo").outcome.reply {
        steps += 1;
    }
    (steps, design(&bench))
}

/// A finding lies within its text, on whole letters, and says something.
fn well_placed(found: &Diagnostic, line: &str) -> Result<(), TestCaseError> {
    prop_assert!(!found.says.is_empty(), "{line:?}");
    let text = found.source.as_ref().map_or(line, |source| &source.text);
    if let Some(span) = &found.span {
        prop_assert!(text.get(span.clone()).is_some(), "{line:?}: {span:?}");
    }
    let manner = Manner::default();
    let _ = json::line(&*json::failure(std::slice::from_ref(found), line), &manner);
    Ok(())
}

/// What a slip is offered is tried, and leaves no trace.
#[test]
fn a_fix_that_was_tried_changes_nothing() {
    let mut bench = Bench::new();
    let then = design(&bench);
    let shown = bench.line("esign.face = 1in");
    assert!(shown.failed() && shown.text.contains("design.face = 1in"), "{}", shown.text);
    assert_eq!(design(&bench), then);
    assert_eq!(undone(bench).0, 0);
}
