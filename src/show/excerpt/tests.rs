use proptest::prelude::*;

use super::*;

#[track_caller]
fn check(text: &str, span: Span, width: usize, expected: &str) {
    let shown: Vec<String> = excerpt(text, &span, width).iter().map(|text| text.letters().to_string()).collect();
    let expected: Vec<&str> = expected.split('\n').skip(1).collect();
    assert_eq!(shown, expected, "\n{}", shown.join("\n"));
}

#[test]
fn carets_stand_under_the_place() {
    check("wire_sag(12, 20\")", 9..11, 80, "\n  wire_sag(12, 20\")\n           ^^");
    check("reveal 5/8", 7..10, 80, "\n  reveal 5/8\n         ^^^");
}

#[test]
fn an_empty_place_has_one_caret() {
    check("tape 5'", 5..5, 80, "\n  tape 5'\n       ^");
    check("sqrt(", 5..5, 80, "\n  sqrt(\n       ^");
    check("sqrt(", 99..120, 80, "\n  sqrt(\n       ^");
    check("", 0..0, 80, "\n  \n  ^");
}

#[test]
fn what_is_missing_at_the_end_is_missing_behind_the_last_word() {
    check("sqrt(2\n\n", 8..8, 80, "\n  sqrt(2\n        ^");
    check("sqrt(2  ", 8..8, 80, "\n  sqrt(2  \n          ^");
}

#[test]
fn wide_letters_and_marks_count_as_their_columns() {
    check("client 額縁 x", 7..13, 80, "\n  client 額縁 x\n         ^^^^");
    check("client 額縁 x", 14..15, 80, "\n  client 額縁 x\n              ^");
    // A letter and its mark are one column; a place that begins at the mark points at the letter.
    check("cafe\u{301} = 5", 9..10, 80, "\n  cafe\u{301} = 5\n         ^");
    check("cafe\u{301} = 5", 4..6, 80, "\n  cafe\u{301} = 5\n     ^");
    // Bytes that fall inside a letter point at all of it.
    check("é = 5", 1..2, 80, "\n  é = 5\n  ^");
}

#[test]
fn tabs_are_as_wide_in_both_lines() {
    check("\tlet x = y;", 9..10, 80, "\n      let x = y;\n              ^");
    check("ab\tc", 3..4, 80, "\n  ab  c\n      ^");
    check("ab\tc", 2..3, 80, "\n  ab  c\n    ^^");
}

#[test]
fn control_letters_are_shown_harmlessly() {
    check("a\u{1b}[31mb", 6..7, 80, "\n  a␛[31mb\n        ^");
    check("x\u{202e}y\u{200b}z", 8..9, 80, "\n  x\u{fffd}y\u{fffd}z\n      ^");
}

#[test]
fn a_place_over_several_lines_shows_them() {
    let text = "let a = wire_sag(12\",\n    20\",\n    nothing)\nlet b = 5";
    check(
        text,
        8..text.find("\nlet b").unwrap(),
        80,
        "
  let a = wire_sag(12\",
          ^^^^^^^^^^^^^
      20\",
      ^^^^
      nothing)
      ^^^^^^^^",
    );
    check("one\r\n\r\ntwo\r\nthree", 1..9, 80, "\n  one\n   ^^\n  \n  two\n  ^^");
}

#[test]
fn a_place_over_many_lines_says_how_many_are_left_out() {
    let text = "a\nb\nc\nd\ne\nf\ng";
    check(text, 2..11, 80, "\n  b\n  ^\n  c\n  ^\n  … 2 more lines\n  f\n  ^");
}

#[test]
fn a_long_line_is_cut_around_the_place() {
    let text = "let total = rail_top + rail_side + strip_top + strip_side + brads + glue";
    let at = |word: &str| text.find(word).map(|at| at..at + word.len()).unwrap();
    check(
        text,
        at("strip_top"),
        40,
        "
  … rail_side + strip_top + strip_side …
                ^^^^^^^^^",
    );
    check(
        text,
        at("let"),
        40,
        "
  let total = rail_top + rail_side + s…
  ^^^",
    );
    check(
        text,
        at("glue"),
        40,
        "
  …trip_top + strip_side + brads + glue
                                   ^^^^",
    );
    check(
        text,
        0..text.len(),
        40,
        "
  let total = rail_top + rail_side + s…
  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^…",
    );
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn any_place_in_any_text_fits(
        text in "([a-z \t\n額é🖼]|e\u{301}|\u{1b}|\u{200b}|\r\n|[a-z]{20}){0,30}",
        start in 0..200_usize,
        length in 0..200_usize,
        width in 20..90_usize,
    ) {
        let shown = excerpt(&text, &(start..start + length), width);
        prop_assert!(!shown.is_empty());
        prop_assert!(shown.iter().any(|line| line.letters().contains('^')));
        for line in shown {
            prop_assert!(line.width() <= width, "{:?}", line.letters());
            prop_assert!(!line.letters().chars().any(char::is_control));
        }
    }

    #[test]
    fn the_carets_span_what_was_meant(
        before in "[a-z額\t ]{0,12}",
        word in "[a-z額]{1,6}",
        after in "[a-z額 ]{0,12}",
    ) {
        let text = format!("{before}{word}{after}");
        let shown = excerpt(&text, &(before.len()..before.len() + word.len()), 200);
        let (source, carets) = (shown[0].letters(), shown[1].letters());
        prop_assert_eq!(width(&word), carets.trim_start().len());
        // What stands over the carets is the word: take as many columns off the source as there are before them.
        let mut left = carets.len() - carets.trim_start().len();
        let rest: String = clusters(source).skip_while(|(_, width)| {
            let over = left > 0;
            left = left.saturating_sub(*width);
            over
        }).map(|(cluster, _)| cluster).collect();
        prop_assert!(rest.starts_with(&word), "{}\n{}", source, carets);
    }
}
