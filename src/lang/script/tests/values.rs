//! Lists, maps and texts under the same rules.

use super::*;

#[test]
fn order_respects_kinds() {
    check("sort([3\", 1\", 50.8mm])", "[1\", 2\", 3\"]");
    check("let l = [3, 1, 2]; l.sort(); l", "[1, 2, 3]");
    check("sort([\"b\", \"a\"])", "[\"a\", \"b\"]");
    check("sort([3\", 1\"], |a, b| a > b)", "[3\", 1\"]");
    check("sort([])", "[]");
    check("let l = [#{w: 2\"}, #{w: 1\"}]; l.sort(|a, b| a.w < b.w); l[0].w", "1\"");
    refused_with("sort([1\", 2])", "cannot compare a number and a length", "2\" < 1\"");
    refused("sort([[1], [2]])", "a list is neither less nor greater than another");
    refused(
        "let l = [2, 1]; try { l.sort(|a, b| 5) } catch { } l.sort(|a, b| 5)",
        "the function given to sort must return true or false, but it returns a number",
    );
    check("let l = [2, 1]; try { l.sort(|a, b| 5) } catch { } l", "[2, 1]");
    check("min(1/2\", 3/8\")", "3/8\"");
    check("max([1, 3, 2])", "3");
    refused("max(1\", 2)", "cannot compare a number and a length");
    refused("max([])", "an empty list has no greatest");
    refused("sum([1\", 2])", "cannot add a length and a number");
    refused("sum([\"a\"])", "cannot add a number and text");
    check("sum([1/2\", 1/4\"])", "3/4\"");
}

#[test]
fn a_contradictory_order_breaks_nothing() {
    check("let n = 0; let l = []; for i in 0..100 { l.push(i) } len(sort(l, |a, b| true))", "100");
    check("let l = []; for i in 0..100 { l.push(i) } len(sort(l, |a, b| false))", "100");
}

#[test]
fn lists_grow_and_shrink() {
    check("let l = [1]; l += 2; l += [3, 4]; l", "[1, 2, 3, 4]");
    check("[1] + [2]", "[1, 2]");
    check("let l = [1, 2, 3]; l.remove(-1); l.insert(0, 9); l", "[9, 1, 2]");
    check("let l = [1]; l.pop(); l.pop()", "");
    check("extract([1, 2, 3], -2)", "[2, 3]");
    check("reverse([1, 2])", "[2, 1]");
    check("reduce([1, 2, 3], |a, b| a + b, 0)", "6");
    refused("[1].insert(5, 2)", "there is no position 5 in a list of 1");
    refused("[1, 2][5]", "there is no position 5 in a list of 2");
    refused("[1, 2][1\"]", "a whole number is needed here, not a quantity");
    refused("const L = [1]; L.push(2)", "a constant cannot be changed");
    check("#{a: 1} + #{b: 2}", "#{a: 1, b: 2}");
    check("let m = #{a: 1}; m.remove(\"a\"); len(m)", "0");
}

#[test]
fn loops_go_through_what_they_can() {
    check("let s = 0; for x in [1, 2] { s += x } s", "3");
    check("let s = 0; for i in 0..=3 { s += i } s", "6");
    check("let s = \"\"; for c in \"ab\" { s += c; s += \"-\" } s", "a-b-");
    check("let s = \"\"; let m = #{b: 1, a: 2}; for k in m { s += k } s", "ab");
    check("let s = 0\"; for x in range(1\", 3\", 1/2\") { s += x } s", "7\"");
    refused("for x in 5 { }", "only a list, a map, a text or a range can be gone through");
    refused_with(
        "let a = 0\"; for x in a..2 { }",
        "`..` counts whole numbers; quantities are counted by range(from, to, step)",
        "range(0in, 2in, 1/2in)",
    );
    refused("range(0, 5, 0)", "a step is above zero, and 0 is not");
    refused("range(0\", 5\")", "range cannot round a length to a number");
    check("range(5, 0)", "[]");
}

#[test]
fn texts_hold_values() {
    check("`w ${__len(91,8)} of ${[1/2, \"a\"]}`", "w 11 3/8\" of [1/2, \"a\"]");
    check("\"a\" + 'b' + \"c\"", "abc");
    check("let s = \"a\"; s += \"b\"; s += 'c'; s", "abc");
    check("\"oak\"[0] == \"o\"", "true");
    check("'a' == \"a\"", "true");
    check("\"oak\"[1..3]", "ak");
    check("5\".kind()", "length");
    check("(11 3/8\").mm() == 288.925mm.mm()", "true");
}

#[test]
fn closures_keep_what_they_saw() {
    check("let w = 2\"; let f = |x| x + w; f.call(1\")", "3\"");
    check("let n = 0; let f = || { n += 1 }; f.call(); f.call(); n", "2");
    check("let m = #{f: |x| x * 2}; m.f(3)", "6");
    check("let s = 0; [1, 2].map(|x| { s += x; x }); s", "3");
}
