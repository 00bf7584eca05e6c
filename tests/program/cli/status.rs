//! The exit status: 1 after any page that shows a `stop` or leaves a part out, and where there is nothing to write; the
//! same in text and in JSON.

use crate::program::{Home, Ran};

/// A frame that can be made, and one whose strip is wider than its opening has room for.
const SOUND: &[&str] = &["art 16 x 20 x 3/4"];
const STOPPED: &[&str] = &["art 16 x 20 x 3/4", "strip.width 9"];

/// Stock in which no stick is long enough for a rail, and no sheet wide enough for a pane.
const SHORT: &str = "what,length,width,count,cost,wood,section\nstick,20in,,,,,\nsheet,12in,12in,3,,glass,2mm\n";

/// Runs lines as `-e`, as a pipe and as a script, each in text and in JSON: all end alike.
#[track_caller]
fn ends(lines: &[&str], stock: &str, status: i32) {
    for json in [&[][..], &["--json"]] {
        let home = || {
            let home = Home::new();
            if !stock.is_empty() {
                home.file("stock.csv", stock);
            }
            home
        };
        let by_lines: Vec<&str> = lines.iter().flat_map(|line| ["-e", line]).collect();
        let words = [json, &["--write", "."]].concat();
        let runs = [
            home().run(&[words.as_slice(), by_lines.as_slice()].concat()),
            home().pipe(&words, lines.join("\n") + "\n"),
        ];
        for ran in runs {
            assert_eq!(ran.status, status, "{lines:?} {json:?}\n{}{}", ran.out, ran.err);
        }
    }
}

#[test]
fn a_page_that_shows_a_stop_ends_with_1() {
    for line in ["sheet", "parts", "plan", "tolerance", "keep moth", "parts to parts.csv"] {
        ends(&[SOUND, &[line]].concat(), "", 0);
        // The line that raises the stop shows it.
        ends(&[STOPPED, &[line]].concat(), "", 1);
    }
    ends(STOPPED, "", 1);
    ends(&["art 16 x 20 x 3/4", "design.strip.width = 9in"], "", 1);
    // A page that is about something else does not show it.
    ends(&["12 + 1", "help art", "stock"], "", 0);
}

/// A design that was saved with a stop shows it when it is opened, on its sheet and with its parts.
#[test]
fn a_saved_stop_is_shown_again() {
    for json in [&[][..], &["--json"]] {
        let home = Home::new();
        home.say(&[STOPPED, &["keep moth"]].concat());
        for (line, status) in
            [("open moth", 1), ("parts moth", 1), ("plan moth", 1), ("book", 0), ("revisions moth", 0)]
        {
            let ran = home.run(&[json, &["-e", line]].concat());
            assert_eq!(ran.status, status, "{line} {json:?}\n{}{}", ran.out, ran.err);
        }
    }
}

/// A plan that leaves a stick part or a piece of a sheet out says so in every format, and ends with 1: at the prompt, in a
/// script, on the command line and in a batch.
#[test]
fn a_plan_that_leaves_a_part_out_ends_with_1() {
    let lines = ["new rabbeted", "art 16 x 20 x 1/16", "glazing glass 2mm", "plan"];
    ends(&lines, SHORT, 1);
    let home = Home::new();
    home.file("stock.csv", SHORT);
    let shown = home.say(&lines);
    for words in ["Not planned", "stop: this plan leaves out 3 parts", "and no sheet of"] {
        assert!(shown.out.contains(words), "{words}: {}", shown.out);
    }
    let by_line: Vec<&str> = lines.iter().flat_map(|line| ["-e", line]).collect();
    let object = home.run(&[&["--json"], by_line.as_slice()].concat()).objects().pop().unwrap();
    assert_names(object["plan"]["unplanned"].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap()));
    let script = "let d = new_design(); d.build = \"rabbeted\"; d.art = 16in x 20in x 1/16in;\n\
        d.glazing.kind = \"glass\"; d.glazing.thickness = 2mm;\n\
        for one in planned([d]).unplanned { print(`${one.name}: ${one.because}`); }\n";
    let ran = home.pipe(&[], script);
    assert_names(ran.out.lines().filter_map(|line| Some(line.split_once(": ")?.0)));
    home.say(&[&lines[..3], &["parts to parts.csv"]].concat());
    for json in [&[][..], &["--json"]] {
        let ran = home.run(&[json, &["plan", "parts.csv", "--out", "plan.csv"]].concat());
        assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
        let table = home.read("plan.csv");
        let mut rows = csv::Reader::from_reader(table.as_bytes());
        let head = rows.headers().unwrap().clone();
        let [name, because] = ["name", "because"].map(|name| head.iter().position(|own| own == name).unwrap());
        let left_out: Vec<_> = rows.records().map(Result::unwrap).filter(|row| !row[because].is_empty()).collect();
        assert_names(left_out.iter().map(|row| &row[name]));
        home.file("works.csv", "name,build,art,glazing\nmoth,rabbeted,16 x 20 x 1/16,glass 2mm\n");
        let ran = home.run(&[json, &["batch", "works.csv", "--plan"]].concat());
        assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    }
}

/// The rails and the pane that the short stock does not give.
#[track_caller]
fn assert_names<'a>(names: impl Iterator<Item = &'a str>) {
    assert_eq!(names.collect::<Vec<_>>(), ["rail left, right", "glazing"]);
}

#[track_caller]
fn fails_with(ran: &Ran, message: &str) {
    assert_eq!(ran.status, 1, "{}", ran.out);
    let said = if ran.err.is_empty() { &ran.out } else { &ran.err };
    assert!(said.contains(message), "{message}: {said}");
}

#[test]
fn nothing_to_write_is_an_error() {
    for json in [&[][..], &["--json"]] {
        let home = Home::new();
        home.file("no-parts.csv", "name,length,quantity\n");
        home.file("empty.csv", "");
        home.file("no-works.csv", "name,art\n\n,,\n");
        home.file("bad-works.csv", "name,art\nmoth,large\n");
        let run = |words: &[&str]| home.run(&[json, &["--write", "."], words].concat());
        for (words, message) in [
            (&["-e", "parts"][..], "no parts yet; still to set: art.width, art.height, art.depth"),
            (&["-e", "plan"], "no parts yet; still to set: art.width, art.height, art.depth"),
            (&["-e", "parts to out.csv"], "no parts yet; still to set: art.width, art.height, art.depth"),
            (&["-e", "parts all"], "there is no design in the book yet"),
            (&["-e", "plan all"], "there is no design in the book yet"),
            (&["-e", "book export out.jsonl"], "there is no design in the book yet"),
            (&["plan", "no-parts.csv"], "no-parts.csv has no parts to plan"),
            (&["plan", "no-parts.csv", "--out", "out.csv"], "no-parts.csv has no parts to plan"),
            (&["plan", "empty.csv", "--out", "out.csv"], "the table of parts is empty"),
            (&["batch", "no-works.csv"], "no-works.csv has no rows"),
            (&["batch", "empty.csv", "--out", "out"], "the table is empty"),
            (&["batch", "bad-works.csv", "--plan"], "no row can be made, so there is nothing to plan"),
        ] {
            fails_with(&run(words), message);
        }
        assert!(!home.names().iter().any(|name| name.starts_with("out.")), "{:?}", home.names());
    }
}
