//! Tables with faults, read by `benchrule plan` and `benchrule batch`: each fault with its line, its column and its cell, and
//! no part lost without a word.

use crate::program::{Home, Ran};

const STOCK: &str = "length,count,cost\n96,,9\n";

fn planned(parts: impl AsRef<[u8]>) -> Ran {
    let home = Home::new();
    home.file("parts.csv", parts);
    home.file("stock.csv", STOCK);
    home.run(&["plan", "parts.csv", "--stock", "stock.csv"])
}

/// The place and the message of each error, and the lines offered.
fn errors(ran: &Ran) -> Vec<String> {
    let mut all = Vec::new();
    for line in ran.err.lines() {
        if let Some(message) = line.strip_prefix("error: ") {
            all.push(message.to_string());
        } else if let Some(place) = line.strip_prefix("  in ") {
            let last = all.pop().unwrap_or_default();
            all.push(format!("{place}: {last}"));
        }
    }
    all
}

fn fix(ran: &Ran) -> String {
    ran.err.lines().find_map(|line| line.strip_prefix("  try: ")).unwrap_or_default().to_string()
}

/// Parts whose quotes were lost were lost with two more rows, and the plan was called proven.
#[test]
fn a_quote_that_never_closes_loses_no_other_part() {
    let ran = planned("name,length,quantity,wood\nA,20,2,oak\nB,22,2,\"oak\nC,24,2,oak\nD,26,2,oak\n");
    assert_eq!(errors(&ran), ["parts.csv, line 3, column 8: a quote opens here and never closes"]);
    for part in ["A 20\"", "C 24\"", "D 26\""] {
        assert!(ran.out.contains(part), "{part}: {}", ran.out);
    }
    assert_eq!(ran.status, 1);
}

/// `"18"1/2` was read as 90 1/2 in.
#[test]
fn text_behind_a_closing_quote_is_not_a_length() {
    let ran = planned("name,length,quantity\nA,\"18\"1/2,2\nB,20,1\n");
    let reported =
        "parts.csv, line 2, column 7: the quotes close before 1/2; inside quotes an inch mark is written twice";
    assert_eq!(errors(&ran), [reported]);
    assert!(ran.out.contains("B 20\"") && !ran.out.contains("90 1/2"), "{}", ran.out);
    assert_eq!(planned("name,length,quantity\nA,\"18 1/2\"\"\",2\n").status, 0);
}

#[test]
fn every_fault_of_a_row_is_reported_at_once() {
    let ran = planned("name,length,quantity,joint,mitre\nA,18lb,two,dovetail,95\n");
    assert_eq!(
        errors(&ran),
        [
            "parts.csv, line 2, column 3: a length is wanted here, as in 16 1/2, and 18lb is a mass",
            "parts.csv, line 2, column 8: a quantity is a whole number up to 1000000, not two",
            "parts.csv, line 2, column 12: a joint is square, profiled or reversible, not dovetail",
            "parts.csv, line 2, column 21: a miter is an angle from 0 to 80 degrees, not 95",
        ]
    );
}

#[test]
fn rows_are_even_and_empty_ones_are_skipped() {
    let ran = planned("name,length,quantity\nA,20\n,,\n\nB,22,1,extra\nC,24,1\n");
    assert_eq!(
        errors(&ran),
        [
            "parts.csv, line 2, column 5: this row has 2 cells, and there are 3 columns",
            "parts.csv, line 5, column 8: this row has more cells than the 3 columns",
        ]
    );
    assert_eq!(fix(&ran), "A,20,");
    assert!(ran.out.contains("C 24\""), "{}", ran.out);
}

#[test]
fn bytes_that_are_not_text_are_found() {
    let ran = planned("name,length,quantity\nA,2\0,2\nC,20,1\n");
    assert_eq!(
        errors(&ran),
        ["parts.csv, line 2, column 4: this line holds a NUL byte, which is not text; the file may be in UTF-16",]
    );
    assert!(ran.out.contains("C 20\""), "{}", ran.out);
    let latin = planned(b"name,length,quantity\ncaf\xe9,20,1\n");
    assert_eq!(
        errors(&latin),
        ["parts.csv, line 2, column 4: this line is not UTF-8 text: here is a byte that is not part of a letter"]
    );
}

#[test]
fn headings_are_the_trades_own_words() {
    let ran = planned("Part;L;QTY;Timber\r\nA;20,5;2;oak\r\n");
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    assert!(ran.out.contains("A 20 1/2\""), "{}", ran.out);
    for note in [
        "Part is read as name",
        "L is read as length",
        "QTY is read as quantity",
        "Timber is read as wood",
        "line 2: 20,5 is read as 20.5",
    ] {
        assert_eq!(ran.out.matches(note).count(), 1, "{note}: {}", ran.out);
    }
    assert!(planned("Title,Length,Qty\nA,20,2\n").out.contains("Title is read as name"));
    let ran = planned("name,length,L,quantity\nA,20,20,2\n");
    assert_eq!(errors(&ran), ["parts.csv, line 1, column 13: the columns length and L are both length"]);
    assert_eq!(fix(&ran), "name,length,quantity");
    assert_eq!(
        errors(&planned("name,length,length,quantity\n")),
        ["parts.csv, line 1, column 13: the column length is there twice"]
    );
}

/// Each number that reads two ways, and each date, with a cell that works in its place.
#[test]
fn what_a_spreadsheet_made_of_a_number_is_refused() {
    for (cell, reported, works) in [
        ("1,250", "1,250 may be 1.25 or 1250", "1.25"),
        ("1.250", "1.250 may be 1.25 or 1250", "1.25"),
        ("4-Jan", "4-Jan is a date; a spreadsheet may have made it of 1/4", "1/4"),
        ("Jan-64", "Jan-64 is a date; a spreadsheet may have made it of 1/64", "1/64"),
        ("1/4/2026", "1/4/2026 is a date; a spreadsheet may have made it of 1/4", "1/4"),
        ("04.Jan", "04.Jan is a date; a spreadsheet may have made it of 1/4", "1/4"),
        ("2026-03-08", "2026-03-08 is a date; a spreadsheet may have made it of 3/8", "3/8"),
    ] {
        let table = |cell: &str| format!("name;length;quantity\nA;20;1\nB;{cell};1\n");
        let ran = planned(table(cell));
        assert_eq!(errors(&ran), [format!("parts.csv, line 3, column 3: {reported}")]);
        assert!(fix(&ran).starts_with(works), "{cell}: {}", fix(&ran));
        assert!(errors(&planned(table(works))).iter().all(|error| !error.contains("parts.csv")), "{works}");
    }
}

/// A table of works: aliases, notes and dates as in a table of parts, and fields win over words of the trade.
#[test]
fn works_have_the_trades_own_headings() {
    let home = Home::new();
    home.file("works.csv", "Title;W;H;D;Qty;Depth\nHeron;16,5;20;3/4;2;2\n;;;;;\n");
    let ran = home.run(&["batch", "works.csv"]);
    assert_eq!((ran.err.as_str(), ran.status), ("", 0));
    for note in
        ["Title is read as name", "W is read as art.width", "D is read as art.depth", "line 2: 16,5 is read as 16.5"]
    {
        assert_eq!(ran.out.matches(note).count(), 1, "{note}: {}", ran.out);
    }
    assert!(ran.out.contains("1 row;") && ran.out.contains("16 1/2\" x 20\" x 3/4\""), "{}", ran.out);
    let row = home.run(&["batch", "works.csv", "--json"]).objects()[0]["design"]["fields"].clone();
    // `Depth` is the depth of the frame, and `D` that of the art.
    assert_eq!((&row["depth"]["exact"], &row["quantity"]["exact"]), (&"2".into(), &"2".into()));
    home.file("works.csv", "name,art width,W,art.height,face\nHeron,16,16,20,4-Jan\n");
    let ran = home.run(&["batch", "works.csv"]);
    assert_eq!(errors(&ran), ["works.csv, line 1, column 16: the columns art width and W are both art.width"]);
    assert_eq!(fix(&ran), "name,art width,art.height,face");
    home.file("works.csv", "name,art,face,wood\nHeron,16 x 20 x 3/4,4-Jan,oak\n");
    let ran = home.run(&["batch", "works.csv"]);
    assert_eq!(errors(&ran), ["works.csv, line 2, column 21: 4-Jan is a date; a spreadsheet may have made it of 1/4"]);
    // A date is a name as good as any.
    home.file("works.csv", "name,art\n4-Jan,16 x 20 x 3/4\n");
    assert_eq!(home.run(&["batch", "works.csv"]).status, 0);
}

#[test]
fn faults_are_capped_and_counted() {
    let cells: Vec<String> = (0..40).map(|at| format!("{at}-Jan")).collect();
    let rows: String = cells.iter().map(|cell| format!("A,{cell}x,1\n")).collect();
    let ran = planned(format!("name,length,quantity\n{rows}"));
    assert_eq!(ran.err.matches("error: ").count(), 21);
    assert!(ran.err.ends_with("error: parts.csv has 20 more faults\n"), "{}", ran.err);
    // A cell as long as a book is not printed.
    let ran = planned(format!("name,length,quantity\nA,{},x\n", "y".repeat(5000)));
    assert!(ran.err.lines().all(|line| line.chars().count() <= 200), "{}", ran.err);
}

/// A fix for broken quotes is the row with that cell quoted as it should be: it keeps every number of the cell, brings no
/// other, and works.
#[test]
fn a_fix_for_quotes_keeps_the_cell() {
    for (row, wanted) in [
        (r#"A,"18"1/2,2"#, "A,18 1/2,2"),
        (r#"A,"16 1/2",2"#, ""),
        (r#"A,"16 1/2""#, ""),
        (r#""A "top",16,2"#, r#""A ""top",16,2"#),
        (r#"A,"16,2"#, "A,16,2"),
        (r#""A,16,2"#, "A,16,2"),
    ] {
        let ran = planned(format!("name,length,quantity\n{row}\n"));
        let digits =
            |text: &str| text.chars().filter(|letter| letter.is_ascii_digit() || *letter == '/').collect::<String>();
        let offered = fix(&ran);
        if !wanted.is_empty() {
            assert_eq!((offered.as_str(), digits(&offered)), (wanted, digits(row)), "{}", ran.err);
        }
        if !wanted.is_empty() {
            assert_eq!(planned(format!("name,length,quantity\n{offered}\n")).status, 0, "{offered}");
        }
    }
    let home = Home::new();
    for (row, wanted) in [
        (r#"moth,"16" x 20" x 3/4""#, r#"moth,"16"" x 20"" x 3/4""""#),
        (r#"moth,"16 x 20 x 3/4"#, "moth,16 x 20 x 3/4"),
        (r#"moth,"9 1/2" x "12" x 3/4"#, "moth,9 1/2 x 12 x 3/4"),
    ] {
        home.file("works.csv", format!("name,art\n{row}\n"));
        let ran = home.run(&["batch", "works.csv"]);
        assert_eq!(fix(&ran), wanted, "{}", ran.err);
        home.file("works.csv", format!("name,art\n{wanted}\n"));
        assert_eq!(home.run(&["batch", "works.csv"]).status, 0, "{wanted}");
    }
}

/// A byte that is not UTF-8 is reported with its line, in the parts and in the stock, and the other rows are planned.
#[test]
fn a_line_that_is_not_text_is_named() {
    let message = "this line is not UTF-8 text: here is a byte that is not part of a letter";
    let ran = planned(b"name,length,quantity\nA,20,2\ncaf\xe9,22,1\nC,24,1\n");
    assert_eq!(errors(&ran), [format!("parts.csv, line 3, column 4: {message}")]);
    assert!(ran.out.contains("C 24\"") && ran.status == 1, "{}", ran.out);
    let home = Home::new();
    home.file("parts.csv", "name,length,quantity\nA,20,2\n");
    home.file("stock.csv", b"length,count,cost\n96,,9\n\xff8ft,,9\n");
    let ran = home.run(&["plan", "parts.csv", "--stock", "stock.csv"]);
    assert_eq!(errors(&ran), [format!("stock.csv, line 3, column 1: {message}")]);
}

/// What was not read as it is written is noted with the first cell of it, in text and in JSON, of a plan and of a batch.
#[test]
fn notes_name_the_first_cell() {
    let parts = "name;length;quantity\nA;20;1\nB;20,5;2\nC;7,25;1\n";
    let comma = "line 3: 20,5 is read as 20.5; so is the comma in 1 more cell";
    assert!(planned(parts).out.contains(&format!("note: {comma}")), "{}", planned(parts).out);
    let home = Home::new();
    home.file("works.csv", "Title;art\nmoth;16 x 20 x 3/4\nfern;40,5cm x 30cm x 2cm\n");
    let note = "line 3: 40,5cm x 30cm x 2cm is read as 40.5cm x 30cm x 2cm";
    let ran = home.run(&["batch", "works.csv"]);
    let shown = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(shown.contains("note: Title is read as name") && shown.contains(&format!("note: {note}")), "{}", ran.out);
    let objects = home.run(&["--json", "batch", "works.csv"]).objects();
    let end = objects.last().unwrap();
    assert_eq!(end["notes"], serde_json::json!(["Title is read as name", note]));
    assert_eq!((&end["reply"], &end["rows"], &end["failed"]), (&"batch".into(), &2.into(), &0.into()));
}

/// A spreadsheet that shows a date as the number it is stored as: 45295 is 4 January 2024, which `1/4` became. It stays a
/// number, for 45295 mm may be meant, and is noted.
#[test]
fn a_number_of_days_is_noted() {
    let ran = planned("name,length,quantity\nA,20,2\nB,45295,1\n");
    assert!(ran.out.contains("note: line 3: 45295 may be a date that a spreadsheet made of 1/4"), "{}", ran.out);
    assert!(!planned("name,length,quantity\nA,20,2\nB,11000mm,1\nC,12000,1\n").out.contains("may be a date"));
}
