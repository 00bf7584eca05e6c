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
    assert_eq!(home.read("stock.csv").lines().count(), 121);
}

const FRAME: [&str; 3] = ["art 16 x 20 x 3/4", "wood poplar", "plan"];
const GOOD: &str = "stick,8ft,,4,12.50,poplar,3/4 x 1 5/8\nstick,8ft,,4,12.50,poplar,3/4 x 1/2\n";

/// A row with a fault is told with its place, and the table is left as it is.
#[test]
fn a_row_that_cannot_be_read_is_not_written_away() {
    let home = Home::new();
    let table = format!("{HEAD}stick,bad,,4,12.5,poplar,3/4 x 1/2\n{GOOD}");
    home.file("stock.csv", &table);
    let ran = home.say(&[&FRAME[..], &["plan take", "stock drop 1"]].concat());
    let told = "warn: stock.csv, line 2: bad is not a number or a dimension; the row is left out\n";
    assert!(ran.out.contains(told), "{}", ran.out);
    let place = "  in stock.csv, line 2, column 7\n  stick,bad,,4,12.5,poplar,3/4 x 1/2\n        ^^^\n";
    assert_eq!(ran.err.matches(place).count(), 2, "{}", ran.err);
    assert_eq!((home.read("stock.csv"), ran.status), (table, 1));
}

/// A run of many works tells of such a row once, with its plan.
#[test]
fn a_run_tells_of_a_row_once() {
    let home = Home::new();
    home.file("stock.csv", format!("{HEAD}stick,bad,,4,12.5,poplar,3/4 x 1/2\n{GOOD}"));
    home.file("works.csv", "name,art\nheron,16 x 20 x 3/4\nkite,11 x 14 x 3/4\n");
    let ran = home.run(&["batch", "works.csv", "--plan"]);
    assert_eq!(format!("{}{}", ran.out, ran.err).matches("bad is not a number").count(), 1, "{}{}", ran.out, ran.err);
    home.file("stock.csv", format!("{}stick,8ft,,4,12.5,poplar,3/4 x 1/2\n", HEAD.replace("length", "long")));
    let ran = home.run(&["batch", "works.csv", "--plan"]);
    assert_eq!(format!("{}{}", ran.out, ran.err).matches("no column length").count(), 1, "{}{}", ran.out, ran.err);
}

/// Two programs plan out of the same sticks: the second to take them is told.
#[test]
fn a_stick_is_taken_once() {
    let home = Home::new();
    home.file("stock.csv", format!("{HEAD}{GOOD}"));
    let taken = home.say(&[&FRAME[..], &["plan take"]].concat());
    assert!(taken.out.contains("2 out of stock, 2 offcuts in"), "{}{}", taken.out, taken.err);
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
    home.file("notes.txt", "screws at 12\n");
    let art = "art 16 x 20 x 3/4";
    let ran = home.say(&[art, "parts to notes.txt"]);
    assert!(ran.err.starts_with("error: notes.txt is there already and is no table of parts"), "{}", ran.err);
    assert_eq!(home.read("notes.txt"), "screws at 12\n");
    let ran = home.say(&[art, "parts to parts.csv", "parts to parts.csv"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    let ran = home.say(&[art, "parts to none/parts.csv"]);
    assert!(ran.err.starts_with("error: there is no folder none to write none/parts.csv to"), "{}", ran.err);
    home.file("p.csv", "name,length,quantity\nrail,20,2\n");
    home.file("s.csv", "length,count,cost\n96,,9\n");
    let plan = |out: &str| home.run(&["plan", "p.csv", "--stock", "s.csv", "--out", out]);
    assert!(plan("notes.txt").err.contains("is no cutting plan"));
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
