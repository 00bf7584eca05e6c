//! Scripts run whole, as the notation pass hands them over; examples of the table in a simple notation.

mod design;
mod errors;
mod imports;
mod limits;
mod mixed;
mod notation;
mod quantities;
mod values;

use std::cell::RefCell;
use std::rc::Rc;

use super::*;
use crate::diag::Diagnostic;
use crate::measure::write::Manner;

pub(crate) use notation::notate;

/// What a script answers, on a bench of its own.
pub(crate) fn run(script: &str) -> Result<Value, Diagnostic> {
    run_with(patient(), script)
}

/// Settings with limits that no test reaches.
pub(crate) fn patient() -> Settings {
    Settings { limits: ample(), ..Settings::default() }
}

/// Scripts that may ask for what this workshop has, and reach nothing else.
struct Only(Rc<dyn Workshop>);

impl Powers for Only {
    fn workshop(&self) -> Option<Rc<dyn Workshop>> {
        Some(Rc::clone(&self.0))
    }
}

/// The powers of scripts in a workshop without bench, book and files.
fn in_workshop(workshop: impl Workshop + 'static) -> Option<Rc<dyn Powers>> {
    Some(Rc::new(Only(Rc::new(workshop))))
}

/// Limits that no test reaches, however busy the machine and however many run at once.
pub(crate) fn ample() -> Limits {
    Limits { time: std::time::Duration::from_secs(60), memory: 1 << 30, ..Limits::default() }
}

pub(crate) fn run_with(settings: Settings, script: &str) -> Result<Value, Diagnostic> {
    let engine = Engine::new(settings);
    let script = engine.compile("", script).map_err(|mut found| found.remove(0))?;
    engine.run(&mut Memory::default(), &script)
}

/// A value as the prompt shows it.
pub(crate) fn show(value: Value) -> String {
    literal::shown(&value.into_dynamic(), &Manner::default()).unwrap()
}

/// The script, its dimensions in the simple notation, answers this.
#[track_caller]
fn check(line: &str, expected: &str) {
    match run(&notate(line)) {
        Ok(value) => assert_eq!(show(value), expected, "{line}"),
        Err(found) => panic!("{line}: {}", found.message()),
    }
}

/// The script, its dimensions in the simple notation, is refused with this message.
#[track_caller]
fn refused(line: &str, message: &str) -> Diagnostic {
    match run(&notate(line)) {
        Ok(value) => panic!("{line}: answered {}", show(value)),
        Err(found) => {
            assert_eq!(found.message(), message, "{line}");
            found
        }
    }
}

/// Refused as well, and the hint runs.
#[track_caller]
fn refused_with(line: &str, message: &str, hint: &str) {
    let found = refused(line, message);
    assert_eq!(found.offered("").as_deref(), Some(hint), "{line}");
    if let Err(found) = run(&notate(hint)) {
        panic!("the hint {hint} does not run: {}", found.message());
    }
}

/// Lines one after the other at one bench; the last one's answer.
fn session(lines: &[&str]) -> Result<Value, Diagnostic> {
    let engine = Engine::new(patient());
    let mut memory = Memory::default();
    let mut answer = Ok(Value::Nothing);
    for line in lines {
        answer = engine
            .compile("", line)
            .map_err(|mut found| found.remove(0))
            .and_then(|script| engine.run(&mut memory, &script));
    }
    answer
}

#[test]
fn what_is_printed_goes_where_it_is_told() {
    #[derive(Clone, Default)]
    struct Lines(Rc<RefCell<Vec<String>>>);
    impl Workshop for Lines {
        fn print(&self, line: &str) {
            self.0.borrow_mut().push(line.to_string());
        }
    }
    let lines = Lines::default();
    let settings = Settings { powers: in_workshop(lines.clone()), ..patient() };
    run_with(settings, "print(__len(91,8)); debug([1, \"a\"]); print()").unwrap();
    assert_eq!(*lines.0.borrow(), ["11 3/8\"", "[1, \"a\"]", ""]);
}

#[test]
fn lines_build_on_those_before() {
    let lines = ["let w = __len(18,1)", "fn double(x) { x * 2 }", "let h = double(w)", "h - w"];
    assert_eq!(show(session(&lines).unwrap()), "18\"");
    let lines = ["fn f(x) { 1 }", "fn g(x) { f(x) + 1 }", "fn f(x) { 5 }", "g(0)"];
    assert_eq!(show(session(&lines).unwrap()), "6");
    let lines = ["let add = |a| a + 1", "fn other() { 0 }", "add.call(4)"];
    assert_eq!(show(session(&lines).unwrap()), "5");
    let lines = ["const SAW = 3", "fn f() { global::SAW }", "f()"];
    assert_eq!(session(&lines).map(show), Ok("3".into()), "constants reach functions");
}

#[test]
fn a_function_is_called_by_name() {
    let engine = Engine::new(patient());
    let mut memory = Memory::default();
    let script = engine.compile("style", "fn build_for(art, asks) { art.width + asks[0] }").unwrap();
    engine.run(&mut memory, &script).unwrap();
    let art = Value::Map([("width".to_string(), Value::Text("wide".into()))].into());
    let asks = Value::List(vec![Value::Text("r".into())]);
    let answer = engine.call(&mut memory, &script, "build_for", vec![art, asks]).unwrap();
    assert_eq!(show(answer), "wider");
    let missing = engine.call(&mut memory, &script, "build", vec![]).unwrap_err();
    assert_eq!(missing.message(), "there is no function `build`; there is `build_for`");
}
