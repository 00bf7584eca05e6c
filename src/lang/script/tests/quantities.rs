//! The traps of exact numbers and kinds, each as it was met.

use super::*;

#[test]
fn division_is_exact_everywhere() {
    check("3/4", "3/4");
    check("11 + 2*5/8", "12 1/4");
    check("1/3 + 1/3 + 1/3 == 1", "true");
    check("6/3", "2");
    check("[10, 20][6/3 - 1]", "20");
    check("let x = 7; x /= 4; x", "1 3/4");
    check("let x = 7; x /= 7; [5, 6][x]", "6");
    check("fn f(a, b) { a / b } f(7, 8)", "7/8");
    check("[1, 2].map(|x| x / 2)", "[1/2, 1]");
    check("let m = #{a: 7}; m.a /= 2; m.a", "3 1/2");
    check("let l = [7]; l[0] /= 2; l", "[3 1/2]");
    refused("1/0", "this divides by zero");
    refused("1 % 0", "this divides by zero");
    refused("let x = 1; x /= 0", "this divides by zero");
}

#[test]
fn op_assignments_are_exact_too() {
    check("let x = 5; x += 1/2; x", "5 1/2");
    check("let x = 5; x -= 1/2; x", "4 1/2");
    check("let x = 5; x *= 1/2; x", "2 1/2");
    check("let x = 7/2; x %= 1; x", "1/2");
    check("let x = 1/2; x **= 3; x", "1/8");
    check("let x = 5\"; x += 1/2\"; x", "5 1/2\"");
    refused_with("let x = 5\"; x += 1", "cannot add a length and a number", "5\" + 1\"");
    refused("let x = 5\"; x -= 1lb", "cannot subtract a length and a mass");
}

#[test]
fn whole_numbers_never_wrap() {
    check("9223372036854775807 + 1", "9223372036854775808");
    check("9223372036854775807 + 1 - 1 == 9223372036854775807", "true");
    check("[0][9223372036854775807 + 1 - 9223372036854775807 - 1]", "0");
    check("9223372036854775807 * 2", "18446744073709551614");
    check("let x = 9223372036854775807; x += 1; x", "9223372036854775808");
    check("-9223372036854775807 - 2", "-9223372036854775809");
    check("-(-9223372036854775807 - 1)", "9223372036854775808");
    check("abs(-9223372036854775807 - 1)", "9223372036854775808");
    check("2 ** 100", "1267650600228229401496703205376");
    check("2 ** -2", "1/4");
    check("(1/2) ** 3", "1/8");
    check("(2\") ** 2", "4 in2");
    refused("2 ** 5000", "the number is too large");
    refused("2 ** 9223372036854775807", "the number is too large");
    refused("0 ** -1", "this divides by zero");
    refused_with("9 ** (1/2)", "a power is a whole number, and 0.5 is not", "sqrt(9)");
    refused("2 ** 3\"", "a power is a whole number, and 3\" is not");
}

#[test]
fn unlike_kinds_are_named_with_a_line_that_works() {
    refused("11 3/8\" + 5lb", "cannot add a length and a mass");
    refused_with("11 3/8\" + 5", "cannot add a length and a number", "11 3/8\" + 5\"");
    refused_with("5 + 45deg", "cannot add a number and an angle", "5deg + 45deg");
    refused_with("5\" - 5", "cannot subtract a length and a number", "5\" - 5\"");
    refused_with("5\" % 5", "cannot divide a length and a number", "5\" % 5\"");
    refused_with("5\" == 5", "cannot compare a length and a number", "5\" == 5\"");
    refused_with("5 != 5\"", "cannot compare a number and a length", "5\" != 5\"");
    refused_with("5\" < 5", "cannot compare a length and a number", "5\" < 5\"");
    refused_with("5\" <= 5", "cannot compare a length and a number", "5\" <= 5\"");
    refused_with("5\" > 5", "cannot compare a length and a number", "5\" > 5\"");
    refused_with("5\" >= 5", "cannot compare a length and a number", "5\" >= 5\"");
    refused_with("70degF == 70", "cannot compare a temperature and a number", "70degF == 70degF");
    refused("70degF + 1", "cannot add a temperature and a number");
    refused_with("\"w \" + 5\"", "cannot add text and a length", "\"w \" + text(5\")");
    refused("5\" == \"5\"", "cannot compare a length and text");
    refused("5 == \"5\"", "cannot compare a number and text");
    refused("5 == true", "cannot compare a number and yes/no");
    refused("5\" > [5\"]", "cannot compare a length and a list");
    refused("1 == #{a: 1}", "cannot compare a number and a map");
}

/// Every pair of values a script can have, under every operator: an answer or a refusal that names both, and an
/// answer only where it means something.
#[test]
fn every_pair_under_every_operator() {
    let values = [
        ("5", "a number"),
        ("1/2", "a number"),
        ("5\"", "a length"),
        ("5lb", "a mass"),
        ("45deg", "an angle"),
        ("\"a\"", "text"),
        ("'a'", "text"),
        ("true", "yes/no"),
        ("[1]", "a list"),
        ("#{a: 1}", "a map"),
        ("(1\" x 2\")", "a size"),
        ("(0..3)", "a range"),
        ("|x| x", "a function"),
        ("()", "nothing"),
    ];
    for (left, one) in values {
        for (right, other) in values {
            for operator in ["==", "!=", "<", "<=", ">", ">=", "+", "-", "*", "/", "%", "**"] {
                let line = format!("let a = {left}; let b = {right}; a {operator} b");
                let answer = run(&notate(&line));
                let quantities =
                    one.starts_with("a n") | one.contains("length") | one.contains("mass") | one.contains("angle");
                match answer {
                    Ok(_) if matches!(operator, "==" | "!=") => {
                        assert!(one == other || one == "nothing" || other == "nothing", "{line}");
                    }
                    Ok(_) if operator == "+" => assert_eq!(one, other, "{line}"),
                    Ok(_) if matches!(operator, "*" | "/") => assert!(quantities, "{line}"),
                    Ok(_) if operator == "**" => assert_eq!(other, "a number", "{line}"),
                    Ok(_) => assert!(one == other && (quantities || one == "text"), "{line}"),
                    Err(found) => {
                        let message = found.message();
                        let named = message.contains(one) && message.contains(other);
                        let alone = one == other && message.starts_with(one);
                        assert!(named || alone || message.contains("power"), "{line}: {message}");
                    }
                }
            }
        }
    }
}

#[test]
fn lists_and_maps_are_equal_entry_by_entry() {
    check("[1, 2] == [1, 2]", "true");
    check("[1, 2] == [1, 3]", "false");
    check("[1] == [1, 2]", "false");
    check("[1\"] == [25.4mm]", "true");
    check("[1] != [1]", "false");
    check("[] == []", "true");
    check("#{a: 1, b: [2]} == #{b: [2], a: 1}", "true");
    check("#{a: 1} == #{b: 1}", "false");
    check("(18\" x 24\") == (18\" x 24\")", "true");
    check("(18\" x 24\") == (18\" x 24\" x 1\")", "false");
    refused_with("[1] == [1\"]", "cannot compare a number and a length", "1\" == 1\"");
    refused("[[1], 2] == [[1\"], 2]", "cannot compare a number and a length");
    refused("#{a: 1} == #{a: 1\"}", "cannot compare a number and a length");
    refused("[1\", 2] != [1\", 2\"]", "cannot compare a number and a length");
}

#[test]
fn a_value_is_looked_for_among_its_like() {
    check("5\" in [5\"]", "true");
    check("5\" in [1\", 127mm]", "true");
    check("5\" !in [5\"]", "false");
    check("5 in [1, 2]", "false");
    check("5 in []", "false");
    check("3 in 0..5", "true");
    check("1/2 in 0..5", "false");
    check("5 in 0..=5", "true");
    check("\"a\" in \"oak\"", "true");
    check("\"a\" in #{a: 1}", "true");
    refused_with("5 in [5\"]", "cannot compare a number and a length", "5\" == 5\"");
    refused("5\" in [1, 5\"]", "cannot compare a length and a number");
    refused("5 !in [5\"]", "cannot compare a number and a length");
    refused("3\" in 0..5", "cannot compare a number and a length");
    refused("5 in \"oak5\"", "cannot compare text and a number");
    refused("[5\"].index_of(5)", "cannot compare a number and a length");
    refused("[5\"].contains(5)", "cannot compare a number and a length");
    refused("5 in 5", "x is a list, text, a map or a range, and 5 is a number");
}

#[test]
fn nothing_may_be_asked_about() {
    check("let m = #{a: 5\"}; m.b == ()", "true");
    check("let m = #{a: 5\"}; m.a == ()", "false");
    check("let m = #{a: 5\"}; m.a != ()", "true");
    check("() == ()", "true");
    refused("let m = #{}; m.a + 5\"", "cannot add nothing and a length");
    refused("let m = #{}; m.a < 5\"", "cannot compare nothing and a length");
}

#[test]
fn a_switch_tells_apart_only_what_it_can() {
    check("switch 5 { 5 => 1, _ => 2 }", "1");
    check("switch 9 { 0..5 => 1, 5..20 => 3, _ => 2 }", "3");
    check("switch \"a\" { \"a\" => 1, _ => 2 }", "1");
    check("switch true { true => 1, _ => 2 }", "1");
    check("switch 6/2 { 3 => 1, _ => 2 }", "1");
    check("let x = 5; switch x { 5 if x > 6 => 1, _ => switch x { 5 => 3, _ => 2 } }", "3");
    check("fn f(x) { switch x { 1 => \"one\", _ => \"other\" } } f(1)", "one");
    check("let f = |x| switch x { 1 => 2, _ => 3 }; f.call(1)", "2");
    let message = "`switch` takes whole numbers, texts and yes/no, not a length";
    refused_with("switch 5\" { 5 => 1, _ => 2 }", message, "if 5\" == 5\" { \"yes\" } else { \"no\" }");
    refused("fn f(x) { switch x { 1 => 2, _ => 3 } } f(5\")", message);
    refused("let f = |x| { switch x { 1 => 2, _ => 3 } }; f.call(5\")", message);
    refused("`${switch __len(5,1) { 5 => 1, _ => 2 }}`", message);
    refused("switch 1/2 { 1 => 1, _ => 2 }", "`switch` takes whole numbers, texts and yes/no, not a number");
    refused("switch [1\"] { 1 => 1, _ => 2 }", "`switch` takes whole numbers, texts and yes/no, not a list");
    let case = "a case of a `switch` is a whole number, a text, yes or no, written out";
    refused("switch 5 { 5\" => 1, _ => 2 }", case);
}

#[test]
fn units_multiply_and_divide() {
    check("5\" * 2\"", "10 in2");
    check("12\" / 5\"", "2.4");
    check("12\" / 4\"", "3");
    check("[1, 2, 3, 4][12\" / 4\"]", "4");
    check("5\" * 2", "10\"");
    check("3 * 5lb", "15 lb");
    check("12in2 / 3in", "4\"");
    check("11\" % 3\"", "2\"");
    check("-(5\") + 6\"", "1\"");
    check("+5\"", "5\"");
    check("1ft == 12\"", "true");
    check("25.4mm == 1\"", "true");
    check("16oz == 1lb", "true");
    refused("-\"a\"", "cannot negate text");
    refused("-[1]", "cannot negate a list");
    refused("!5", "`!` needs yes or no, not a number");
    check("!true", "false");
}

#[test]
fn roots_and_sines_are_marked() {
    check("sqrt(2) * sqrt(2) == 2", "false");
    check("sqrt(2)", "~1.414214");
    check("sqrt(2) * 0", "0");
    check("sqrt(16)", "4");
    check("[1, 2, 3, 4, 5][sqrt(16)]", "5");
    check("sin(30deg) + 1/2", "1");
    refused("sqrt(-1)", "there is no such number");
    refused("tan(90deg)", "this divides by zero");
}

#[test]
fn bits_are_not_meant() {
    refused("2^3", "`^` is not a power here; write `**`");
    refused("let x = 2; x ^= 3", "`^=` is not a power here; write `**`");
    refused("1 << 63", "`<<` means nothing between these values");
    refused("6 & 3", "`&` means nothing between these values");
    refused("6 | 3", "`|` means nothing between these values");
    check("true & false", "false");
    check("true | false", "true");
    refused("5\" & 1", "`&` means nothing between these values");
}

#[test]
fn conditions_are_yes_or_no() {
    refused("if 5\" { 1 }", "yes or no is needed here, not a quantity");
    refused("let x = 5; if x { 1 }", "yes or no is needed here, not a number");
    refused("let x = 5; true && x", "yes or no is needed here, not a number");
    refused("while \"a\" { }", "yes or no is needed here");
    check("5\" > 4\" && 1 < 2 || false", "true");
}

#[test]
fn text_is_code_nowhere() {
    refused("eval(\"1 + 1\")", "there is no `eval`");
    refused("let e = Fn(\"eval\"); e.call(\"1 + 1\")", "`eval` cannot be used as a name");
}
