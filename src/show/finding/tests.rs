use super::super::json;
use super::*;
use crate::measure::Manner;

#[track_caller]
fn check(diagnostic: &Diagnostic, typed: &str, width: usize, expected: &str) {
    let shown = finding(diagnostic, typed, width).render(width, false);
    assert_eq!(shown, expected, "\n{shown}");
}

#[test]
fn a_finding_points_into_the_line() {
    let line = "wire_sag(12, 20\")";
    let found = Diagnostic::new("span is a length, and 12 has no unit").at(9..11).hint("wire_sag(12\", 20\")");
    check(
        &found,
        line,
        80,
        "\
error: span is a length, and 12 has no unit
  wire_sag(12, 20\")
           ^^
  try: wire_sag(12\", 20\")
",
    );
}

#[test]
fn a_long_message_is_broken_in_forty_columns() {
    let line = "art 16 1/64\" x 20\" + reveal.left + reveal.right";
    let found = Diagnostic::new("reveal.left is 3/8\" and the opening is 16 49/64\" wide, which leaves no room")
        .at(21..32)
        .hint("reveal.left = 1/4\"");
    check(
        &found,
        line,
        40,
        "\
error: reveal.left is 3/8\" and the
       opening is 16 49/64\" wide, which
       leaves no room
  …64\" x 20\" + reveal.left + reveal.rig…
               ^^^^^^^^^^^
  try: reveal.left = 1/4\"
",
    );
}

#[test]
fn a_finding_in_a_file_names_it() {
    let text = "let a = 5in;\n\nlet b = é + a * c;\n";
    let at = text.find("c;").unwrap();
    let found = Diagnostic::new("there is no c").at(at..at + 1).inside("gallery.rhai", text);
    check(
        &found,
        "run gallery.rhai",
        80,
        "\
error: there is no c
  in gallery.rhai, line 3, column 17
  let b = é + a * c;
                  ^
",
    );
    let nowhere = Diagnostic::new("no build_for in it").inside("gallery.rhai", text);
    check(&nowhere, "", 80, "error: no build_for in it\n  in gallery.rhai\n");
}

#[test]
fn a_finding_without_a_place_is_said_alone() {
    check(&Diagnostic::new("nothing to undo"), "undo", 80, "error: nothing to undo\n");
    check(&Diagnostic::new("nothing there").at(0..0), "", 80, "error: nothing there\n");
}

#[test]
fn a_hint_stays_in_one_piece_to_be_pasted() {
    let hint = "hook_height(57\", 22 3/8\", 4\", wire_sag(12\", 20\"), 1/2\")";
    check(
        &Diagnostic::new("too few arguments").hint(hint),
        "",
        40,
        &format!("error: too few arguments\n  try: {hint}\n"),
    );
    check(&Diagnostic::new("x").hint("a\nb"), "", 40, "error: x\n  try: a\n       b\n");
}

#[test]
fn what_others_wrote_does_not_reach_the_terminal_raw() {
    let found = Diagnostic::new("no \u{1b}[2J here").at(0..1).inside("\u{1b}]0;x\u{7}", "\u{1b}");
    let shown = finding(&found, "", 80).render(80, false);
    assert!(!shown.replace('\n', "").chars().any(char::is_control), "{shown:?}");
}

#[track_caller]
fn check_json(diagnostic: &Diagnostic, typed: &str, expected: &str) {
    let manner = Manner::default();
    assert_eq!(json::line(&*json::failure(std::slice::from_ref(diagnostic), typed), &manner), format!("{expected}\n"));
}

#[test]
fn json_holds_what_is_known() {
    check_json(
        &Diagnostic::new("12 has no unit").at(4..6).hint("x 12\""),
        "é(12)",
        r#"{"reply":"error","error":{"code":"program.broken","message":"12 has no unit","hint":"x 12\"","fixes":["x 12\""],"line":1,"column":4}}"#,
    );
    check_json(
        &Diagnostic::new("nothing to undo"),
        "undo",
        r#"{"reply":"error","error":{"code":"program.broken","message":"nothing to undo"}}"#,
    );
    let inside = Diagnostic::new("no c").at(4..5).inside("a.rhai", "a\nb c");
    check_json(
        &inside,
        "run a.rhai",
        r#"{"reply":"error","error":{"code":"program.broken","message":"no c","in":"a.rhai","line":2,"column":3}}"#,
    );
}
