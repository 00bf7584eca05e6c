//! Scripts that would take everything, each ended by a limit that says how it is raised.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use super::*;

/// Few steps, and plenty of the rest.
fn small() -> Limits {
    Limits { steps: 100_000, ..ample() }
}

/// The script is ended by a limit whose message begins like this.
#[track_caller]
fn ended_by(limits: Limits, script: &str, message: &str) -> Diagnostic {
    let found = run_with(Settings { limits, ..patient() }, script).unwrap_err();
    assert!(found.message().starts_with(message), "{script}: {}", found.message());
    found
}

#[track_caller]
fn ended(script: &str, message: &str, setting: &str) {
    ended_within(small(), script, message, setting);
}

#[track_caller]
fn ended_within(limits: Limits, script: &str, message: &str, setting: &str) {
    let found = with_room(64 << 20, || ended_by(limits, script, message)).unwrap();
    let hint = found.offered("").unwrap_or_default();
    assert!(hint.starts_with(&format!("shop script.{setting} ")), "{script}: {hint}");
}

#[test]
fn loops_end() {
    ended("loop { }", "stopped after 100000 steps", "steps");
    ended("while true { let x = 1; }", "stopped after 100000 steps", "steps");
    ended("let x = 0; loop { x += 1 }", "stopped after 100000 steps", "steps");
    ended("for i in 0..1000000000000000000 { }", "stopped after 100000 steps", "steps");
    ended("let r = 0..; for i in r { }", "stopped after 100000 steps", "steps");
    ended("range(0, 1000000000000000000)", "a list or a map may have at most 1000000 entries", "entries");
    ended("range(0, 10 ** 100)", "a list or a map may have at most 1000000 entries", "entries");
    ended("range(0, 999999)", "stopped after 100000 steps", "steps");
    ended("[1, 2].map(|x| { loop { } })", "stopped after 100000 steps", "steps");
    ended("fn f() { loop { } } f()", "stopped after 100000 steps", "steps");
    ended("try { loop { } } catch { 5 }", "stopped after 100000 steps", "steps");
    ended("fn f() { loop { } } try { f() } catch (e) { 5 }", "stopped after 100000 steps", "steps");
    ended("try { [1].map(|x| { loop { } }) } catch (e) { 5 }", "stopped after 100000 steps", "steps");
    ended("let f = |f| { loop { f.call(f) } }; f.call(f)", "functions call one another", "depth");
}

#[test]
fn a_slow_script_ends_by_the_clock() {
    let limits = Limits { time: Duration::from_millis(50), ..ample() };
    let found = ended_by(limits, "let l = range(0, 20000); loop { let m = l; }", "stopped after 0.05 seconds");
    assert_eq!(found.offered("").as_deref(), Some("shop script.seconds 10"));
}

#[test]
fn recursion_ends() {
    ended("fn f(n) { f(n + 1) } f(0)", "functions call one another more than 64 deep", "depth");
    ended("fn f(n) { g(n) } fn g(n) { f(n) } f(0)", "functions call one another more than 64 deep", "depth");
    ended("let f = |f| f.call(f); f.call(f)", "functions call one another more than 64 deep", "depth");
    ended("fn f() { [1].map(|x| f()) } f()", "functions call one another more than 64 deep", "depth");
    ended("fn f() { sort([2, 1], |a, b| f()) } f()", "functions call one another more than 64 deep", "depth");
    let raised = Limits { depth: 1_000_000, ..small() };
    ended_by(raised, "fn f(n) { 1 + (2 * (3 + f(n + 1))) } f(0)", "this is nested too deep");
}

#[test]
fn nesting_ends() {
    let deep = |open: &str, inner: &str, close: &str| format!("{}{inner}{}", open.repeat(5000), close.repeat(5000));
    let scripts = [
        deep("(", "1", ")"),
        deep("[", "1", "]"),
        deep("#{a:", "1", "}"),
        deep("{", "1", "}"),
        deep("-", "1", ""),
        deep("!", "true", ""),
        deep("f(", "1", ")"),
        deep("1+", "1", ""),
        deep("a.", "b", ""),
        deep("", "a", "[0]"),
        deep("", "a", ".b()"),
        deep("if true {", "1", "}"),
        deep("|x| ", "1", ""),
        deep("x = ", "1", ""),
        deep("1 ** ", "1", ""),
        deep("a ?? ", "b", ""),
        deep("a && ", "b", ""),
        deep("`${", "1", "}`"),
        deep("if a {} else ", "if b {}", ""),
        deep("switch 1 { 1 => ", "1", "}"),
        deep("loop {", "", "}"),
        deep("for a in b {", "", "}"),
        deep("try {", "", "} catch {}"),
    ];
    for limits in [small(), Limits { nesting: 1_000_000, ..small() }] {
        for script in &scripts {
            let engine = Engine::new(Settings { limits: limits.clone(), ..patient() });
            let answer = engine
                .compile("", script)
                .map_err(|mut found| found.remove(0))
                .and_then(|script| engine.run(&mut Memory::default(), &script));
            assert!(answer.is_err(), "{}", &script[..20]);
        }
    }
    ended(&scripts[0], "this has more than 100 levels of brackets and signs", "nesting");
    with_room(64 << 20, || check(&["1"; 90].join(" + "), "90")).unwrap();
}

#[test]
fn texts_end() {
    ended("let s = \"x\"; loop { s += s }", "a text may have at most 1048576 characters", "text");
    ended("let s = \"x\"; loop { s = s + s }", "a text may have at most 1048576 characters", "text");
}

#[test]
fn work_inside_functions_is_counted() {
    ended("let l = range(0, 10000); loop { l.contains(-1) }", "stopped after 100000 steps", "steps");
    ended("let l = range(0, 10000); loop { sort(l) }", "stopped after 100000 steps", "steps");
    ended("let l = range(0, 1000); loop { l.sort(|a, b| a > b) }", "stopped after 100000 steps", "steps");
    ended("let l = range(0, 10000); loop { max(l) }", "stopped after 100000 steps", "steps");
    ended("let l = range(0, 10000); loop { sum(l) }", "stopped after 100000 steps", "steps");
    ended("let s = pad(\"\", 1000); loop { s = s.replace(\" \", \"  \") }", "a text may have at most", "text");
    ended("let s = pad(\"\", 1000); s.replace(\"\", s + s)", "a text may have at most", "text");
    check("len(pad(\"\", 10 ** 18))", "1000");
}

#[test]
fn printing_ends() {
    let flood = "loop { print(\"a line of what nobody wants to read, again and again\") }";
    ended_within(Limits { printed: 1 << 20, ..small() }, flood, "a script prints at most 1 MiB", "printed");
    ended_within(Limits { printed: 1 << 20, ..small() }, "loop { print() }", "a script prints at most", "printed");
}

#[test]
fn numbers_end() {
    ended_by(small(), "let x = 3; loop { x = x * x }", "the number is too large");
    ended_by(small(), "let x = 1/3; loop { x = x * x + 1/7 }", "the number is too large");
    ended_by(small(), "let x = 3; loop { x **= 3 }", "the number is too large");
    ended_by(small(), "let x = 10; loop { x = x ** x }", "the number is too large");
    ended_by(small(), "__num(\"1\", \"0\")", "this divides by zero");
}

#[test]
fn someone_stops_it() {
    let stop = Arc::new(AtomicBool::new(false));
    let settings = Settings { stop: Arc::clone(&stop), ..patient() };
    let engine = Engine::new(settings);
    let script = engine.compile("", "let n = 0; loop { n += 1; }").unwrap();
    stop.store(true, Ordering::Relaxed);
    let found = engine.run(&mut Memory::default(), &script).unwrap_err();
    assert_eq!((found.message().as_str(), found.line()), ("stopped", None));
    // The next run is not stopped by the same press.
    let script = engine.compile("", "1 + 1").unwrap();
    assert_eq!(engine.run(&mut Memory::default(), &script).map(show), Ok("2".into()));
}

#[test]
fn a_limit_is_raised() {
    let limits = Limits { steps: 1000, ..ample() };
    let mut engine = Engine::new(Settings { limits: limits.clone(), ..patient() });
    let script = engine.compile("", "let n = 0; for i in 0..1000 { n += i } n").unwrap();
    assert!(engine.run(&mut Memory::default(), &script).is_err());
    engine.set_limits(Limits { steps: 100_000, ..limits });
    assert_eq!(engine.run(&mut Memory::default(), &script).map(show), Ok("499500".into()));
}

/// Values nested as deep as a script can make them are copied and dropped without breaking anything.
#[test]
fn what_is_nested_deep_has_room() {
    let limits = Limits { time: Duration::from_millis(700), ..small() };
    let list = format!("let a = []; loop {{ a = {}a{} }}", "[".repeat(30), "]".repeat(30));
    ended_within(limits.clone(), &list, "stopped after", "seconds");
    let map = format!("let a = 1; loop {{ a = {}a{} }}", "#{b:".repeat(25), "}".repeat(25));
    ended_within(limits, &map, "stopped after", "seconds");
}

#[test]
fn reading_ends() {
    let limits = || Limits { time: Duration::from_millis(200), ..small() };
    let names: Vec<String> = (0..40_000).map(|name| format!("n{name}: 1")).collect();
    ended_by(limits(), &format!("#{{{}}}", names.join(", ")), "stopped after 0.2 seconds");
    ended_by(limits(), &format!("f({})", "1,".repeat(100_000)), "a call takes at most 32 values");
    ended_by(limits(), &"1;".repeat(600_000), "a text may have at most 1048576 characters");
    check(&format!("len([{}])", "1,".repeat(1000)), "1000");
}
