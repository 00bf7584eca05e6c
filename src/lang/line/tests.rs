use proptest::prelude::*;

use super::prompt::lone_name;
use super::*;

/// A bench with a handful of names.
struct Few;

impl Names for Few {
    fn word(&self, name: &str) -> Option<Takes> {
        match name {
            "keep" => Some(Takes::Name),
            "find" => Some(Takes::Text),
            "tape" => Some(Takes::Value),
            "sheet" => Some(Takes::Nothing),
            _ => None,
        }
    }
    fn field(&self, name: &str) -> Option<Takes> {
        match name {
            "reveal" | "reveal.left" => Some(Takes::Value),
            "note" => Some(Takes::Text),
            _ => None,
        }
    }
    fn is_figure(&self, name: &str) -> bool {
        matches!(name, "opening.width" | "package.depth")
    }
    fn is_variable(&self, name: &str) -> bool {
        name == "x"
    }
    fn all(&self) -> Vec<String> {
        ["keep", "find", "tape", "sheet", "reveal", "reveal.left", "note", "opening.width", "package.depth"]
            .map(String::from)
            .to_vec()
    }
}

fn rewritten(text: &str) -> Rewritten {
    prepass(text, Mode::Prompt, &Few).unwrap_or_else(|found| panic!("{text}: {found:?}"))
}

/// The engine as the place of an error: one function that always fails, and whatever else goes wrong by itself.
fn failing() -> rhai::Engine {
    let mut engine = rhai::Engine::new_raw();
    let fail = || Err::<rhai::Dynamic, Box<rhai::EvalAltResult>>("it fails".into());
    engine.register_fn("fail", move |_: rhai::Dynamic| fail());
    engine.register_fn("fail", move |_: rhai::Dynamic, _: rhai::Dynamic| fail());
    engine.register_fn("__len", |n: i64, _: i64| n);
    engine.register_fn("-", |a: i64, b: i64| a - b);
    engine
}

/// Runs `text` and gives what was typed where the engine says that it failed: the place, and each argument there.
#[track_caller]
fn blamed(text: &str) -> (String, Vec<String>) {
    let rewritten = rewritten(text);
    let mut scope = rhai::Scope::new();
    scope.push("design", rhai::Map::new());
    scope.push("list", vec![rhai::Dynamic::from(1_i64)]);
    let error = failing().run_with_scope(&mut scope, &rewritten.script).expect_err(text);
    let position = error.position();
    let (line, column) = (position.line().unwrap(), position.position().unwrap());
    let call = rewritten.map.call(line, column);
    let arguments = call.map(|call| call.arguments).unwrap_or_default();
    let shown = |span: crate::diag::Span| text[span].to_string();
    (shown(rewritten.map.place(line, column)), arguments.into_iter().map(shown).collect())
}

#[track_caller]
fn check_blame(text: &str, place: &str, arguments: &[&str]) {
    let (found, found_arguments) = blamed(text);
    assert_eq!(found, place, "{text}");
    assert_eq!(found_arguments, arguments, "{text}");
}

#[test]
fn a_failed_call_leads_back_to_its_arguments() {
    check_blame("fail(11 3/8\")", "fail", &["11 3/8\""]);
    check_blame("let a = 5\"; fail(a, 3' - 1\")", "fail", &["a", "3' - 1\""]);
    check_blame("fail( 1 /* one */ , [2, 3] )", "fail", &["1", "[2, 3]"]);
    check_blame("`é ${5\" - fail(2\")}`", "fail", &["2\""]);
    check_blame("let s = \"é″\";\n  fail(opening.width)", "fail", &["opening.width"]);
}

#[test]
fn a_failed_method_counts_its_receiver_first() {
    check_blame("(11 3/8\").fail()", "fail", &["(11 3/8\")"]);
    check_blame("11 3/8\".fail(2')", "fail", &["11 3/8\"", "2'"]);
    check_blame("list[0].fail(2)", "fail", &["list[0]", "2"]);
    check_blame("opening.width.fail()", "fail", &["opening.width"]);
    check_blame("design.opening.width.fail(1)", "fail", &["design.opening.width", "1"]);
    check_blame("[1].reduce(|a, b| a + b, 4)", "reduce", &["[1]", "|a, b| a + b", "4"]);
    check_blame("[1].filter(|x| x.fail(3))", "filter", &["[1]", "|x| x.fail(3)"]);
}

#[test]
fn a_place_leads_back_to_its_word() {
    check_blame("5\" + 3\" - nothing", "nothing", &[]);
    check_blame("[1] * 11 3/8\"", "*", &[]);
    check_blame("let a = 5\";\nlet b = 6\";\na.b.c", "b", &[]);
}

#[test]
fn every_place_past_the_end_is_the_end() {
    let map = rewritten("5\" + 3\"").map;
    for (line, column) in [(1, 500), (9, 1), (usize::MAX, usize::MAX), (0, 0)] {
        assert!(map.place(line, column).end <= map.typed().len());
    }
}

#[test]
fn no_depth_of_brackets_is_too_deep() {
    let found = prepass(&"(".repeat(100_000), Mode::Prompt, &Few).unwrap_err();
    assert!(found.len() < 20 && found[0].message().contains("not closed"));
    // Slow without optimisation, and a thread's stack would be gone long before.
    let deep = 10_000;
    let open = "(".repeat(deep);
    assert!(!is_complete(&open, &Few));
    assert_eq!(read_line(&open, &Few).unwrap(), Line::Expression);
    for (begin, end) in
        [("(", ")"), ("[", "]"), ("#{a:", "}"), ("`${", "}`"), ("/*", "*/"), ("{", "}"), ("x.f(", ")"), ("-", "")]
    {
        let text = format!("{}1\"{}", begin.repeat(deep), end.repeat(deep));
        let script = prepass(&text, Mode::Prompt, &Few).unwrap().script;
        assert!(begin == "/*" || script.contains("__len(1,1)"), "{begin}");
    }
}

#[test]
fn a_long_script_takes_its_time_in_proportion() {
    let line = "let a = 11 3/8\" + reveal * 2; if a > 5' { `${opening.width}` }\n";
    let script = rewritten(&line.repeat(1_000)).script;
    assert!(script.lines().all(|line| line.contains("__len(91,8)") && line.contains("design[\"opening.width\"]")));
}

#[test]
fn a_lone_name_is_found() {
    assert_eq!(lone_name(" shete "), Some(1..6));
    assert_eq!(lone_name("outside.wdth // what"), Some(0..12));
    assert_eq!(lone_name("shete + 1"), None);
    assert_eq!(lone_name("true"), None);
    let found = prompt::unknown_name("shete", 0..5, &Few);
    assert_eq!(
        (found.message().as_str(), found.offered("shete").as_deref()),
        ("there is nothing called shete", Some("sheet"))
    );
}

fn any_script() -> impl Strategy<Value = String> {
    const PIECES: &[&str] = &[
        "1",
        "23",
        "3/4",
        "-",
        "−",
        " ",
        "\t",
        "½",
        "\"",
        "'",
        "″",
        "x",
        "×",
        " x ",
        "in",
        " in ",
        "ft",
        "mm",
        "lb",
        "%",
        "°",
        "degC",
        "/",
        ".",
        "..",
        "_",
        "$",
        "0x",
        "1e",
        "\n",
        "\r\n",
        "é",
        "`",
        "${",
        "}",
        "{",
        "#{",
        "(",
        ")",
        "[",
        "]",
        ",",
        ";",
        "//",
        "/*",
        "*/",
        "#\"",
        "\"#",
        "\\",
        "|",
        "||",
        "::",
        "?.",
        "=",
        "==",
        "reveal",
        "reveal.left",
        "opening.width",
        "design.",
        "let ",
        "fn ",
        "for ",
        "catch",
        "keep ",
        "note ",
        "find ",
        "tape ",
        "f(",
        ".abs()",
        ":",
        "a",
    ];
    prop::collection::vec((0..PIECES.len()).prop_map(|at| PIECES[at]), 0..24).prop_map(|pieces| pieces.concat())
}

/// Text that has neither notation nor names of the bench.
fn any_plain_script() -> impl Strategy<Value = String> {
    const PIECES: &[&str] = &[
        "a + b",
        "f(a, b)",
        "let c = a;\n",
        "\"5'\"",
        "a.b.c",
        "// 5\" x\n",
        "/* 3' */",
        "[a, b]",
        "#{a: b}",
        "if a { b }",
        "'x'",
        " 42 ",
        "`5\" ${a} 3'`",
        "#\"5\"\"#",
        "|a| a * 2",
        ";",
        "\n",
        " a/3 ",
        "a[0]",
        "é",
        "a..b",
    ];
    prop::collection::vec((0..PIECES.len()).prop_map(|at| PIECES[at]), 0..12).prop_map(|pieces| pieces.join(" + "))
}

fn go_through(text: &str) {
    let _ = is_complete(text, &Few);
    let _ = lone_name(text);
    let inside = |found: &crate::diag::Diagnostic| {
        let span = found.span.clone().expect("a fault has a place");
        assert!(text.get(span.clone()).is_some(), "{text:?} {span:?}");
    };
    match read_line(text, &Few) {
        Ok(Line::Set { value, .. }) => assert!(text.get(value).is_some_and(|value| value.trim() == value), "{text:?}"),
        Ok(Line::Command { rest, .. }) => assert!(text.get(rest).is_some_and(|rest| rest.trim() == rest), "{text:?}"),
        Ok(Line::Blank | Line::Show { .. } | Line::Expression) => {}
        Err(found) => inside(&found),
    }
    for mode in [Mode::Script, Mode::Prompt] {
        match prepass(text, mode, &Few) {
            Err(found) => {
                assert!(!found.is_empty());
                found.iter().for_each(inside);
            }
            Ok(Rewritten { script, map }) => every_place_is_inside(text, &script, &map),
        }
    }
}

fn every_place_is_inside(text: &str, script: &str, map: &SourceMap) {
    for (row, line) in script.split('\n').enumerate() {
        for column in 0..line.chars().count() + 3 {
            let span = map.place(row + 1, column);
            assert!(text.get(span.clone()).is_some(), "{text:?} {script:?} {span:?}");
            if let Some(call) = map.call(row + 1, column) {
                assert!(text.get(call.whole.clone()).is_some(), "{text:?}");
                for argument in call.arguments {
                    assert!(call.whole.start <= argument.start && argument.end <= call.whole.end, "{text:?}");
                    assert!(text.get(argument).is_some(), "{text:?}");
                }
            }
        }
    }
    assert_eq!(text.matches('\n').count(), script.matches('\n').count());
}

proptest! {
    #[test]
    fn any_text_goes_through(text in any::<String>()) {
        go_through(&text);
    }

    #[test]
    fn any_pieces_go_through(text in any_script()) {
        go_through(&text);
    }

    #[test]
    fn text_without_notation_comes_out_unchanged(text in any_plain_script()) {
        prop_assert_eq!(prepass(&text, Mode::Prompt, &Few).map(|rewritten| rewritten.script), Ok(text));
    }
}
