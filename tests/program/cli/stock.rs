//! What the shop has, as several programs and hands change it.

use std::process::Stdio;

use crate::program::{Home, finish};

const HEAD: &str = "what,length,width,count,cost,wood,section\n";

/// Four programs at once, thirty rows each: every row that was answered as added is there.
#[test]
fn rows_of_several_programs_are_all_there() {
    let home = Home::new();
    let children: Vec<_> = (0..4)
        .map(|nth| {
            let lines: String =
                (0..30).map(|row| format!("stock add stick, 8ft, , 1, 9, oak, {nth} x 2/{row}\n")).collect();
            let lines = lines.replace("/0\n", "\n");
            let input = home.file(&format!("lines-{nth}"), lines);
            let input = std::fs::File::open(input).unwrap();
            let mut command = home.command(&[]);
            command.stdin(Stdio::from(input)).spawn().unwrap()
        })
        .collect();
    for child in children {
        let ran = finish(child);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    }
    assert_eq!(home.read("stock.csv").lines().count(), 122);
}

const FRAME: [&str; 3] = ["art 16 x 20 x 3/4", "wood poplar", "plan"];
const GOOD: &str = "stick,8ft,,4,12.50,poplar,3/4in x 1 5/8in\nstick,8ft,,4,12.50,poplar,3/4in x 1/2in\n";

/// A row with a fault is reported with its place, and the table is left as it is.
#[test]
fn a_row_that_cannot_be_read_is_not_written_away() {
    let home = Home::new();
    let table = format!("{HEAD}stick,bad,,4,12.5,poplar,3/4in x 1/2in\n{GOOD}");
    home.file("stock.csv", &table);
    let ran = home.say(&[&FRAME[..], &["plan take", "stock drop 1"]].concat());
    let reported = "warn: stock.csv, line 2: bad is not a number or a dimension; a length is written as in 16 1/2; the row is \
        left out ";
    assert!(ran.out.split_whitespace().collect::<Vec<_>>().join(" ").contains(reported), "{}", ran.out);
    let place = "  in stock.csv, line 2, column 7\n  stick,bad,,4,12.5,poplar,3/4in x 1/2in\n        ^^^\n";
    assert_eq!(ran.err.matches(place).count(), 2, "{}", ran.err);
    assert_eq!((home.read("stock.csv"), ran.status), (table, 1));
}

/// A unit at the last part of a size is that of every part, on any bench: what a plan offers makes the stock usable.
#[test]
fn a_size_with_one_unit_has_it_at_every_part() {
    let home = Home::new();
    home.file("parts.csv", "name,length,quantity,wood,section\nrail,20in,2,oak,19.05 x 38.1mm\n");
    for (row, section) in [
        ("stick,2400mm,,,12.50,oak,19.05 x 38.1mm", "19.05mm x 38.1mm"),
        ("stick,96in,,5,1,oak,19 x 38mm", "19mm x 38mm"),
        ("stick,96in,,5,1,oak,3/4 x 1 1/2in", "3/4in x 1 1/2in"),
    ] {
        let ran = home.say(&[&format!("stock add {row}")]);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""));
        assert!(home.read("stock.csv").contains(&format!(",oak,{section}\n")), "{}", home.read("stock.csv"));
    }
    let ran = home.run(&["plan", "parts.csv"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    // By hand, a unit at the first part alone: no unit for the rest of the table mends that, and none is offered.
    home.file("stock.csv", format!("{HEAD}stick,96in,,,1,oak,19mm x 38\n"));
    let ran = home.say(&["stock unit in"]);
    assert!(
        ran.err.contains("has a unit at its first part alone") && !ran.err.contains("try: stock unit"),
        "{}",
        ran.err
    );
}

/// A stick has its width in its section; a plan that takes nothing is not taken; an empty table is a recorded stock.
#[test]
fn what_makes_no_sense_is_refused() {
    let home = Home::new();
    let ran = home.say(&["stock add stick,96in,5in,1,2,oak,3/4in x 1in"]);
    assert!(ran.err.contains("a stick has no width of its own") && ran.status == 1, "{}", ran.err);
    assert!(!home.path().join("stock.csv").exists());
    let ran = home.say(&["stock add stick,96in,,1,2,ebony,3/4in x 1in", FRAME[0], "plan", "plan take"]);
    assert!(ran.err.contains("there is nothing to take") && ran.status == 1, "{}", ran.err);
    let ran = home.say(&["stock drop 1", "stock"]);
    assert!(ran.out.contains("the stock is recorded as empty"), "{}", ran.out);
}

/// A record of takes that is cut off keeps nobody from the stock, and whoever needs it learns what to do.
#[test]
fn a_damaged_record_of_takes_stops_only_takes() {
    let home = Home::new();
    home.file("stock.csv", format!("{HEAD}{GOOD}"));
    home.file("stock.takes.json", "{\"file\": \"bench");
    let ran = home.say(&[&FRAME[..], &["stock", "stock add stick,96in,,1,2,oak,3/4in x 1in"]].concat());
    assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{}", ran.out);
    let ran = home.say(&["plan put back"]);
    assert!(ran.err.contains("stock.takes.json in") && ran.err.contains("move it out of there"), "{}", ran.err);
}

/// A file of a newer program is read by that program; no line relabels it.
#[test]
fn a_newer_table_is_not_relabelled() {
    let home = Home::new();
    home.file("stock.csv", format!("# benchrule stock 2\n{HEAD}{GOOD}"));
    let ran = home.say(&["stock"]);
    assert!(ran.err.contains("newer program that wrote it") && !ran.err.contains("try:"), "{}", ran.err);
}

/// A run of many works reports such a row once, with its plan.
#[test]
fn a_run_tells_of_a_row_once() {
    let home = Home::new();
    home.file("stock.csv", format!("{HEAD}stick,bad,,4,12.5,poplar,3/4in x 1/2in\n{GOOD}"));
    home.file("works.csv", "name,art\nheron,16 x 20 x 3/4\nkite,11 x 14 x 3/4\n");
    let ran = home.run(&["batch", "works.csv", "--plan"]);
    assert_eq!(format!("{}{}", ran.out, ran.err).matches("bad is not a number").count(), 1, "{}{}", ran.out, ran.err);
    home.file("stock.csv", format!("{}stick,8ft,,4,12.5,poplar,3/4in x 1/2in\n", HEAD.replace("length", "long")));
    let ran = home.run(&["batch", "works.csv", "--plan"]);
    assert_eq!(format!("{}{}", ran.out, ran.err).matches("no column length").count(), 1, "{}{}", ran.out, ran.err);
}

/// Two programs plan out of the same sticks: the second to take them is reported.
#[test]
fn a_stick_is_taken_once() {
    let home = Home::new();
    home.file("stock.csv", format!("{HEAD}{GOOD}"));
    let taken = home.say(&[&FRAME[..], &["plan take"]].concat());
    assert!(taken.out.contains("took 2 from stock, added 2 offcuts"), "{}{}", taken.out, taken.err);
    // As if the other had planned before this one took.
    let after = home.read("stock.csv");
    home.file("stock.csv", format!("{HEAD}{GOOD}"));
    let mut other = home.command(&[]);
    let mut other = other.stdin(Stdio::piped()).spawn().unwrap();
    crate::program::feed(&mut other, &format!("{}\n", FRAME.join("\n")));
    let mut said = std::io::BufReader::new(other.stdout.take().unwrap());
    let mut line = String::new();
    while !line.starts_with("Sticks") {
        line.clear();
        assert!(std::io::BufRead::read_line(&mut said, &mut line).unwrap() > 0);
    }
    home.file("stock.csv", &after);
    crate::program::feed(&mut other, "plan take\n");
    drop(other.stdin.take());
    let mut rest = String::new();
    std::io::Read::read_to_string(&mut said, &mut rest).unwrap();
    let ran = finish(other);
    assert!(ran.err.starts_with("error: the stock was changed since the plan was made"), "{}", ran.err);
    assert_eq!(home.read("stock.csv"), after);
}

/// Tables go where nothing is, or over one of their kind.
#[test]
fn nothing_but_a_table_is_written_over() {
    let home = Home::new();
    home.file("notes.csv", "screws at 12\n");
    let art = "art 16 x 20 x 3/4";
    let ran = home.say(&[art, "parts to notes.csv"]);
    assert!(ran.err.starts_with("error: notes.csv exists and is not a table of parts"), "{}", ran.err);
    assert_eq!(home.read("notes.csv"), "screws at 12\n");
    let ran = home.say(&[art, "parts to parts.csv", "parts to parts.csv"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    let ran = home.say(&[art, "parts to none/parts.csv"]);
    assert!(ran.err.starts_with("error: none/parts.csv cannot be written: there is no folder none"), "{}", ran.err);
    home.file("p.csv", "name,length,quantity\nrail,20,2\n");
    home.file("s.csv", "length,count,cost\n96,,9\n");
    let plan = |out: &str| home.run(&["plan", "p.csv", "--stock", "s.csv", "--out", out]);
    assert!(plan("notes.csv").err.contains("is not a cutting plan"));
    // A table is not written under the name of another kind of file.
    for other in ["plan.json", "plan.txt"] {
        let ran = plan(other);
        assert!(ran.err.contains("try: --out plan.csv") && ran.status == 1, "{}", ran.err);
        let ran = home.say(&[art, &format!("parts to {other}")]);
        assert!(ran.err.contains("try: parts to plan.csv") && ran.status == 1, "{}", ran.err);
        assert!(!home.path().join(other).exists());
    }
    assert!(plan("none/plan.csv").err.contains("there is no folder none"));
    assert_eq!((plan("plan.csv").status, plan("plan.csv").status), (0, 0));
    assert!(!home.path().join("none").exists());
}

/// What stops a design is said where its pieces are.
#[test]
fn a_stop_is_told_with_the_pieces() {
    let home = Home::new();
    let ran = home.run(&["--json", "-e", "art 16 x 20 x 3/4", "-e", "strip.width 9", "-e", "parts", "-e", "plan"]);
    for object in &ran.objects()[2..] {
        assert_eq!(object["checks"][0]["level"], "stop", "{object}");
    }
    assert_eq!(ran.status, 1);
}

/// Lengths without a unit are shown in both readings, and nothing is planned from them or written until they have one.
#[test]
fn stock_without_units_waits_for_one() {
    let home = Home::new();
    let old = format!("{HEAD}stick,96,,4,12.50,poplar,3/4 x 1 5/8\nstick,8ft,,4,9,poplar,3/4in x 1/2in\n");
    for unit in ["in", "mm"] {
        home.file("stock.csv", &old);
        let unit_of_run = ["--unit", unit];
        let say = |line: &str| {
            home.run(&[&unit_of_run[..], &["-e", "art 16in x 20in x 3/4in", "-e", "wood poplar", "-e", line]].concat())
        };
        let shown = say("stock");
        for reading in ["96\"", "96mm", "3/4\" x 1 5/8\"", "3/4mm x 1 5/8mm"] {
            assert!(shown.out.contains(reading), "{reading}: {}", shown.out);
        }
        assert_eq!(shown.status, 1);
        for line in ["plan", "stock add stick, 10ft, , 1, 9, oak, 1in x 2in", "stock drop 1", "planned([design])"] {
            let ran = say(line);
            assert!(
                ran.err.contains("have no unit") && ran.err.contains("\n  try: stock unit in\n"),
                "{line}: {}",
                ran.err
            );
            assert_eq!((ran.status, home.read("stock.csv")), (1, old.clone()), "{line}");
        }
        home.file("parts.csv", "name,length,quantity\nrail,20in,2\n");
        assert!(home.run(&["plan", "parts.csv"]).err.contains("  try: stock unit in\n"));
        assert_eq!(say("stock unit in").status, 0);
        let text = home.read("stock.csv");
        assert!(text.starts_with("# benchrule stock 1\nwhat,length,"), "{text}");
        assert!(text.contains("stick,\"96\"\"\",,4,12.50,poplar,\"3/4\"\" x 1 5/8\"\"\"\n"), "{text}");
        // In millimeters the rails are 42 mm deep, which nothing in stock is: a plan that leaves parts out fails.
        let ran = say("plan");
        assert_eq!((ran.status, ran.out.contains("Not planned")), (i32::from(unit == "mm"), unit == "mm"));
        assert!(say("stock unit in").err.contains("has a unit already"));
    }
    // 96 mm are nobody's stick: asked about, and the file stays as it was.
    home.file("stock.csv", &old);
    let ran = home.say(&["stock unit mm"]);
    assert!(ran.err.contains("a bought stick of 96mm is under 1 ft"), "{}", ran.err);
    assert_eq!(home.read("stock.csv"), old);
}

/// What the shop has is of the length that was typed, whatever bench looks at it.
#[test]
fn stock_means_the_same_on_any_bench() {
    let home = Home::new();
    assert_eq!(home.say(&["stock add stick, 96, , 4, 12.50, oak, 3/4 x 2"]).status, 0);
    let lengths = |unit: &str| {
        home.run(&["--unit", unit, "--json", "-e", "stock"]).objects()[0]["stock"][0]["length"]["exact"].clone()
    };
    assert_eq!((lengths("in"), lengths("mm")), ("96".into(), "96".into()));
}

/// The line with the answer in it does what was asked about.
#[test]
fn a_slip_of_the_unit_is_asked_about() {
    let home = Home::new();
    let ran = home.say(&["stock add stick, 8\", , 4, 12.50, oak, 3/4 x 2"]);
    assert!(ran.err.contains("a bought stick of 8\" is under 1 ft"), "{}", ran.err);
    let line = ran.err.lines().find_map(|line| line.strip_prefix("  try: ")).expect("a line").to_string();
    assert!(line.starts_with("stock add short stick,"), "{line}");
    let ran = home.say(&[&line, "stock"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    assert!(home.read("stock.csv").contains("\nshort stick,"));
    home.file("parts.csv", "name,length,quantity\nrail,100,2\n");
    home.file("sticks.csv", "length,count,cost\n96,,9\n");
    let ran = home.run(&["--unit", "mm", "plan", "parts.csv", "--stock", "sticks.csv"]);
    assert!(ran.err.contains("a bought stick of 96mm is under 1 ft"), "{}", ran.err);
    assert_eq!(ran.status, 1);
}

/// A stray quote loses no row: nothing is shown as if it were all, and nothing is written.
#[test]
fn a_stray_quote_in_stock_erases_nothing() {
    let home = Home::new();
    let table = format!(
        "{HEAD}stick,8ft,,4,12.50,\"oak,1in x 2in\nstick,9ft,,4,12.50,oak,1in x 2in\nstick,10ft,,4,12.50,oak,1in x 2in\n"
    );
    home.file("stock.csv", &table);
    let ran = home.say(&["stock", "stock drop 1", "stock add stick, 12ft, , 1, 9, oak, 1in x 2in"]);
    let reported = "error: a quote opens here and never closes\n  in stock.csv, line 2, column 20\n";
    assert_eq!(ran.err.matches(reported).count(), 3, "{}", ran.err);
    assert_eq!((home.read("stock.csv"), ran.status), (table, 1));
}

#[test]
fn stock_of_another_version_is_left_alone() {
    let home = Home::new();
    let table = format!("# benchrule stock 2\n{HEAD}{GOOD}");
    home.file("stock.csv", &table);
    for line in ["stock", "stock drop 1", "plan take"] {
        let ran = home.say(&["art 16 x 20 x 3/4", line]);
        assert_eq!((ran.status, home.read("stock.csv")), (1, table.clone()), "{line}");
    }
    assert!(home.say(&["stock"]).err.contains("this is stock of version 2, and this program reads version 1"));
}

/// The fix for an odd length is the row as it was typed with the word that says so; at the prompt its length has a unit.
#[test]
fn an_odd_length_is_answered_in_its_row() {
    let home = Home::new();
    home.file("parts.csv", "name,length,quantity\nrail,5,2\n");
    for (table, wanted) in [
        ("what,length,count\nstick,65.9mm,4\nstick,96,4\n", "short stick,65.9mm,4"),
        ("Kind;L;Qty\nstick;600;4\nstick;96;\n", "long stick;600;4"),
        ("length,what\n8,\n96,stick\n", "8,short stick"),
    ] {
        home.file("s.csv", table);
        let ran = home.run(&["plan", "parts.csv", "--stock", "s.csv"]);
        let offered = ran.err.lines().find_map(|line| line.strip_prefix("  try: ")).unwrap_or_default();
        assert_eq!(offered, wanted, "{}", ran.err);
        let second = table.lines().nth(1).unwrap();
        home.file("s.csv", table.replace(second, offered));
        let ran = home.run(&["plan", "parts.csv", "--stock", "s.csv"]);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{offered}");
    }
    for (unit, line, wanted) in [
        ("mm", "stock add stick,96,,", "stock add short stick,96mm"),
        ("in", "stock add stick, 8, , 4", "stock add short stick,\"8\"\"\",,4"),
        ("in", "stock add board, 41ft, 6, , , oak, 4/4", "stock add long board,41ft,\"6\"\"\",,,oak,4/4"),
    ] {
        let home = Home::new();
        let ran = home.run(&["--unit", unit, "-e", line]);
        let offered = ran.err.lines().find_map(|line| line.strip_prefix("  try: ")).unwrap_or_default();
        assert_eq!((offered, ran.status), (wanted, 1), "{}", ran.err);
        assert_eq!(home.run(&["--unit", unit, "-e", offered]).status, 0, "{offered}");
    }
}

/// The line that is offered for lengths without a unit sets the unit by which every row is sound, on the page and in JSON.
#[test]
fn the_likely_unit_is_offered() {
    let home = Home::new();
    for (row, unit) in [("stick,2400,,4,,poplar,19 x 41", "mm"), ("stick,96,,4,,poplar,3/4 x 1 5/8", "in")] {
        home.file("stock.csv", format!("{HEAD}{row}\n"));
        let line = format!("stock unit {unit}");
        assert!(home.say(&["stock"]).out.ends_with(&format!("  try: {line}\n")), "{row}");
        assert_eq!(home.run(&["--json", "-e", "stock"]).objects()[0]["hint"], line.as_str());
        let ran = home.say(&[&line, "stock"]);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0), "{row}");
    }
}

/// The line that is offered where no stock is recorded records what it shows, whatever the unit of the bench.
#[test]
fn the_line_that_records_stock_carries_its_units() {
    for (unit, length, section) in [("in", "8ft", "3/4in x 1 1/2in"), ("mm", "2400mm", "19mm x 38mm")] {
        let home = Home::new();
        let shown = home.run(&["--unit", unit, "-e", "stock"]);
        let line = shown.out.lines().find_map(|line| line.strip_prefix("  try: ")).expect("a line").to_string();
        let ran = home.run(&["--unit", unit, "-e", &line]);
        assert_eq!((ran.err.as_str(), ran.status), ("", 0));
        let row = format!("stick,{length},,4,12.50,cherry,{section}\n");
        assert!(home.read("stock.csv").ends_with(&row), "{}", home.read("stock.csv"));
    }
}

/// A heading that is not read costs no row; the row of a bad cell is left out.
#[test]
fn a_heading_that_is_not_read_leaves_no_row_out() {
    let home = Home::new();
    home.file("stock.csv", "# benchrule stock 1\nlength,shelf,wood\n8ft,2,poplar\nbad,3,poplar\n");
    let ran = home.say(&FRAME);
    let warning = |start: &str| ran.out.lines().find(|line| line.contains(start)).unwrap_or_default().to_string();
    assert!(warning("line 2: the column shelf is not read").len() > 1, "{}", ran.out);
    let words = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(words.matches("the row is left out").count(), 1, "{}", ran.out);
    assert!(warning("line 4: bad is not a number").len() > 1, "{}", ran.out);
}

/// An offcut of a stick whose section is not recorded has the section of the parts that were cut from the stick.
#[test]
fn an_offcut_is_of_what_was_cut_from_its_stick() {
    let home = Home::new();
    home.file("stock.csv", "what,length,count,wood\nstick,8ft,4,poplar\n");
    let ran = home.say(&[&FRAME[..], &["strip none", "plan", "plan take"]].concat());
    assert!(ran.out.contains("took "), "{}{}", ran.out, ran.err);
    let stock = home.read("stock.csv");
    let offcut = stock.lines().find(|row| row.starts_with("offcut")).unwrap_or_else(|| panic!("{stock}"));
    assert!(offcut.contains(",poplar,\"3/4\"\" x "), "{offcut}");
}

/// A comma inside quotes is part of a cell, so the row has as many cells as it should.
#[test]
fn a_quoted_comma_is_no_next_cell() {
    let home = Home::new();
    let ran = home.say(&["stock add stick, 8ft, , 4, 12.50, \"oak, white\"", "stock"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    assert!(home.read("stock.csv").contains("stick,8ft,,4,12.50,\"oak, white\",\n"), "{}", home.read("stock.csv"));
}
