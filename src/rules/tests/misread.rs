//! Rules files that cannot be read, and words that could never come true.

use super::faulty::{check, hinted};
use crate::rules::read_book;

const VALUE: &str = "this cannot be read; possible here: a value, a word in quotes or a name";

#[test]
fn entries_out_of_shape_tell_their_shape() {
    let start = "this is not a rule: an entry starts with a word such as field, for or stop, or is NAME = FORMULA";
    check("x == 2", (1, 1), start);
    check("x", (1, 1), start);
    check("  x = 1in", (1, 1), "an indented line continues an entry, but there is no entry before it");
    check("stop a if", (1, 1), "this stop cannot be read; it is written: stop NAME if CONDITION says TEXT");
    check("for", (1, 1), "this for cannot be read; it is written: for BUILD, BUILD");
    check("size art 1, 2", (1, 1), "this size cannot be read; it is written: size NAME = FIELD, FIELD, FIELD");
    check("group Work", (1, 7), "this cannot be read; possible here: a word in quotes");
    check("table more: oak", (1, 13), "this cannot be read; possible here: a word in quotes");
    check("field when length = 1in", (1, 7), "this cannot be read; possible here: a name");
    check("stop a if 1in > 2in", (1, 20), "this cannot be read; possible here: says or a sign");
    check("stop a if 1in > 2in says x\n  mend b", (2, 3), "this cannot be read; possible here: mend NAME = VALUE");
}

#[test]
fn formulas_out_of_shape_tell_what_may_stand() {
    let open = "something is not closed here: a bracket, or a choice without its else";
    check("x = 1in +", (1, 10), VALUE);
    check("x = max(1in, )", (1, 14), "this cannot be read; possible here: a value");
    check("x = (1in", (1, 9), open);
    check("x = if 1in > 2in { 3in }", (1, 24), open);
    check("stop a if 1in > 2in says {1in up}", (1, 31), open);
    check(
        "x = 3 parsecs",
        (1, 7),
        "this cannot be read; possible here: the next entry, \
        a clause such as up, above or when or a sign",
    );
    let deep = format!("x = {}1in{}", "(".repeat(5000), ")".repeat(5000));
    let text = format!("build float\nfor all\n{deep}\n");
    let found = read_book(&[("own.rules", &text)]).map(|_| ()).unwrap_err();
    assert_eq!(found.message(), "the brackets go too deep here");
}

#[test]
fn bad_literals_are_refused_where_they_stand() {
    hinted(
        "field gap length = 19-3/8",
        (1, 20),
        "19-3/8 can be read two ways: a mixed number or a difference",
        "19 3/8",
    );
    check("x = 2 * 1/0in", (1, 9), "1/0 has 0 below the line");
}

#[test]
fn records_keep_to_their_entries() {
    let alone = "`#` works only in an entry with `#` in its name";
    check("x = 2 * #", (1, 9), alone);
    check("field mat.#.wide length = 1in\nx = 2 * mat.#.wide", (2, 9), alone);
    check("field mat.#.wide length = 1in\nstop a if mat.#.wide > 1in says x", (2, 11), alone);
    hinted("field mat.#.wide length = 1in\nmat.#.far = mat.#.wid", (2, 13), "there is no name mat.1.wid", "mat.1.wide");
}

#[test]
fn given_asks_after_fields() {
    check("x = 1in\ny = if given(x) { x } else { x }", (2, 14), "given takes the name of a field, and x is worked out");
    check(
        "field a, b, c, d length = 1in\naround all = a, b, c, d\ny = if given(all) { a } else { b }",
        (3, 14),
        "given takes the name of a field, and all stands for several",
    );
    check("y = if given(1in) { 1in } else { 2in }", (1, 8), "given takes the name of a field");
}

#[test]
fn words_that_never_come_are_refused() {
    hinted("field own word from woods = \"oka\"", (1, 29), "own is never \"oka\"", "\"oak\"");
    let own = "field own word from woods = \"oak\"\n";
    hinted(
        &format!("{own}x = if own == \"ashe\" {{ 1in }} else {{ 2in }}"),
        (2, 15),
        "own is never \"ashe\"",
        "\"ash\"",
    );
    let own = "field build word from builds\n";
    hinted(
        &format!("{own}x = if build == \"flot\" {{ 1in }} else {{ 2in }}"),
        (2, 17),
        "build is never \"flot\"",
        "\"float\"",
    );
    check("field how \"one\" | \"two\" = \"three\"", (1, 27), "how is never \"three\"");
}
