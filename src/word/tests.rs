use proptest::prelude::*;

use super::form::arg;
use super::*;

const DESIGN: Arg = arg(Kind::Design, "DESIGN", "the name of a design", "moth-07");
const FIELD: Arg = arg(Kind::Field, "FIELD", "the name of a field", "reveal");
const AMOUNT: Arg = arg(Kind::Amount, "VALUE", "the value wanted", "20\"");
const NOTE: Arg = arg(Kind::Note, "\"NOTE\"", "a note in quotes", "\"first\"");
const FILE: Arg = arg(Kind::File, "FILE", "a file name", "parts.csv");
const ANSWER: Arg = arg(Kind::Answer, "KEY=VALUE", "pairs", "face=3/4");
const STYLE: Arg = arg(Kind::Style, "STYLE", "the name of a style", "narrow");
const SETTING: Arg = arg(Kind::Setting, "SETTING", "the name of a setting", "unit");
const VALUE: Arg = arg(Kind::SettingValue, "VALUE", "a value", "mm");

const fn word(name: &'static str, forms: &'static [Form<&'static str>]) -> Word<&'static str> {
    Word { name, brief: "", forms, example: (&[], "") }
}

const fn form(parts: &'static [Part], action: &'static str) -> Form<&'static str> {
    Form { parts, action, tested: Tested::ByRunning }
}

const WORDS: &[Word<&str>] = &[
    word("sheet", &[form(&[], "sheet")]),
    word(
        "plan",
        &[
            form(&[Part::Maybe(&[&[Part::Literal("all", "")], &[Part::Many(DESIGN, ",")]])], "plan"),
            form(&[Part::Literal("put", ""), Part::Literal("back", "")], "put back"),
        ],
    ),
    word(
        "parts",
        &[form(
            &[
                Part::Maybe(&[&[Part::Literal("all", "")], &[Part::Many(DESIGN, ",")]]),
                Part::Maybe(&[&[Part::Literal("to", ""), Part::Arg(FILE)]]),
            ],
            "parts",
        )],
    ),
    word("aim", &[form(&[Part::Arg(DESIGN), Part::Arg(AMOUNT), Part::Literal("by", ""), Part::Arg(FIELD)], "aim")]),
    word("keep", &[form(&[Part::Arg(DESIGN), Part::Maybe(&[&[Part::Arg(NOTE)]])], "keep")]),
    word("style", &[form(&[Part::Arg(STYLE), Part::Maybe(&[&[Part::Many(ANSWER, "")]])], "style")]),
    word("shop", &[form(&[Part::Arg(SETTING), Part::Quiet("="), Part::Arg(VALUE)], "shop")]),
];

fn of(line: &str) -> (&'static Word<&'static str>, std::ops::Range<usize>) {
    let name = line.split_whitespace().next().unwrap();
    (WORDS.iter().find(|word| word.name == name).unwrap(), name.len()..line.len())
}

/// The form and the arguments of a line as text: `plan: a b`.
#[track_caller]
fn check(line: &str, expected: &str) {
    let (word, rest) = of(line);
    let (form, args) = word.read(line, rest).unwrap_or_else(|stuck| panic!("{line}: {}", stuck.message()));
    let shown = |given: &Given| match given.value {
        Value::Text(text) => text.to_string(),
        Value::Number(number) => number.to_string(),
        Value::Pair { key, value } => format!("{key}→{value}"),
    };
    for given in args.iter().filter(|given| matches!(given.value, Value::Text(_))) {
        assert_eq!(given.text(), &line[given.span.clone()], "{line}");
    }
    let all: Vec<String> = args.iter().map(shown).collect();
    assert_eq!(format!("{}: {}", form.action, all.join(" | ")), expected, "{line}");
}

/// What a line says that no form fits: the message, and the text that it points to with a `^` before it.
#[track_caller]
fn check_stuck(line: &str, message: &str, pointed: &str) {
    let (word, rest) = of(line);
    let stuck = word.read(line, rest).expect_err(line);
    let span = stuck.span();
    assert_eq!(stuck.message(), message, "{line}");
    assert_eq!(format!("{}^{}", &line[..span.start], &line[span]), pointed, "{line}");
}

#[test]
fn a_line_is_read_by_the_form_that_fits() {
    check("sheet", "sheet: ");
    check("plan", "plan: ");
    check("plan all", "plan: ");
    check("plan a, b c,d", "plan: a | b | c | d");
    check("plan put back", "put back: ");
    check("parts to my parts.csv", "parts: my parts.csv");
    check("parts a b to \"my parts.csv\"", "parts: a | b | my parts.csv");
    check("aim width 18 \" + 2 by reveal", "aim: width | 18 \" + 2 | reveal");
    check("aim width by by by", "aim: width | by | by");
    check("keep moth \"5\" wide; \"so\" it is\"", "keep: moth | 5\" wide; \"so\" it is");
    check("style narrow face=1 1/4 wood = hard maple", "style: narrow | face→1 1/4 | wood→hard maple");
    check("style narrow face= wood=oak", "style: narrow | face→ | wood→oak");
    for line in ["shop unit mm", "shop unit=mm", "shop unit = mm"] {
        check(line, "shop: unit | mm");
    }
}

#[test]
fn quotes_make_a_name_of_a_literal() {
    check("plan \"all\" \"put\"", "plan: all | put");
    check("parts \"to\" to x", "parts: to | x");
    check_stuck("plan put", "`plan put` needs `back`", "plan put^");
    // Behind a name only what can follow one is a literal.
    check("plan a put", "plan: a | put");
    check_stuck("parts a to", "`parts to` needs a file name", "parts a to^");
}

#[test]
fn what_is_missing_or_too_much_is_pointed_at() {
    check_stuck("sheet now and then", "nothing can follow `sheet`", "sheet ^now and then");
    check_stuck("keep", "`keep` needs the name of a design", "keep^");
    check_stuck("keep two lanterns", "names cannot contain spaces; put the note in quotes", "keep two ^lanterns");
    check_stuck("parts a to", "`parts to` needs a file name", "parts a to^");
    check_stuck("plan put it back", "`plan put` needs `back`, not `it`", "plan put ^it");
    check_stuck("aim width 20", "`aim` needs `by` and the name of a field", "aim width 20^");
    check_stuck("aim width 20 by", "`aim by` needs the name of a field", "aim width 20 by^");
    check_stuck("aim width 20 by 3", "`aim by` needs the name of a field, not `3`", "aim width 20 by ^3");
    check_stuck("style narrow wide face=1", "`style` takes pairs, not `wide`", "style narrow ^wide");
}

#[test]
fn usage_is_made_of_the_forms() {
    let usages: Vec<String> = WORDS.iter().map(Word::usage).collect();
    assert_eq!(
        usages,
        [
            "sheet",
            "plan [all | DESIGN, …] | put back",
            "parts [all | DESIGN, …] [to FILE]",
            "aim DESIGN VALUE by FIELD",
            "keep DESIGN [\"NOTE\"]",
            "style STYLE [KEY=VALUE …]",
            "shop SETTING VALUE",
        ]
    );
}

#[test]
fn literals_among_names_are_reserved() {
    assert_eq!(reserved(WORDS).into_iter().collect::<Vec<_>>(), ["all", "put", "to"]);
}

#[test]
fn what_could_stand_at_the_cursor_is_known() {
    let nexts = |line: &str| -> Vec<String> {
        let (word, rest) = of(line);
        let at_word = |at: usize| line[at..].split_whitespace().count() < 2 && !line[at..].ends_with(' ');
        let expected = word.expected(line, rest).into_iter().filter(|one| at_word(one.at));
        let shown = |one: Expected| match one.next {
            Next::Literal(text, _) => format!("{}:{text}", one.at),
            Next::Arg(arg) => format!("{}:{}", one.at, arg.name),
            Next::End => format!("{}:end", one.at),
        };
        let mut all: Vec<String> = expected.map(shown).collect();
        all.sort();
        all
    };
    assert_eq!(nexts("plan "), ["5:DESIGN", "5:all", "5:put"]);
    assert_eq!(nexts("parts x t"), ["8:DESIGN", "8:end", "8:to", "9:DESIGN", "9:to"]);
    assert_eq!(nexts("aim width 20 b"), ["13:by", "14:by"]);
}

proptest! {
    #[test]
    fn any_text_behind_a_word_is_read_or_refused(at in 0..WORDS.len(), behind in "[ \"=,a-cé]{0,24}|(all|put|to|by|back|a|\"|=|,| ){0,12}") {
        let line = format!("{} {behind}", WORDS[at].name);
        let (word, rest) = of(&line);
        match word.read(&line, rest.clone()) {
            Ok((_, args)) => prop_assert!(args.iter().all(|given| line.get(given.span.clone()).is_some())),
            Err(stuck) => {
                prop_assert!(line.get(stuck.span()).is_some());
                prop_assert!(!stuck.message().is_empty());
            }
        }
        for expected in word.expected(&line, rest) {
            prop_assert!(line.get(expected.at..).is_some());
        }
    }
}

#[test]
fn a_long_line_takes_its_time_in_proportion() {
    for many in ["by ", "a b ", "\" ", "a=", "a, ", "a by "] {
        let line = format!("aim x {}", many.repeat(100_000));
        let (word, rest) = of(&line);
        let _ = word.read(line.trim_end(), rest.start..line.trim_end().len());
        let line = format!("style x {}", many.repeat(20_000));
        let (word, rest) = of(&line);
        let _ = word.read(line.trim_end(), rest.start..line.trim_end().len());
    }
}
