//! Faulty rules files: each is refused with its message, at its line and column.

use crate::diag::{Diagnostic, Fix, line_column};
use crate::rules::read_book;

/// Four lines that every row goes on from, so that its own first line is the fifth.
const HEAD: &str = "build float
build deep
table woods: \"oak\", \"ash\"
for all
";

#[track_caller]
fn refused(text: &str) -> (Diagnostic, usize, usize) {
    let text = format!("{HEAD}{text}\n");
    let found = read_book(&[("own.rules", &text)]).map(|_| ()).expect_err("a faulty file");
    let source = found.source.as_ref().expect("a fault names its file");
    assert_eq!((source.name.as_str(), source.text.as_str()), ("own.rules", text.as_str()));
    let place = found.span.clone().unwrap_or_else(|| panic!("no place: {}", found.message()));
    let (line, column) = line_column(&text, place.start);
    (found, line, column)
}

/// `text` stands from line 5 on; the fault is expected at `place`, a line counted within `text` and a column.
#[track_caller]
pub(super) fn check(text: &str, place: (usize, usize), message: &str) {
    let (found, line, column) = refused(text);
    assert_eq!((found.message().as_str(), (line - 4, column)), (message, place), "{text}");
}

#[track_caller]
pub(super) fn hinted(text: &str, place: (usize, usize), message: &str, hint: &str) {
    check(text, place, message);
    let found = refused(text).0;
    let line = Fix::Value(hint.into()).line(&found.source.as_ref().unwrap().text, found.span.as_ref());
    assert_eq!(found.fixed("").first(), line.as_ref(), "{text}");
}

#[test]
fn the_head_alone_is_sound() {
    let text = format!("{HEAD}field gap length = 1/4in above 0in up when 1 < 2 -- fine\nwide = 2 * gap\n");
    assert!(read_book(&[("own.rules", &text)]).is_ok());
}

#[test]
fn unknown_names_are_refused_with_near_ones() {
    hinted("field gap length = 1in\nwide = 2 * gab", (2, 12), "there is no name gab", "gap");
    hinted("wide = maxx(1in, 2in)", (1, 8), "there is no function maxx", "max");
    hinted("field gap word from wods = \"oak\"", (1, 21), "there is no table wods", "woods");
    hinted("for flaot\nwide = 1in", (1, 5), "there is no build flaot", "float");
    hinted("for flaot", (1, 5), "there is no build flaot", "float");
    hinted("field gap length = 1in\naround all = gap, gop", (2, 19), "there is no name gop", "gap");
    hinted("field gap length above 2 * gup", (1, 28), "there is no name gup", "gap");
    hinted("field gap length = 1in when gep > 0in", (1, 29), "there is no name gep", "gap");
    check("wide = zebra", (1, 8), "there is no name zebra");
    check("field gap lenght = 1in", (1, 11), "this cannot be read; possible here: a kind such as length, or its words");
}

#[test]
fn unknown_names_in_checks_have_a_place() {
    let gap = "field gap length = 1in\n";
    hinted(&format!("{gap}stop a if gop > 0in says x"), (2, 11), "there is no name gop", "gap");
    hinted(&format!("{gap}stop a if gap > 0in says x {{gop}}"), (2, 29), "there is no name gop", "gap");
    hinted(&format!("{gap}stop a if gap > 0in says x\n  mend gip = 1in"), (3, 8), "there is no name gip", "gap");
    hinted(&format!("{gap}stop a if gap > 0in says x\n  mend gap = 2 * gip"), (3, 18), "there is no name gip", "gap");
}

#[test]
fn names_of_other_builds_are_refused() {
    check(
        "for deep\nfield lip length = 1in\nfor float\nwide = 2 * lip",
        (4, 12),
        "lip is for deep, and this is for float",
    );
    check(
        "for deep\nfield lip length = 1in\nfor float\nstop a if lip > 1in says x",
        (4, 11),
        "lip is for deep, and this is for float",
    );
    check(
        "for deep\nfield lip length = 1in\nfor all\nstop a if lip > 1in says x\n  mend lip = 1in",
        (5, 8),
        "lip cannot be set for float",
    );
}

#[test]
fn unlike_kinds_are_refused_in_every_operator() {
    let head = "field gap length = 1in\nfield load mass = 1lb\nfield own word from woods = \"oak\"\n";
    let row =
        |formula: &str, column: usize, message: &str| check(&format!("{head}x = {formula}"), (4, column), message);
    row("gap + load", 5, "cannot add a length and a mass");
    row("1in + (gap - load)", 12, "cannot subtract a length and a mass");
    row("gap * own", 5, "cannot multiply a length and a word");
    row("own / gap", 5, "cannot divide a word and a length");
    row("if gap > load { gap } else { gap }", 8, "cannot compare a length and a mass");
    row("if gap >= 1 { gap } else { gap }", 8, "cannot compare a length and a number");
    row("if gap < load { gap } else { gap }", 8, "cannot compare a length and a mass");
    row("if gap <= load { gap } else { gap }", 8, "cannot compare a length and a mass");
    row("if gap == own { gap } else { gap }", 8, "cannot compare a length and a word");
    row("if gap != 3lb { gap } else { gap }", 8, "cannot compare a length and a mass");
    row("if own < \"ash\" { gap } else { gap }", 8, "cannot compare a word and a word");
    row("if gap && own == \"ash\" { gap } else { gap }", 8, "cannot join a length and yes or no");
    row("if own == \"ash\" || load { gap } else { gap }", 8, "cannot join yes or no and a mass");
    row("gap ?? load", 5, "cannot choose between a length and a mass");
    row("-own", 5, "cannot negate a word");
    row("if !gap { gap } else { gap }", 8, "`!` wants a condition, not a length");
    row("if gap > 0in { gap } else { load }", 5, "the two ways are a length and a mass");
    row("if gap { gap } else { gap }", 8, "a choice wants a condition, not a length");
    row("max(gap, load)", 5, "cannot compare a length and a mass");
    row("min(own)", 5, "cannot compare a word and a word");
    row("sqrt(gap)", 5, "sqrt wants a number or an area, not a length");
    row("tan(gap)", 5, "tan wants an angle, not a length");
    row("atan(30°)", 5, "atan wants a number, not an angle");
    row("abs(own)", 5, "abs wants a quantity, not a word");
    row("tan(30°, 40°)", 5, "tan takes one argument, not 2");
}

#[test]
fn conditions_bounds_and_rounding_want_their_kinds() {
    check("field gap length = 1in when 2in", (1, 29), "`when` wants a condition, not a length");
    check("field gap length = 1in\nstop a if gap says x", (2, 11), "a wants a condition, not a length");
    check("field gap length = 1in above 0lb", (1, 30), "gap is a length, and this bound a mass");
    check("field gap length = 1in from 0in to 5", (1, 36), "gap is a length, and this bound a number");
    check("field own word from woods = \"oak\" above 0", (1, 41), "own is a word, and this bound a number");
    check("x = 3lb up", (1, 9), "only a length is rounded to the tape, and x is a mass");
    check("field gap length = 3lb", (1, 20), "gap is a length, but its formula gives a mass");
    check(
        "field gap length = 1in\nstop a if gap > 0in says x\n  mend gap = 3lb",
        (3, 14),
        "gap is a length, not a mass",
    );
    check("x = 1in above 0in", (1, 15), "only what a person gives has a range, and x is worked out");
    check("field gap length = 1in optional", (1, 24), "gap has a value, so it is never left out");
}

#[test]
fn names_are_defined_once() {
    let twice = "gap is defined twice for float; write `instead` before the one that counts";
    check("field gap length = 1in\nfield gap length = 2in", (2, 7), twice);
    check("field gap length = 1in\nfor float\ngap = 2in", (3, 1), twice);
    check("instead gap = 2in", (1, 9), "there is no gap for float to replace");
    check("for deep\ngap = 2in\nfor all\ninstead gap = 2in", (4, 9), "there is no gap for float to replace");
    check("for float\ngap = 2in\nfor deep\ngap = 2lb", (4, 7), "gap is a length, but its formula gives a mass");
    check("for float\nfield gap length\nfor deep\nfield gap mass", (4, 7), "gap is a mass here and a length elsewhere");
    check("build deep", (1, 7), "the build deep is defined twice");
    check("table woods: \"oak\"", (1, 7), "the table woods is defined twice");
    check("table more: \"oak\", \"ash\", \"oak\"", (1, 27), "\"oak\" is in its table twice");
    check("idle = 1in", (1, 1), "idle has a meaning of its own and cannot be a name");
}

#[test]
fn checks_are_defined_once_and_mend_fields() {
    let head = "field gap length = 1in\nstop a if gap > 2in says x\n";
    let twice = "the check \"a\" is defined twice; write `instead` before the one that counts";
    check(&format!("{head}warn a if gap > 2in says x"), (3, 6), twice);
    check(
        &format!("{head}instead stop b if gap > 3in says x"),
        (3, 14),
        "there is no check \"b\" for float to replace",
    );
    check(
        &format!("wide = 2in\n{head}note b if gap > 2in says x\n mend wide = 1in"),
        (5, 7),
        "wide cannot be set for float and deep",
    );
    let replaced = format!("{HEAD}{head}for deep\ninstead note a if gap > 3in says y\n");
    let book = read_book(&[("own.rules", &replaced)]).unwrap();
    let checks: Vec<(&str, &[u8])> = book.checks.iter().map(|one| (one.name.as_str(), one.builds.as_slice())).collect();
    assert_eq!(checks, [("a", &[0][..]), ("a", &[1][..])]);
}

#[test]
fn circles_are_told_with_their_path() {
    check("x = x + 1in", (1, 1), "x goes round in a circle: x needs x");
    check("x = 2 * y\ny = z + 1in\nz = x / 2", (1, 1), "x goes round in a circle: x needs y needs z needs x");
    check("x = 1in when y > 1in\ny = 2 * x", (1, 1), "x goes round in a circle: x needs y needs x");
    check(
        "field gap length = 1in\neither x = y + gap\nor y = x - gap\nelse y = 2 * x",
        (2, 8),
        "x goes round in a circle: x needs y needs x",
    );
    check(
        // Only while `gap` is given does x read y.
        "field gap length optional\nx = if given(gap) { y } else { 1in }\ny = 2 * x",
        (2, 1),
        "x goes round in a circle: x needs y needs x",
    );
    check(
        // Asking after a given field looks at whether it applies.
        "field gap length optional when x > 1in\nx = if given(gap) { 1in } else { 2in }",
        (1, 7),
        "gap goes round in a circle: gap needs x needs gap",
    );
}
