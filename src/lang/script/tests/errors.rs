//! Messages, and where they point.

use super::*;

/// The script is refused with this message, and the caret marks this part of it.
#[track_caller]
fn points(script: &str, message: &str, part: &str) -> Diagnostic {
    let found = run(script).unwrap_err();
    assert_eq!(found.message(), message, "{script}");
    let text = found.source.as_ref().map_or(script, |source| source.text.as_str());
    assert_eq!(found.span.clone().map(|span| &text[span]), Some(part), "{script}");
    found
}

#[test]
fn unknown_names_bring_near_ones() {
    let found = points("squrt(2)", "there is no function `squrt`; there is `sqrt`", "squrt");
    assert_eq!(found.offered("squrt(2)").as_deref(), Some("sqrt(2)"));
    let found = points("let width = 5; widht + 1", "there is no value `widht`; there is `width`", "widht");
    assert_eq!(found.offered("let width = 5; widht + 1").as_deref(), Some("let width = 5; width + 1"));
    points("fn cut_all(x) { x } cut_al(1)", "there is no function `cut_al`; there is `cut_all`", "cut_al");
    points("zebra", "there is no value `zebra`", "zebra");
    points("let w = 5; fn f() { w } f()", "a function does not see the variable `w`: give it to the function", "w");
    let found = points("let f = |x| x; f(5)", "`f` is a value; the function in it is called by `f.call`", "f");
    assert_eq!(found.offered("let f = |x| x; f(5)").as_deref(), Some("let f = |x| x; f.call(5)"));
    let found = points("zebra = 5", "there is no value `zebra`", "zebra");
    assert_eq!(found.offered("zebra = 5").as_deref(), Some("let zebra = 5"));
    points("mm", "`mm` is a function: mm(x)", "mm");
    points("__lem(1, 2)", "there is no function `__lem`", "__lem");
}

#[test]
fn wrong_numbers_of_values_are_counted() {
    points("sqrt(1, 2)", "sqrt(x) takes 1 value, not 2", "sqrt");
    points("round()", "round(x, [step]) takes 1 to 2 values, not 0", "round");
    points("fn f(a, b) { a } f(1)", "f takes 2 values, not 1", "f");
    points("min()", "min(x, …) takes 1 to 8 values, not 0", "min");
}

#[test]
fn arguments_are_checked_against_the_table() {
    let found = refused("mm(12)", "x is a length, and 12 has no unit");
    assert_eq!(found.offered("").as_deref(), Some("mm(12\")"));
    refused("mm(12lb)", "x is a length, and 12lb is a mass");
    refused("sqrt(\"a\")", "x is a quantity, and \"a\" is text");
    refused("sqrt(5lb)", "sqrt takes a number or an area, not a mass");
    refused_with("sin(45)", "angle is an angle, and 45 has no unit", "sin(45deg)");
    refused_with("board_feet(1\", 6, 8ft)", "width is a length, and 6 has no unit", "board_feet(1\", 6\", 96\")");
    refused("[1].map(5)", "change is a function, and 5 is a number");
    refused_with(
        "floor(11 3/8\")",
        "floor takes a plain number; a length is rounded to a step",
        "down(11 3/8\", 1/16in)",
    );
    refused_with("round(11 3/8\", 1/4)", "round cannot round a length to a number", "round(11 3/8\", 1/4\")");
    refused("pad(\"a\", 1/2)", "width is a whole number, and 0.5 is not");
    refused("number(5\")", "a length is not a plain number: name the unit to count in");
}

#[test]
fn an_argument_at_fault_is_pointed_at_where_its_place_is_known() {
    struct Arguments;
    impl Places for Arguments {
        fn at(&self, _: rhai::Position) -> Option<crate::diag::Span> {
            Some(0..4)
        }
        fn argument(&self, position: rhai::Position, argument: usize) -> Option<crate::diag::Span> {
            assert_eq!(position, rhai::Position::new(1, 1));
            Some(5 + 3 * argument..7 + 3 * argument)
        }
    }
    impl Workshop for Arguments {
        fn prepare(&self, text: &str, _: crate::lang::Mode) -> Result<Prepared, Vec<Diagnostic>> {
            Ok(Prepared { script: text.to_string(), places: Rc::new(Arguments) })
        }
    }
    let settings = || Settings { powers: in_workshop(Arguments), ..patient() };
    assert_eq!(run_with(settings(), "mm(12) ").unwrap_err().span, Some(5..7));
    assert_eq!(run_with(settings(), "up(1, 0)    ").unwrap_err().span, Some(8..10));
    assert_eq!(run_with(settings(), "sqrt(-1)").unwrap_err().span, Some(0..4));
}

#[test]
fn errors_in_functions_point_into_them() {
    points("fn f(x) { x + __len(1,1) } f(5)", "cannot add a number and a length", "+");
    points("fn g(x) { x / 0 } fn f(x) { g(x) } f(5)", "this divides by zero", "/");
    points("[1].map(|x| x + __len(1,1))", "cannot add a number and a length", "+");
    points("sort([2, 1], |a, b| a + \"\")", "cannot add a number and text", "+");
}

#[test]
fn errors_in_functions_of_earlier_lines_are_shown_in_them() {
    let found = session(&["fn f(x) { x + __len(1,1) }", "let unrelated = 1;   f(5)"]).unwrap_err();
    let source = found.source.expect("another line's text");
    assert_eq!(source.text, "fn f(x) { x + __len(1,1) }");
    assert_eq!(&source.text[found.span.unwrap()], "+");
}

#[test]
fn a_script_throws_and_catches() {
    points("throw \"too short\"", "too short", "throw");
    points("throw", "the script gave up", "throw");
    check("let r = 0; try { 1 + __len(1,1) } catch (e) { r = text(e) } r", "cannot add a number and a length");
    check("let r = 0; try { [1][5] } catch (e) { r = `${e}` } r", "there is no position 5 in a list of 1");
    check("let r = 0; try { if 1 == 1 && r { } } catch (e) { r = `${e}` } r", "yes or no is needed here, not a number");
    check("let r = 0; try { foo(1) } catch (e) { r = `${e}` } r", "there is no function `foo`");
    check("let r = 0; try { throw #{error: 5} } catch (e) { r = e.error } r", "5");
    let again = points("try { sqrt(-1) } catch (e) { throw e }", "there is no such number", "throw");
    assert_eq!(again.fixes, []);
    check("fn f() { return 5; 6 } f()", "5");
}

#[test]
fn values_without_names_say_so() {
    points("let x = 5; x.width", "this value has no `width`", "width");
    points("let x = __len(5,1); x.width", "a length has no `width`", ".");
    points("let x = __len(5,1); x[\"a\"]", "a length has no `a`", "[");
    points("\"abc\".foo", "this value has no `foo`", "foo");
    points("let x = 5; x.foo = 1", "this value has no `foo`", "foo");
    points("let s = __size(1, 2); s.width = 1", "this value has no `width`", "width");
}

/// Every way of not being read, and its message.
#[test]
fn what_cannot_be_read_is_said_in_plain_words() {
    let rows = [
        ("5 +", "this ends too early"),
        ("(5", "a `)` is missing"),
        ("f(1", "a `)` is missing"),
        ("[1, 2", "a `]` is missing"),
        ("#{a 1}", "a `:` is missing"),
        ("\"abc", "a quote is not closed"),
        ("1 === 1", "there is no `===`"),
        ("x++", "there is no sign `++`; `x += 1` does the same"),
        ("let 5 = 3", "the name of a variable is missing"),
        ("let new = 3", "`new` cannot be used as a name"),
        ("type_of(5)", "there is no `type_of`"),
        ("if x = 5 { }", "`=` sets a value; compare with `==`"),
        ("break", "`break` and `continue` work only inside a loop"),
        ("fn f(a, a) { }", "`a` is twice in the function `f`"),
        ("fn f { }", "`(` and `)` are missing after `f`"),
        ("{ fn f() { } }", "a function is defined outside of blocks and other functions"),
        ("#{a: 1, a: 2}", "`a` is in this map twice"),
        ("5 = 3", "a constant cannot be set"),
        ("x.", "a name is missing after the point"),
        ("1 2", "a `;` is missing"),
        ("if 5 { 1 }", "yes or no is needed here"),
        ("'ab'", "single quotes take one letter, not `ab`"),
        ("99999999999999999999", "`99999999999999999999` is not a number"),
        ("\"\\q\"", "`\\q` means nothing in a text; a `\\` is written `\\\\`"),
        ("const X = 1; X = 2", "`X` is a constant"),
        ("5 $ 3", "there is no sign `$`"),
        ("é + 1", "`é` does not belong here"),
    ];
    for (script, expected) in rows {
        let found = run(script).unwrap_err();
        assert_eq!(found.message(), expected, "{script}");
        assert!(found.span.is_some(), "{script}");
    }
}

/// No message has a word of the engine's in it.
#[test]
fn the_engine_shows_through_nowhere() {
    let scripts = [
        "5 +",
        "foo(5, \"a\", [1], #{}, true, (), 'c', __len(1,2), |x| x, 0..1)",
        "let x = 5; x.foo()",
        "5.foo",
        "[1].foo()",
        "[1][\"a\"]",
        "#{}[5]",
        "\"abc\"[\"a\"]",
        "5[99]",
        "let x = 5; x[99]",
        "\"abc\"[99]",
        "x::y",
        "let f = 5; f.call()",
        "call(5)",
        "Fn(5)",
        "curry(5, 1)",
        "for x in () { }",
        "if () { }",
        "while 5 { }",
        "let x = __len(1,2); if x { }",
        "let x = __len(1,2); [1][x]",
        "let x = __size(1,2); \"a\"[x]",
        "this",
        "let x = 1; x = y",
        "fn f() { this.x } f()",
        "is_def_fn(1, 2)",
        "let m = #{}; m.a.b.c()",
        "(0..5).foo",
        "let x = [1]; x.a = 5",
        "const A = [1]; A[0] = 5",
        "const A = #{}; A.b = 5",
        "throw #{a: 1}",
        "sort(5)",
        "push(5, 1)",
        "import 5 as x",
        "import \"a\" as x",
        "let a = []; a[0] = 1",
        "true.foo()",
        "let x = __len(1,2); x.foo()",
        "print(1, 2)",
        "0.. + 1",
        "let s = \"a\"; s[0] = 5",
        "export x",
        "switch",
        "switch 5 { 1 }",
        "try { }",
        "let x: i64 = 5",
        "fn",
        "|",
        "||",
        "loop",
        "do { }",
        "`${",
        "/*",
        "__len(1, 0)",
        "__len(\"x\", 1)",
        "__qty(\"colour\", 1, 1)",
        "__len([], 1)",
        "new_design(5)",
        "debug(1, 2, 3)",
        "let x = |a| a; x.call(1, 2, 3)",
        "private fn f() {} f(1)",
        "exit(5)",
        "1.5",
        "0x",
        "1e5",
        "@",
        "#",
        "a?.b",
        "a ?? b",
    ];
    let words = [
        "i64",
        "Dynamic",
        "ImmutableString",
        "&str",
        "array",
        "bool",
        "Fn",
        "rhai",
        "Rhai",
        "ast",
        "token",
        "getter",
        "setter",
        "indexer",
        "register",
        "Syntax",
        "Module",
        "boolean",
        "expression",
        "benchrule",
        "core::",
        "Range",
    ];
    for script in scripts {
        if let Err(found) = run(script) {
            for word in words {
                // The framer's own word may stand between backquotes.
                let said: String = found.message().split('`').step_by(2).collect();
                assert!(!said.contains(word), "{script}: {}", found.message());
            }
            let first = found.message().chars().next().unwrap();
            assert!(!first.is_uppercase() && !found.message().ends_with('.'), "{script}: {}", found.message());
            if let Some(span) = found.span {
                assert!(script.get(span).is_some(), "{script}");
            }
        }
    }
}
