use super::*;
use crate::measure::{Graduation, inches};

fn graduation(name: &str) -> Graduation {
    Graduation::all().find(|graduation| graduation.name == name).unwrap()
}

#[track_caller]
fn check((n, d): (i64, i64), name: &str, width: usize, expected: &str) {
    let manner = Manner { graduation: graduation(name) };
    let shown = tape(&inches(Real::ratio(n, d)), &manner, width).unwrap().render(width, false);
    assert_eq!(shown, expected.trim_start_matches('\n'), "\n{shown}");
}

#[track_caller]
fn said(value: Real, name: &str, expected: &str) {
    let manner = Manner { graduation: graduation(name) };
    let lines = tape(&inches(value), &manner, 200).unwrap().lines(200);
    assert_eq!(lines.last().unwrap().letters(), expected);
}

#[test]
fn sixteenths_at_eighty() {
    check(
        (247, 16),
        "1/16 in",
        80,
        r#"
                               15 7/16"
                                  ▼
 ─┬───┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬─
      │       ╵       │       ╵       │       ╵       │       ╵       │       ╵
      │                               ╵                               │
      ╵                                                               ╵
     15"     1/8     1/4     3/8     1/2     5/8     3/4     7/8     16"     1/8

15 7/16" is 7 sixteenths past 15", one mark short of the half
"#,
    );
}

#[test]
fn sixteenths_at_forty() {
    check(
        (247, 16),
        "1/16 in",
        40,
        r#"
               15 7/16"
                  ▼
 ─┬─┯━┯━┯━┯━┯━┯━┯━┯─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─
    │   ╵   │   ╵   │   ╵   │   ╵   │
    │               ╵               │
    ╵                               ╵
   15"     1/4     1/2     3/4     16"

15 7/16" is 7 sixteenths past 15", one
mark short of the half
"#,
    );
}

#[test]
fn between_two_marks_at_eighty() {
    check(
        (2000, 127),
        "1/16 in",
        80,
        r#"
                                               15 3/4" - 0.002"
                                                      ▼
 ─┬───┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯━━━┯───┬───┬───┬───┬───┬───┬─
      │       ╵       │       ╵       │       ╵       │       ╵       │       ╵
      │                               ╵                               │
      ╵                                                               ╵
     15"     1/8     1/4     3/8     1/2     5/8     3/4     7/8     16"     1/8

                                 ▼
  ┝━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━─┤
  15 11/16"                 15 3/4"

between 15 11/16" and 15 3/4": 0.0605" past the first, 0.002" short of the
second; 15 3/4" is 3 quarters past 15"
"#,
    );
}

#[test]
fn between_two_marks_at_forty() {
    check(
        (1073, 64),
        "1/16 in",
        40,
        r#"
                      16 3/4" + 1/64"
                             ▼
 ─┬─┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┬─┬─┬─┬─┬─
    │   ╵   │   ╵   │   ╵   │   ╵   │
    │               ╵               │
    ╵                               ╵
   16"     1/4     1/2     3/4     17"

          ▼
  ┝━━━━━━━────────────────────────┤
  16 3/4"                 16 13/16"

between 16 3/4" and 16 13/16": 1/64"
past the first, 3/64" short of the
second; 16 3/4" is 3 quarters past 16"
"#,
    );
}

#[test]
fn nought() {
    check(
        (0, 1),
        "1/16 in",
        40,
        r#"
  0"
  ▼
  ┍─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─
  │   ╵   │   ╵   │   ╵   │   ╵   │   ╵
  │               ╵               │
  ╵                               ╵
  0"     1/4     1/2     3/4      1"

0" is the very end of the tape
"#,
    );
}

#[test]
fn near_the_end() {
    check(
        (1, 16),
        "1/16 in",
        80,
        r#"
    1/16"
      ▼
  ┍━━━┯───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬─
  │       ╵       │       ╵       │       ╵       │       ╵       │       ╵
  │                               ╵                               │
  ╵                                                               ╵
  0"     1/8     1/4     3/8     1/2     5/8     3/4     7/8      1"     1/8

1/16" is one sixteenth from the end of the tape, the first mark after it
"#,
    );
}

#[test]
fn eighths() {
    check(
        (123, 8),
        "1/8 in",
        40,
        r#"
              15 3/8"
                 ▼
 ─┬──┬──┯━━┯━━┯━━┯──┬──┬──┬──┬──┬──┬──┬─
  ╵     │     ╵     │     ╵     │     ╵
        │                       │
 3/4   15"   1/4   1/2   3/4   16"   1/4

15 3/8" is 3 eighths past 15", one mark
short of the half
"#,
    );
}

#[test]
fn thirty_seconds() {
    check(
        (501, 32),
        "1/32 in",
        80,
        r#"
                                              15 21/32"
                                                  ▼
 ─┬─┬─┬─┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯━┯─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─┬─
    ╵   │   ╵   │   ╵   │   ╵   │   ╵   │   ╵   │   ╵   │   ╵   │   ╵   │   ╵
        │               ╵               │               ╵               │
        │                                                               │
       15"     1/8     1/4     3/8     1/2     5/8     3/4     7/8     16"

15 21/32" is 21 thirty-seconds past 15", one mark past the 5/8
"#,
    );
}

#[test]
fn sixty_fourths_at_eighty() {
    check(
        (1001, 64),
        "1/64 in",
        80,
        r#"
                                             15 41/64"
                                                 ▼
 ─┬┬┬┬┬┬┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┯┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬─
  ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵
        │       ╵       │       ╵       │       ╵       │       ╵       │
        │                               ╵                               │
        ╵                                                               ╵
       15"     1/8     1/4     3/8     1/2     5/8     3/4     7/8     16"

15 41/64" is 41 sixty-fourths past 15", one mark past the 5/8
"#,
    );
}

#[test]
fn sixty_fourths_at_forty() {
    check(
        (1001, 64),
        "1/64 in",
        40,
        r#"
         15 41/64"
             ▼
 ─┬┬┯┯┯┯┯┯┯┯┯┯┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬┬─
  ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵ │ ╵
    │       ╵       │       ╵       │
    ╵                               │
                                    ╵
 15 1/2"   5/8     3/4     7/8     16"

15 41/64" is 41 sixty-fourths past 15",
one mark past the 5/8
"#,
    );
}

#[test]
fn a_mile() {
    check(
        (63360, 1),
        "1/16 in",
        80,
        r#"
                                    63360"
                                      ▼
 ─┬───┬───┬───┬───┬───┬───┬───┬───┬───┯───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬─
      │       ╵       │       ╵       │       ╵       │       ╵       │       ╵
      ╵                               │                               ╵
                                      ╵
     1/2     5/8     3/4     7/8    63360"   1/8     1/4     3/8     1/2     5/8

63360" is the mark numbered 63360
"#,
    );
}

#[test]
fn half_millimetres() {
    check(
        (2875, 254),
        "0.5 mm",
        80,
        r#"
                                                  287.5 mm
                                                     ▼
 ─┬──┬──┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯──┬──┬──┬──┬──┬──┬──┬──┬─
  ╵     │     ╵     ╵     ╵     ╵     │     ╵     ╵     ╵     ╵     │     ╵
        │                                                           │
      280 mm                         285                          290 mm

287.5 mm is 7.5 mm past 280 mm, five marks short of 290 mm
"#,
    );
}

#[test]
fn millimetres_at_forty() {
    check(
        (91, 8),
        "1 mm",
        40,
        r#"
                       289 mm - 0.075 mm
                                ▼
 ─┬──┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯━━┯──┬──┬─
     │              ╵              │
     ╵                             ╵
   280 mm          285           290 mm

                                ▼
  ┝━━━━━━━━━━━━━━━━━━━━━━━━━━━━━──┤
  288 mm                     289 mm

between 288 mm and 289 mm: 0.925 mm past
the first, 0.075 mm short of the second;
289 mm is 9 mm past 280 mm, one mark
short of 290 mm
"#,
    );
}

#[test]
fn millimetres_at_eighty() {
    check(
        (2000, 127),
        "1 mm",
        80,
        r#"
                                    400 mm
                                      ▼
 ─┬───┬───┬───┬───┬───┬───┬───┬───┬───┯───┬───┬───┬───┬───┬───┬───┬───┬───┬───┬─
                  ╵                   │                   ╵                   │
                                      ╵                                       ╵
                 395                400 mm               405              410 mm

400 mm is the mark numbered 400
"#,
    );
}

#[test]
fn the_words_are_right_in_every_case() {
    let sixteenth = |n, d, expected| said(Real::ratio(n, d), "1/16 in", expected);
    sixteenth(15, 1, "15\" is the mark numbered 15");
    sixteenth(31, 2, "15 1/2\" is one half past 15\"");
    sixteenth(61, 4, "15 1/4\" is one quarter past 15\"");
    sixteenth(121, 8, "15 1/8\" is one eighth past 15\", the second mark after it");
    sixteenth(241, 16, "15 1/16\" is one sixteenth past 15\", the first mark after it");
    sixteenth(243, 16, "15 3/16\" is 3 sixteenths past 15\", one mark short of the quarter");
    sixteenth(249, 16, "15 9/16\" is 9 sixteenths past 15\", one mark past the half");
    sixteenth(255, 16, "15 15/16\" is 15 sixteenths past 15\", one mark short of 16\"");
    sixteenth(1, 8, "1/8\" is one eighth from the end of the tape, the second mark after it");
    sixteenth(
        537,
        32,
        "halfway between 16 3/4\" and 16 13/16\", 1/32\" from each; \
         16 13/16\" is 13 sixteenths past 16\", one mark past the three quarters",
    );
    sixteenth(
        1,
        1_000_000,
        "between 0\" and 1/16\": under 0.0001\" past the first, 0.0625\" short of the second; \
         0\" is the very end of the tape",
    );
    said(
        Real::whole(2).sqrt(),
        "1/16 in",
        "between 1 3/8\" and 1 7/16\": about 0.0392\" past the first, about 0.0233\" short of the second; \
         1 7/16\" is 7 sixteenths past 1\", one mark short of the half",
    );
    said(Real::ratio(5, 127), "1 mm", "1 mm is 1 mm from the end of the tape, the first mark after it");
    said(Real::ratio(1015, 127), "1 mm", "203 mm is 3 mm past 200 mm, two marks short of 205 mm");
}

#[test]
fn what_no_tape_has_is_refused() {
    let refused = |value: Real| tape(&inches(value), &Manner::default(), 80).unwrap_err();
    let below = refused(Real::ratio(-1, 8));
    assert_eq!(below.message(), "a tape begins at 0, so it cannot show -1/8\"");
    assert_eq!(below.offered("").as_deref(), Some("tape 1/8\""));
    assert_eq!(refused(Real::whole(10).power(20)).message(), "no tape is that long");
    assert_eq!(refused(Real::ONE / Real::ZERO).message(), "this divides by zero");
}
