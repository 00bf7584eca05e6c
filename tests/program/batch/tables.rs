//! Tables with faults: each reported with its line, its column and the cell, and the other rows made.

use super::shop;
use crate::program::{Home, Ran};

/// A run over a table, every design as JSON.
fn rows(table: impl AsRef<[u8]>) -> Ran {
    let home = Home::new();
    home.file("jobs.csv", table);
    home.run(&["batch", "jobs.csv", "--json"])
}

/// The same, shown to a person.
fn shown(table: impl AsRef<[u8]>) -> Ran {
    let home = Home::new();
    home.file("jobs.csv", table);
    home.run(&["batch", "jobs.csv"])
}

/// The names of the designs that were made, and the messages of the rows that were not, in their order.
#[track_caller]
fn outcome(table: impl AsRef<[u8]>) -> Vec<String> {
    let ran = rows(table);
    let mut objects = ran.objects();
    objects.retain(|object| object["reply"] != "batch");
    let failed = objects.iter().any(|object| object.get("error").is_some());
    assert_eq!(ran.status, i32::from(failed), "{}", ran.out);
    let said = |object: &serde_json::Value| match object.get("error") {
        None => object["design"]["name"].as_str().unwrap_or("nameless").to_string(),
        Some(error) => {
            let place = error["line"].as_u64().zip(error["column"].as_u64());
            let place = place.map_or_else(String::new, |(line, column)| format!("{line}:{column} "));
            format!("{place}{}", error["message"].as_str().unwrap())
        }
    };
    objects.iter().map(said).collect()
}

#[test]
fn a_bad_cell_is_underlined_and_the_others_go_on() {
    let ran = shown("name,art,face\na,16 x 20 x 3/4,\nb,16 x 20 x 3/4,7/8lb\nc,12 x 12 x 3/4,1\n");
    assert_eq!(ran.status, 1);
    assert_eq!(
        ran.err,
        "\
error: face is a length, not a mass; face is written as in 5/8\"
  in jobs.csv, line 3, column 17
  b,16 x 20 x 3/4,7/8lb
                  ^^^^^
"
    );
    assert!(ran.out.contains("3 rows, 1 failed; "), "{}", ran.out);
}

/// A size and one of its parts in the same row say two things of one name.
#[test]
fn a_row_sets_a_name_once() {
    let table = "Title,W,H,D,art\nA,16,20,3/4,12 x 12 x 1\nB,16,20,3/4,\nC,,,3/4,12 x 12\nD,,,,12 x 12 x 1\n";
    let twice = |name: &str| format!("{name} is set twice in this row: here, and as a part of art");
    let wanted = [format!("2:3 {}", twice("art.width")), "B".into(), "C".into(), "D".into()];
    assert_eq!(outcome(table), wanted);
    let objects = "{\"name\": \"A\", \"art.width\": 16, \"art\": \"12 x 12\"}\n";
    assert_eq!(outcome(objects), [format!("1:28 {}", twice("art.width"))]);
    // All sides, and one of them that is wider, in either order.
    let sides = "name,art,reveal.bottom,reveal\nA,16 x 20 x 3/4,1/2,1/4\n";
    let ran = rows(sides);
    assert_eq!(ran.status, 0, "{}", ran.out);
    assert!(ran.out.contains("\"reveal.bottom\""), "{}", ran.out);
}

#[test]
fn what_cannot_be_made_counts_as_failed() {
    let ran = shown("name,art,depth\na,16 x 20 x 3/4,\nb,16 x 20 x 3/4,1\n");
    assert_eq!(ran.status, 1);
    assert!(
        ran.err.starts_with("error: b cannot be built as specified: the rail of 1\" is 3/8\" too shallow"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains("\n  in jobs.csv, line 3, column 1\n"), "{}", ran.err);
    assert!(ran.out.contains("2 rows, 1 that cannot be made as they are; "), "{}", ran.out);
}

#[test]
fn all_cells_at_fault_are_told() {
    let ran = rows("name,art,face,wood\na,16 x 20 x 3/4,wide,chery\n");
    let object = &ran.objects()[0];
    assert_eq!(object["error"]["column"], 17);
    assert_eq!(object["more"][0]["column"], 22);
}

#[test]
fn ragged_rows() {
    assert_eq!(
        outcome("name,art,face\na,16 x 20 x 3/4\nb,16 x 20 x 3/4,1,2\nc,16 x 20 x 3/4,,\nd,9 x 9 x 3/4,\n"),
        [
            "2:16 this row has 2 cells, and there are 3 columns",
            "3:19 this row has more cells than the 3 columns",
            // A mark too many with nothing behind it says nothing.
            "c",
            "d"
        ]
    );
}

/// Every finding about the rows themselves has a line that would do; each is tried.
#[test]
fn what_would_do_is_told_and_does() {
    for (head, row, hint) in [
        ("name,art,face", "b,9 x 9 x 3/4", "b,9 x 9 x 3/4,"),
        ("name;art;face", "b;9 x 9 x 3/4", "b;9 x 9 x 3/4;"),
        ("name,art", "b,\"9\"\" x 9 x 3/4\",oak,x", "b,\"9\"\" x 9 x 3/4\""),
        ("name,art", "a,9 x 9 x 3/4", "a 2"),
    ] {
        let first = if head.contains("face") { "a,9 x 9 x 3/4,\n" } else { "a,9 x 9 x 3/4\n" };
        let first = first.replace(',', &head[4..5]);
        let objects = rows(format!("{head}\n{first}{row}\n")).objects();
        assert_eq!(objects[1]["error"]["hint"], hint, "{row}");
        // A name alone takes the place of the name.
        let mended = if hint == "a 2" { row.replace('a', hint) } else { hint.to_string() };
        let made = outcome(format!("{head}\n{first}{mended}\n"));
        assert!(made.iter().all(|said| !said.contains(':')), "{made:?}");
    }
    let head = shown("name,art,art,face\na,9 x 9 x 3/4,,\n");
    assert!(head.err.ends_with("\n  try: name,art,face\n"), "{}", head.err);
    let long = rows(format!("name,art\n{}\n", "x".repeat(3 << 20))).objects();
    assert_eq!(long[0]["error"]["hint"], "heron,16 x 20 x 3/4");
}

/// No other work is offered in place of the one that a row is about: what it measures is in no fix.
#[test]
fn no_fix_changes_what_was_measured() {
    for table in [
        "name,art\nb,16 x foo\n",
        "name,art\nb,\"16,5 x 20 x 1\"\n",
        "name,W,H\nb,16,foo\n",
        "name,W,H\nb,16,20\n",
        "name,art,quantity\nb,9 x 9 x 1,1.5\n",
        "{\"name\": \"b\", \"art\": [1]}\n",
        "{\"name\": \"b\", \"art\": \"9 x 9 x 1\", \"art\": \"9 x 9\"}\n",
    ] {
        let error = &rows(table).objects()[0]["error"];
        let hint = error["hint"].as_str().unwrap_or_default();
        assert!(
            error["message"].is_string() && !hint.contains(['1', '2', '3']) || hint.contains("16.5"),
            "{table}: {error}"
        );
    }
    let shown = &rows("name,art\nb,16 x foo\n").objects()[0]["error"]["message"];
    assert!(shown.as_str().unwrap().ends_with("; art is written as in 16\" x 20\" x 3/4\""), "{shown}");
}

/// A key of an object is found as a heading is.
#[test]
fn an_object_has_the_words_of_the_trade() {
    let object = "{\"Title\": \"a\", \"W\": 16, \"h\": 20, \"d\": \"3/4\"}\n";
    assert_eq!(outcome(object), ["a"]);
    let shown = shown(object);
    assert!(shown.out.contains("note: W is read as art.width\n"), "{}", shown.out);
    let twice = "{\"W\": 16, \"width\": 17}\n";
    assert_eq!(outcome(twice), ["1:20 width is art.width, which this row has already"]);
}

/// All that is wrong with a row is reported at once, whatever reads it.
#[test]
fn all_cells_of_a_row_are_read() {
    let objects = rows("Title;W;H;D;wood\nB;4-Jan;y;x;oakk\n").objects();
    assert_eq!(objects[0]["name"], "B");
    assert_eq!(objects[0]["error"]["column"], 3);
    let more: Vec<_> = objects[0]["more"].as_array().unwrap().iter().map(|one| one["column"].as_u64()).collect();
    assert_eq!(more, [Some(9), Some(11), Some(13)]);
}

#[test]
fn headers_twice_or_unknown() {
    let ran = shown("name,art,art,sise,weight\na,16 x 20 x 3/4,,,\n");
    assert_eq!((ran.out.as_str(), ran.status), ("", 1));
    assert!(
        ran.err.contains("error: the column art is there twice\n  in jobs.csv, line 1, column 10\n"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains("error: there is no field sise, and no style asks for it"), "{}", ran.err);
    assert!(ran.err.contains("error: weight is a figure that follows from fields"), "{}", ran.err);
    let near = shown("name,art,revel\na,16 x 20 x 3/4,\n");
    assert!(near.err.contains("is it reveal"), "{}", near.err);
}

#[test]
fn a_column_without_a_name_holds_nothing() {
    assert_eq!(
        outcome("name,,art\na,,16 x 20 x 3/4\nb,x,16 x 20 x 3/4\n"),
        ["a", "3:3 this cell has no heading above it"]
    );
}

#[test]
fn a_quote_that_never_closes_loses_its_own_row_only() {
    assert_eq!(
        outcome("name,art\na,\"16 x 20 x 3/4\nb,\"9\"\" x 9\"\" x 3/4\"\nc,9 x 9 x 3/4\n"),
        ["2:3 a quote opens here and never closes", "b", "c"]
    );
    let last = outcome("name,art\na,9 x 9 x 3/4\nb,\"9 x 9 x 3/4\n");
    assert_eq!(last, ["a", "3:3 a quote opens here and never closes"]);
    // Far from the end of the table as well.
    let many: String = (0..300).map(|row| format!("r{row},9 x 9 x 3/4\n")).collect();
    let shown = outcome(format!("name,art\na,\"9 x 9 x 3/4\n{many}"));
    assert_eq!((shown.len(), shown[0].as_str()), (301, "2:3 a quote opens here and never closes"));
}

#[test]
fn a_cell_may_go_on_over_lines() {
    assert_eq!(outcome("name,note,art\na,\"two\nlines\",9 x 9 x 3/4\nb,,9 x 9 x\n")[0], "a");
    assert!(outcome("name,note,art\na,\"two\nlines\",9 x 9 x 3/4\nb,,9 x 9 y\n")[1].starts_with("4:"));
}

#[test]
fn inch_marks_in_quotes_and_out() {
    let made = outcome("name,art\na,16\" x 20\" x 3/4\"\nb,\"16\"\" x 20\"\" x 3/4\"\"\"\nc,\"16\" x 20\"\n");
    assert_eq!(made[..2], ["a", "b"]);
    assert_eq!(made[2], "4:8 the quotes close before x 20\"; inside quotes an inch mark is written twice");
}

#[test]
fn a_long_line_is_told_and_gone_by() {
    // 200 MB would do as well: what is past a megabyte is read by and not held.
    let long = "x".repeat(3 << 20);
    assert_eq!(
        outcome(format!("name,art\na,9 x 9 x 3/4\n{long}\nb,9 x 9 x 3/4\n")),
        ["a", "3:1 this line is longer than 1 MiB", "b"]
    );
}

#[test]
fn bytes_that_are_no_text() {
    let ran = rows(b"name,art\ncaf\xe9,9 x 9 x 3/4\nb,9 x 9 x 3/4\n");
    let objects = ran.objects();
    assert!(objects[0]["error"]["message"].as_str().unwrap().starts_with("this line is not UTF-8 text"));
    assert_eq!((&objects[0]["error"]["line"], &objects[0]["error"]["column"]), (&2.into(), &4.into()));
    assert_eq!(objects[1]["design"]["name"], "b");
}

#[test]
fn line_ends_of_other_systems() {
    assert_eq!(outcome("name,art\r\na,9 x 9 x 3/4\r\n\r\nb,9 x 9 x 3/4\r\n"), ["a", "b"]);
}

#[test]
fn no_rows_at_all() {
    for (table, said) in [
        ("", "the table is empty"),
        ("# only a remark\n", "the table is empty"),
        ("name,art\n", "jobs.csv has no rows"),
        ("name,art\n# nothing\n\n", "jobs.csv has no rows"),
    ] {
        let ran = shown(table);
        assert_eq!((ran.out.as_str(), ran.status), ("", 1), "{table}");
        assert!(ran.err.starts_with(&format!("error: {said}")), "{}", ran.err);
    }
}

#[test]
fn a_number_of_a_work_is_no_remark() {
    let table =
        "## works of an invented show\n#\nname,art\n#12,9 x 9 x 3/4\n# 13,9 x 9 x 3/4\n#\t14\n  #15,8 x 8 x 3/4\n";
    assert_eq!(outcome(table), ["#12", "#15"]);
}

/// A style that lists what it asks for asks for nothing else that its text speaks of: here of a finding of its check.
#[test]
fn a_column_is_one_that_a_style_asks_for() {
    let ran = shown("name,art,heavy\na,9 x 9 x 3/4,2\n");
    assert_eq!((ran.out.as_str(), ran.status), ("", 1));
    assert!(ran.err.starts_with("error: there is no field heavy, and no style asks for it"), "{}", ran.err);
    assert!(ran.err.contains("\n  in jobs.csv, line 1, column 10\n"), "{}", ran.err);
    let home = Home::new();
    let style = "fn asks() { #{ \"thin\": #{ about: \"how thin the face is\", kind: \"length\", usual: 3/4in } } }
fn build_for(art, asks) { let d = new_design(); d.face = asks.thin; d }\n";
    home.file("styles/asking.rhai", style);
    home.file("jobs.csv", "name,art,style,thin\na,9 x 9 x 3/4,asking,1\n");
    let rows = home.run(&["batch", "jobs.csv", "--json"]).objects();
    assert_eq!(rows[0]["design"]["fields"]["face"]["exact"], "1");
}

#[test]
fn what_begins_like_a_formula_is_kept_and_never_runs() {
    let home = Home::new();
    home.file(
        "jobs.csv",
        "name,art,note\n=1+2,9 x 9 x 3/4,@sum\n+x,9 x 9 x 3/4,\n-y,9 x 9 x 3/4,\n@z,9 x 9 x 3/4,\n＝1+1,9 x 9 x 3/4,\n",
    );
    let ran = home.run(&["batch", "jobs.csv", "--out", "out", "--plan", "--json"]);
    let names: Vec<_> =
        ran.objects()[..5].iter().map(|row| row["design"]["name"].as_str().unwrap().to_string()).collect();
    assert_eq!(names, ["=1+2", "+x", "-y", "@z", "＝1+1"]);
    for table in ["summary.csv", "parts.csv", "weights.csv", "plan.csv", "buy.csv"] {
        let text = home.read(&format!("out/{table}"));
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        for record in reader.records() {
            let record = record.unwrap();
            let runs = record.iter().find(|cell| cell.starts_with(['=', '+', '@', '-', '＝']));
            assert_eq!(runs, None, "{table}: {record:?}");
        }
    }
    assert!(home.read("out/summary.csv").contains("\n1,'=1+2,"));
    // A formula where a size is wanted is not a size.
    assert!(outcome("name,art\na,=1+2\n")[0].starts_with("2:3 "));
}

#[test]
fn a_name_that_is_there_twice() {
    assert_eq!(
        outcome("name,art\na,9 x 9 x 3/4\nb,9 x 9 x 3/4\na,8 x 8 x 3/4\n"),
        ["a", "b", "4:1 an earlier row is called a already"]
    );
}

#[test]
fn a_row_that_does_not_tell_all() {
    assert_eq!(outcome("name,art\na,\nb,9 x 9 x 3/4\n"), ["2:1 art.width, art.height and art.depth are not set", "b"]);
}

#[test]
fn objects_line_by_line() {
    let table = "\
{\"name\": \"a\", \"art\": \"9 x 9 x 3/4\", \"quantity\": 2, \"face\": null}
{\"name\": \"b\", \"art\": [9, 9]}
{\"name\": \"c\", \"name\": \"d\"}
{\"name\": \"e\", \"sise\": 1}
{\"name\": \"f\"
[1]
# a remark
{\"name\": \"g\", \"art\": \"9 x 9 x 3/4\"}
";
    let shown = outcome(table);
    assert_eq!(shown[0], "a");
    assert_eq!(shown[1], "2:22 art takes a text or a number, not a list or an object");
    assert_eq!(shown[2], "3:23 name is there twice");
    assert!(shown[3].starts_with("4:23 there is no field sise"), "{}", shown[3]);
    assert!(shown[4].starts_with("5:12 this line is not a JSON object"), "{}", shown[4]);
    assert!(shown[5].starts_with("6:1 this line is not a JSON object"), "{}", shown[5]);
    assert_eq!(shown[6], "g");
    assert_eq!(rows(table).objects()[0]["design"]["fields"]["quantity"]["exact"], "2");
}

#[test]
fn a_table_that_is_not_there() {
    let home = Home::new();
    home.run(&["batch", "none.csv"]).fails("error: there is no file none.csv\n");
    home.run(&["batch", "."]).fails("error: . is a folder, not a file\n");
}

#[test]
fn a_metric_bench_reads_bare_numbers_as_millimetres() {
    let home = Home::new();
    home.file("jobs.csv", "name,art\na,400 x 500 x 20\n");
    let rows = home.run(&["--unit", "mm", "batch", "jobs.csv", "--json"]).objects();
    assert_eq!(rows[0]["design"]["fields"]["art.width"]["shown"], "400 mm");
}

#[test]
fn a_style_asks_for_what_a_column_tells() {
    let home = shop();
    home.file("jobs.csv", "name,art,style,sunk\na,9 x 9 x 3/4,dark-well,3/4\nb,9 x 9 x 3/4,none,3/4\n");
    let ran = home.run(&["batch", "jobs.csv", "--json"]);
    let objects = ran.objects();
    assert_eq!(objects[0]["design"]["fields"]["setback"]["exact"], "3/4");
    assert_eq!(objects[1]["error"]["message"], "sunk is what a style asks for, and this row has none");
}

#[test]
fn a_column_of_formulas_gives_designs_figures_of_their_own() {
    let home = Home::new();
    home.file(
        "rules/crate.rules",
        "for all\nfield crate.pad length = 2in -- padding\ncrate.width = outside.width + 2 * crate.pad\n",
    );
    let jobs = "name,art,crate.pad,figure.shelf.width\na,16 x 20 x 3/4,3,crate.width + 1in\nb,16 x 20 x 3/4,,\n";
    home.file("jobs.csv", jobs);
    let ran = home.run(&["batch", "jobs.csv", "--json"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let figures = |row: usize| ran.objects()[row]["design"]["figures"].clone();
    // 18 in over all, padding twice, and an inch.
    assert_eq!(
        (&figures(0)["crate.width"]["exact"], &figures(0)["shelf.width"]["exact"]),
        (&"24".into(), &"25".into())
    );
    assert_eq!(figures(1)["crate.width"]["exact"], "22");
    assert!(figures(1)["shelf.width"].is_null());
    // A formula that cannot be read is shown in its cell.
    home.file("jobs.csv", jobs.replace("crate.width + 1in", "crate.widht + 1in"));
    let ran = home.run(&["batch", "jobs.csv"]);
    assert_eq!(ran.status, 1);
    assert!(
        ran.err.contains("there is no name crate.widht") && ran.err.contains("jobs.csv, line 2, column 19"),
        "{}",
        ran.err
    );
}

/// What a row says begins with the count of its stops, warnings and notes and names the first of them: on the screen, in
/// the table, and in the columns of the counts.
#[test]
fn a_row_counts_its_checks_and_names_the_first() {
    let home = Home::new();
    home.file("jobs.csv", "name,art,depth,build\nlow,16 x 20 x 3/4,1,\nlong,400 x 20 x 3/4,,\nplain,16 x 20 x 3/4,,\n");
    let ran = home.run(&["batch", "jobs.csv"]);
    let shown = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(ran.status, 1);
    home.run(&["batch", "jobs.csv", "--out", "out"]);
    let text = home.read("out/summary.csv");
    let rows: Vec<std::collections::BTreeMap<String, String>> =
        csv::Reader::from_reader(text.as_bytes()).deserialize().map(Result::unwrap).collect();
    let objects = home.run(&["batch", "jobs.csv", "--json"]).objects();
    for (row, object) in rows.iter().zip(&objects) {
        let checks = object["design"]["checks"].as_array().unwrap();
        let count = |level: &str| checks.iter().filter(|check| check["level"] == level).count();
        let counts = ["stop", "warn", "note"].map(count);
        assert_eq!(["stops", "warnings", "notes"].map(|name| row[name].clone()), counts.map(|count| count.to_string()));
        // The other way round: the sentence is put together from what JSON has.
        let words = [("stop", "stops"), ("warning", "warnings"), ("note", "notes")];
        let said = counts.into_iter().zip(words).filter(|(count, _)| *count > 0);
        let said: Vec<String> =
            said.map(|(count, (one, more))| format!("{count} {}", if count == 1 { one } else { more })).collect();
        let first = checks.first().map(|check| {
            format!("{}; {}: {}", said.join(", "), check["name"].as_str().unwrap(), check["says"].as_str().unwrap())
        });
        assert_eq!(row["says"], first.clone().unwrap_or_default());
        let first = first.unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(shown.contains(&first), "{first}: {}", ran.out);
    }
    assert_eq!((rows[0]["state"].as_str(), rows[2]["state"].as_str()), ("stop", "made"));
    assert!(rows[0]["says"].starts_with("1 stop"), "{}", rows[0]["says"]);
}

/// The screen is never wider than the terminal, whatever the names are, and loses no word on the way.
#[test]
fn the_screen_fits_the_terminal() {
    let home = Home::new();
    let names = [
        "a long name of a work that goes on and on and does not end",
        "額縁の中の長い名前の作品",
        "x",
        "e\u{301}te\u{301}",
    ];
    let unbroken = "n".repeat(90);
    let rows: String =
        names.iter().copied().chain([unbroken.as_str()]).map(|name| format!("{name},16 x 20 x 3/4,1\n")).collect();
    home.file("jobs.csv", format!("name,art,depth\n{rows}bad,zz,\n"));
    for (columns, most) in [("80", 80), ("40", 40)] {
        let ran = crate::program::finish(home.command(&["batch", "jobs.csv"]).env("COLUMNS", columns).spawn().unwrap());
        for line in ran.out.lines() {
            let width = unicode_width::UnicodeWidthStr::width(line);
            assert!(width <= most, "{width} columns: {line}");
        }
        let letters: String = ran.out.chars().filter(|letter| *letter == 'n').collect();
        assert!(letters.len() >= 90 && ran.out.contains("額縁"), "{}", ran.out);
    }
}

/// An object that nobody weighed is marked beside its weight, in the sum, and on the page; a weighed one is not.
#[test]
fn weights_name_the_objects_that_they_leave_out() {
    let home = Home::new();
    home.file(
        "jobs.csv",
        "name,build,art,art.kind,art.weight\nshell,box,6 x 8 x 2,object,\nfan,box,6 x 8 x 2,object,1lb\n",
    );
    let ran = home.run(&["batch", "jobs.csv", "--out", "out"]);
    let text = home.read("out/weights.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows: Vec<std::collections::BTreeMap<String, String>> = reader.deserialize().map(Result::unwrap).collect();
    let marks: Vec<(&str, &str)> = rows.iter().map(|row| (row["name"].as_str(), row["unweighed"].as_str())).collect();
    assert_eq!(marks, [("shell", "shell"), ("fan", ""), ("all", "shell")], "{text}");
    // The two frames are alike, so their weights differ by the pound of the object.
    let pounds = |at: usize, column: &str| rows[at][column].parse::<f64>().unwrap();
    assert!((pounds(1, "weight_lb") - pounds(0, "weight_lb") - 1.0).abs() < 0.002, "{text}");
    assert!((pounds(0, "all_lb") + pounds(1, "all_lb") - pounds(2, "all_lb")).abs() < 0.002, "{text}");
    assert!(ran.out.contains("; at least ") && ran.out.contains("have none given: shell\n"), "{}", ran.out);
    // The weight is the same where no table is written.
    let json = home.run(&["--json", "batch", "jobs.csv"]).objects().pop().unwrap();
    assert_eq!(json["unweighed"], serde_json::json!(["shell"]));
    let exact = |text: &str| match text.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => text.parse().unwrap(),
    };
    assert!((exact(json["weight"]["exact"].as_str().unwrap()) - pounds(2, "all_lb")).abs() < 0.002, "{json}");
}

/// A plan of a run has the cautions that the plan of the same design has at the prompt: those that hang on the design too.
#[test]
fn a_plan_of_a_run_has_the_cautions_of_its_designs() {
    let home = Home::new();
    home.file("jobs.csv", "name,build,art,glazing\nkite,rabbeted,24 x 40 x 1/16,glass\n");
    home.run(&["batch", "jobs.csv", "--plan", "--out", "out"]);
    let lines = ["build rabbeted", "art 24 x 40 x 1/16", "glazing glass", "plan"];
    let words: Vec<&str> = ["--json"].into_iter().chain(lines.iter().flat_map(|line| ["-e", line])).collect();
    let names = |cautions: &serde_json::Value| -> Vec<String> {
        cautions.as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap().to_string()).collect()
    };
    let at_the_prompt = names(&home.run(&words).objects()[3]["cautions"]);
    assert!(["router", "glass.large"].iter().all(|name| at_the_prompt.contains(&(*name).to_string())));
    let plan: serde_json::Value = serde_json::from_str(&home.read("out/plan.json")).unwrap();
    assert_eq!(names(&plan["cautions"]), at_the_prompt);
}
