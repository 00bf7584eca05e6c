//! Scripts that import others.

use super::*;

fn library(name: &str) -> Option<&'static str> {
    Some(match name {
        "saw" => "export const KERF = __len(1,8); fn strip(n) { n * KERF_OF() } fn KERF_OF() { __len(1,8) }",
        "gallery/float" => "import \"saw\" as saw; fn cut(n) { saw::strip(n) }",
        "a" => "import \"b\" as b;",
        "b" => "import \"a\" as a;",
        "self" => "import \"self\" as me;",
        "bad" => "let x = 5 +",
        "wrong" => "fn f(x) {\n  x + 1\n}",
        "top" => "let x = 1;\nx + __len(1,1);",
        "endless" => "loop { }",
        "deep0" => "import \"deep1\" as d;",
        "deep1" => "import \"deep2\" as d;",
        "deep2" => "import \"deep3\" as d;",
        "deep3" => "1",
        _ => return None,
    })
}

struct Library;

impl Workshop for Library {
    fn script(&self, name: &str) -> Result<Option<String>, Diagnostic> {
        Ok(library(name).map(ToString::to_string))
    }
}

fn settings() -> Settings {
    let limits = Limits { imports: 3, steps: 10_000, ..ample() };
    Settings { limits, powers: in_workshop(Library), ..patient() }
}

#[track_caller]
fn refused_here(script: &str, message: &str) -> Diagnostic {
    let found = run_with(settings(), script).unwrap_err();
    assert_eq!(found.message(), message, "{script}");
    found
}

#[test]
fn scripts_import_scripts() {
    let answer = run_with(settings(), "import \"saw\" as saw; saw::strip(4) + saw::KERF");
    assert_eq!(answer.map(show), Ok("5/8\"".into()));
    let answer = run_with(settings(), "import \"gallery/float\" as style; style::cut(2)");
    assert_eq!(answer.map(show), Ok("1/4\"".into()));
    let answer = run_with(settings(), "fn f() { import \"saw\" as s; s::strip(2) } f()");
    assert_eq!(answer.map(show), Ok("1/4\"".into()));
}

#[test]
fn imports_stay_for_the_next_line() {
    let engine = Engine::new(settings());
    let mut memory = Memory::default();
    let first = engine.compile("", "import \"saw\" as saw").unwrap();
    engine.run(&mut memory, &first).unwrap();
    let second = engine.compile("", "saw::strip(4)").unwrap();
    assert_eq!(engine.run(&mut memory, &second).map(show), Ok("1/2\"".into()));
}

#[test]
fn imports_stay_within_bounds() {
    refused_here("import \"none\" as x", "there is no script `none`");
    for name in ["../secret", "/etc/passwd", "a\\\\b", "saw.rhai", "gallery/../saw"] {
        let found = run_with(settings(), &format!("import \"{name}\" as x")).unwrap_err();
        assert!(found.message().contains("is not a script name"), "{}", found.message());
    }
    refused_here("import \"a\" as a", "these scripts import one another: a, b");
    refused_here("import \"self\" as a", "these scripts import one another: self");
    let deep = refused_here("import \"deep0\" as a", "scripts import one another more than 3 deep");
    assert_eq!(deep.offered("").as_deref(), Some("shop script.imports 6"));
    let endless = refused_here("try { import \"endless\" as a } catch { }", "stopped after 10000 steps");
    assert_eq!(endless.source.unwrap().name, "endless");
}

#[test]
fn errors_are_shown_where_they_are() {
    let found = refused_here("import \"bad\" as x", "this ends too early");
    assert_eq!(found.source.as_ref().unwrap().name, "bad");
    assert_eq!(found.span, Some(11..11));
    let found = refused_here("import \"wrong\" as x; x::f(__len(1,1))", "cannot add a length and a number");
    let source = found.source.unwrap();
    assert_eq!((source.name.as_str(), &source.text[found.span.unwrap()]), ("wrong", "+"));
    let found = refused_here("import \"top\" as x", "cannot add a number and a length");
    assert_eq!(found.source.unwrap().text.lines().count(), 2);
    refused_here("import \"saw\" as saw; saw::nothing(1)", "there is no function `saw::nothing`");
    refused_here("import \"saw\" as saw; saw::NOTHING", "there is no `NOTHING` in this script");
    refused_here("other::f(1)", "there is no script `other`");
}
